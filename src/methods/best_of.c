/* SPDX-License-Identifier: GPL-3.0-or-later */
/* With F_i the distributions of the products,
 *   E(best - second) = integral sum_i (1 - F_i) prod_{j != i} F_j,
 *   E(best) = integral over x > 0 of 1 - prod F - (the same of -x),
 * and the mean of all is expected at zero. The integrands are smooth where every
 * u is above zero, and fall like normal tails: the trapezium rule. */
#include "best_of.h"

#include <math.h>

#include "distributions.h"

enum { STEPS = 2000 }; /* on each side of zero */
#define REACH 9.0      /* of the largest u */

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
  double unit = largest(u, n), step = REACH * unit / STEPS;
  double second = 0, best = 0, none, one;
  scw_figure missing =
      scwi_missing(n < 2 ? SCW_ONE_OF_IT : SCW_NO_SCATTER);
  if (n < 2 || !(unit > 0)) return (scwi_best_of){missing, missing};
  for (int i = -STEPS; i <= STEPS; i++) {
    double x = step * i;
    add_up(u, n, x, &none, &one);
    second += one;
    best += i < 0 ? -none : i > 0 ? 1 - none : 0.5 - none;
  }
  double k = (double)n;
  return (scwi_best_of){scwi_figure(second * step),
                        scwi_figure(best * step * k / (k - 1))};
}
