/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method: Z_i = lambda_i C + sqrt(1 - lambda_i^2) E_i with a common C. Given C
 * = c the Z_i are independent, and some |Z_i| passes w with probability
 *   1 - product(1 - p_i(c)),
 *   p_i(c) = Q((w - lambda_i c)/r_i) + Q((w + lambda_i c)/r_i),
 * kept as a small number by log1p and expm1. It is even and entire in c: the
 * trapezium rule over phi(c), with a step that follows the steepest p_i. Where
 * one is too steep for that, adaptive quadrature between the places where the
 * steep p_i rise; lambda = 1 is a step there. */
#include "max_t.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "context.h"
#include "distributions.h"
#include "quadrature.h"

/* Of the common factor beyond lambda w, about which it lies when some |Z_i|
 * passes a large w: what is left out is 2e-19 of the tail. */
#define REACH 9.0
#define STEP 0.125
#define STEEP 0.05 /* r / lambda below which quadrature adapts */
#define PER_RISE 6 /* steps: a hundred alike rise thrice as steeply as one */
#define ROOT_TWO_PI 2.50662827463100050241576528481

/* That |Z_i| passes w, given c. The far side counts where a double shows it. */
static double one_passes(const scwi_alike *a, double w, double c) {
  if (a->rest == 0) return c > w;
  double near = scwi_normal_upper((w - a->lambda * c) / a->rest);
  if (w * a->lambda * c > 20 * a->rest * a->rest) return near;
  return near + scwi_normal_upper((w + a->lambda * c) / a->rest);
}

/* The chance that some |Z_i| passes w, given c. */
static double passes(const scwi_max_t *max, double w, double c) {
  double log_inside = 0;
  for (size_t i = 0; i < max->n; i++) {
    double p = one_passes(&max->alike[i], w, c);
    if (p >= 1) return 1;
    log_inside += max->alike[i].count * log1p(-p);
  }
  return -expm1(log_inside);
}

static double reach(const scwi_max_t *max, double w) {
  return REACH + max->alike[max->n - 1].lambda * w;
}

static double rise(const scwi_alike *a) {
  return a->lambda > 0 ? a->rest / a->lambda : INFINITY;
}

static double by_trapezium(const scwi_max_t *max, double w, double step) {
  double sum = passes(max, w, 0) / 2, end = reach(max, w);
  for (double c = step; c < end; c += step)
    sum += exp(-0.5 * c * c) * passes(max, w, c);
  return 2 * sum * step / ROOT_TWO_PI;
}

static double term(double c, void *parameters) {
  const scwi_max_t *max = parameters;
  return exp(-0.5 * c * c) / ROOT_TWO_PI * passes(max, max->w, c);
}

static int by_size(const void *left, const void *right) {
  double a = *(const double *)left, b = *(const double *)right;
  return (a > b) - (a < b);
}

/* Where the steep p_i rise, and where they have risen; the ends are 0 and
 * `end`. */
static size_t places(const scwi_max_t *max, double w, double end,
                     double *place) {
  size_t n = 0;
  place[n++] = 0;
  for (size_t i = 0; i < max->n; i++) {
    const scwi_alike *a = &max->alike[i];
    for (int side = -1; side <= 1 && rise(a) < STEEP; side++)
      place[n++] = fmax(0, fmin(end, (w + side * 10 * a->rest) / a->lambda));
  }
  place[n++] = end;
  qsort(place, n, sizeof *place, by_size);
  return n;
}

/* Of one half line, piece by piece so that no steep rise is passed over. The
 * whole is at least one member's. */
static double by_quadrature(scwi_max_t *max, double w) {
  double place[3 * SCWI_MAX_T_SIZE + 2], sum = 0, piece;
  double end = reach(max, w), least = 2 * scwi_normal_upper(w);
  size_t n = places(max, w, end, place);
  max->w = w;
  for (size_t i = 1; i < n; i++) {
    scw_status status = scwi_integral(max->context, term, max, place[i - 1],
                                      place[i], 1e-14 * least, 1e-12, &piece);
    if (status) max->of.status = status;
    sum += piece;
  }
  return 2 * (sum + scwi_normal_upper(end));
}

static double tail(double w, scwi_studentised *self) {
  scwi_max_t *max = (scwi_max_t *)self;
  double steepest = rise(&max->alike[max->n - 1]);
  return fmin(1, steepest < STEEP
                     ? by_quadrature(max, w)
                     : by_trapezium(max, w, fmin(STEP, steepest / PER_RISE)));
}

static void gather(const double *sorted, size_t n, scwi_max_t *out) {
  for (size_t i = 0; i < n; i++) {
    double lambda = sorted[i];
    if (out->n && out->alike[out->n - 1].lambda == lambda)
      out->alike[out->n - 1].count++;
    else
      out->alike[out->n++] =
          (scwi_alike){lambda, sqrt((1 - lambda) * (1 + lambda)), 1};
  }
}

scw_status scwi_max_t_of(scw_context *context, const double *lambda, size_t n,
                         scwi_max_t *out) {
  double sorted[SCWI_MAX_T_SIZE];
  *out = (scwi_max_t){
      .of = {.tail = tail, .scale = 1, .members = (double)n},
      .context = context};
  if (n < 1 || n > SCWI_MAX_T_SIZE)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "the largest of several is worked out for 1 to %d "
                     "comparisons, not %zu",
                     SCWI_MAX_T_SIZE, n);
  for (size_t i = 0; i < n; i++) {
    if (!(lambda[i] >= 0 && lambda[i] <= 1))
      return scwi_fail(context, SCW_BAD_ARGUMENT,
                       "comparisons with one control correlate by products of "
                       "numbers from 0 to 1");
    sorted[i] = lambda[i];
  }
  qsort(sorted, n, sizeof *sorted, by_size);
  gather(sorted, n, out);
  return SCW_OK;
}
