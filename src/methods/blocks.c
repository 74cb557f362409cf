/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "blocks.h"

#include <math.h>
#include <stdlib.h>

#include "all_pairs.h"
#include "figure.h"
#include "max_t.h"
#include "memory.h"
#include "multiplicity.h"
#include "studentised_range.h"
#include "two_sample.h"

/* The comparisons of a family one after the other. */
typedef struct walk {
  size_t products, control, i, j;
} walk;

static bool against_control(const walk *w) {
  return w->control < w->products;
}

static walk first(size_t products, size_t control) {
  walk w = {products, control, 0, control};
  if (!against_control(&w))
    w.j = 1;
  else if (control == 0)
    w.i = 1;
  return w;
}

static bool goes_on(const walk *w) {
  return against_control(w) ? w->i < w->products : w->j < w->products;
}

static void next(walk *w) {
  if (against_control(w)) {
    w->i += w->i + 1 == w->control ? 2 : 1;
  } else if (++w->j == w->products) {
    w->i++;
    w->j = w->i + 1;
  }
}

static size_t place(const walk *w) {
  return against_control(w) ? w->i : scwi_pair_place(w->i, w->j, w->products);
}

static size_t family_size(const scwi_blocks *b, size_t control) {
  return control < b->products ? b->products - 1
                               : b->products * (b->products - 1) / 2;
}

static scwi_moments difference(const scwi_blocks *b, const walk *w,
                               double *room) {
  for (size_t s = 0; s < b->spots; s++)
    room[s] = b->value[w->i * b->spots + s] - b->value[w->j * b->spots + s];
  return scwi_moments_of(&(scwi_sample){.n = b->spots, .x = room});
}

/* Each pair by itself. What rounding leaves: each side's displayed values. */
static scw_status by_pairs(scw_context *context, const scwi_blocks *b,
                           size_t control, double level, double *room,
                           scwi_adjusted *out) {
  size_t k = family_size(b, control), n = 0;
  double *p;
  scw_status status = SCWI_ALLOCATE(context, k, &p);
  for (walk w = first(b->products, control); goes_on(&w) && !status; next(&w)) {
    scwi_adjusted *to = &out[place(&w)];
    scwi_moments m = difference(b, &w, room);
    scwi_display display = {b->step * sqrt(b->sides), 0};
    scwi_uncertainty u = scwi_difference_uncertainty(m.sd, m.n, display);
    scw_estimate wide = {0};
    status = scwi_estimate(context, m.mean, u, level, &to->own);
    if (!status)
      status = scwi_estimate(context, m.mean, u,
                             scwi_bonferroni_level(level, k), &wide);
    to->interval = wide.interval;
    to->interval.level = level;
    p[n++] = to->own.p.state == SCW_PRESENT ? to->own.p.value : NAN;
  }
  if (!status) status = scwi_holm(context, p, k);
  n = 0;
  for (walk w = first(b->products, control); goes_on(&w) && !status;
       next(&w), n++)
    out[place(&w)].p = isnan(p[n]) ? scwi_missing(out[place(&w)].own.p.state)
                                   : scwi_figure(p[n]);
  free(p);
  return status;
}

/* SD of what is left of the values after their product's and spot's means. */
static double residual_sd(const scwi_blocks *b, double *spot_mean) {
  double sum = 0, df = (double)(b->products - 1) * (double)(b->spots - 1);
  for (size_t s = 0; s < b->spots; s++) {
    spot_mean[s] = 0;
    for (size_t p = 0; p < b->products; p++)
      spot_mean[s] += b->value[p * b->spots + s] / (double)b->products;
  }
  for (size_t p = 0; p < b->products; p++) {
    const double *x = b->value + p * b->spots;
    double mean = 0;
    for (size_t s = 0; s < b->spots; s++)
      mean += (x[s] - spot_mean[s]) / (double)b->spots;
    for (size_t s = 0; s < b->spots; s++) {
      double left = x[s] - spot_mean[s] - mean;
      sum += left * left;
    }
  }
  return sqrt(sum / df);
}

static scw_status pooled(scw_context *context, const scwi_blocks *b,
                         size_t control, double level, double *room,
                         scwi_studentised *of, double factor,
                         scwi_adjusted *out) {
  double sd = residual_sd(b, room);
  double df = (double)(b->products - 1) * (double)(b->spots - 1);
  double rounding = scwi_rounding_left(sd, b->step) * sqrt(b->sides);
  scwi_uncertainty scatter = {sd * sqrt(2 / (double)b->spots), df};
  scwi_uncertainty u = scwi_uncertainty_sum(
      scatter, (scwi_uncertainty){rounding * M_SQRT2, INFINITY});
  scw_status status = SCW_OK;
  for (walk w = first(b->products, control); goes_on(&w) && !status; next(&w)) {
    scw_estimate own;
    double change = difference(b, &w, room).mean;
    status = scwi_estimate(context, change, u, level, &own);
    if (!status)
      status = scwi_adjust(context, of, factor, &own, level, &out[place(&w)]);
  }
  return status;
}

static scw_status by_dunnett(scw_context *context, const scwi_blocks *b,
                             size_t control, double level, double *room,
                             scwi_adjusted *out) {
  double lambda[SCWI_MAX_T_SIZE];
  scwi_max_t *largest;
  scw_status status = SCWI_ALLOCATE(context, 1, &largest);
  for (size_t i = 0; i < SCWI_MAX_T_SIZE; i++) lambda[i] = M_SQRT1_2;
  if (!status)
    status = scwi_max_t_of(context, lambda, b->products - 1, largest);
  if (!status)
    status = pooled(context, b, control, level, room, &largest->of, 1, out);
  free(largest);
  return status;
}

static scw_status by_tukey(scw_context *context, const scwi_blocks *b,
                           double level, double *room, scwi_adjusted *out) {
  scwi_studentised_range *range;
  scw_status status = SCWI_ALLOCATE(context, 1, &range);
  if (!status) status = scwi_studentised_range_of(context, b->products, range);
  if (!status)
    status = pooled(context, b, b->products, level, room, &range->of, M_SQRT2,
                    out);
  free(range);
  return status;
}

scw_status scwi_blocks_compare(scw_context *context, const scwi_blocks *blocks,
                               size_t control, bool equal_sd, double level,
                               scwi_adjusted *out) {
  double *room;
  scw_status status = SCWI_ALLOCATE(context, blocks->spots, &room);
  if (status) return status;
  if (!equal_sd)
    status = by_pairs(context, blocks, control, level, room, out);
  else if (control < blocks->products)
    status = by_dunnett(context, blocks, control, level, room, out);
  else
    status = by_tukey(context, blocks, level, room, out);
  free(room);
  return status;
}
