/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Source: P. Royston, Remark AS R94: a remark on algorithm AS 181, the W-test
 * for normality, Applied Statistics 44 (1995), 547-551, whose polynomials give
 * the two outer weights and the normalising transformation of 1 - W. Here 1 - W
 * is the residual sum of squares of the readings on the weights over their
 * total sum of squares, which has no cancellation. */
#include "shapiro_wilk.h"

#include <math.h>
#include <stdlib.h>

#include "context.h"
#include "distributions.h"
#include "memory.h"

enum { MOST = 5000 };

static double polynomial(const double *c, size_t terms, double x) {
  double sum = 0;
  while (terms-- > 0) sum = sum * x + c[terms];
  return sum;
}
#define POLYNOMIAL(c, x) polynomial((c), sizeof(c) / sizeof *(c), (x))

/* Weights of the upper half, largest reading first. */
static scw_status half_weights(scw_context *context, size_t n, double *a) {
  static const double outer[] = {0,         0.221157, -0.147981,
                                 -2.07119,  4.434685, -2.706056};
  static const double second[] = {0,         0.042981, -0.293762,
                                  -1.752461, 5.682633, -3.582633};
  size_t half = n / 2, given = n > 5 ? 2 : 1;
  double squares = 0, u = 1 / sqrt((double)n);
  if (n == 3) {
    a[0] = sqrt(0.5);
    return SCW_OK;
  }
  for (size_t i = 0; i < half; i++) {
    scw_status status = scwi_normal_quantile(
        context, ((double)i + 0.625) / ((double)n + 0.25), &a[i]);
    if (status) return status;
    a[i] = -a[i];
    squares += 2 * a[i] * a[i];
  }
  double rest = squares - 2 * a[0] * a[0], length = sqrt(squares);
  double first = a[0] / length + POLYNOMIAL(outer, u);
  double room = 1 - 2 * first * first;
  if (given == 2) {
    rest -= 2 * a[1] * a[1];
    a[1] = a[1] / length + POLYNOMIAL(second, u);
    room -= 2 * a[1] * a[1];
  }
  a[0] = first;
  double scale = sqrt(room / rest);
  for (size_t i = given; i < half; i++) a[i] *= scale;
  return SCW_OK;
}

/* Weight of the i-th smallest reading: antisymmetric about the middle. */
static double weight(const double *a, size_t n, size_t i) {
  if (2 * i + 1 == n) return 0;
  return i < n / 2 ? -a[i] : a[n - 1 - i];
}

/* 1 - W of readings scaled by their range, taken from the lowest one. */
static double lack_of_fit(const double *a, const double *x, size_t n) {
  double range = x[n - 1] - x[0], mean = 0, slope = 0, weights = 0;
  double total = 0, residual = 0;
  for (size_t i = 0; i < n; i++) mean += (x[i] - x[0]) / range / (double)n;
  for (size_t i = 0; i < n; i++) {
    double w = weight(a, n, i), centred = (x[i] - x[0]) / range - mean;
    slope += w * centred;
    weights += w * w;
    total += centred * centred;
  }
  slope /= weights;
  for (size_t i = 0; i < n; i++) {
    double apart = (x[i] - x[0]) / range - mean - slope * weight(a, n, i);
    residual += apart * apart;
  }
  return residual / total;
}

static double p_value(double lack, size_t n) {
  static const double shift[] = {-2.273, 0.459};
  static const double mean_small[] = {0.544, -0.39978, 0.025054, -6.714e-4};
  static const double sd_small[] = {1.3822, -0.77857, 0.062767, -0.0020322};
  static const double mean_large[] = {-1.5861, -0.31082, -0.083751, 0.0038915};
  static const double sd_large[] = {-0.4803, -0.082676, 0.0030302};
  double count = (double)n, log_n = log(count), y = log(lack);
  if (n == 3) /* exact: 6/pi (asin sqrt W - asin sqrt 3/4) */
    return fmax(0, 1.90985931710274403 *
                       (asin(sqrt(fmax(0, 1 - lack))) - 1.04719755119659775));
  if (n > 11)
    return scwi_normal_upper((y - POLYNOMIAL(mean_large, log_n)) /
                             exp(POLYNOMIAL(sd_large, log_n)));
  /* y stays below this shift: it is above 0 from n = 5 on, and with n = 4 the
   * least W, 4/3 of the square of the outer weight, keeps 1 - W under 0.371. */
  double gamma = POLYNOMIAL(shift, count);
  return scwi_normal_upper((-log(gamma - y) - POLYNOMIAL(mean_small, count)) /
                           exp(POLYNOMIAL(sd_small, count)));
}

scw_status scwi_shapiro_wilk(scw_context *context, const double *sorted,
                             size_t n, double *w, double *p) {
  double *a;
  *w = *p = 0;
  if (n < 3 || n > MOST || !(sorted[n - 1] > sorted[0]) ||
      !isfinite(sorted[n - 1] - sorted[0]))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "the Shapiro-Wilk test needs 3 to 5000 readings that are "
                     "not all equal, got %zu", n);
  for (size_t i = 1; i < n; i++)
    if (!(sorted[i - 1] <= sorted[i]))
      return scwi_fail(context, SCW_BAD_ARGUMENT,
                       "the Shapiro-Wilk test needs sorted readings: number "
                       "%zu is smaller than the one before", i + 1);
  scw_status status = SCWI_ALLOCATE(context, n / 2, &a);
  if (!status) status = half_weights(context, n, a);
  if (!status) {
    double lack = lack_of_fit(a, sorted, n);
    *w = 1 - lack;
    *p = p_value(lack, n);
  }
  free(a);
  return status;
}
