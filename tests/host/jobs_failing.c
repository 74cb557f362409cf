/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Calls that must fail, each with its status and a message. */
#include <math.h>
#include <string.h>

#include "jobs.h"

static scw_status refused_table(scw_context *context, job_output *out,
                                const char *text) {
  scw_table *table = NULL;
  scw_status status = job_read(context, out, text, NULL, &table);
  scw_table_free(table);
  return status;
}

static scw_status empty_file(scw_context *context, job_output *out) {
  return refused_table(context, out, "");
}

static scw_status header_only(scw_context *context, job_output *out) {
  return refused_table(context, out, "spot,gloss (GU)\n");
}

static scw_status words_for_readings(scw_context *context, job_output *out) {
  return refused_table(context, out, "spot,reading\n1,82.4\n2,shiny\n");
}

static scw_status binary_bytes(scw_context *context, job_output *out) {
  static const char bytes[] = "reading\n82.4\n\0\0\1\2\n";
  static const scw_table_options options;
  job_text source = {bytes, sizeof bytes - 1, 0};
  scw_table *table = NULL;
  scw_status status = scw_table_read(context, &options,
                                     job_source(&source, "shed.bin"), &table);
  job_expect(out, table == NULL, "no table from binary bytes");
  scw_table_free(table);
  return status;
}

static scw_status no_such_file(scw_context *context, job_output *out) {
  static const scw_table_options options;
  scw_table *table = NULL;
  scw_status status = scw_table_read_file(
      context, &options, JOB_FILE ".not-there", &table);
  job_expect(out, table == NULL, "no table from a missing file");
  scw_table_free(table);
  return status;
}

static int broken(void *user, char *buffer, size_t size, size_t *got) {
  (void)user;
  (void)buffer;
  (void)size;
  *got = 0;
  return 5; /* EIO */
}

static scw_status source_breaks(scw_context *context, job_output *out) {
  static const scw_table_options options;
  scw_table *table = NULL;
  scw_status status = scw_table_read(
      context, &options, (scw_source){broken, NULL, "broken"}, &table);
  job_expect(out, table == NULL, "no table from a broken source");
  scw_table_free(table);
  return status;
}

static scw_status unknown_column(scw_context *context, job_output *out) {
  scw_table_options options = {.column = {[SCW_ROLE_READING] = "shine"}};
  scw_table *table = NULL;
  scw_status status = job_read(context, out, job_pairs, &options, &table);
  scw_table_free(table);
  return status;
}

static scw_status not_finite(scw_context *context, job_output *out) {
  double values[] = {82.4, NAN};
  scw_table *table = NULL;
  scw_status status =
      scw_table_from_values(context, "values", values, 2, &table);
  job_expect(out, table == NULL, "no table from values that are no numbers");
  scw_table_free(table);
  return status;
}

static scw_status no_threads(scw_context *context, job_output *out) {
  (void)out;
  return scw_context_set_threads(context, 0);
}

static scw_status level_of_one(scw_context *context, job_output *out) {
  scw_table *table = NULL;
  scw_readings_result result = {0};
  scw_settings settings;
  scw_settings_init(&settings);
  settings.level = 1;
  scw_status status = job_read(context, out, job_pairs, NULL, &table);
  if (status == SCW_OK)
    status = scw_readings(context, table, &settings, NULL, 0, &result);
  job_expect(out, !result.sets, "a refused level leaves the result empty");
  scw_readings_result_free(&result);
  scw_table_free(table);
  return status;
}

static scw_status leave_out_nothing(scw_context *context, job_output *out) {
  static const scw_leave_out left = {99, NULL, "smudge"};
  scw_table *table = NULL;
  scw_readings_result result = {0};
  scw_settings settings;
  scw_settings_init(&settings);
  scw_status status = job_read(context, out, "82.4\n82.1\n82.9\n", NULL,
                               &table);
  if (status == SCW_OK)
    status = scw_readings(context, table, &settings, &left, 1, &result);
  job_expect(out, !result.sets, "a refused leave-out leaves no result");
  scw_readings_result_free(&result);
  scw_table_free(table);
  return status;
}

static scw_status change_with(scw_context *context, job_output *out,
                              const char *text, scw_change_options options) {
  scw_table *table = NULL;
  scw_change_result result = {0};
  scw_settings settings;
  scw_settings_init(&settings);
  scw_status status = job_read(context, out, text, NULL, &table);
  if (status == SCW_OK)
    status = scw_change(context, table, &settings, &options, &result);
  job_expect(out, !result.changes, "a refused change leaves no result");
  scw_change_result_free(&result);
  scw_table_free(table);
  return status;
}

static scw_status one_side_only(scw_context *context, job_output *out) {
  return change_with(context, out, "82.4\n82.1\n82.9\n",
                     (scw_change_options){0});
}

static scw_status margin_below_zero(scw_context *context, job_output *out) {
  return change_with(context, out, job_pairs,
                     (scw_change_options){.margin = -1});
}

static scw_status block_of_nothing(scw_context *context, job_output *out) {
  return change_with(context, out, job_pulls,
                     (scw_change_options){.has_block = true, .block = -5});
}

static scw_status bench_with(scw_context *context, job_output *out,
                             const char *text) {
  scw_bench bench;
  job_text source = {text, strlen(text), 0};
  scw_status status =
      scw_bench_read(context, job_source(&source, "bench.json"), &bench);
  job_expect(out, !bench.name && !bench.scatter && !bench.input,
             "a refused bench is empty");
  scw_bench_free(&bench);
  return status;
}

static scw_status bench_broken(scw_context *context, job_output *out) {
  return bench_with(context, out, "{\"version\": 01}");
}

#define A "{\"name\": \"a\", \"kind\": \"normal\", \"value\": 1, \"uncertainty\": 1}"

static scw_status bench_unknown_name(scw_context *context, job_output *out) {
  return bench_with(context, out,
                    "{\"version\": 1, \"inputs\": [" A "], \"quantities\": "
                    "[{\"name\": \"q\", \"unit\": \"1\", \"model\": \"a * b\"}]}");
}

static scw_status bench_correlated_with_itself(scw_context *context,
                                               job_output *out) {
  return bench_with(context, out,
                    "{\"version\": 1, \"inputs\": [" A "], \"correlations\": "
                    "[{\"between\": [\"a\", \"a\"], \"coefficient\": 1}]}");
}
#undef A

static scw_status input_of_nothing(scw_context *context, job_output *out) {
  static const scw_bench_input input = {.given = {.name = "a"}};
  scw_bench bench = {0};
  scw_status status = scw_bench_put_input(context, &bench, &input);
  job_expect(out, bench.n_inputs == 0, "a refused input is not put in");
  scw_bench_free(&bench);
  return status;
}

static scw_status readings_of_no_file(scw_context *context, job_output *out) {
  static const double values[] = {1, 2};
  scw_bench bench = {0};
  scw_status status = scw_bench_take_readings(
      context, &bench, 0, values, 2, (scw_step){0, SCW_STEP_UNSET});
  job_expect(out, bench.n_inputs == 0, "a refused taking leaves no input");
  return status;
}

static scw_status quantity_of_nothing(scw_context *context, job_output *out) {
  static const scw_bench bench;
  const scw_bench_quantity *found;
  scw_status status = scw_bench_find_quantity(context, &bench, "q", &found);
  job_expect(out, !found, "no quantity of an empty bench");
  return status;
}

static scw_status bench_unknown_key(scw_context *context, job_output *out) {
  return bench_with(context, out, "{\"version\": 1, \"scater\": []}");
}

static scw_status scatter_of_zero(scw_context *context, job_output *out) {
  static const scw_bench_scatter entry = {.panel_type = "hull",
                                          .quantity = "gloss",
                                          .unit = "GU",
                                          .df = 3,
                                          .sets = 1,
                                          .date = "2026-03-14"};
  scw_bench bench = {0};
  scw_status status = scw_bench_put_scatter(context, &bench, &entry);
  job_expect(out, bench.n_scatter == 0, "a refused entry is not put in");
  scw_bench_free(&bench);
  return status;
}

static scw_status plan_without_sd(scw_context *context, job_output *out) {
  scw_plan_request request = {.goal = SCW_PLAN_DETECT, .target = 1, .sd = 0};
  scw_plan_result result = {0};
  scw_settings settings;
  scw_settings_init(&settings);
  scw_status status = scw_plan(context, &request, "GU", &settings, &result);
  job_expect(out, !result.sentence, "a refused plan leaves no result");
  scw_plan_result_free(&result);
  return status;
}

static int refuse(void *user, const char *data, size_t size) {
  (void)user;
  (void)data;
  (void)size;
  return 1;
}

static scw_status full_disk(scw_context *context, job_output *out) {
  scw_plan_request request = {.goal = SCW_PLAN_DETECT, .target = 1, .sd = 1};
  scw_plan_result result = {0};
  scw_settings settings;
  scw_settings_init(&settings);
  (void)out;
  scw_status status = scw_plan(context, &request, "GU", &settings, &result);
  if (status == SCW_OK)
    status = scw_report_plan(context, &result, NULL,
                             (scw_report_options){.format = SCW_JSON},
                             (scw_sink){refuse, NULL});
  scw_plan_result_free(&result);
  return status;
}

const failing_job failing_jobs[] = {
    {"empty file", SCW_BAD_INPUT, empty_file},
    {"header only", SCW_BAD_INPUT, header_only},
    {"words for readings", SCW_BAD_INPUT, words_for_readings},
    {"binary bytes", SCW_BAD_INPUT, binary_bytes},
    {"no such file", SCW_BAD_INPUT, no_such_file},
    {"source breaks", SCW_BAD_INPUT, source_breaks},
    {"unknown column", SCW_BAD_ARGUMENT, unknown_column},
    {"value that is no number", SCW_BAD_INPUT, not_finite},
    {"no threads", SCW_BAD_ARGUMENT, no_threads},
    {"level of one", SCW_BAD_ARGUMENT, level_of_one},
    {"leave out a reading that is not there", SCW_BAD_ARGUMENT,
     leave_out_nothing},
    {"change of one side", SCW_BAD_INPUT, one_side_only},
    {"margin below zero", SCW_BAD_ARGUMENT, margin_below_zero},
    {"block of nothing", SCW_BAD_ARGUMENT, block_of_nothing},
    {"bench file that is no JSON", SCW_BAD_INPUT, bench_broken},
    {"bench file with an unknown key", SCW_BAD_INPUT, bench_unknown_key},
    {"model with an unknown name", SCW_BAD_INPUT, bench_unknown_name},
    {"input correlated with itself", SCW_BAD_INPUT,
     bench_correlated_with_itself},
    {"input of nothing into a bench", SCW_BAD_INPUT, input_of_nothing},
    {"readings for an input without a file", SCW_BAD_ARGUMENT,
     readings_of_no_file},
    {"quantity of an empty bench", SCW_BAD_INPUT, quantity_of_nothing},
    {"scatter of zero into a bench", SCW_BAD_ARGUMENT, scatter_of_zero},
    {"plan without scatter", SCW_BAD_ARGUMENT, plan_without_sd},
    {"full disk", SCW_NOT_WRITTEN, full_disk}};
const size_t n_failing_jobs = sizeof failing_jobs / sizeof *failing_jobs;
