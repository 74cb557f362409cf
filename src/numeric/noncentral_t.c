/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method: series of positive terms where t and ncp have the same sign,
 * quadrature on the far side; always the smaller tail, the other one is its
 * complement. Quantile: bracket around the normal approximation, then Brent on
 * the log of the smaller tail. */
#include "noncentral_t.h"

#include <math.h>
#include <stdbool.h>

#include "context.h"
#include "distributions.h"
#include "noncentral_far.h"
#include "noncentral_series.h"
#include "probability.h"
#include "roots.h"

#define LARGEST_NCP 40.0
#define DIRECT_BELOW -1.7 /* a lower tail below 5 % is summed by itself */

/* Roughly normal: (Abramowitz & Stegun 26.7.10). */
static double normal_point(double t, double df, double ncp) {
  return (t * (1 - 0.25 / df) - ncp) / sqrt(1 + t * t * (0.5 / df));
}

/* Lower tail for ncp >= 0. Where it is small it is summed directly. */
static double lower(double t, double df, double ncp) {
  if (t < 0) return scwi_noncentral_far(-t, df, ncp);
  if (t == 0) return scwi_normal_upper(ncp);
  if (normal_point(t, df, ncp) > DIRECT_BELOW) {
    double above = scwi_noncentral_above(t, df, ncp);
    if (above < 0.95) return 1 - above;
  }
  return scwi_normal_upper(ncp) + scwi_noncentral_between(t, df, ncp);
}

static double upper(double t, double df, double ncp) {
  if (t > 0 && normal_point(t, df, ncp) > DIRECT_BELOW)
    return fmin(1, scwi_noncentral_above(t, df, ncp));
  return 1 - lower(t, df, ncp);
}

double scwi_noncentral_t_upper(double t, double df, double ncp) {
  if (isnan(t) || !(df >= 1 && df <= 1e9) || !(fabs(ncp) <= LARGEST_NCP))
    return NAN;
  if (isinf(t)) return t > 0 ? 0 : 1;
  if (ncp == 0) return scwi_t_upper(t, df);
  return ncp > 0 ? upper(t, df, ncp) : lower(-t, df, -ncp);
}

double scwi_noncentral_t_cdf(double t, double df, double ncp) {
  return scwi_noncentral_t_upper(-t, df, -ncp);
}

typedef struct target {
  double p, df, ncp;
  bool upper;
} target;

static double excess(double t, void *parameters) {
  const target *g = parameters;
  double tail = g->upper ? scwi_noncentral_t_upper(t, g->df, g->ncp)
                         : scwi_noncentral_t_cdf(t, g->df, g->ncp);
  double log_ratio = log(fmax(tail, 1e-320) / g->p);
  return g->upper ? -log_ratio : log_ratio;
}

/* Widens low .. high until the excess changes sign. */
static bool bracket(target *g, double *low, double *high) {
  double step = 0.05 * (1 + fabs(*low));
  for (int i = 0; i < 2000 && excess(*low, g) > 0; i++, step *= 2)
    *high = *low, *low -= step;
  step = 0.05 * (1 + fabs(*high));
  for (int i = 0; i < 2000 && excess(*high, g) < 0; i++, step *= 2)
    *low = *high, *high += step;
  return isfinite(*low) && isfinite(*high);
}

/* The normal approximation solved for t; a plain shift where it has no root. */
static double start_at(double z, double df, double ncp) {
  double c = 1 - 0.25 / df, half = 0.5 / df;
  double k = c * c - z * z * half, under = c * c + (ncp * ncp - z * z) * half;
  return k < 0.1 || under < 0 ? ncp + z : (c * ncp + z * sqrt(under)) / k;
}

scw_status scwi_noncentral_t_quantile(scw_context *context, double p,
                                      double df, double ncp, double *out) {
  double z;
  *out = 0;
  if (!(df >= 1 && df <= 1e9) || !(fabs(ncp) <= LARGEST_NCP))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a noncentral t quantile needs degrees of freedom of at "
                     "least 1 and a noncentrality of at most 40");
  if (ncp == 0) return scwi_t_quantile(context, p, df, out);
  scw_status status = scwi_normal_quantile(context, p, &z);
  if (status) return status;
  target g = {p > 0.5 ? 1 - p : p, df, ncp, p > 0.5};
  double low = start_at(z, df, ncp), high = low;
  if (!bracket(&g, &low, &high))
    return scwi_fail(context, SCW_NOT_REACHED,
                     "a noncentral t quantile lies beyond the range of "
                     "numbers: ask for a less extreme probability");
  if (low == high) {
    *out = low;
    return SCW_OK;
  }
  return scwi_root(context, excess, &g, low, high, 1e-15, out);
}
