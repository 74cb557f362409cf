/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method: with w = log(1 + t^2/df), nu = df/2 - 1/4 the upper tail is half of
 * the integral of exp(-nu v) v^(-1/2) (sinh(v/2) / (v/2))^(-1/2) from w on,
 * over the same integral from 0 on. The last factor is expanded in v^2 and
 * each term is an incomplete gamma function of 1/2 + 2n, by recurrence from
 * erfc (the idea of BGRAT in DiDonato & Morris, ACM TOMS 18 (1992), derived
 * anew for this case; coefficients by series arithmetic). Where df is small or
 * t is far out, the incomplete beta function.
 * Quantile: Newton on log(tail), or on the log of the mass between 0 and t
 * near the centre. Start: Abramowitz & Stegun 26.7.5, or the tail's power. */
#include "student_t.h"

#include <math.h>

#include "beta_tails.h"
#include "distributions.h"
#include "newton.h"
#include "probability.h"
#include "saddle.h"

#define SERIES_FROM_DF 14.0
#define HUGE_RATIO 1e9 /* of t to sqrt(df): from here on a pure power */

/* (sinh(v/2) / (v/2))^(-1/2) in powers of v^2 */
static const double half_power[] = {
    1,
    -0.020833333333333333333,
    0.000390625,
    -7.8796709656084656085e-6,
    1.6967665791721781305e-7,
    -3.8050641917219065657e-9,
    8.7483775963154073041e-11,
    -2.0445233594119738176e-12,
    4.8333517979677044083e-14,
    -1.1524341017673859239e-15,
    2.7660520435993700423e-17,
    -6.6742819508916599512e-19,
    1.6174550771815798882e-20,
    -3.9339779200913800155e-22};
enum { TERMS = sizeof half_power / sizeof *half_power };

/* Sum of half_power[n] Gamma(1/2 + 2n, nu w) / nu^(2n) / Gamma(1/2). */
static double gamma_series(double nu, double w) {
  double z = nu * w, root = sqrt(z), g = erfc(root), sum = g;
  double power = exp(-z) * root * 0.564189583547756286948079451561;
  double scale = 1;
  for (int n = 1; n < TERMS; n++) {
    double s = 2 * n - 1.5;
    g = s * g + power, power *= z;
    g = (s + 1) * g + power, power *= z;
    scale /= nu * nu;
    double term = half_power[n] * scale * g;
    sum += term;
    if (fabs(term) < 1e-18 * sum) break;
  }
  return sum;
}

scwi_t_point scwi_t_at(double t, double df) {
  scwi_t_point at;
  double r = t / sqrt(df);
  if (r > 1) {
    double q = 1 / r, square = q * q;
    at.x = 1 / (1 + square), at.y = square / (1 + square);
    at.w = 2 * log(r) + log1p(square);
  } else {
    double square = r * r;
    at.x = square / (1 + square), at.y = 1 / (1 + square);
    at.w = log1p(square);
  }
  return at;
}

/* Upper tail of t >= 0. */
static double upper(double t, double df) {
  double r = t / sqrt(df);
  if (isinf(df)) return scwi_normal_upper(t);
  if (r > HUGE_RATIO)
    return pow(r, -df) * scwi_inverse_beta_half(0.5 * df) / df;
  scwi_t_point at = scwi_t_at(t, df);
  if (df >= SERIES_FROM_DF && at.w < 1) {
    double nu = 0.5 * df - 0.25;
    return 0.5 * gamma_series(nu, at.w) / gamma_series(nu, 0);
  }
  return 0.5 * scwi_beta_at(0.5 * df, 0.5, at.y, at.x).lower;
}

static double centre_to(double t, double df) {
  scwi_t_point at = scwi_t_at(t, df);
  return 0.5 * scwi_beta_at(0.5, 0.5 * df, at.x, at.y).lower;
}

static bool usable(double t, double df) {
  return !isnan(t) && df >= SCWI_LEAST_DF;
}

double scwi_t_upper(double t, double df) {
  if (!usable(t, df)) return NAN;
  if (isinf(t)) return t > 0 ? 0 : 1;
  return t >= 0 ? upper(t, df) : 1 - upper(-t, df);
}

double scwi_t_cdf(double t, double df) { return scwi_t_upper(-t, df); }

/* t times the density. */
static double log_density(double t, double df) {
  scwi_t_point at = scwi_t_at(t, df);
  return sqrt(at.x) * exp(-0.5 * df * at.w) * scwi_inverse_beta_half(0.5 * df);
}

static scwi_tail upper_tail(double t, const void *parameters) {
  double df = *(const double *)parameters, value = upper(t, df);
  return (scwi_tail){value, -log_density(t, df) / value};
}

static scwi_tail central_mass(double t, const void *parameters) {
  double df = *(const double *)parameters, value = centre_to(t, df);
  return (scwi_tail){value, log_density(t, df) / value};
}

/* A start from the normal point z, or from tail = c^df / (df Beta(df/2, 1/2)),
 * c = sqrt(df / (df + t^2)), where that c is small. */
static double start_at(double z, double mass, bool central, double df) {
  double square = z * z;
  double c = central || df > 1e4
                 ? 1
                 : pow(df * mass / scwi_inverse_beta_half(0.5 * df), 1 / df);
  if (c < 0.3) return sqrt(df) * sqrt(1 - c * c) / c;
  return z * (1 + (square + 1) / (4 * df) +
              ((5 * square + 16) * square + 3) / (96 * df * df));
}

scw_status scwi_t_quantile(scw_context *context, double p, double df,
                           double *out) {
  scwi_split side;
  double z, t = 0;
  *out = 0;
  if (df == INFINITY) return scwi_normal_quantile(context, p, out);
  if (!(df >= SCWI_LEAST_DF)) return scwi_check_df(context, df);
  scw_status status = scwi_split_probability(context, p, &side);
  if (status || side.mass == 0) return status;
  status = scwi_normal_quantile(context, p, &z);
  if (!status)
    status = scwi_tail_point(
        context, side.central ? central_mass : upper_tail, &df, side.mass,
        start_at(fabs(z), side.mass, side.central, df), 1, &t);
  if (!status) *out = side.upper ? t : -t;
  return status;
}
