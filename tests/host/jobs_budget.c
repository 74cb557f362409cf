/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Budgets of a bench with everything a budget can hold, in every format. */
#include "jobs_inside.h"

static const char bench_text[] =
    "{\"version\": 1, \"about\": \"shed\", \"inputs\": [\n"
    "{\"name\": \"pull\", \"unit\": \"g\", \"kind\": \"readings\", \"file\": "
    "\"pulls.csv\"},\n"
    "{\"name\": \"back\", \"unit\": \"g\", \"kind\": \"readings\", "
    "\"readings\": [150, 160, 170, 180, 190, 240], \"step\": 10},\n"
    "{\"name\": \"zero\", \"kind\": \"rectangular\", \"value\": 0, "
    "\"half_width\": 5, \"shared\": true},\n"
    "{\"name\": \"span\", \"kind\": \"triangular\", \"value\": 1, "
    "\"half_width\": 0.01},\n"
    "{\"name\": \"block\", \"kind\": \"certificate\", \"value\": 500, "
    "\"expanded\": 1, \"k\": 2, \"shared\": true},\n"
    "{\"name\": \"x\", \"kind\": \"normal\", \"value\": 0, \"uncertainty\": "
    "0.3}],\n"
    "\"correlations\": [{\"between\": [\"span\", \"x\"], \"coefficient\": "
    "0.5}],\n"
    "\"quantities\": [\n"
    "{\"name\": \"friction\", \"measures\": \"friction\", \"unit\": \"1\", "
    "\"model\": \"(pull + back - 2 * zero) * span / (2 * block)\", \"limits\": "
    "{\"low\": 0.1, \"high\": 0.4, \"probability\": 0.95}},\n"
    "{\"name\": \"gloss\", \"measures\": \"gloss\", \"geometry\": \"60\", "
    "\"unit\": \"GU\", \"model\": \"back / 2\", \"limits\": {\"low\": 90, "
    "\"probability\": 0.9}},\n"
    "{\"name\": \"bent\", \"unit\": \"1\", \"model\": \"x^2 + span / 1e3\"},\n"
    "{\"name\": \"flat\", \"unit\": \"1\", \"model\": \"x^2\"},\n"
    "{\"name\": \"lost\", \"unit\": \"1\", \"model\": \"log(zero - 1)\"},\n"
    "{\"name\": \"edge\", \"unit\": \"1\", \"model\": \"sqrt(x + 0.1)\"}]}";

static const scw_report_options ways[] = {
    {SCW_TEXT, false, false}, {SCW_TEXT, true, true}, {SCW_JSON, false, false},
    {SCW_CSV, false, false}};
enum { N_WAYS = sizeof ways / sizeof *ways };

static scw_status budget_of(scw_context *context, job_output *out,
                            const scw_bench *bench, const scw_table *table,
                            const scw_bench_budget_options *options) {
  scw_bench_budget result;
  scw_status status =
      scw_bench_budget_of(context, bench, NULL, options, &result);
  job_expect(out, status == SCW_OK || (!result.quantities && !result.notes),
             "a failed budget leaves its result empty");
  for (size_t i = 0; i < N_WAYS && status == SCW_OK; i++)
    status = scw_report_budget(context, &result, &table, 1, ways[i],
                               job_sink(out));
  scw_bench_budget_free(&result);
  scw_bench_budget_free(&result); /* twice is allowed */
  return status;
}

static scw_status budgets_of(scw_context *context, job_output *out,
                             scw_bench *bench, const scw_table *table) {
  const scw_bench_budget_options fixed = {.trials = {.trials = 2000}};
  const scw_bench_budget_options one = {.quantity = "friction",
                                        .no_trials = true};
  scw_settings settings;
  scw_settings_init(&settings);
  scw_status status =
      scw_bench_take_table(context, bench, 0, table, &settings);
  if (status == SCW_OK) status = budget_of(context, out, bench, table, &fixed);
  if (status == SCW_OK) status = budget_of(context, out, bench, table, &one);
  return status;
}

scw_status job_budget(scw_context *context, job_output *out) {
  job_text source = {bench_text, sizeof bench_text - 1, 0};
  scw_bench bench;
  scw_table *table = NULL;
  scw_status status =
      scw_bench_read(context, job_source(&source, "bench.json"), &bench);
  if (status == SCW_OK)
    status = job_read(context, out,
                      "track,pull (g)\n1,160\n2,150\n3,170\n4,150\n", NULL,
                      &table);
  if (status == SCW_OK) status = budgets_of(context, out, &bench, table);
  scw_table_free(table);
  scw_bench_free(&bench);
  return status;
}
