/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two results of one quantity beside each other: which uncertainties cancel
 * between them. The readings that make the result stand a tenth apart, so that
 * a shared gain shows in the difference, and a shared offset in the ratio. */
#include <math.h>
#include <stdlib.h>

#include "budget_parts.h"
#include "memory.h"
#include "text.h"
#include "two_sides.h"

static const double apart = 0.1;
static const double nearly = 1e-9; /* as strong but for rounding */

/* Everything by input. */
typedef struct sides {
  double *x, *u;        /* estimates of the side at hand, uncertainties */
  double *slope[2];
  double *a, *b;        /* slopes of a comparison */
  bool *shared, *none;
  double value[2];
  double *memory;
} sides;

static scw_status make_room(scw_context *context, size_t n, sides *out) {
  *out = (sides){.x = NULL};
  scw_status status = SCWI_ALLOCATE(context, 6 * n, &out->memory);
  if (!status) status = SCWI_ALLOCATE(context, 2 * n, &out->shared);
  if (status) return status;
  double **part[] = {&out->x, &out->u, &out->slope[0], &out->slope[1],
                     &out->a, &out->b};
  for (size_t i = 0; i < sizeof part / sizeof *part; i++)
    *part[i] = out->memory + i * n;
  out->none = out->shared + n;
  return SCW_OK;
}

static scw_status take_slopes(scw_context *context,
                              const scwi_bench_compiled *model, int side,
                              sides *s) {
  return scwi_expression_derivatives(context, &model->expression, s->x,
                                     &s->value[side], s->slope[side], NULL);
}

/* What a reading higher by a part of itself does to the result, in such
 * parts. */
static double effect_of(const scwi_bench_compiled *model, const sides *s,
                        size_t i) {
  return model->given[i].kind == SCW_KIND_READINGS
             ? s->slope[0][i] * model->known[i].estimate
             : 0;
}

/* All readings that act on the result the way the strongest do move together:
 * pulls both ways do, the readings of a tile to divide by stay. */
static scw_status move(scw_context *context, const scwi_bench_compiled *model,
                       sides *s, char **names) {
  scwi_text text = {0};
  double up = 0, down = 0;
  for (size_t i = 0; i < model->n; i++) {
    up = fmax(up, effect_of(model, s, i));
    down = fmin(down, effect_of(model, s, i));
  }
  double sign = up >= -down * (1 - nearly) ? 1 : -1;
  for (size_t i = 0; i < model->n; i++) {
    if (!(sign * effect_of(model, s, i) > 0)) continue;
    s->x[i] *= 1 + apart;
    scwi_text_format(&text, "%s%s", text.length ? ", " : "",
                     model->given[i].name);
  }
  return scwi_text_take(context, &text, names);
}

static scw_status take_shared(scw_context *context, const scw_bench *bench,
                              const scwi_bench_compiled *model, sides *s) {
  for (size_t i = 0; i < model->n; i++) {
    s->u[i] = model->known[i].u;
    s->shared[i] = bench->input[model->index[i]].shared == SCW_SHARED &&
                   model->given[i].kind != SCW_KIND_READINGS;
  }
  return scwi_two_sides_shared(context, model->correlation, model->n,
                               s->shared);
}

static scw_status take_names(scw_context *context,
                             const scwi_bench_compiled *model, const sides *s,
                             char **out) {
  scwi_text names = {0};
  for (size_t i = 0; i < model->n; i++)
    if (s->shared[i] && s->u[i] > 0 && scwi_two_sides_cancels(s->a[i], s->b[i]))
      scwi_text_format(&names, "%s%s", names.length ? ", " : "",
                       model->given[i].name);
  return scwi_text_take(context, &names, out);
}

static scw_figure root(double variance) {
  return isfinite(variance) ? (scw_figure){sqrt(variance), SCW_PRESENT}
                            : (scw_figure){0, SCW_OUT_OF_RANGE};
}

/* One comparison with weights of the two sides' slopes. */
static scw_status compare(scw_context *context,
                          const scwi_bench_compiled *model, sides *s,
                          const double weight[2], scw_figure *one_meter,
                          scw_figure *two_meters, char **cancel) {
  size_t n = model->n;
  for (size_t i = 0; i < n; i++) {
    s->a[i] = weight[0] * s->slope[0][i];
    s->b[i] = weight[1] * s->slope[1][i];
  }
  *one_meter = root(scwi_two_sides_variance(s->a, s->b, s->shared, s->u,
                                            model->correlation, n));
  *two_meters = root(scwi_two_sides_variance(s->a, s->b, s->none, s->u,
                                             model->correlation, n));
  return take_names(context, model, s, cancel);
}

static scw_status fill(scw_context *context, const scw_bench *bench,
                       const scwi_bench_compiled *model, sides *s,
                       scw_two_results *out) {
  const double minus_plus[2] = {-1, 1};
  scw_status status = take_shared(context, bench, model, s);
  for (size_t i = 0; i < model->n; i++) s->x[i] = model->known[i].estimate;
  if (!status) status = take_slopes(context, model, 0, s);
  if (!status) status = move(context, model, s, &out->moved);
  if (status || !*out->moved) return status;
  status = take_slopes(context, model, 1, s);
  if (!status)
    status = compare(context, model, s, minus_plus,
                     &out->difference_one_meter, &out->difference_two_meters,
                     &out->cancel_in_difference);
  if (status) return status;
  out->state = SCW_PRESENT;
  if (!(s->value[0] * s->value[1] > 0)) { /* no ratio across zero */
    out->ratio_one_meter = out->ratio_two_meters =
        (scw_figure){0, SCW_OUT_OF_RANGE};
    return scwi_text_take(context, &(scwi_text){0}, &out->cancel_in_ratio);
  }
  const double relative[2] = {-1 / s->value[0], 1 / s->value[1]};
  return compare(context, model, s, relative, &out->ratio_one_meter,
                 &out->ratio_two_meters, &out->cancel_in_ratio);
}

scw_status scwi_budget_two(scw_context *context, const scw_bench *bench,
                           const scwi_bench_compiled *model,
                           scw_two_results *out) {
  sides s;
  *out = (scw_two_results){.apart = apart};
  scw_status status = make_room(context, model->n, &s);
  if (!status) status = fill(context, bench, model, &s, out);
  free(s.memory);
  free(s.shared);
  if (status != SCW_NO_FIGURE) return status;
  out->state = SCW_NO_VALUE; /* no value a tenth away */
  return SCW_OK;
}
