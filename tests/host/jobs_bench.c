/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bench file: read, added to, written, and a change judged on it. */
#include <string.h>

#include "jobs_inside.h"

static const char bench_text[] =
    "{\"version\": 1, \"about\": \"the shed's\", \"inputs\": ["
    "{\"name\": \"pull\", \"kind\": \"readings\", \"readings\": [160.0, 150, 170], "
    "\"unit\": \"g\"}, {\"name\": \"tare\", \"kind\": \"readings\", \"file\": "
    "\"tare.csv\"}, {\"name\": \"block\", \"kind\": \"certificate\", \"value\": "
    "500, \"expanded\": 1, \"k\": 2, \"shared\": true}], \"correlations\": "
    "[{\"between\": [\"pull\", \"block\"], \"coefficient\": 0.5}], "
    "\"quantities\": [{\"name\": \"friction\", \"measures\": \"friction\", "
    "\"unit\": \"1\", \"model\": \"(pull - tare) / block\", \"margin\": 0.02, "
    "\"limits\": {\"low\": 0.1, \"probability\": 0.95}}], "
    "\"scatter\": [{\"panel_type\": \"hull \\u00e9\", "
    "\"quantity\": \"gloss\", \"unit\": \"GU\", \"geometry\": \"60\", "
    "\"sd\": 0.62, \"df\": 80, \"sets\": 20, \"date\": \"2026-03-14\"}]}";

static scw_status read_bench(scw_context *context, job_output *out,
                             scw_bench *bench) {
  job_text source = {bench_text, sizeof bench_text - 1, 0};
  scw_status status =
      scw_bench_read(context, job_source(&source, "bench.json"), bench);
  job_expect(out, status == SCW_OK || (!bench->name && !bench->scatter &&
                                     !bench->input && !bench->quantity),
             "scw_bench_read leaves nothing behind when it fails");
  return status;
}

static scw_status plan_from(scw_context *context, job_output *out,
                            const scw_bench *bench) {
  const scw_plan_request request = {.goal = SCW_PLAN_DETECT,
                                    .target = 20,
                                    .bench = bench,
                                    .bank = {.panel_type = "transom"}};
  scw_plan_result result = {0};
  scw_status status = scw_plan(context, &request, NULL, NULL, &result);
  if (status == SCW_OK)
    status = scw_report_plan(context, &result, NULL,
                             (scw_report_options){.format = SCW_TEXT},
                             job_sink(out));
  scw_plan_result_free(&result);
  return status;
}

/* Two products, one input that cancels, two that are correlated, one of which
 * nothing is said. */
static const char instruments_text[] =
    "{\"version\": 1, \"inputs\": [{\"name\": \"shown\", \"kind\": "
    "\"readings\", \"file\": \"x.csv\"}, {\"name\": \"zero\", \"kind\": "
    "\"rectangular\", \"value\": 0, \"half_width\": 0.3, \"shared\": true}, "
    "{\"name\": \"span\", \"kind\": \"normal\", \"value\": 1, "
    "\"uncertainty\": 0.01, \"shared\": true}, {\"name\": \"tile\", \"kind\": "
    "\"t\", \"value\": 92, \"uncertainty\": 0.2, \"df\": 5}], "
    "\"correlations\": [{\"between\": [\"span\", \"tile\"], "
    "\"coefficient\": 0.5}], \"quantities\": [{\"name\": \"gloss\", "
    "\"measures\": \"gloss\", \"unit\": \"GU\", \"model\": "
    "\"(shown - zero) * span * 92 / tile\", \"margin\": 0.5}], "
    "\"scatter\": []}";

scw_status job_change_instruments(scw_context *context, job_output *out) {
  job_text source = {instruments_text, sizeof instruments_text - 1, 0};
  scw_table *table = NULL;
  scw_bench bench = {.name = NULL};
  scw_change_result result = {.n_changes = 0};
  scw_change_options options = {.instruments = &bench};
  scw_status status =
      scw_bench_read(context, job_source(&source, "bench.json"), &bench);
  if (status == SCW_OK)
    status = job_read(context, out, job_long, NULL, &table);
  if (status == SCW_OK) {
    status = scw_change(context, table, NULL, &options, &result);
    job_expect(out, status == SCW_OK || (!result.changes && !result.quantity),
               "a failed scw_change leaves its result empty");
  }
  for (int format = SCW_TEXT; format <= SCW_CSV && status == SCW_OK; format++)
    status = scw_report_change(
        context, &result, table,
        (scw_report_options){.format = (scw_format)format}, job_sink(out));
  scw_change_result_free(&result);
  scw_table_free(table);
  scw_bench_free(&bench);
  return status;
}

/* An input, new and once more, readings for another, a quantity. */
static scw_status inputs_of(scw_context *context, job_output *out,
                            scw_bench *bench) {
  static const double tares[] = {1.5, -0.5, 0.5};
  scw_bench_input bias = {.given = {.name = "meter_bias",
                                    .kind = SCW_KIND_NORMAL,
                                    .value = 0.3,
                                    .uncertainty = 0.1}};
  const scw_bench_quantity *found = NULL;
  scw_status status = SCW_OK;
  for (int turn = 0; turn < 2 && status == SCW_OK; turn++) {
    size_t before = bench->n_inputs;
    status = scw_bench_put_input(context, bench, &bias);
    job_expect(out, status == SCW_OK || bench->n_inputs == before,
               "an input that cannot be put in leaves the bench as it was");
  }
  if (status == SCW_OK)
    status = scw_bench_take_readings(context, bench, 1, tares, 3,
                                     (scw_step){1, SCW_STEP_INFERRED});
  job_expect(out, status == SCW_OK || bench->input[1].given.n == 0,
             "readings that cannot be taken leave the bench as it was");
  if (status == SCW_OK) {
    job_bits(out, bench->input[1].given.sd);
    status = scw_bench_find_quantity(context, bench, NULL, &found);
  }
  if (found) job_say(out, scw_measures_code(found->measures));
  if (found) job_say(out, scw_measures_text(found->measures));
  return status;
}

scw_status job_bench(scw_context *context, job_output *out) {
  const scw_bench_scatter more = {.panel_type = "transom",
                                  .quantity = "pull",
                                  .unit = "g",
                                  .sd = 12,
                                  .df = 40,
                                  .sets = 10,
                                  .date = "2026-03-15"};
  const scw_scatter_wanted wanted = {.panel_type = "transom", .unit = "g"};
  const scw_bench_scatter *found = NULL;
  scw_bench bench;
  scw_status status = read_bench(context, out, &bench);
  for (int turn = 0; turn < 2 && status == SCW_OK; turn++) {
    size_t before = bench.n_scatter;
    status = scw_bench_put_scatter(context, &bench, &more);
    job_expect(out, status == SCW_OK || bench.n_scatter == before,
               "an entry that cannot be put in leaves the bench as it was");
  }
  if (status == SCW_OK)
    status = scw_bench_find_scatter(context, &bench, &wanted, &found);
  if (found) job_bits(out, found->sd);
  if (status == SCW_OK) status = plan_from(context, out, &bench);
  if (status == SCW_OK) status = inputs_of(context, out, &bench);
  if (status == SCW_OK)
    status = scw_bench_write(context, &bench, job_sink(out));
  scw_bench_free(&bench);
  return status;
}

static scw_status report(scw_context *context, job_output *out,
                         const scw_table *table,
                         const scw_change_result *result) {
  static const scw_format formats[] = {SCW_TEXT, SCW_JSON, SCW_CSV};
  scw_status status = SCW_OK;
  for (size_t i = 0; i < 3 && status == SCW_OK; i++)
    status = scw_report_change(context, result, table,
                               (scw_report_options){.format = formats[i]},
                               job_sink(out));
  return status;
}

scw_status job_change_scatter(scw_context *context, job_output *out) {
  static const scw_table_options at_60 = {.geometry = "60"};
  scw_table *table = NULL;
  scw_bench bench = {0};
  scw_change_result result = {0};
  scw_status status = job_read(context, out,
                               "state,gloss (GU)\nbefore,82.4\nbefore,81.9\n"
                               "before,83.0\nafter,83.1\nafter,83.6\n",
                               &at_60, &table);
  if (status == SCW_OK) status = read_bench(context, out, &bench);
  scw_change_options options = {.bench = &bench};
  if (status == SCW_OK)
    status = scw_change(context, table, NULL, &options, &result);
  if (status == SCW_OK) status = report(context, out, table, &result);
  scw_change_result_free(&result);
  scw_bench_free(&bench);
  scw_table_free(table);
  return status;
}
