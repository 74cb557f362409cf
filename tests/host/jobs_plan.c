/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where to read: a spot list with every report of it. */
#include "jobs_inside.h"

static const scw_report_options ways[] = {
    {SCW_TEXT, false, false}, {SCW_JSON, false, false}, {SCW_CSV, false, false}};
enum { N_WAYS = sizeof ways / sizeof *ways };

static scw_status laid_out(scw_context *context, job_output *out,
                           const scw_layout_request *request) {
  scw_layout_result list = {0};
  scw_settings settings;
  scw_settings_init(&settings);
  job_say(out, scw_layout_code(request->layout));
  scw_status status = scw_layout(context, request, &settings, &list);
  job_expect(out, status == SCW_OK || (!list.spots && !list.turns &&
                                       !list.notes && !list.sentence),
             "a failed scw_layout leaves its result empty");
  for (size_t i = 0; i < N_WAYS && status == SCW_OK; i++)
    status = scw_report_layout(context, &list, ways[i], job_sink(out));
  if (status == SCW_OK)
    status = scw_report_template(context, &list, job_sink(out));
  scw_layout_result_free(&list);
  scw_layout_result_free(&list);
  return status;
}

scw_status job_layout(scw_context *context, job_output *out) {
  const scw_layout_request spread = {
      .width = 300, .height = 200, .length_unit = "mm", .spots = 3};
  const scw_layout_request halves = {.width = 200,
                                     .height = 300,
                                     .unit = "GU",
                                     .margin = 20,
                                     .apart = 150,
                                     .spots = 4,
                                     .panels = 2,
                                     .repeats = 2,
                                     .layout = SCW_LAYOUT_RANDOM,
                                     .halves = true,
                                     .blind = true,
                                     .before_after = true};
  scw_status status = laid_out(context, out, &spread);
  return status == SCW_OK ? laid_out(context, out, &halves) : status;
}
