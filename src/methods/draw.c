/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw.h"

#include <math.h>
#include <stdlib.h>

#include "correlation.h"
#include "eigen.h"
#include "memory.h"

/* Streams of one input: its own, then what else it needs. TOGETHER is that of
 * an eigenvector of the correlations, which belongs to no one input. */
enum { OWN, SECOND, FACTOR, TOGETHER, STREAMS };

static scwi_stream_at stream_of(uint64_t seed, uint64_t block, size_t input,
                                unsigned which) {
  return scwi_stream_start(seed, input * STREAMS + which, block);
}

static bool is_normal(scw_budget_kind kind) {
  return kind == SCW_KIND_NORMAL || kind == SCW_KIND_CERTIFICATE ||
         kind == SCW_KIND_T;
}

/* Degrees of freedom of the distribution: for readings those of their SD, not
 * of its sum with the display step. */
static double df_of(const scw_budget_given *given,
                    const scwi_known_input *known) {
  if (given->kind == SCW_KIND_EXACT) return INFINITY;
  if (given->kind != SCW_KIND_READINGS) return known->df;
  return known->scale > 0 ? (double)(given->n - 1) : INFINITY;
}

/* A group whose members all are t with the same df, or all normal, is drawn as
 * just that (JCGM 101, 6.4.8 for the normal); others as normal. */
static void settle_group(scwi_draw *draw, size_t group) {
  double df = 0;
  bool alike = true;
  for (size_t i = 0; i < draw->n; i++) {
    if (draw->group[i] != group) continue;
    bool rounded = draw->known[i].rounding > 0;
    bool readings = draw->given[i].kind == SCW_KIND_READINGS;
    if (df == 0) df = draw->df[i];
    alike = alike && draw->df[i] == df && !rounded &&
            (readings || is_normal(draw->given[i].kind));
  }
  for (size_t i = 0; i < draw->n; i++) {
    if (draw->group[i] != group) continue;
    draw->group_df[i] = alike ? df : INFINITY;
    draw->df[i] = draw->group_df[i];
  }
  draw->as_normal = draw->as_normal || !alike;
}

/* root = V sqrt(D) of the whole matrix, whose blocks are the groups. */
static scw_status take_root(scw_context *context, const double *correlation,
                            scwi_draw *draw) {
  size_t n = draw->n;
  double *copy = NULL, *values = NULL;
  scw_status status = SCWI_ALLOCATE(context, n * n, &copy);
  if (!status) status = SCWI_ALLOCATE(context, n, &values);
  for (size_t i = 0; i < n * n && !status; i++) copy[i] = correlation[i];
  if (!status)
    status = scwi_symmetric_eigen(context, copy, n, values, draw->root);
  for (size_t k = 0; k < n && !status; k++)
    for (size_t i = 0; i < n; i++)
      draw->root[i * n + k] *= sqrt(values[k] > 0 ? values[k] : 0);
  free(values);
  free(copy);
  return status;
}

static scw_status correlate(scw_context *context, const double *correlation,
                            scwi_draw *draw) {
  size_t n = draw->n, groups = 0;
  bool *used = NULL;
  scw_status status = SCWI_ALLOCATE(context, n, &used);
  if (!status) status = SCWI_ALLOCATE(context, n * n, &draw->root);
  if (!status) status = SCWI_ALLOCATE(context, n, &draw->group_df);
  for (size_t i = 0; i < n && !status; i++) used[i] = draw->known[i].u > 0;
  if (!status) {
    scwi_correlation_groups(correlation, used, n, draw->group);
    status = take_root(context, correlation, draw);
  }
  for (size_t i = 0; i < n && !status; i++)
    if (draw->group[i] > groups) groups = draw->group[i];
  for (size_t g = 1; g <= groups && !status; g++) settle_group(draw, g);
  free(used);
  return status;
}

scw_status scwi_draw_make(scw_context *context, const scw_budget_given *given,
                          const scwi_known_input *known, size_t n,
                          const double *correlation, scwi_draw *out) {
  *out = (scwi_draw){.given = given, .known = known, .n = n};
  scwi_ziggurat_make(&out->ziggurat);
  scw_status status = SCWI_ALLOCATE(context, n, &out->df);
  if (!status) status = SCWI_ALLOCATE(context, n, &out->group);
  for (size_t i = 0; i < n && !status; i++)
    out->df[i] = df_of(&given[i], &known[i]);
  if (!status && correlation) status = correlate(context, correlation, out);
  if (status) scwi_draw_free(out);
  return status;
}

void scwi_draw_free(scwi_draw *draw) {
  free(draw->df);
  free(draw->group);
  free(draw->root);
  free(draw->group_df);
  *draw = (scwi_draw){.n = 0};
}

/* The second part of a sum of uniforms. */
static void add_uniform(scwi_stream_at *stream, double width, size_t m,
                        double *x, double *room) {
  scwi_symmetric_deviates(stream, room, m);
  for (size_t t = 0; t < m; t++) x[t] += width * room[t];
}

static void times_factor(const scwi_draw *draw, uint64_t seed, uint64_t block,
                         size_t input, double df, size_t m, double *x,
                         double *room) {
  scwi_stream_at factor = stream_of(seed, block, input, FACTOR);
  scwi_t_factors(&draw->ziggurat, &factor, df, room, m);
  for (size_t t = 0; t < m; t++) x[t] *= room[t];
}

static void scale(double *x, size_t m, double by) {
  for (size_t t = 0; t < m; t++) x[t] *= by;
}

/* Deviations from the estimate, but for what an uncertain uncertainty does. */
static void draw_shape(const scwi_draw *draw, uint64_t seed, uint64_t block,
                       size_t i, size_t m, double *x, double *room) {
  const scw_budget_given *given = &draw->given[i];
  const scwi_known_input *known = &draw->known[i];
  scwi_stream_at own = stream_of(seed, block, i, OWN);
  scwi_stream_at second = stream_of(seed, block, i, SECOND);
  double width = known->scale, top = given->top;
  switch (given->kind) {
    case SCW_KIND_RECTANGULAR:
      scwi_symmetric_deviates(&own, x, m);
      scale(x, m, width);
      return;
    case SCW_KIND_TRIANGULAR:
    case SCW_KIND_TRAPEZOIDAL:
      if (given->kind == SCW_KIND_TRIANGULAR) top = 0;
      scwi_symmetric_deviates(&own, x, m);
      scale(x, m, width * (1 + top) / 2);
      add_uniform(&second, width * (1 - top) / 2, m, x, room);
      return;
    case SCW_KIND_UNCERTAIN_LIMITS:
      scwi_symmetric_deviates(&own, x, m);
      scwi_symmetric_deviates(&second, room, m);
      for (size_t t = 0; t < m; t++) x[t] *= width + known->limit * room[t];
      return;
    case SCW_KIND_ARCSINE:
      scwi_arcsine_deviates(&own, x, m);
      scale(x, m, width);
      return;
    default: /* readings, normal, t, certificate */
      scwi_normal_deviates(&draw->ziggurat, &own, x, m);
      scale(x, m, width);
  }
}

static void draw_alone(const scwi_draw *draw, uint64_t seed, uint64_t block,
                       size_t i, size_t m, double *x, double *room) {
  const scwi_known_input *known = &draw->known[i];
  if (known->u > 0) {
    draw_shape(draw, seed, block, i, m, x, room);
    if (isfinite(draw->df[i]))
      times_factor(draw, seed, block, i, draw->df[i], m, x, room);
  } else {
    for (size_t t = 0; t < m; t++) x[t] = 0;
  }
  if (known->rounding > 0) {
    scwi_stream_at second = stream_of(seed, block, i, SECOND);
    add_uniform(&second, known->rounding * sqrt(3), m, x, room);
  }
  for (size_t t = 0; t < m; t++) x[t] += known->estimate;
}

/* Correlated normals of the whole matrix; members of one group share a factor,
 * that of its first member. */
static void draw_group(const scwi_draw *draw, uint64_t seed, uint64_t block,
                       size_t i, size_t m, double *x, double *room) {
  const scwi_known_input *known = &draw->known[i];
  size_t n = draw->n, first = 0;
  while (draw->group[first] != draw->group[i]) first++;
  for (size_t t = 0; t < m; t++) x[t] = 0;
  for (size_t k = 0; k < n; k++) {
    double weight = draw->root[i * n + k];
    if (weight == 0) continue;
    scwi_stream_at common = stream_of(seed, block, k, TOGETHER);
    scwi_normal_deviates(&draw->ziggurat, &common, room, m);
    for (size_t t = 0; t < m; t++) x[t] += weight * room[t];
  }
  scale(x, m, known->u);
  if (isfinite(draw->group_df[i]))
    times_factor(draw, seed, block, first, draw->group_df[i], m, x, room);
  for (size_t t = 0; t < m; t++) x[t] += known->estimate;
}

void scwi_draw_block(const scwi_draw *draw, uint64_t seed, uint64_t block,
                     size_t m, double *const *x, double *room) {
  for (size_t i = 0; i < draw->n; i++)
    if (draw->group[i])
      draw_group(draw, seed, block, i, m, x[i], room);
    else
      draw_alone(draw, seed, block, i, m, x[i], room);
}
