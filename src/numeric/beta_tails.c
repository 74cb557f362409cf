/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method: continued fraction in its even part, A. R. DiDonato & A. H. Morris,
 * Significant digit computation of the incomplete beta function ratios, ACM
 * TOMS 18 (1992), eq. for BFRAC; evaluated forward with rescaled convergents.
 * Taken below the mean of the distribution, the other tail is the complement.
 * Quantile: Newton on log(tail) against log(odds), which is concave. Starts:
 * Abramowitz & Stegun 26.5.22, or the leading term of the series in x. */
#include "beta_tails.h"

#include <float.h>
#include <math.h>

#include "distributions.h"
#include "newton.h"
#include "saddle.h"

enum { MOST_TERMS = 4000000 };

/* Lower tail over density term; x at or below about a / (a + b). */
static double fraction(double a, double b, double x, double y) {
  double lambda = a * y - b * x;
  double before_top = 0, before_bottom = 1, top = 1, bottom, value;
  bottom = a / (a + 1) * (lambda + 1);
  value = top / bottom;
  for (int n = 1; n < MOST_TERMS; n++) {
    double m = n, c = a + 2 * m, k = (a + m - 1) / (c - 1);
    double alpha = k * ((a + b + m - 1) / (c - 1)) * m * (b - m) * x * x;
    double beta = m + m * (b - m) * x / (c - 1) +
                  (a + m) / (c + 1) * (lambda + 1 + m * (1 + y));
    double next_top = beta * top + alpha * before_top;
    double next_bottom = beta * bottom + alpha * before_bottom;
    double scale = 1 / next_bottom, last = value;
    value = next_top * scale;
    before_top = top * scale, before_bottom = bottom * scale;
    top = value, bottom = 1;
    if (fabs(value - last) <= 0.5 * DBL_EPSILON * value) break;
  }
  return value;
}

scwi_beta_tails scwi_beta_at(double a, double b, double x, double y) {
  scwi_beta_tails at;
  at.density = scwi_beta_term(a, b, x, y);
  if (b * x <= a * y) {
    at.lower = x > 0 ? at.density * fraction(a, b, x, y) : 0;
    at.upper = 1 - at.lower;
  } else {
    at.upper = y > 0 ? at.density * fraction(b, a, y, x) : 0;
    at.lower = 1 - at.upper;
  }
  return at;
}

typedef struct shape {
  double a, b;
} shape;

static scwi_tail lower_tail(double odds, const void *parameters) {
  const shape *s = parameters;
  scwi_beta_tails at =
      scwi_beta_at(s->a, s->b, odds / (1 + odds), 1 / (1 + odds));
  return (scwi_tail){at.lower, at.density / at.lower};
}

static double odds_by_normal(double p, double a, double b) {
  double z;
  if (a <= 1 || b <= 1 || scwi_normal_quantile(NULL, p, &z)) return 0;
  double s = 1 / (2 * a - 1), t = 1 / (2 * b - 1);
  double h = 2 / (s + t), l = (z * z - 3) / 6;
  double w = -z * sqrt(h + fmax(l, -h)) / h - (t - s) * (l + 5.0 / 6 - 2 / (3 * h));
  return a / b * exp(-2 * w);
}

/* p = x^a / (a Beta(a, b)) solved for x; 0 where it is no small x. */
static double odds_by_series(double p, double a, double b) {
  double n = a + b; /* at x = a / n the term is near 1 and so is its log */
  double log_beta = a * log(a / n) + b * log(b / n) -
                    log(scwi_beta_term(a, b, a / n, b / n));
  double x = exp((log(p * a) + log_beta) / a);
  return x < 0.5 ? x / (1 - x) : 0;
}

/* p <= 1/2 */
static scw_status lower_odds(scw_context *context, double p, double a,
                             double b, double *odds) {
  shape s = {a, b};
  double start = fmax(odds_by_normal(p, a, b), odds_by_series(p, a, b));
  double mean = a / b;
  if (!(start > 0)) start = mean;
  return scwi_tail_point(context, lower_tail, &s, p, start, mean, odds);
}

scw_status scwi_beta_odds(scw_context *context, double p, double a, double b,
                          double *odds) {
  if (p <= 0.5) return lower_odds(context, p, a, b, odds);
  scw_status status = lower_odds(context, 1 - p, b, a, odds);
  *odds = 1 / *odds;
  return status;
}
