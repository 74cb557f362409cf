/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A panel's scatter with every report of it. */
#include "jobs_inside.h"

static const scw_report_options ways[] = {
    {SCW_TEXT, false, false}, {SCW_TEXT, true, false}, {SCW_JSON, false, false},
    {SCW_CSV, false, false}};
enum { N_WAYS = sizeof ways / sizeof *ways };

static scw_status panel_of(scw_context *context, job_output *out,
                           const char *text, bool each) {
  const scw_panel_options options = {.each = each};
  scw_table *table = NULL;
  scw_panel_result result = {.n_parts = 0};
  scw_settings settings;
  scw_settings_init(&settings);
  scw_status status = job_read(context, out, text, NULL, &table);
  if (status == SCW_OK) {
    status = scw_panel(context, table, &settings, &options, &result);
    job_expect(out, status == SCW_OK || (!result.parts && !result.n_parts &&
                                         !result.notes && !result.sentence),
               "a failed scw_panel leaves its result empty");
  }
  if (status == SCW_OK) {
    job_say(out, scw_panel_design_code(result.parts[0].design));
    job_say(out, scw_positions_code(result.parts[0].positions));
  }
  for (size_t i = 0; i < N_WAYS && status == SCW_OK; i++)
    status = scw_report_panel(context, &result, table, ways[i], job_sink(out));
  scw_panel_result_free(&result);
  scw_panel_result_free(&result); /* twice is allowed */
  scw_table_free(table);
  return status;
}

scw_status job_panel_grid(scw_context *context, job_output *out) {
  return panel_of(context, out,
                  "spot,repeat,gloss (GU)\n"
                  "A1,1,82.4\nA1,2,82.6\nA2,1,81.1\nA2,2,81.4\nA3,1,83.0\n"
                  "B1,1,82.7\nB1,2,82.2\nB2,1,82.2\nB2,2,82.0\nB3,1,81.9\n",
                  false);
}

scw_status job_panel_sets(scw_context *context, job_output *out) {
  return panel_of(context, out,
                  "panel,session,gloss\n"
                  "H1,1,82.4\nH1,1,82.6\nH1,2,82.9\nH2,1,81.1\nH2,1,81.4\n"
                  "H2,2,81.0\nH3,1,83.0\nH3,2,91.7\nH3,2,83.5\n",
                  true);
}

scw_status job_panel_operators(scw_context *context, job_output *out) {
  scw_status status = panel_of(
      context, out,
      "spot,mate 1,mate 2,mate 3\n1,82.4,82.6,82.1\n2,81.1,81.4,81.0\n"
      "1,82.3,82.7,82.2\n2,81.2,81.2,80.9\n",
      false);
  if (status != SCW_OK) return status;
  status = panel_of(context, out,
                    "operator,spot,gloss\ncook,1,82.4\nmate,1,82.6\n"
                    "cook,2,81.1\nmate,2,81.5\ncook,1,82.2\nmate,1,82.7\n"
                    "cook,2,81.3\nmate,2,81.4\n",
                    false);
  if (status != SCW_OK) return status;
  return panel_of(context, out,
                  "operator,gloss\ncook,82.4\ncook,82.6\nmate,81.1\n"
                  "mate,81.5\nskipper,82.0\nskipper,82.3\n",
                  false);
}
