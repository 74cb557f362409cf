/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dated logs with every report of them. */
#include "jobs_inside.h"

static const scw_report_options ways[] = {
    {SCW_TEXT, false, false}, {SCW_TEXT, true, false}, {SCW_JSON, false, false},
    {SCW_CSV, false, false}};
enum { N_WAYS = sizeof ways / sizeof *ways };

static const char one_tile[] =
    "date,tile,reading (GU),note\n"
    "2026-01-05,T1,92.3,\n2026-01-05,T1,92.4,\n2026-01-12,T1,92.3,\n"
    "2026-01-19,T1,92.2,\n2026-01-26,T1,92.4,\n2026-02-02,T1,92.3,\n"
    "2026-02-09,T1,92.4,\n2026-02-16,T1,91.9,warm\n2026-02-23,T1,91.8,\n"
    "2026-03-02,T1,91.9,\n2026-03-09,T1,91.8,\n2026-03-16,T1,91.9,\n"
    "2026-03-20,T1,,recalibrated\n2026-03-23,T1,92.3,\n2026-03-30,T1,92.4,\n"
    "2026-04-06,T1,92.3,\n2026-04-13,T1,92.4,\n2026-04-20,T1,92.3,\n"
    "2026-04-27,T1,92.2,\n2026-05-04,T1,92.3,\n2026-05-11,T1,92.4,\n";

static const char two_meters[] =
    "date,meter,gloss\n2 Jan 2026,M1,92.3\n2 Jan 2026,M2,92.9\n"
    "9 Jan 2026,M2,92.8\n9 Jan 2026,M1,92.2\n16 Jan 2026,M1,92.5\n"
    "16 Jan 2026,M2,92.9\n23 Jan 2026,M1,92.4\n";

static scw_status drift_of(scw_context *context, job_output *out,
                           const char *text,
                           const scw_drift_options *options) {
  const scw_table_options reading = {.log = true};
  scw_table *table = NULL;
  scw_drift_result result = {.n_logs = 0};
  scw_drift_inputs inputs = {.n = 0};
  scw_settings settings;
  scw_settings_init(&settings);
  scw_status status = job_read(context, out, text, &reading, &table);
  if (status == SCW_OK) {
    for (size_t i = 0; i < scw_table_events(table); i++)
      job_say(out, scw_table_label(table, scw_table_event(table, i)->event));
    status = scw_drift(context, table, &settings, options, &result);
    job_expect(out, status == SCW_OK || (!result.log && !result.n_logs &&
                                         !result.notes && !result.sentence),
               "a failed scw_drift leaves its result empty");
  }
  if (status == SCW_OK)
    status = scw_drift_inputs_of(context, result.log, "tile", &inputs);
  if (status == SCW_OK)
    job_say(out, scw_drift_start_code(result.log->fence_from));
  for (size_t i = 0; i < N_WAYS && status == SCW_OK; i++)
    status = scw_report_drift(context, &result, i ? &inputs : NULL, table,
                              ways[i], job_sink(out));
  scw_drift_result_free(&result);
  scw_drift_result_free(&result); /* twice is allowed */
  scw_table_free(table);
  return status;
}

scw_status job_drift(scw_context *context, job_output *out) {
  static const char *const days[] = {"2026-01-16"};
  const scw_drift_options tile = {.assigned = {92.4, SCW_PRESENT},
                                  .assigned_u = 0.3,
                                  .assigned_k = 2,
                                  .limit = 0.4,
                                  .margin = 0.3};
  const scw_drift_options meters = {.recalibrated = days, .n_recalibrated = 1};
  scw_date date;
  scw_status status = scw_date_read(context, "14 March 2026", &date);
  if (status == SCW_OK) job_say(out, date.text);
  if (status == SCW_OK) status = drift_of(context, out, one_tile, &tile);
  if (status == SCW_OK) status = drift_of(context, out, two_meters, &meters);
  if (status == SCW_OK) status = drift_of(context, out, two_meters, NULL);
  return status;
}
