/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dated logs as CSV: a row for each day, the figures of its log repeated. */
#include "csv_table.h"
#include "reports.h"

static void row(scwi_csv *csv, const scw_drift_log *log,
                const scw_drift_day *day) {
  scwi_csv_text(csv, "log", log->label);
  scwi_csv_text(csv, "date", day->date.text);
  scwi_csv_whole(csv, "readings", day->readings);
  scwi_csv_number(csv, "mean", day->mean);
  scwi_csv_figure(csv, "sd", day->sd);
  scwi_csv_figure(csv, "moving_average", day->average);
  scwi_csv_ends(csv, "moving_average_low", "moving_average_high",
                day->average_limits);
  scwi_csv_figure(csv, "sum_up", day->sum_up);
  scwi_csv_figure(csv, "sum_down", day->sum_down);
  scwi_csv_bool(csv, "beyond_limits", day->beyond_limits);
  scwi_csv_bool(csv, "beyond_moving_average", day->beyond_average);
  scwi_csv_bool(csv, "beyond_cumulative_sum", day->beyond_sum);
  scwi_csv_bool(csv, "beyond_permitted", day->beyond_permitted);
  scwi_csv_figure(csv, "bias", log->bias.estimate);
  scwi_csv_figure(csv, "bias_uncertainty", log->bias.standard_uncertainty);
  scwi_csv_ends(csv, "bias_low", "bias_high", log->bias.interval);
  scwi_csv_figure(csv, "slope_per_month", log->slope.estimate);
  scwi_csv_ends(csv, "slope_low", "slope_high", log->slope.interval);
  scwi_csv_text(csv, "fence", log->fence.text);
  scwi_csv_row(csv);
}

scw_status scwi_csv_drift(scw_context *context, const scw_drift_result *result,
                          scw_sink sink) {
  static const scw_drift_log no_log = {.n_days = 0};
  static const scw_drift_day no_day = {.readings = 0};
  scwi_csv csv = scwi_csv_start(context, sink);
  row(&csv, &no_log, &no_day);
  for (size_t i = 0; i < result->n_logs; i++)
    for (size_t d = 0; d < result->log[i].n_days && !csv.status; d++)
      row(&csv, &result->log[i], &result->log[i].day[d]);
  return scwi_csv_end(&csv);
}
