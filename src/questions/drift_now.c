/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What holds today: bias, slope and fence of the newest stretch. */
#include <math.h>

#include "dated_line.h"
#include "drift_inside.h"
#include "figure.h"
#include "moments.h"
#include "verdict.h"

const double scwi_days_in_month = 30.4375;

static scw_figure times(scw_figure from, double factor) {
  return scwi_present(from) ? scwi_figure(from.value * factor) : from;
}

static scw_interval stretched(scw_interval from, double factor) {
  return from.state == SCW_PRESENT
             ? scwi_interval(from.low * factor, from.high * factor, from.level)
             : from;
}

static scw_estimate scaled(scw_estimate from, double factor) {
  from.estimate = times(from.estimate, factor);
  from.standard_uncertainty = times(from.standard_uncertainty, factor);
  from.interval = stretched(from.interval, factor);
  return from;
}

static scw_estimate no_estimate(scw_presence why, double level) {
  return (scw_estimate){scwi_missing(why), scwi_missing(why),
                        scwi_missing(why), scwi_missing(SCW_NOT_COMPUTED),
                        scwi_no_interval(why, level)};
}

static scw_status bias_of(scw_context *context, const scw_drift_result *result,
                          const scw_estimate *mean, scw_estimate *out) {
  double level = result->settings.level;
  *out = no_estimate(SCW_NO_ASSIGNED_VALUE, level);
  if (!scwi_present(result->assigned)) return SCW_OK;
  *out = *mean;
  out->estimate = scwi_figure(mean->estimate.value - result->assigned.value);
  if (!scwi_present(mean->standard_uncertainty)) return SCW_OK;
  scwi_uncertainty own = {mean->standard_uncertainty.value,
                          scwi_present(mean->df) ? mean->df.value : INFINITY};
  scwi_uncertainty u = scwi_uncertainty_sum(
      own, (scwi_uncertainty){result->assigned_u.value, INFINITY});
  out->standard_uncertainty = scwi_figure(u.u);
  out->df = isfinite(u.df) ? scwi_figure(u.df) : scwi_missing(SCW_UNBOUNDED);
  return scwi_t_interval(context, out->estimate.value, u, level,
                         &out->interval);
}

static scw_figure longest_gap(const scw_drift_log *log,
                              const scw_drift_stretch *stretch) {
  long most = 0;
  for (size_t i = 1; i < stretch->days; i++) {
    const scw_drift_day *day = &log->day[stretch->first + i];
    long gap = day->date.day - (day - 1)->date.day;
    if (gap > most) most = gap;
  }
  return stretch->days > 1 ? scwi_figure((double)most)
                           : scwi_missing(SCW_ONE_READING);
}

/* The movement from the first to the last day against the margin. */
static scw_verdict judge(const scw_drift_result *result,
                         const scw_estimate *slope, double months) {
  return scwi_verdict(stretched(slope->interval, months),
                      result->margin > 0 ? scwi_figure(result->margin)
                                         : scwi_missing(SCW_NO_MARGIN));
}

static double span_of(const scw_drift_log *log) {
  const scw_drift_stretch *s = scwi_drift_newest(log);
  return (double)(log->day[s->first + s->days - 1].date.day -
                  log->day[s->first].date.day);
}

/* Back to the first stretch whose level is not within the margin of today's:
 * small steps may add up. */
static scw_status fence_by_steps(scw_context *context,
                                 const scw_drift_result *result,
                                 const scwi_drift_values *values,
                                 scw_drift_log *log) {
  for (size_t i = log->n_stretches; i-- > 1;) {
    const scw_drift_stretch *stretch = &log->stretch[i];
    if (stretch->start == SCW_DRIFT_STEP) {
      scw_estimate moved;
      scw_status status =
          scwi_drift_between(context, values, stretch - 1,
                             scwi_drift_newest(log), result->settings.level,
                             &moved);
      if (status) return status;
      if (scwi_drift_is_small(result, &moved)) continue;
    }
    log->fence = log->day[stretch->first].date;
    log->fence_from = stretch->start;
    return SCW_OK;
  }
  return SCW_OK;
}

/* A line that has left the margin: the day from which on it is within it. */
static void fence_by_slope(const scw_drift_result *result,
                           scw_drift_log *log) {
  const scw_estimate *slope = &log->slope;
  bool moves = slope->interval.state == SCW_PRESENT &&
               (slope->interval.low > 0 || slope->interval.high < 0);
  if (!moves || !(result->margin > 0)) return;
  double per_day = fabs(slope->estimate.value) / scwi_days_in_month;
  double back = floor(result->margin / per_day);
  if (back >= span_of(log)) return;
  log->fence = scwi_drift_date(log->day[log->n_days - 1].date.day - (long)back);
  log->fence_from = SCW_DRIFT_SLOPE;
}

static scw_status fence_of(scw_context *context,
                           const scw_drift_result *result,
                           const scwi_drift_values *values, const long *mark,
                           scw_drift_log *log) {
  scw_status status = fence_by_steps(context, result, values, log);
  if (status) return status;
  fence_by_slope(result, log);
  if (mark && *mark > log->day[log->n_days - 1].date.day) {
    log->fence = scwi_drift_date(*mark);
    log->fence_from = SCW_DRIFT_RECALIBRATED;
  }
  return SCW_OK;
}

static scw_figure half_width(const scw_drift_log *log) {
  const scw_interval *slope = &log->slope.interval;
  if (slope->state != SCW_PRESENT) return scwi_missing(slope->state);
  return scwi_figure(fmax(fabs(slope->low), fabs(slope->high)) *
                     log->longest_gap.value / scwi_days_in_month);
}

scw_status scwi_drift_now(scw_context *context, const scwi_drift_frame *frame,
                          const scwi_drift_values *values, const long *mark,
                          scw_drift_log *log) {
  const scw_drift_result *result = frame->result;
  const scw_drift_stretch *stretch = scwi_drift_newest(log);
  scwi_sample sample =
      scwi_drift_sample(values, stretch->first, stretch->days);
  scwi_dated_line line;
  scw_status status = bias_of(context, result, &stretch->mean, &log->bias);
  if (!status)
    status = scwi_dated_line_of(context, values->day + stretch->first, &sample,
                                result->settings.level, &line);
  if (status) return status;
  log->slope = scaled(line.slope, scwi_days_in_month);
  log->sd_about_line = line.sd_about_line;
  log->slope_verdict =
      judge(result, &log->slope, span_of(log) / scwi_days_in_month);
  log->longest_gap = longest_gap(log, stretch);
  log->drift_half_width = half_width(log);
  return fence_of(context, result, values, mark, log);
}
