/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dated logs as JSON. */
#include "fields.h"
#include "figure.h"
#include "json_panel.h"
#include "json_parts.h"
#include "reports.h"

static const char *or_null(const char *text) { return *text ? text : NULL; }

static scwi_json *day_of(const scw_drift_day *day) {
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "date", day->date.text);
  scwi_json_whole(to, "readings", day->readings);
  scwi_json_whole(to, "line", day->line);
  scwi_json_number(to, "mean", day->mean);
  scwi_json_figure(to, "sd", day->sd);
  scwi_json_whole(to, "segment", day->segment);
  scwi_json_figure(to, "moving_average", day->average);
  scwi_json_ends(to, "moving_average_low", "moving_average_high",
                 day->average_limits);
  scwi_json_figure(to, "sum_up", day->sum_up);
  scwi_json_figure(to, "sum_down", day->sum_down);
  scwi_json_bool(to, "beyond_limits", day->beyond_limits);
  scwi_json_bool(to, "beyond_moving_average", day->beyond_average);
  scwi_json_bool(to, "beyond_cumulative_sum", day->beyond_sum);
  scwi_json_bool(to, "beyond_permitted", day->beyond_permitted);
  return to;
}

static scwi_json *stretch_of(const scw_drift_log *log,
                             const scw_drift_stretch *stretch) {
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "from", log->day[stretch->first].date.text);
  scwi_json_text(to, "start", scw_drift_start_code(stretch->start));
  scwi_json_whole(to, "days", stretch->days);
  scwi_json_whole(to, "readings", stretch->readings);
  scwi_json_add(to, "mean", scwi_json_estimate_of(&stretch->mean));
  return to;
}

static scwi_json *shift_of(const scw_drift_shift *shift) {
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "date", shift->date.text);
  scwi_json_text(to, "after", shift->before.text);
  scwi_json_figure(to, "size", shift->size.estimate);
  scwi_json_figure(to, "standard_uncertainty",
                   shift->size.standard_uncertainty);
  scwi_json_figure(to, "df", shift->size.df);
  scwi_json_ends(to, "low", "high", shift->size.interval);
  scwi_json_figure(to, "p", shift->size.p);
  scwi_json_bool(to, "counted", shift->counted);
  scwi_json_bool(to, "within_margin", shift->within_margin);
  return to;
}

static scwi_json *run_of(const scw_run_length *run) {
  scwi_json *to = scwi_json_object();
  scwi_json_figure(to, "nothing", run->nothing);
  scwi_json_figure(to, "one_sd", run->one_sd);
  return to;
}

static scwi_json *charts_of(const scw_drift_charts *charts) {
  scwi_json *to = scwi_json_object();
  scwi_json_whole(to, "ranges", charts->ranges);
  scwi_json_figure(to, "day_sd", charts->day_sd);
  scwi_json_figure(to, "repeat_sd", charts->repeat_sd);
  scwi_json_figure(to, "repeat_df", charts->repeat_df);
  scwi_json_figure(to, "centre", charts->centre);
  scwi_json_ends(to, "low", "high", charts->limits);
  scwi_json_number(to, "moving_average_weight", charts->average_weight);
  scwi_json_number(to, "moving_average_width", charts->average_width);
  scwi_json_number(to, "cumulative_sum_reference", charts->sum_reference);
  scwi_json_number(to, "cumulative_sum_decision", charts->sum_decision);
  scwi_json_add(to, "limits_run_length", run_of(&charts->limits_run));
  scwi_json_add(to, "moving_average_run_length", run_of(&charts->average_run));
  scwi_json_add(to, "cumulative_sum_run_length", run_of(&charts->sum_run));
  return to;
}

/* Days that some chart or limit marks, and by which of them. */
static scwi_json *beyond_of(const scw_drift_log *log) {
  scwi_json *to = scwi_json_array();
  for (size_t i = 0; i < log->n_days; i++) {
    const scw_drift_day *day = &log->day[i];
    if (!day->beyond_limits && !day->beyond_average && !day->beyond_sum &&
        !day->beyond_permitted)
      continue;
    scwi_json *one = scwi_json_object();
    scwi_json_text(one, "date", day->date.text);
    scwi_json_number(one, "mean", day->mean);
    scwi_json_bool(one, "limits", day->beyond_limits);
    scwi_json_bool(one, "moving_average", day->beyond_average);
    scwi_json_bool(one, "cumulative_sum", day->beyond_sum);
    scwi_json_bool(one, "permitted", day->beyond_permitted);
    scwi_json_add(to, NULL, one);
  }
  return to;
}

static void add_lists(scwi_json *to, const scw_drift_log *log) {
  scwi_json *stretches = scwi_json_array(), *shifts = scwi_json_array();
  scwi_json *days = scwi_json_array();
  for (size_t i = 0; i < log->n_stretches; i++)
    scwi_json_add(stretches, NULL, stretch_of(log, &log->stretch[i]));
  for (size_t i = 0; i < log->n_shifts; i++)
    scwi_json_add(shifts, NULL, shift_of(&log->shift[i]));
  for (size_t i = 0; i < log->n_days; i++)
    scwi_json_add(days, NULL, day_of(&log->day[i]));
  scwi_json_add(to, "stretches", stretches);
  scwi_json_add(to, "shifts", shifts);
  scwi_json_add(to, "beyond", beyond_of(log));
  scwi_json_add(to, "days", days);
}

static scwi_json *log_of(const scw_drift_log *log) {
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "label", log->label);
  scwi_json_text(to, "instrument", or_null(log->instrument));
  scwi_json_text(to, "standard", or_null(log->standard));
  scwi_json_text(to, "sentence", log->sentence);
  scwi_json_whole(to, "readings", log->readings);
  scwi_json_figure(to, "bias", log->bias.estimate);
  scwi_json_figure(to, "bias_uncertainty", log->bias.standard_uncertainty);
  scwi_json_figure(to, "bias_df", log->bias.df);
  scwi_json_ends(to, "bias_low", "bias_high", log->bias.interval);
  scwi_json_figure(to, "slope_per_month", log->slope.estimate);
  scwi_json_figure(to, "slope_uncertainty", log->slope.standard_uncertainty);
  scwi_json_figure(to, "slope_df", log->slope.df);
  scwi_json_ends(to, "slope_low", "slope_high", log->slope.interval);
  scwi_json_figure(to, "slope_p", log->slope.p);
  scwi_json_figure(to, "sd_about_line", log->sd_about_line);
  scwi_json_text(to, "slope_verdict", scw_verdict_code(log->slope_verdict));
  if (log->n_shifts)
    scwi_json_add(to, "last_shift", shift_of(&log->shift[log->n_shifts - 1]));
  else
    scwi_json_null(to, "last_shift");
  scwi_json_text(to, "fence", or_null(log->fence.text));
  scwi_json_text(to, "fence_from",
                 *log->fence.text ? scw_drift_start_code(log->fence_from)
                                  : NULL);
  scwi_json_add(to, "charts", charts_of(&log->charts));
  scwi_json_figure(to, "longest_gap", log->longest_gap);
  scwi_json_figure(to, "drift_half_width", log->drift_half_width);
  add_lists(to, log);
  scwi_json_notes(to, "notes", log->notes, log->n_notes);
  return to;
}

static scwi_json *pair_of(const scw_drift_result *result,
                          const scw_drift_pair *pair) {
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "one", result->log[pair->one].label);
  scwi_json_text(to, "other", result->log[pair->other].label);
  scwi_json_whole(to, "days", pair->days);
  scwi_json_add(to, "difference", scwi_json_estimate_of(&pair->difference));
  return to;
}

static scwi_json *settings_of(const scw_drift_result *result) {
  scwi_json *to = scwi_json_settings(&result->settings);
  scw_figure limit = {result->limit,
                      result->limit > 0 ? SCW_PRESENT : SCW_NOT_COMPUTED};
  scw_figure margin = {result->margin,
                       result->margin > 0 ? SCW_PRESENT : SCW_NO_MARGIN};
  scwi_json_figure(to, "assigned", result->assigned);
  scwi_json_figure(to, "assigned_uncertainty", result->assigned_u);
  scwi_json_figure(to, "limit", limit);
  scwi_json_figure(to, "margin", margin);
  return to;
}

static scwi_json *given_of(const scw_drift_inputs *inputs, size_t i) {
  const scw_budget_given *given = &inputs->given[i];
  bool wide = given->kind == SCW_KIND_RECTANGULAR;
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "name", given->name);
  scwi_json_text(to, "kind", scw_budget_kind_code(given->kind));
  scwi_json_number(to, "value", given->value);
  if (wide)
    scwi_json_number(to, "half_width", given->half_width);
  else
    scwi_json_number(to, "uncertainty", given->uncertainty);
  if (given->df > 0) scwi_json_number(to, "df", given->df);
  scwi_json_bool(to, "shared", inputs->shared[i] == SCW_SHARED);
  return to;
}

static void write_tail(scwi_stream *stream, const scw_drift_result *result,
                       const scw_drift_inputs *for_budget) {
  scwi_stream_text(stream, ",\n\"pairs\":[");
  for (size_t i = 0; i < result->n_pairs && !stream->status; i++)
    scwi_json_item(stream, i, pair_of(result, &result->pair[i]));
  scwi_stream_text(stream, "],\n\"for_budget\":[");
  for (size_t i = 0; for_budget && i < for_budget->n && !stream->status; i++)
    scwi_json_item(stream, i, given_of(for_budget, i));
  scwi_stream_text(stream, "]");
}

scw_status scwi_json_drift(scw_context *context, const scw_drift_result *result,
                           const scw_drift_inputs *for_budget,
                           const scwi_inputs *inputs, scw_sink sink) {
  scwi_stream stream = {context, sink, SCW_OK};
  scwi_json_begin(&stream, "drift", inputs, settings_of(result));
  scwi_stream_text(&stream, result->n_logs == 1 ? "\"log\":" : "\"logs\":[");
  if (result->n_logs == 1) scwi_stream_json(&stream, log_of(result->log));
  for (size_t i = 0; result->n_logs > 1 && i < result->n_logs; i++)
    scwi_json_item(&stream, i, log_of(&result->log[i]));
  if (result->n_logs != 1) scwi_stream_text(&stream, "]");
  write_tail(&stream, result, for_budget);
  scwi_json_end(&stream, result->notes, result->n_notes);
  return stream.status;
}
