/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An old meter beside a new one, with every report of it. */
#include "jobs_inside.h"

static const scw_report_options ways[] = {
    {SCW_TEXT, false, false}, {SCW_TEXT, true, false}, {SCW_JSON, false, false},
    {SCW_CSV, false, false}};
enum { N_WAYS = sizeof ways / sizeof *ways };

static const char repeats[] =
    "item,kind,old 1 (GU),old 2 (GU),new 1 (GU),new 2 (GU)\n"
    "K1,product,58.1,58.4,59.2,59.0\nK2,product,63.4,63.9,65.3,65.0\n"
    "K3,product,71.0,70.2,71.6,71.7\nK4,product,78.4,78.1,80.8,81.0\n"
    "K5,product,86.5,86.2,88.1,88.6\nK6,product,90.1,,,\n"
    "H0,bare,55.6,54.4,55.1,55.2\nH1,bare,55.2,55.4,55.0,55.3\n";

static const char only_bare[] =
    "method,gloss (GU)\nold,55.1\nold,55.3\nold,54.9\nnew,55.2\nnew,55.5\n"
    "new,55.1\n";

static scw_status read_old(scw_context *context, job_output *out,
                           scw_old_results *old) {
  static const char text[] =
      "product,n,mean (GU),sd\nD1,5,66.4,0.4\nD2,3,81.9,0.5\nD3,2,99,0.5\n";
  job_text source = {text, sizeof text - 1, 0};
  scw_status status = scw_old_results_read(
      context, NULL, job_source(&source, "old.csv"), old);
  job_expect(out, status == SCW_OK || (!old->result && !old->n && !old->account),
             "a failed scw_old_results_read leaves its result empty");
  return status;
}

static scw_status bridge_of(scw_context *context, job_output *out,
                            const char *text, const scw_bridge_options *options,
                            const scw_table *account) {
  const scw_table_options reading = {
      .before_label = "old*", .after_label = "new*", .bridge = true};
  scw_table *table = NULL;
  scw_bridge_result result = {.n_items = 0};
  scw_settings settings;
  scw_settings_init(&settings);
  scw_status status = job_read(context, out, text, &reading, &table);
  if (status == SCW_OK) {
    status = scw_bridge(context, table, &settings, options, &result);
    job_expect(out, status == SCW_OK || (!result.item && !result.n_items &&
                                         !result.notes && !result.sentence),
               "a failed scw_bridge leaves its result empty");
  }
  if (status == SCW_OK) {
    job_say(out, scw_comparable_code(result.comparable));
    job_say(out, scw_ratio_origin_code(result.error_ratio_origin));
  }
  for (size_t i = 0; i < N_WAYS && status == SCW_OK; i++)
    status = scw_report_bridge(context, &result, table, account, ways[i],
                               job_sink(out));
  scw_bridge_result_free(&result);
  scw_bridge_result_free(&result); /* twice is allowed */
  scw_table_free(table);
  return status;
}

scw_status job_bridge(scw_context *context, job_output *out) {
  static const char *const bare[] = {"H1"};
  static const scw_bridge_fence fence[] = {{"2026-03-14", "new meter"},
                                           {"1 March 2026", "new rig"}};
  scw_old_results old = {0};
  scw_status status = read_old(context, out, &old);
  scw_bridge_options options = {.margin = 2,
                                .baseline = bare,
                                .n_baseline = 1,
                                .fence = fence,
                                .n_fence = 2,
                                .convert = old.result,
                                .n_convert = old.n};
  if (status == SCW_OK)
    status = bridge_of(context, out, repeats, &options, old.account);
  options.weighted = true;
  if (status == SCW_OK)
    status = bridge_of(context, out, repeats, &options, NULL);
  if (status == SCW_OK) status = bridge_of(context, out, only_bare, NULL, NULL);
  scw_old_results_free(&old);
  scw_old_results_free(&old); /* twice is allowed */
  return status;
}
