/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method: with l = ncp^2 / 2, x = t^2 / (df + t^2), a = df / 2 and weights
 * w_k = exp(-l) l^(k/2) / Gamma(k/2 + 1), the tail beyond t is half the sum of
 * w_k I_(1-x)(a, (k+1)/2) over k = 0, 1, 2 ..., and what lies between 0 and t
 * is half the sum of w_k I_x((k+1)/2, a) (R. V. Lenth, AS 243, Appl. Statist.
 * 38 (1989); D. Benton & K. Krishnamoorthy, Comput. Statist. Data Anal. 43
 * (2003)). Even k alone gives both tails together. I(a, b) grows with b, so
 * the first sum runs upwards and the second downwards: then every step adds
 * something positive and no digit is lost. Sums start where the Poisson weights
 * begin to count. */
#include "noncentral_series.h"

#include <float.h>
#include <math.h>

#include "beta_tails.h"
#include "distributions.h"
#include "saddle.h"
#include "student_t.h"

#define NEGLIGIBLE (0.25 * DBL_EPSILON)

/* One parity of the sum: weight w_k, tail I and the step to the next tail. */
typedef struct term {
  double half_k, weight, tail, step;
} term;

/* First whole half_k whose Poisson weight counts: what lies below has less
 * than 1e-17 of the weight. */
static double first_counting(double l) {
  return l < 80 ? 0 : floor(l - 8.8 * sqrt(l));
}

static double last_counting(double l) {
  return ceil(l + 9 * sqrt(l) + 40);
}

/* y^a x^b Gamma(a+b) / (Gamma(a) Gamma(b+1)): I_y(a, b+1) - I_y(a, b). */
static double step_at(double a, double b, scwi_t_point p) {
  return scwi_beta_term(b, a, p.x, p.y) / b;
}

static void advance(term *k, double a, double l, double x) {
  double b = k->half_k + 0.5;
  k->tail += k->step;
  k->step *= x * (a + b) / (b + 1);
  k->half_k += 1;
  k->weight *= l / k->half_k;
}

/* Adds weight times tail until the rest no longer counts. The steps shrink
 * against the tails and so do the weights: growth is an upper bound. */
static double sum_up(term k, double a, double l, double x, double *steps) {
  double sum = 0;
  while (k.tail + k.step > 0) {
    double part = k.weight * k.tail;
    sum += part, *steps += k.weight * k.step;
    double growth = l / (k.half_k + 1) * (1 + k.step / k.tail);
    if (growth < 0.9 && part <= NEGLIGIBLE * (1 - growth) * sum) break;
    advance(&k, a, l, x);
  }
  return sum;
}

/* The first term; `known` is its tail where the sum starts at k = 0 or 1. */
static term start_up(double half_k, double a, double l, scwi_t_point p,
                     double known) {
  double b = half_k + 0.5;
  double tail = half_k < 1 ? known : scwi_beta_at(a, b, p.y, p.x).lower;
  return (term){half_k, scwi_gamma_term(half_k, l), tail, step_at(a, b, p)};
}

double scwi_noncentral_above(double t, double df, double ncp) {
  double a = 0.5 * df, l = 0.5 * ncp * ncp, first = first_counting(l), unused;
  scwi_t_point p = scwi_t_at(t, df);
  double central = first == 0 ? 2 * scwi_t_upper(t, df) : 0;
  term even = start_up(first, a, l, p, central);
  term odd = start_up(first + 0.5, a, l, p, exp(-a * p.w));
  unused = 0;
  return 0.5 * (sum_up(even, a, l, p.x, &unused) +
                sum_up(odd, a, l, p.x, &unused));
}

/* The largest half_k up to `last` whose tail does not underflow; beyond it
 * the sum holds less than 1e-250. */
static double not_vanishing(double last, double a, scwi_t_point p) {
  double low = last - floor(last), high = last;
  if (scwi_beta_term(last + 0.5, a, p.x, p.y) > 1e-250) return last;
  while (high - low > 1) {
    double middle = low + floor((high - low) / 2);
    if (scwi_beta_term(middle + 0.5, a, p.x, p.y) > 1e-250)
      low = middle;
    else
      high = middle;
  }
  return low;
}

static double sum_down(double last, double a, double l, scwi_t_point p) {
  double half_k = not_vanishing(last, a, p);
  double b = half_k + 0.5, weight = scwi_gamma_term(half_k, l), sum = 0;
  scwi_beta_tails at = scwi_beta_at(b, a, p.x, p.y);
  double tail = at.lower, step = at.density / b; /* I_x(b) - I_x(b+1) */
  for (;; half_k -= 1) {
    double part = weight * tail;
    sum += part;
    if (half_k < 1) return sum;
    b = half_k - 0.5;
    step *= (b + 1) / (p.x * (a + b));
    tail += step;
    weight *= half_k / l;
    if (weight * tail < part && part < 1e-3 * NEGLIGIBLE * sum) return sum;
  }
}

double scwi_noncentral_between(double t, double df, double ncp) {
  double a = 0.5 * df, l = 0.5 * ncp * ncp, last = last_counting(l);
  scwi_t_point p = scwi_t_at(t, df);
  if (p.x < DBL_MIN) return 0;
  if (l == 0) return 0.5 * scwi_beta_at(0.5, a, p.x, p.y).lower;
  return 0.5 * (sum_down(last, a, l, p) + sum_down(last + 0.5, a, l, p));
}

scwi_power_point scwi_power_at(double t, double df, double ncp, double alpha) {
  double a = 0.5 * df, l = 0.5 * ncp * ncp, steps = 0;
  scwi_t_point p = scwi_t_at(t, df);
  term k = start_up(first_counting(l), a, l, p, alpha);
  double power = sum_up(k, a, l, p.x, &steps);
  return (scwi_power_point){fmin(power, 1), ncp * steps};
}
