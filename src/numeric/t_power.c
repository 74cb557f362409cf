/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method: the power is the even part of the noncentral t series (a noncentral
 * F with one degree of freedom in the numerator), whose first central tail is
 * alpha itself. Beyond a noncentrality of 100 the sum is replaced by the mean
 * of a chi-square tail over the normal part. Its inverse in the noncentrality
 * is Newton with the exact derivative inside a shrinking bracket. */
#include "t_power.h"

#include <math.h>

#include "context.h"
#include "distributions.h"
#include "noncentral_series.h"
#include "number_text.h"

#define SERIES_UP_TO_NCP 100.0
#define CERTAIN (1 - 1e-16)

/* P(|Z + ncp| > t S) over Z, S = chi / sqrt(df): trapezoidal rule in Z. */
static double power_far_out(double t, double df, double ncp) {
  const double step = 0.25, reach = 8.5;
  double nearest = (ncp - reach) / t, furthest = (ncp + reach) / t, sum = 0;
  if (scwi_chi2_cdf(df * nearest * nearest, df) >= CERTAIN) return 1;
  if (scwi_chi2_cdf(df * furthest * furthest, df) < 1e-300) return 0;
  for (double z = -reach; z <= reach; z += step) {
    double s = (ncp + z) / t;
    sum += exp(-0.5 * z * z) * scwi_chi2_cdf(df * s * s, df);
  }
  return fmin(1, sum * step * 0.398942280401432677939946);
}

static double power_at(double t, double df, double ncp, double alpha) {
  return ncp <= SERIES_UP_TO_NCP ? scwi_power_at(t, df, ncp, alpha).power
                                 : power_far_out(t, df, ncp);
}

static scw_status critical_value(scw_context *context, double df, double alpha,
                                 double *t) {
  char text[SCWI_NUMBER_SIZE];
  *t = 0;
  if (!(alpha > 0 && alpha < 1))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "alpha must lie between 0 and 1, got %s",
                     scwi_number_text(alpha, text));
  if (!(df >= 1))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "power needs at least one degree of freedom, got %s",
                     scwi_number_text(df, text));
  scw_status status = scwi_t_quantile(context, 0.5 * alpha, df, t);
  *t = -*t;
  return status;
}

/* Normal limit, for df = infinity. */
static double normal_power(double z, double ncp) {
  return scwi_normal_upper(z - ncp) + scwi_normal_cdf(-z - ncp);
}

scw_status scwi_t_power(scw_context *context, double ncp, double df,
                        double alpha, double *power) {
  double t;
  *power = 0;
  if (!isfinite(ncp))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "the effect of a power calculation must be a number");
  scw_status status = critical_value(context, df, alpha, &t);
  if (status) return status;
  *power = isinf(df) ? normal_power(t, fabs(ncp))
                     : power_at(t, df, fabs(ncp), alpha);
  return SCW_OK;
}

/* Power and slope at ncp, the slope by a difference where there is no sum. */
static scwi_power_point point_at(double t, double df, double ncp,
                                 double alpha) {
  if (ncp <= SERIES_UP_TO_NCP && isfinite(df))
    return scwi_power_at(t, df, ncp, alpha);
  double h = 1e-4 * ncp;
  if (isinf(df))
    return (scwi_power_point){
        normal_power(t, ncp),
        (normal_power(t, ncp + h) - normal_power(t, ncp - h)) / (2 * h)};
  return (scwi_power_point){
      power_far_out(t, df, ncp),
      (power_far_out(t, df, ncp + h) - power_far_out(t, df, ncp - h)) /
          (2 * h)};
}

static scw_status check_power(scw_context *context, double power,
                              double alpha) {
  char text[SCWI_NUMBER_SIZE];
  if (power > alpha && power < 1) return SCW_OK;
  return scwi_fail(context, SCW_BAD_ARGUMENT,
                   "a power must lie between alpha and 1, got %s",
                   scwi_number_text(power, text));
}

/* Newton from the normal solution, falling back to halving whenever a step
 * would leave the bracket. */
scw_status scwi_t_power_ncp(scw_context *context, double power, double df,
                            double alpha, double *ncp) {
  double t, z, low = 0, high = INFINITY;
  *ncp = 0;
  scw_status status = critical_value(context, df, alpha, &t);
  if (!status) status = check_power(context, power, alpha);
  if (!status) status = scwi_normal_quantile(context, power, &z);
  if (status) return status;
  double at = fmax(t + z * sqrt(1 + t * t / (2 * df)), 0.1);
  for (int i = 0; i < 200; i++) {
    scwi_power_point point = point_at(t, df, at, alpha);
    if (point.power < power)
      low = at;
    else
      high = at;
    double next = at - (point.power - power) / point.slope;
    if (fabs(next - at) <= 1e-13 * at || high - low <= 1e-15 * low) {
      *ncp = next;
      return SCW_OK;
    }
    if (!(next > low && next < high))
      next = isinf(high) ? 2 * at : 0.5 * (low + high);
    at = next;
  }
  return scwi_fail(context, SCW_NOT_REACHED,
                   "the smallest detectable change was not found: choose a "
                   "less extreme power or level");
}
