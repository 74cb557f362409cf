/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "errors_in_both.h"

#include <math.h>
#include <stdlib.h>

#include "distributions.h"
#include "memory.h"
#include "sum.h"

enum { JACKKNIFE_MOST = 2000, ROUNDS_MOST = 200 };

/* One fit, in units in which deviations are at most 1. */
typedef struct fit {
  const scwi_pairs *pairs;
  const double *weight; /* null: all 1 */
  size_t out;           /* this pair is left out; n: none */
  double scale_x, scale_y;
  double mean_x, mean_y;
  double weights;       /* their sum */
} fit;

static double weight_of(const fit *f, size_t i) {
  return i == f->out ? 0 : f->weight ? f->weight[i] : 1;
}

static void centre(fit *f) {
  const scwi_pairs *p = f->pairs;
  scwi_sum w = {0, 0}, x = {0, 0}, y = {0, 0};
  size_t first = f->out == 0 ? 1 : 0; /* far from zero no digits are lost */
  for (size_t i = 0; i < p->n; i++) {
    double weight = weight_of(f, i);
    scwi_sum_add(&w, weight);
    scwi_sum_add(&x, weight * (p->x[i] - p->x[first]));
    scwi_sum_add(&y, weight * (p->y[i] - p->y[first]));
  }
  f->weights = scwi_sum_of(w);
  f->mean_x = p->x[first] + scwi_sum_of(x) / f->weights;
  f->mean_y = p->y[first] + scwi_sum_of(y) / f->weights;
  f->scale_x = f->scale_y = 0;
  for (size_t i = 0; i < p->n; i++) {
    if (i == f->out) continue;
    f->scale_x = fmax(f->scale_x, fabs(p->x[i] - f->mean_x));
    f->scale_y = fmax(f->scale_y, fabs(p->y[i] - f->mean_y));
  }
}

static bool all_same(const double *x, size_t n, size_t out) {
  size_t first = out == 0 ? 1 : 0;
  for (size_t i = 0; i < n; i++)
    if (i != out && x[i] != x[first]) return false;
  return true;
}

typedef struct squares {
  double xx, yy, xy; /* of scaled deviations, weighted */
} squares;

static squares squares_of(const fit *f) {
  scwi_sum xx = {0, 0}, yy = {0, 0}, xy = {0, 0};
  for (size_t i = 0; i < f->pairs->n; i++) {
    double w = weight_of(f, i);
    double x = (f->pairs->x[i] - f->mean_x) / f->scale_x;
    double y = (f->pairs->y[i] - f->mean_y) / f->scale_y;
    scwi_sum_add(&xx, w * x * x);
    scwi_sum_add(&yy, w * y * y);
    scwi_sum_add(&xy, w * x * y);
  }
  return (squares){scwi_sum_of(xx), scwi_sum_of(yy), scwi_sum_of(xy)};
}

/* The ratio in scaled units. */
static double scaled_ratio(const fit *f) {
  double scale = f->scale_x / f->scale_y;
  return f->pairs->ratio * scale * scale;
}

/* The larger root of xy b^2 - (yy - ratio xx) b - ratio xy = 0, the way that
 * does not subtract near equals. */
static double slope_of(squares s, double ratio) {
  double half = (s.yy - ratio * s.xx) / 2;
  double root = hypot(half, sqrt(ratio) * s.xy);
  return half >= 0 ? (half + root) / s.xy : ratio * s.xy / (root - half);
}

/* Sum of squared scaled residuals, weighted. */
static double residuals_of(const fit *f, double slope) {
  scwi_sum sum = {0, 0};
  for (size_t i = 0; i < f->pairs->n; i++) {
    double x = (f->pairs->x[i] - f->mean_x) / f->scale_x;
    double y = (f->pairs->y[i] - f->mean_y) / f->scale_y;
    double left = y - slope * x;
    scwi_sum_add(&sum, weight_of(f, i) * left * left);
  }
  return scwi_sum_of(sum);
}

/* Fuller's variance of the slope in scaled units, over n - 1 pairs. */
static double slope_variance(squares s, double slope, double ratio,
                             double scatter2, double n) {
  double error_x = scatter2 / (ratio + slope * slope);
  double true_x = s.xy / slope / (n - 1); /* variance of the true values */
  double both = slope * error_x;
  return (true_x * scatter2 + error_x * scatter2 - both * both) /
         (true_x * true_x * (n - 1));
}

/* A fit with weights that stand; `f` holds pairs, weights and what is out. */
static scw_presence fit_line(fit *f, scwi_deming *out) {
  const scwi_pairs *p = f->pairs;
  size_t used = p->n - (f->out < p->n);
  if (used < 3) return SCW_TOO_FEW;
  if (all_same(p->x, p->n, f->out) || all_same(p->y, p->n, f->out))
    return SCW_NO_SCATTER;
  centre(f);
  double n = (double)used, unit = f->scale_y / f->scale_x;
  if (!isfinite(f->mean_x) || !isfinite(f->mean_y) || !isfinite(unit) ||
      !(f->scale_x > 0) || !(f->scale_y > 0) || !(unit > 0))
    return SCW_OUT_OF_RANGE;
  squares s = squares_of(f);
  double ratio = scaled_ratio(f);
  if (fabs(s.xy) <= 1e-15 * sqrt(s.xx * s.yy)) return SCW_FLAT;
  double slope = slope_of(s, ratio);
  double left = residuals_of(f, slope) / (n - 2);
  out->slope = slope * unit;
  out->mean_x = f->mean_x;
  out->mean_y = f->mean_y;
  out->intercept = f->mean_y - out->slope * f->mean_x;
  out->scatter = sqrt(left) * f->scale_y;
  out->slope_u = sqrt(slope_variance(s, slope, ratio, left, n)) * unit;
  out->df = n - 2;
  bool held = isfinite(ratio) && ratio > 0 && isfinite(out->intercept) &&
              isfinite(out->slope) && isfinite(out->slope_u) &&
              out->slope != 0;
  return held ? SCW_PRESENT : SCW_OUT_OF_RANGE;
}

/* The level of a pair, halfway in the sense of the errors between what the line
 * says of its x and of its y. */
static double level_of(const scwi_pairs *p, const scwi_deming *line, double x,
                       double y) {
  double off = y - line->intercept - line->slope * x;
  double share = line->slope / (p->ratio + line->slope * line->slope);
  double true_x = x + off * share;
  double true_y = y - off * p->ratio / (p->ratio + line->slope * line->slope);
  return (p->ratio * true_x + true_y) / (1 + p->ratio);
}

/* Weights 1 / level^2, with sum n; *level becomes that of weight 1. */
static bool weigh(const fit *f, const scwi_deming *line, double *weight,
                  double *level) {
  const scwi_pairs *p = f->pairs;
  double sum = 0, n = (double)(p->n - (f->out < p->n)), least = INFINITY;
  for (size_t i = 0; i < p->n; i++) {
    weight[i] = level_of(p, line, p->x[i], p->y[i]);
    if (i != f->out) least = fmin(least, weight[i]);
  }
  if (!(least > 0) || !isfinite(least)) return false;
  for (size_t i = 0; i < p->n; i++) {
    double relative = least / weight[i];
    weight[i] = relative * relative;
    if (i != f->out) sum += weight[i];
  }
  for (size_t i = 0; i < p->n; i++) weight[i] *= n / sum;
  *level = least * sqrt(n / sum);
  return true;
}

/* Weights and line in turns until the line stands still. */
static scw_presence fit_weighted(fit *f, double *weight, scwi_deming *out) {
  const scwi_pairs *p = f->pairs;
  for (size_t i = 0; i < p->n; i++)
    if (i != f->out && (!(p->x[i] > 0) || !(p->y[i] > 0)))
      return SCW_OUT_OF_RANGE;
  f->weight = NULL;
  scw_presence state = fit_line(f, out);
  f->weight = weight;
  for (int round = 0; round < ROUNDS_MOST && state == SCW_PRESENT; round++) {
    scwi_deming before = *out;
    if (!weigh(f, &before, weight, &out->level)) return SCW_OUT_OF_RANGE;
    state = fit_line(f, out);
    double moved = fabs(out->slope - before.slope) / fabs(out->slope) +
                   fabs(out->intercept - before.intercept) /
                       (fabs(out->mean_y) + fabs(out->intercept));
    if (state == SCW_PRESENT && moved < 1e-14) return SCW_PRESENT;
  }
  return state == SCW_PRESENT ? SCW_NOT_TOLD_APART : state;
}

static scw_presence fit_pairs(fit *f, double *weight, scwi_deming *out) {
  *out = (scwi_deming){.state = SCW_NOT_COMPUTED};
  f->weight = NULL;
  out->state =
      weight ? fit_weighted(f, weight, out) : fit_line(f, out);
  return out->state;
}

static scw_status room(scw_context *context, const scwi_pairs *pairs,
                       double **weight) {
  *weight = NULL;
  return pairs->weighted ? SCWI_ALLOCATE(context, pairs->n, weight) : SCW_OK;
}

scw_status scwi_deming_of(scw_context *context, const scwi_pairs *pairs,
                          scwi_deming *out) {
  double *weight;
  fit f = {.pairs = pairs, .out = pairs->n};
  *out = (scwi_deming){.state = SCW_NOT_COMPUTED};
  scw_status status = room(context, pairs, &weight);
  if (!status) fit_pairs(&f, weight, out);
  free(weight);
  return status;
}

/* With errors alike in both (y over the root of the ratio) the line's angle is
 * known to within h of itself, sin 2h = 2 t root(p q / df) / (p - q): p and q are
 * the sums of squares along the line and across it. */
static void angle_limits(squares s, double slope, double ratio, double across,
                         double t, double df, scw_interval *out) {
  double root = sqrt(ratio), tilt = slope / root;
  double q = across / ratio / (1 + tilt * tilt);
  double p = s.xx + s.yy / ratio - q;
  double sine = 2 * t * sqrt(p * q / df) / (p - q);
  double angle = atan(tilt), h = asin(fmin(sine, 1)) / 2, right = acos(0);
  if (!(sine < 1) || angle + h >= right || angle - h <= -right) {
    out->state = SCW_UNBOUNDED;
    return;
  }
  out->low = root * tan(angle - h);
  out->high = root * tan(angle + h);
  out->state = SCW_PRESENT;
}

scw_status scwi_deming_slope_interval(scw_context *context,
                                      const scwi_pairs *pairs,
                                      const scwi_deming *line, double level,
                                      scw_interval *out) {
  double *weight, t = 0, at;
  fit f = {.pairs = pairs, .out = pairs->n};
  *out = (scw_interval){NAN, NAN, level, line->state};
  if (line->state != SCW_PRESENT) return SCW_OK;
  scw_status status = room(context, pairs, &weight);
  if (!status) status = scwi_t_quantile(context, (1 + level) / 2, line->df, &t);
  if (!status && weight) {
    weigh(&f, line, weight, &at);
    f.weight = weight;
  }
  if (!status) {
    centre(&f);
    double unit = f.scale_y / f.scale_x, slope = line->slope / unit;
    double across = residuals_of(&f, slope);
    squares s = squares_of(&f);
    out->state = SCW_NO_SCATTER;
    if (across > 1e-28 * s.yy)
      angle_limits(s, slope, scaled_ratio(&f), across, t, line->df, out);
    out->low *= unit;
    out->high *= unit;
    if (out->state == SCW_PRESENT && !(isfinite(out->low) && isfinite(out->high)))
      out->state = SCW_OUT_OF_RANGE;
  }
  free(weight);
  return status;
}

double scwi_deming_line_u(const scwi_deming *line, size_t n, double x) {
  return hypot(line->scatter / sqrt((double)n),
               (x - line->mean_x) * line->slope_u);
}

double scwi_deming_scatter_at(const scwi_deming *line, const scwi_pairs *pairs,
                              double x) {
  if (!pairs->weighted) return line->scatter;
  double y = line->intercept + line->slope * x;
  return line->scatter * fabs(level_of(pairs, line, x, y)) / line->level;
}

/* Mean of n pseudo-values and its standard uncertainty. */
static void sum_up(const double *value, size_t n, double *mean, double *u) {
  scwi_sum sum = {0, 0}, square = {0, 0};
  for (size_t i = 0; i < n; i++) scwi_sum_add(&sum, value[i] - value[0]);
  *mean = value[0] + scwi_sum_of(sum) / (double)n;
  for (size_t i = 0; i < n; i++) {
    double off = value[i] - *mean;
    scwi_sum_add(&square, off * off);
  }
  *u = sqrt(scwi_sum_of(square) / ((double)n * (double)(n - 1)));
}

scw_status scwi_deming_jackknife(scw_context *context, const scwi_pairs *pairs,
                                 const scwi_deming *line, scwi_jackknife *out) {
  double *weight = NULL, *slope = NULL, *intercept = NULL;
  size_t n = pairs->n;
  *out = (scwi_jackknife){.state = line->state};
  if (line->state == SCW_PRESENT && n < 4) out->state = SCW_TOO_FEW;
  if (line->state == SCW_PRESENT && n > JACKKNIFE_MOST)
    out->state = SCW_TOO_MANY;
  if (out->state != SCW_PRESENT) return SCW_OK;
  scw_status status = room(context, pairs, &weight);
  if (!status) status = SCWI_ALLOCATE(context, n, &slope);
  if (!status) status = SCWI_ALLOCATE(context, n, &intercept);
  for (size_t i = 0; i < n && !status && out->state == SCW_PRESENT; i++) {
    scwi_deming without;
    fit f = {.pairs = pairs, .out = i};
    out->state = fit_pairs(&f, weight, &without);
    slope[i] = (double)n * line->slope - (double)(n - 1) * without.slope;
    intercept[i] =
        (double)n * line->intercept - (double)(n - 1) * without.intercept;
  }
  if (!status && out->state == SCW_PRESENT) {
    sum_up(slope, n, &out->slope, &out->slope_u);
    sum_up(intercept, n, &out->intercept, &out->intercept_u);
    if (!isfinite(out->slope_u) || !isfinite(out->intercept_u))
      out->state = SCW_OUT_OF_RANGE;
  }
  free(weight);
  free(slope);
  free(intercept);
  return status;
}
