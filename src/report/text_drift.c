/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A dated log as text: the answer, the figures, the charts in words, the
 * days. */
#include <math.h>
#include <string.h>

#include "figure.h"
#include "figure_rows.h"
#include "grid.h"
#include "number_text.h"
#include "number_words.h"
#include "reports.h"
#include "text_parts.h"
#include "wording.h"

enum { MOST_DAYS = 40 };

static void put(scwi_text *text, double value, int digits, const char *unit) {
  scwi_put_digits(text, value, digits);
  if (*unit) scwi_text_format(text, SCWI_TIE "%s", unit);
}

/* Without an uncertainty a figure is shown to two digits of `digits_of`. */
static void add_estimate(scwi_figure_rows *rows, const char *label,
                         const scw_estimate *of, double digits_of, bool change,
                         const char *remark) {
  scw_figure u = of->standard_uncertainty;
  if (!scwi_present(u)) u = (scw_figure){digits_of, SCW_PRESENT};
  scwi_figure_rows_add(
      rows, (scwi_figure_row){
                .label = label,
                .value = &of->estimate,
                .interval = &of->interval,
                .decimals = scwi_decimals_of(u, of->estimate),
                .signed_value = change,
                .remark = remark});
}

static void figures(scwi_sheet *sheet, const scw_drift_result *result,
                    const scw_drift_log *log) {
  scwi_figure_rows rows = scwi_figure_rows_start(result->unit);
  const scw_drift_stretch *newest = &log->stretch[log->n_stretches - 1];
  scwi_text days = {0}, p = {0}, step = {0};
  double scatter = result->step.size > 0
                       ? result->step.size
                       : 1e-4 * fabs(newest->mean.estimate.value);
  scwi_word_count(&days, newest->days, "day");
  scwi_text_format(&days, " since %s", log->day[newest->first].date.text);
  add_estimate(&rows, "mean", &newest->mean, scatter, false, days.data);
  if (scwi_present(result->assigned))
    add_estimate(&rows, "bias", &log->bias, scatter, true, "less the assigned value");
  if (scwi_present(log->slope.p)) scwi_word_p(&p, log->slope.p);
  add_estimate(&rows, "a month", &log->slope,
               fabs(log->slope.estimate.value), true, p.data);
  if (log->n_shifts) {
    const scw_drift_shift *shift = &log->shift[log->n_shifts - 1];
    scwi_text_format(&step, "on %s, ", shift->date.text);
    scwi_word_p(&step, shift->size.p);
    add_estimate(&rows, "last step", &shift->size, scatter, true, step.data);
  }
  if (days.failed || p.failed || step.failed) sheet->text.failed = true;
  scwi_sheet_figure_rows(sheet, &rows);
  scwi_sheet_gap(sheet);
  scwi_sheet_missing(sheet, &rows);
  scwi_text_free(&days);
  scwi_text_free(&p);
  scwi_text_free(&step);
}

static void put_days(scwi_text *text, scw_figure days) {
  if (!scwi_present(days)) return;
  double n = days.value;
  if (n < 9.95)
    scwi_put_fixed(text, n, 1);
  else
    scwi_put_digits(text, n, 2);
}

/* ", a false alarm about once in 370 days, a shift of one SD seen after about
 * 44". */
static void put_run(scwi_text *text, const scw_run_length *run) {
  if (!scwi_present(run->nothing) || !scwi_present(run->one_sd)) return;
  scwi_text_add(text, ": a false alarm about once in ");
  put_days(text, run->nothing);
  scwi_text_add(text, " days, a shift of one SD seen after about ");
  put_days(text, run->one_sd);
}

static void limits_line(scwi_sheet *sheet, const scw_drift_charts *charts,
                        const char *unit) {
  scwi_text *text = &sheet->scratch;
  scwi_text_add(text, "days from ");
  scwi_put_range(text, charts->limits.low, charts->limits.high,
                 scwi_decimals_for(charts->day_sd.value, charts->limits.high));
  if (*unit) scwi_text_format(text, SCWI_TIE "%s", unit);
  scwi_text_add(text, ", three SD of ");
  put(text, charts->day_sd.value, 2, unit);
  scwi_text_add(text, " either side");
  put_run(text, &charts->limits_run);
  scwi_sheet_labelled_scratch(sheet, "expected");
}

static void chart_lines(scwi_sheet *sheet, const scw_drift_charts *charts,
                        const char *unit) {
  scwi_text *text = &sheet->scratch;
  if (charts->limits.state != SCW_PRESENT) return;
  limits_line(sheet, charts, unit);
  scwi_text_add(text, "weight ");
  scwi_put_short(text, charts->average_weight, 3);
  scwi_text_add(text, " on the newest day");
  put_run(text, &charts->average_run);
  scwi_sheet_labelled_scratch(sheet, "moving average");
  scwi_text_add(text, "of deviations beyond ");
  scwi_put_short(text, charts->sum_reference, 3);
  scwi_text_add(text, " SD, up to ");
  scwi_put_short(text, charts->sum_decision, 3);
  scwi_text_add(text, " SD");
  put_run(text, &charts->sum_run);
  scwi_sheet_labelled_scratch(sheet, "summed up");
}

/* What there is to say of a day. */
static void put_marks(scwi_text *text, const scw_drift_log *log, size_t i) {
  const scw_drift_day *day = &log->day[i];
  for (size_t s = 0; s < log->n_stretches; s++)
    if (log->stretch[s].first == i && i > 0)
      scwi_text_add(text, log->stretch[s].start == SCW_DRIFT_RECALIBRATED
                              ? "recalibrated"
                              : "step");
  const struct {
    bool so;
    const char *words;
  } marks[] = {{day->beyond_permitted, "beyond your limit"},
               {day->beyond_limits, "not expected"},
               {day->beyond_average, "moving average"},
               {day->beyond_sum, "summed up"}};
  for (size_t m = 0; m < sizeof marks / sizeof *marks; m++) {
    if (!marks[m].so) continue;
    scwi_word_join(text, ", ");
    scwi_text_add(text, marks[m].words);
  }
}

static int day_decimals(const scw_drift_log *log) {
  const scw_drift_charts *charts = &log->charts;
  if (scwi_present(charts->day_sd) && charts->day_sd.value > 0)
    return scwi_decimals_for(charts->day_sd.value, 0);
  return scwi_decimals_for(0, log->day[0].mean);
}

/* The newest days, at most so many. */
static void days_table(scwi_sheet *sheet, const scw_drift_log *log) {
  static const scwi_column columns[] = {
      {"day", SCWI_LEFT, 0, false, 0},
      {"readings", SCWI_RIGHT, 2, false, 0},
      {"mean", SCWI_POINT, 2, false, 0},
      {"average", SCWI_POINT, 2, false, 0},
      {"up", SCWI_POINT, 2, false, 0},
      {"down", SCWI_POINT, 2, false, 0},
      {NULL, SCWI_LEFT, 2, false, 0}};
  scwi_grid grid = {.columns = columns,
                    .n_columns = sizeof columns / sizeof *columns};
  int decimals = day_decimals(log);
  size_t from = log->n_days > MOST_DAYS ? log->n_days - MOST_DAYS : 0;
  for (size_t i = from; i < log->n_days; i++) {
    const scw_drift_day *day = &log->day[i];
    scwi_text marks = {0};
    put_marks(&marks, log, i);
    if (marks.failed) grid.cells.failed = true;
    scwi_grid_cell(&grid, day->date.text);
    scwi_grid_whole(&grid, day->readings);
    scwi_grid_fixed(&grid, day->mean, decimals);
    scwi_grid_figure(&grid, day->average, decimals);
    scwi_grid_figure(&grid, day->sum_up, 1);
    scwi_grid_figure(&grid, day->sum_down, 1);
    scwi_grid_cell(&grid, marks.data);
    scwi_text_free(&marks);
  }
  scwi_sheet_gap(sheet);
  scwi_sheet_grid(sheet, &grid);
  scwi_sheet_gap(sheet);
  if (from) {
    scwi_text_format(&sheet->scratch, "%zu days before these are in --json and "
                                      "--csv.",
                     from);
    scwi_sheet_labelled_scratch(sheet, "");
  }
}

/* The inputs a budget takes, fit to paste into a bench file. */
static void input_lines(scwi_sheet *sheet, const scw_drift_inputs *inputs) {
  char a[SCWI_NUMBER_SIZE], b[SCWI_NUMBER_SIZE];
  for (size_t i = 0; i < inputs->n; i++) {
    const scw_budget_given *given = &inputs->given[i];
    bool wide = given->kind == SCW_KIND_RECTANGULAR;
    scwi_text_format(
        &sheet->scratch, "{\"name\": \"%s\", \"kind\": \"%s\", \"value\": %s, "
                         "\"%s\": %s",
        given->name, scw_budget_kind_code(given->kind),
        scwi_significant_text(given->value, 6, a),
        wide ? "half_width" : "uncertainty",
        scwi_significant_text(wide ? given->half_width : given->uncertainty, 6,
                              b));
    if (given->df > 0)
      scwi_text_format(&sheet->scratch, ", \"df\": %s",
                       scwi_significant_text(given->df, 6, a));
    scwi_text_format(&sheet->scratch, ", \"shared\": %s}",
                     inputs->shared[i] == SCW_SHARED ? "true" : "false");
    scwi_sheet_labelled_scratch(sheet, i ? "" : "for a budget");
  }
}

static void log_page(scwi_sheet *sheet, const scw_drift_result *result,
                     const scw_drift_log *log) {
  scwi_sheet_gap(sheet);
  scwi_sheet_answer(sheet, log->sentence);
  figures(sheet, result, log);
  chart_lines(sheet, &log->charts, result->unit);
  days_table(sheet, log);
  scwi_sheet_notes(sheet, log->notes, log->n_notes);
}

static void pairs(scwi_sheet *sheet, const scw_drift_result *result) {
  scwi_text *text = &sheet->scratch;
  for (size_t i = 0; i < result->n_pairs; i++) {
    const scw_drift_pair *pair = &result->pair[i];
    const scw_estimate *d = &pair->difference;
    scwi_text_format(text, "%s less %s, ", result->log[pair->one].label,
                     result->log[pair->other].label);
    scwi_word_count(text, pair->days, "shared day");
    scwi_text_add(text, ": ");
    if (d->interval.state == SCW_PRESENT) {
      int decimals = scwi_decimals_of(d->standard_uncertainty, d->estimate);
      scwi_word_quantity(text, d->estimate.value, decimals, result->unit);
      scwi_text_add(text, " (");
      scwi_put_range(text, d->interval.low, d->interval.high, decimals);
      scwi_text_add(text, ")");
    } else {
      scwi_text_add(text, scw_presence_text(d->interval.state));
    }
    scwi_sheet_labelled_scratch(sheet, i ? "" : "side by side");
  }
}

scw_status scwi_text_drift(scw_context *context, const scw_drift_result *result,
                           const scw_drift_inputs *for_budget,
                           const scwi_inputs *inputs,
                           scw_report_options options, scw_sink sink) {
  scwi_sheet sheet = {.options = options};
  if (result->n_logs > 1) scwi_sheet_answer(&sheet, result->sentence);
  for (size_t i = 0; i < result->n_logs; i++)
    log_page(&sheet, result, &result->log[i]);
  scwi_sheet_gap(&sheet);
  pairs(&sheet, result);
  if (for_budget) input_lines(&sheet, for_budget);
  scwi_sheet_gap(&sheet);
  scwi_sheet_notes(&sheet, result->notes, result->n_notes);
  scwi_sheet_gap(&sheet);
  scwi_sheet_inputs(&sheet, inputs, result->step, result->unit);
  scwi_sheet_settings(&sheet, &result->settings, 0, NULL);
  return scwi_sheet_send(context, &sheet, sink);
}
