/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The three questions with every report of their answers. */
#include <stdio.h>
#include <string.h>

#include "jobs_inside.h"

static const scw_report_options ways[] = {
    {SCW_TEXT, false, false}, {SCW_TEXT, true, false}, {SCW_TEXT, false, true},
    {SCW_JSON, false, false}, {SCW_CSV, false, false}};
enum { N_WAYS = sizeof ways / sizeof *ways };

static scw_status readings_of(scw_context *context, job_output *out,
                              const char *text, const scw_leave_out *left,
                              size_t n_left) {
  scw_table *table = NULL;
  scw_readings_result result = {0};
  scw_settings settings;
  scw_settings_init(&settings);
  scw_status status = job_read(context, out, text, NULL, &table);
  if (status == SCW_OK) {
    status = scw_readings(context, table, &settings, left, n_left, &result);
    job_expect(out, status == SCW_OK || (!result.sets && result.n_sets == 0 &&
                                         !result.notes),
               "a failed scw_readings leaves its result empty");
  }
  for (size_t i = 0; i < N_WAYS && status == SCW_OK; i++)
    status = scw_report_readings(context, &result, table, ways[i],
                                 job_sink(out));
  scw_readings_result_free(&result);
  scw_readings_result_free(&result); /* twice is allowed */
  scw_table_free(table);
  return status;
}

scw_status job_readings_of_pairs(scw_context *context, job_output *out) {
  return readings_of(context, out, job_pairs, NULL, 0);
}

scw_status job_readings_of_list(scw_context *context, job_output *out) {
  return readings_of(context, out, "82.4 81.9 83.0 82.2 81.7 97.5\n", NULL, 0);
}

scw_status job_readings_left_out(scw_context *context, job_output *out) {
  static const scw_leave_out left = {6, NULL, "fingerprint"};
  return readings_of(context, out, "82.4\n81.9\n83.0\n82.2\n81.7\n97.5\n",
                     &left, 1);
}

scw_status job_readings_degenerate(scw_context *context, job_output *out) {
  scw_status status =
      readings_of(context, out, "set,gloss\na,82\nb,1\nb,1\nc,5\nc,6\n", NULL,
                  0);
  return status == SCW_NO_FIGURE ? SCW_OK : status;
}

scw_status job_brief(scw_context *context, job_output *out) {
  static const scw_table_options options;
  const char *text = "set,reading\na,82.4\nb,81.9\na,82.6\nb,81.2\na,82.1\n";
  job_text source = {text, strlen(text), 0};
  scw_brief_result result = {0};
  scw_settings settings;
  scw_settings_init(&settings);
  scw_status status =
      scw_readings_brief(context, &options, &settings,
                         job_source(&source, "shed.csv"), &result);
  job_expect(out, status == SCW_OK || (!result.sets && !result.memory),
             "a failed scw_readings_brief leaves its result empty");
  for (size_t i = 0; i < N_WAYS && status == SCW_OK; i++)
    status = scw_report_brief(context, &result, ways[i], job_sink(out));
  scw_brief_result_free(&result);
  scw_brief_result_free(&result);
  return status;
}

/* Long enough for the quick way, with lines that only the reader can take. One
 * thread: the C library keeps some memory of its first other thread. */
scw_status job_brief_long(scw_context *context, job_output *out) {
  static _Thread_local char text[500000]; /* jobs run in two threads at once */
  static const char *const odd[] = {",81.5\n", "b,-\n", "# x\n", "c,80.25\n"};
  size_t length = (size_t)sprintf(text, "set,reading\n");
  for (unsigned i = 0; length + 40 < sizeof text; i++)
    length += (size_t)sprintf(text + length, "s%u,8%u.%u\n%s", i / 40 % 90,
                              i % 10, i % 7,
                              i % 3000 ? "" : odd[i / 3000 % 4]);
  job_text source = {text, length, 0};
  scw_brief_result result = {0};
  scw_context_set_threads(context, 1);
  scw_status status = scw_readings_brief(
      context, NULL, NULL, job_source(&source, "shed.csv"), &result);
  job_expect(out, status == SCW_OK || (!result.sets && !result.memory),
             "a failed scw_readings_brief leaves its result empty");
  if (status == SCW_OK)
    status = scw_report_brief(context, &result, ways[0], job_sink(out));
  scw_brief_result_free(&result);
  return status;
}

static scw_status change_of(scw_context *context, job_output *out,
                            const char *text,
                            const scw_change_options *options) {
  scw_table *table = NULL;
  scw_change_result result = {0};
  scw_settings settings;
  scw_settings_init(&settings);
  scw_status status = job_read(context, out, text, NULL, &table);
  if (status == SCW_OK) {
    status = scw_change(context, table, &settings, options, &result);
    job_expect(out, status == SCW_OK || (!result.changes && !result.notes &&
                                         result.n_changes == 0),
               "a failed scw_change leaves its result empty");
  }
  for (size_t i = 0; i < N_WAYS && status == SCW_OK; i++)
    status =
        scw_report_change(context, &result, table, ways[i], job_sink(out));
  scw_change_result_free(&result);
  scw_change_result_free(&result);
  scw_table_free(table);
  return status;
}

scw_status job_change_paired(scw_context *context, job_output *out) {
  static const scw_change_options options = {.margin = 0.5};
  return change_of(context, out, job_pairs, &options);
}

scw_status job_change_products(scw_context *context, job_output *out) {
  static const scw_change_options options = {.retention = true};
  return change_of(context, out, job_long, &options);
}

scw_status job_change_friction(scw_context *context, job_output *out) {
  static const scw_change_options options = {.has_block = true, .block = 1000};
  return change_of(context, out, job_pulls, &options);
}

scw_status job_change_control(scw_context *context, job_output *out) {
  static const scw_change_options options = {.control = "K2", .margin = 0.5};
  return change_of(context, out, job_long, &options);
}

scw_status job_change_baseline(scw_context *context, job_output *out) {
  static const scw_change_options options = {
      .has_baseline = true, .baseline = {.mean = 80, .step = 0.1}};
  return change_of(context, out, "82.4\n81.9\n83.0\n82.2\n81.7\n", &options);
}

scw_status job_change_from_numbers(scw_context *context, job_output *out) {
  static const scw_given_change given[] = {
      {"K1", {82.1, true, 0.6, 8, 0.1}, {84.0, true, 0.9, 8, 0.1}},
      {"K2", {82.1, false, 0, 10, 0.1}, {82.9, false, 0, 10, 0.1}}};
  static const scw_change_options options;
  scw_change_result result = {0};
  scw_settings settings;
  scw_settings_init(&settings);
  scw_status status = scw_change_from_numbers(
      context, given, 2, "GU", "gloss", &settings, &options, &result);
  job_expect(out, status == SCW_OK || (!result.changes && !result.notes),
             "a failed scw_change_from_numbers leaves its result empty");
  for (size_t i = 0; i < N_WAYS && status == SCW_OK; i++)
    status =
        scw_report_change(context, &result, NULL, ways[i], job_sink(out));
  scw_change_result_free(&result);
  return status;
}

static scw_status plan_of(scw_context *context, job_output *out,
                          scw_plan_request request) {
  scw_plan_result result = {0};
  scw_settings settings;
  scw_settings_init(&settings);
  scw_status status = scw_plan(context, &request, "GU", &settings, &result);
  job_expect(out, status == SCW_OK || (!result.sentence && !result.notes),
             "a failed scw_plan leaves its result empty");
  for (size_t i = 0; i < N_WAYS && status == SCW_OK; i++)
    status = scw_report_plan(context, &result, NULL, ways[i], job_sink(out));
  scw_plan_result_free(&result);
  scw_plan_result_free(&result);
  return status;
}

scw_status job_plans(scw_context *context, job_output *out) {
  static const scw_plan_request requests[] = {
      {.goal = SCW_PLAN_HALF_WIDTH, .target = 0.5, .sd = 0.8},
      {.goal = SCW_PLAN_DETECT, .target = 0.5, .sd = 0.8, .sd_after = 1.1},
      {.goal = SCW_PLAN_WITHIN, .target = 0.5, .sd = 0.3, .paired = true},
      {.goal = SCW_PLAN_READINGS, .readings = 8, .sd = 0.8},
      {.goal = SCW_PLAN_DETECT, .target = 0.5, .sd = 0.8, .pilot_readings = 6},
      {.goal = SCW_PLAN_DETECT, .target = 1e-9, .sd = 0.8}};
  scw_status status = SCW_OK;
  for (size_t i = 0; i < sizeof requests / sizeof *requests; i++)
    if (status == SCW_OK) status = plan_of(context, out, requests[i]);
  return status;
}

scw_status job_plan_split(scw_context *context, job_output *out) {
  scw_plan_request request = {.goal = SCW_PLAN_DETECT,
                              .target = 0.8,
                              .sd = 0.5,
                              .sd_after = 1.1,
                              .unequal = true};
  return plan_of(context, out, request);
}

scw_status job_plan_spots(scw_context *context, job_output *out) {
  scw_table *table = NULL;
  scw_plan_scatter scatter;
  scw_settings settings;
  scw_settings_init(&settings);
  scw_status status = job_read(context, out, job_repeats, NULL, &table);
  if (status == SCW_OK)
    status = scw_plan_scatter_of(context, table, &settings, &scatter);
  scw_table_free(table);
  if (status != SCW_OK) return status;
  scw_plan_request request = {.goal = SCW_PLAN_HALF_WIDTH,
                              .target = 0.5,
                              .scatter = &scatter,
                              .cost_spot = 3,
                              .cost_repeat = 1,
                              .cost_unit = "min",
                              .fits = scw_spots_that_fit(300, 200, 10, 40)};
  status = plan_of(context, out, request);
  request.goal = SCW_PLAN_DETECT;
  request.paired = true;
  return status == SCW_OK ? plan_of(context, out, request) : status;
}

scw_status job_change_summaries(scw_context *context, job_output *out) {
  static const char text[] =
      "product,state,n,mean gloss (GU),sd,glow\nK1,before,10,83.5,0.6,7\n"
      "K1,after,10,85.0,0.7,8\nK2,before,9,83,,\nK2,after,9,83.6,0.7,\n";
  job_text source = {text, sizeof text - 1, 0};
  scw_given_changes given = {0};
  scw_change_result result = {0};
  scw_status status = scw_given_changes_read(
      context, NULL, job_source(&source, "shed.csv"), NULL, &given);
  job_expect(out, status == SCW_OK || (!given.change && !given.account),
             "a failed scw_given_changes_read leaves its result empty");
  if (status == SCW_OK)
    status = scw_change_from_given(context, &given, NULL, NULL, &result);
  for (size_t i = 0; i < N_WAYS && status == SCW_OK; i++)
    status = scw_report_change(context, &result, given.account, ways[i],
                               job_sink(out));
  scw_change_result_free(&result);
  scw_given_changes_free(&given);
  scw_given_changes_free(&given);
  return status;
}

scw_status job_plan_grid(scw_context *context, job_output *out) {
  static const char text[] = "effect;sd\n0,5;0,6\n1;0,5\n";
  job_text source = {text, sizeof text - 1, 0};
  scw_plan_grid_result result = {0};
  scw_status status = scw_plan_grid(
      context, NULL, job_source(&source, "shed.csv"), NULL, &result);
  job_expect(out, status == SCW_OK || (!result.row && !result.account),
             "a failed scw_plan_grid leaves its result empty");
  if (status == SCW_OK)
    status = scw_report_plan_grid(context, &result, job_sink(out));
  scw_plan_grid_result_free(&result);
  scw_plan_grid_result_free(&result);
  return status;
}
