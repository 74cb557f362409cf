/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method: the incomplete gamma function ratio by its series of positive terms
 * below the mean (DLMF 8.7.1) and by Legendre's continued fraction above it
 * (DLMF 8.9.2, even part, forward). Quantile: Newton on log(tail) against
 * log(x). Starts: Wilson & Hilferty 1931, or the leading term of the series. */
#include <float.h>
#include <math.h>
#include <stdbool.h>

#include "distributions.h"
#include "newton.h"
#include "probability.h"
#include "saddle.h"

enum { MOST_TERMS = 4000000 };

/* P(a, x) over x^a exp(-x) / Gamma(a+1) */
static double lower_series(double a, double x) {
  double term = 1, sum = 1;
  for (int n = 1; n < MOST_TERMS && term > 0.25 * DBL_EPSILON * sum; n++) {
    term *= x / (a + n);
    sum += term;
  }
  return sum;
}

/* Q(a, x) over x^a exp(-x) / Gamma(a+1) */
static double upper_fraction(double a, double x) {
  double b = x + 1 - a, value = a / b, top = value, bottom = 1;
  double top_before = 0, bottom_before = 1 / b;
  for (int n = 1; n < MOST_TERMS; n++) {
    double alpha = n * (a - n), last = value;
    b += 2;
    double next_top = b * top + alpha * top_before;
    double next_bottom = b * bottom + alpha * bottom_before;
    double scale = 1 / next_bottom;
    value = next_top * scale;
    top_before = top * scale, bottom_before = bottom * scale;
    top = value, bottom = 1;
    if (fabs(value - last) <= 0.5 * DBL_EPSILON * fabs(value)) break;
  }
  return value;
}

typedef struct gamma_tails {
  double lower, upper, term;
} gamma_tails;

static gamma_tails tails_at(double x, double df) {
  double a = 0.5 * df;
  if (!(x > 0)) return (gamma_tails){0, 1, 0};
  if (x > DBL_MAX) return (gamma_tails){1, 0, 0};
  gamma_tails at = {.term = scwi_gamma_term(a, 0.5 * x)};
  if (x <= df + 1) {
    at.lower = at.term * lower_series(a, 0.5 * x);
    at.upper = 1 - at.lower;
  } else {
    at.upper = at.term * upper_fraction(a, 0.5 * x);
    at.lower = 1 - at.upper;
  }
  return at;
}

static bool unusable(double x, double df) {
  return isnan(x) || !scwi_df_usable(df);
}

double scwi_chi2_cdf(double x, double df) {
  return unusable(x, df) ? NAN : tails_at(x, df).lower;
}

double scwi_chi2_upper(double x, double df) {
  return unusable(x, df) ? NAN : tails_at(x, df).upper;
}

static scwi_tail lower_tail(double x, const void *parameters) {
  double df = *(const double *)parameters;
  gamma_tails at = tails_at(x, df);
  return (scwi_tail){at.lower, 0.5 * df * at.term / at.lower};
}

static scwi_tail upper_tail(double x, const void *parameters) {
  double df = *(const double *)parameters;
  gamma_tails at = tails_at(x, df);
  return (scwi_tail){at.upper, -0.5 * df * at.term / at.upper};
}

static double start_at(double z, double df) {
  double c = 2 / (9 * df), root = 1 - c + z * sqrt(c);
  return df * root * root * root;
}

/* p = (x/2)^a / Gamma(a+1) solved for x: never above the quantile. */
static double start_by_series(double p, double df) {
  double a = 0.5 * df;
  double log_gamma_over_power = /* log Gamma(a+1) - a log a */
      scwi_stirling_remainder(a) + 0.5 * log(a) - a + 0.918938533204672742;
  return df * exp((log(p) + log_gamma_over_power) / a);
}

static scw_status by_lower(scw_context *context, double p, double df,
                           double *out) {
  double z;
  scw_status status = scwi_normal_quantile(context, p, &z);
  if (status) return status;
  double start = fmax(start_at(z, df), start_by_series(p, df));
  return scwi_tail_point(context, lower_tail, &df, p, start, df, out);
}

static scw_status by_upper(scw_context *context, double q, double df,
                           double *out) {
  double z;
  scw_status status = scwi_normal_quantile(context, q, &z);
  if (status) return status;
  double start = start_at(-z, df);
  if (!(start > 0)) start = df;
  return scwi_tail_point(context, upper_tail, &df, q, start, df, out);
}

static scw_status quantile(scw_context *context, double mass, double df,
                           bool lower, double *out) {
  *out = 0;
  scw_status status = scwi_check_df(context, df);
  if (!status) status = scwi_check_probability(context, mass);
  if (status) return status;
  if (mass > 0.5) { /* 1 - mass is exact */
    mass = 1 - mass;
    lower = !lower;
  }
  return lower ? by_lower(context, mass, df, out)
               : by_upper(context, mass, df, out);
}

scw_status scwi_chi2_quantile(scw_context *context, double p, double df,
                              double *out) {
  return quantile(context, p, df, true, out);
}

scw_status scwi_chi2_upper_quantile(scw_context *context, double q, double df,
                                    double *out) {
  return quantile(context, q, df, false, out);
}
