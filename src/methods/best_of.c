/* SPDX-License-Identifier: GPL-3.0-or-later */
/* With F_i the distributions of the products,
 *   E(best - second) = integral sum_i (1 - F_i) prod_{j != i} F_j,
 *   E(best) = integral over x > 0 of 1 - prod F(x) - prod F(-x),
 * and the mean of all is expected at zero. Both over x > 0, at x and -x
 * together, by the trapezium rule in v, x = exp(v - exp(-v)) times the largest
 * u (Takahasi & Mori 1974, Publ. RIMS 9, 721-741): even steps of log x, so that
 * products of quite unlike u are all seen. */
#include "best_of.h"

#include <math.h>

#include "distributions.h"

/* v = i/STEPS: x from 1e-25 to 9.8 of the largest u. */
enum { STEPS = 16, FIRST = -64, LAST = 38 };

/* F of one product at x; one without scatter lies at zero. */
static double below(double u, double x) {
  if (u > 0) return scwi_normal_cdf(x / u);
  return x > 0 ? 1 : x < 0 ? 0 : 0.5;
}

/* prod F, and sum_i (1 - F_i) prod_{j != i} F_j, built up one by one. */
static void add_up(const double *u, size_t n, double x, double *none,
                   double *one) {
  *none = 1; /* above x */
  *one = 0;
  for (size_t i = 0; i < n; i++) {
    double f = below(u[i], x);
    *one = *one * f + *none * below(u[i], -x);
    *none *= f;
  }
}

static double largest(const double *u, size_t n) {
  double most = 0;
  for (size_t i = 0; i < n; i++) most = fmax(most, u[i]);
  return most;
}

scwi_best_of scwi_best_of_alike(const double *u, size_t n) {
  double unit = largest(u, n), second = 0, best = 0, k = (double)n;
  scw_figure missing =
      scwi_missing(n < 2 ? SCW_ONE_OF_IT : SCW_NO_SCATTER);
  if (n < 2 || !(unit > 0)) return (scwi_best_of){missing, missing};
  for (int i = FIRST; i <= LAST; i++) {
    double v = (double)i / STEPS, x = unit * exp(v - exp(-v));
    double weight = x * (1 + exp(-v)) / STEPS;
    double none[2], one[2];
    add_up(u, n, x, &none[0], &one[0]);
    add_up(u, n, -x, &none[1], &one[1]);
    second += (one[0] + one[1]) * weight;
    best += (1 - none[0] - none[1]) * weight;
  }
  return (scwi_best_of){scwi_figure(second), scwi_figure(best * k / (k - 1))};
}
