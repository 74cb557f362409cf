/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A dated log of any bytes: it is refused in words, or answered with days that
 * ascend, stretches that cover them and figures that are finite, in every
 * format. The last byte chooses the options. */
#include <math.h>
#include <string.h>

#include "chopped.h"
#include "scatterwise/scatterwise.h"

static int swallow(void *user, const char *data, size_t size) {
  (void)data;
  *(size_t *)user += size;
  return 0;
}

static void check_figure(scw_figure figure) {
  demand(figure.state < SCW_PRESENCE_END);
  if (figure.state == SCW_PRESENT) demand(isfinite(figure.value));
}

static void check_estimate(const scw_estimate *of) {
  check_figure(of->estimate);
  check_figure(of->standard_uncertainty);
  check_figure(of->df);
  check_figure(of->p);
  if (of->interval.state == SCW_PRESENT)
    demand(of->interval.low <= of->interval.high);
}

static void check_log(const scw_drift_log *log) {
  size_t days = 0, readings = 0;
  demand(log->n_days > 0 && log->n_stretches > 0 && log->sentence[0]);
  for (size_t i = 0; i < log->n_days; i++) {
    readings += log->day[i].readings;
    check_figure(log->day[i].average);
    check_figure(log->day[i].sum_up);
    demand(strlen(log->day[i].date.text) == 10);
    if (i) demand(log->day[i].date.day > log->day[i - 1].date.day);
  }
  for (size_t i = 0; i < log->n_stretches; i++) {
    demand(log->stretch[i].first == days && log->stretch[i].days > 0);
    days += log->stretch[i].days;
    check_estimate(&log->stretch[i].mean);
  }
  demand(days == log->n_days && readings == log->readings);
  for (size_t i = 0; i < log->n_shifts; i++) check_estimate(&log->shift[i].size);
  check_estimate(&log->bias);
  check_estimate(&log->slope);
  check_figure(log->charts.day_sd);
  check_figure(log->drift_half_width);
}

static void check_reports(scw_context *context, const scw_drift_result *result,
                          const scw_table *table) {
  static const scw_format formats[] = {SCW_TEXT, SCW_JSON, SCW_CSV};
  for (size_t i = 0; i < 3; i++) {
    size_t written = 0;
    scw_report_options options = {.format = formats[i], .ascii = true};
    demand(scw_report_drift(context, result, NULL, table, options,
                            (scw_sink){swallow, &written}) == SCW_OK);
    demand(written > 0);
  }
}

static void look_at(scw_context *context, const scw_table *table,
                    uint8_t choice) {
  static const char *const recalibrated[] = {"2026-01-12"};
  scw_drift_options options = {.margin = choice & 1 ? 0.3 : 0,
                               .recalibrated = recalibrated,
                               .n_recalibrated = choice >> 1 & 1};
  if (choice & 4) {
    options.assigned = (scw_figure){92.4, SCW_PRESENT};
    options.assigned_u = 0.3;
    options.limit = 0.5;
  }
  scw_drift_result result;
  scw_status status = scw_drift(context, table, NULL, &options, &result);
  demand(status == SCW_OK || status == SCW_BAD_INPUT);
  if (status != SCW_OK) demand(scw_context_message(context)[0] != 0);
  for (size_t i = 0; i < result.n_logs; i++) check_log(&result.log[i]);
  if (status == SCW_OK) check_reports(context, &result, table);
  scw_drift_result_free(&result);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size) {
  const scw_table_options options = {.log = true};
  scw_context *context;
  scw_table *table;
  if (size == 0 || scw_context_new(&context) != SCW_OK) return 0;
  chopped source = {bytes, size, 0, 0};
  if (scw_table_read(context, &options,
                     (scw_source){read_chopped, &source, "shed"},
                     &table) == SCW_OK)
    look_at(context, table, bytes[size - 1]);
  scw_table_free(table);
  scw_context_free(context);
  return 0;
}
