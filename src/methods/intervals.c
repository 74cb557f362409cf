/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "intervals.h"

#include "distributions.h"
#include "figure.h"
#include "tolerance_factor.h"

/* Why a set without scatter has no uncertainty: an unknown display step could
 * hide any scatter below it; continuous values that are equal show none. */
static scw_presence why_no_uncertainty(scwi_moments m, scw_step step) {
  if (m.n < 2) return SCW_ONE_READING;
  bool known =
      step.origin != SCW_STEP_UNSET && step.origin != SCW_STEP_NOT_KNOWN;
  return known ? SCW_NO_SCATTER : SCW_STEP_UNKNOWN;
}

scw_presence scwi_uncertainty_of_mean(scwi_moments m, scw_step step,
                                      scwi_uncertainty *out) {
  if (m.n < 2 || (m.sd <= 0 && step.size <= 0))
    return why_no_uncertainty(m, step);
  *out = scwi_mean_uncertainty(m.sd, m.n, step.size);
  return out->u > 0 ? SCW_PRESENT /* else below the smallest double */
                    : SCW_OUT_OF_RANGE;
}

static scw_status of_mean(scw_context *context, scwi_moments m, double level,
                          scw_summary *out) {
  scwi_uncertainty u;
  scw_presence state = scwi_uncertainty_of_mean(m, out->step, &u);
  if (state != SCW_PRESENT) {
    out->standard_uncertainty = out->df = scwi_missing(state);
    out->interval = scwi_no_interval(state, level);
    return SCW_OK;
  }
  out->standard_uncertainty = scwi_figure(u.u);
  out->df = isfinite(u.df) ? scwi_figure(u.df) : scwi_missing(SCW_UNBOUNDED);
  return scwi_t_interval(context, m.mean, u, level, &out->interval);
}

scw_status scwi_sd_interval(scw_context *context, double sd, double df,
                            double level, scw_interval *out) {
  double low, high, tail = (1 - level) / 2;
  *out = scwi_no_interval(SCW_NOT_COMPUTED, level);
  scw_status status = scwi_chi2_quantile(context, tail, df, &low);
  if (status == SCW_OK)
    status = scwi_chi2_upper_quantile(context, tail, df, &high);
  if (status == SCW_OK)
    *out = scwi_interval(sd * sqrt(df / high), sd * sqrt(df / low), level);
  return status;
}

static scw_status of_next_reading(scw_context *context, scwi_moments m,
                                  double level, scw_summary *out) {
  double n = (double)m.n;
  scwi_uncertainty u = {m.sd * sqrt(1 + 1 / n), n - 1};
  return scwi_t_interval(context, m.mean, u, level, &out->prediction);
}

static scw_status of_spots(scw_context *context, scwi_moments m, double level,
                           scw_tolerance *out) {
  enum { MOST = 100000 };
  scw_presence why = SCW_PRESENT;
  if (m.n > MOST) why = SCW_TOO_MANY;
  if (fmin(level, out->content) < 0.5 || fmax(level, out->content) > 0.9999)
    why = SCW_NOT_AT_THIS_LEVEL;
  if (why != SCW_PRESENT) {
    out->k = scwi_missing(why);
    out->interval = scwi_no_interval(why, level);
    return SCW_OK;
  }
  double k;
  scw_status status =
      scwi_tolerance_factor(context, m.n, out->content, level, &k);
  if (status != SCW_OK) return status;
  out->k = scwi_figure(k);
  out->interval = scwi_interval(m.mean - k * m.sd, m.mean + k * m.sd, level);
  return SCW_OK;
}

scw_status scwi_intervals(scw_context *context, scwi_moments m, double level,
                          double content, scw_summary *out) {
  out->n = m.n;
  out->mean = scwi_figure(m.mean);
  out->sd = m.n < 2 ? scwi_missing(SCW_ONE_READING) : scwi_figure(m.sd);
  out->tolerance.content = content;
  scw_status status = of_mean(context, m, level, out);
  if (status != SCW_OK) return status;
  if (m.sd <= 0) {
    scw_presence why = m.n < 2 ? SCW_ONE_READING : SCW_NO_SCATTER;
    out->standard_uncertainty_scatter = out->tolerance.k = scwi_missing(why);
    out->sd_interval = out->prediction = out->tolerance.interval =
        scwi_no_interval(why, level);
    return SCW_OK;
  }
  out->standard_uncertainty_scatter = scwi_figure(m.sd / sqrt((double)m.n));
  status = scwi_sd_interval(context, m.sd, (double)m.n - 1, level,
                            &out->sd_interval);
  if (status == SCW_OK) status = of_next_reading(context, m, level, out);
  if (status == SCW_OK) status = of_spots(context, m, level, &out->tolerance);
  return status;
}
