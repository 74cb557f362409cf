/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The charts: each stretch about its own mean, in its own short-term SD, so
 * that they tell of what the steps found do not. */
#include <math.h>
#include <stdlib.h>

#include "control_charts.h"
#include "drift_inside.h"
#include "figure.h"
#include "memory.h"
#include "moments.h"
#include "run_length.h"

/* Common practice; docs/methods/drift.md says what they give. */
static const double limit_width = 3, average_weight = 0.2, average_width = 3,
                    sum_reference = 0.5, sum_decision = 5;

enum { FEWEST_DAYS = 8 };

static scw_status run_lengths(scw_context *context, scw_drift_charts *to) {
  scw_run_length *const runs[] = {&to->average_run, &to->sum_run};
  to->limits_run = (scw_run_length){
      scwi_figure(scwi_run_length_limits(limit_width, 0)),
      scwi_figure(scwi_run_length_limits(limit_width, 1))};
  for (int shift = 0; shift < 2; shift++) {
    double found[2];
    scw_status status =
        scwi_run_length_average(context, average_weight, average_width, shift,
                                &found[0]);
    if (!status)
      status = scwi_run_length_sum(context, sum_reference, sum_decision, shift,
                                   &found[1]);
    if (status) return status;
    for (int k = 0; k < 2; k++)
      *(shift ? &runs[k]->one_sd : &runs[k]->nothing) = scwi_figure(found[k]);
  }
  return SCW_OK;
}

static void pool_repeats(const scw_drift_log *log, scw_drift_charts *to) {
  double squares = 0, df = 0;
  for (size_t i = 0; i < log->n_days; i++) {
    const scw_drift_day *day = &log->day[i];
    if (!scwi_present(day->sd)) continue;
    double own = (double)(day->readings - 1);
    squares = hypot(squares, sqrt(own) * day->sd.value);
    df += own;
  }
  to->repeat_sd = df > 0 ? scwi_figure(squares / sqrt(df))
                         : scwi_missing(SCW_ONE_READING);
  to->repeat_df = df > 0 ? scwi_figure(df) : scwi_missing(SCW_ONE_READING);
}

static void no_chart(scw_drift_log *log, size_t first, size_t n,
                     scw_presence why) {
  for (size_t i = first; i < first + n; i++) {
    scw_drift_day *day = &log->day[i];
    day->average = day->sum_up = day->sum_down = scwi_missing(why);
    day->average_limits = scwi_no_interval(why, 0);
  }
  log->charts.limits = scwi_no_interval(why, 0);
}

static void fill_day(scw_drift_day *day, const scw_drift_charts *charts,
                     size_t i, double average, double up, double down) {
  double sd = charts->day_sd.value, centre = charts->centre.value;
  double half =
      scwi_weighted_half_width(i, sd, average_weight, average_width);
  day->average = scwi_figure(average);
  day->average_limits = scwi_interval(centre - half, centre + half, 0);
  day->sum_up = scwi_figure(up);
  day->sum_down = scwi_figure(down);
  day->beyond_limits =
      day->mean < charts->limits.low || day->mean > charts->limits.high;
  day->beyond_average = fabs(average - centre) > half;
  day->beyond_sum = up > sum_decision || down > sum_decision;
}

static scw_status draw(scw_context *context, const double *x, size_t n,
                       scw_drift_log *log, size_t first) {
  scw_drift_charts *charts = &log->charts;
  double sd = charts->day_sd.value, centre = charts->centre.value, *work;
  scw_status status = SCWI_ALLOCATE(context, 3 * n, &work);
  if (status) return status;
  charts->limits = scwi_interval(centre - limit_width * sd,
                                 centre + limit_width * sd, 0.9973);
  scwi_weighted_average(x, n, centre, average_weight, work);
  scwi_cumulative_sums(x, n, centre, sd, sum_reference, work + n,
                       work + 2 * n);
  for (size_t i = 0; i < n; i++)
    fill_day(&log->day[first + i], charts, i + 1, work[i], work[n + i],
             work[2 * n + i]);
  free(work);
  return SCW_OK;
}

/* The display cannot show less than its step, so half a step is the least SD of
 * a day that a chart is drawn with. */
static scw_status chart(scw_context *context, const scwi_drift_values *values,
                        size_t first, size_t n, scw_drift_log *log) {
  scw_drift_charts *charts = &log->charts;
  scwi_sample sample = scwi_drift_sample(values, first, n);
  charts->ranges = n - 1;
  charts->centre = scwi_figure(scwi_moments_of(&sample).mean);
  charts->day_sd = scwi_missing(SCW_ONE_READING);
  if (n > 1)
    charts->day_sd = scwi_figure(
        fmax(scwi_moving_range_sd(sample.x, n), values->step.size / 2));
  if (n >= FEWEST_DAYS && scwi_present(charts->day_sd) &&
      charts->day_sd.value > 0)
    return draw(context, sample.x, n, log, first);
  no_chart(log, first, n, n < FEWEST_DAYS ? SCW_TOO_FEW : SCW_NO_SCATTER);
  return SCW_OK;
}

scw_status scwi_drift_charts_of(scw_context *context,
                                const scwi_drift_values *values,
                                scw_drift_log *log) {
  scw_drift_charts *charts = &log->charts;
  charts->average_weight = average_weight;
  charts->average_width = average_width;
  charts->sum_reference = sum_reference;
  charts->sum_decision = sum_decision;
  pool_repeats(log, charts);
  scw_status status = run_lengths(context, charts);
  for (size_t i = 0; i < log->n_stretches && !status; i++)
    status = chart(context, values, log->stretch[i].first,
                   log->stretch[i].days, log);
  return status;
}
