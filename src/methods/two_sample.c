/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "two_sample.h"

#include "distributions.h"
#include "figure.h"

scw_estimate scwi_bare_estimate(double estimate, scw_presence why,
                                double level) {
  return (scw_estimate){.estimate = scwi_figure(estimate),
                        .standard_uncertainty = scwi_missing(why),
                        .df = scwi_missing(why),
                        .p = scwi_missing(why),
                        .interval = scwi_no_interval(why, level)};
}

/* Two-sided p; never 0. */
static scw_figure two_sided_p(double estimate, scwi_uncertainty uncertainty) {
  if (!isfinite(estimate) || !isfinite(uncertainty.u))
    return scwi_missing(SCW_OUT_OF_RANGE);
  double t = fabs(estimate / uncertainty.u);
  double p = isinf(uncertainty.df) ? 2 * scwi_normal_upper(t)
                                   : 2 * scwi_t_upper(t, uncertainty.df);
  if (p > 0) return scwi_figure(fmin(p, 1));
  return scwi_missing(isinf(uncertainty.df) ? SCW_NO_SCATTER
                                            : SCW_OUT_OF_RANGE);
}

scw_status scwi_estimate(scw_context *context, double estimate,
                         scwi_uncertainty uncertainty, double level,
                         scw_estimate *out) {
  if (uncertainty.u <= 0) {
    *out = scwi_bare_estimate(estimate, SCW_NO_SCATTER, level);
    return SCW_OK;
  }
  *out =
      (scw_estimate){.estimate = scwi_figure(estimate),
                     .standard_uncertainty = scwi_figure(uncertainty.u),
                     .df = isinf(uncertainty.df) ? scwi_missing(SCW_UNBOUNDED)
                                                 : scwi_figure(uncertainty.df),
                     .p = two_sided_p(estimate, uncertainty)};
  return scwi_t_interval(context, estimate, uncertainty, level, &out->interval);
}

scw_status scwi_welch(scw_context *context, scwi_moments before,
                      scwi_moments after, double step_before, double step_after,
                      double level, scw_estimate *out) {
  double change = after.mean - before.mean;
  if (before.n < 2 || after.n < 2) {
    *out = scwi_bare_estimate(change, SCW_ONE_READING, level);
    return SCW_OK;
  }
  scwi_uncertainty uncertainty = scwi_uncertainty_sum(
      scwi_mean_uncertainty(before.sd, before.n, step_before),
      scwi_mean_uncertainty(after.sd, after.n, step_after));
  return scwi_estimate(context, change, uncertainty, level, out);
}

scw_status scwi_paired(scw_context *context, const scwi_sample *differences,
                       scwi_display display, double level, scw_estimate *out) {
  scwi_moments moments = scwi_moments_of(differences);
  if (moments.n < 2) {
    *out = scwi_bare_estimate(moments.mean, SCW_ONE_READING, level);
    return SCW_OK;
  }
  return scwi_estimate(
      context, moments.mean,
      scwi_difference_uncertainty(moments.sd, moments.n, display), level, out);
}
