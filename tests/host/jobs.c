/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "jobs_inside.h"

const char job_pairs[] =
    "spot,before,after\n"
    "1,82.4,84.1\n2,81.9,83.6\n3,83.0,84.0\n4,82.2,84.4\n5,81.7,83.1\n"
    "6,82.8,84.9\n";

const char job_long[] =
    "product,state,spot,gloss (GU)\n"
    "K1,before,1,81.2\nK1,before,2,80.7\nK1,before,3,81.9\nK1,before,4,80.9\n"
    "K1,after,1,84.0\nK1,after,2,83.1\nK1,after,3,84.6\nK1,after,4,83.8\n"
    "K2,before,1,82.0\nK2,before,2,81.1\nK2,before,3,81.6\nK2,before,4,82.9*\n"
    "K2,after,1,82.2\nK2,after,2,81.5\nK2,after,3,81.4\nK2,after,4,82.1\n";

const char job_pulls[] =
    "state,pull [g]\n"
    "before,410\nbefore,420\nbefore,400\nbefore,420\nbefore,430\n"
    "after,310\nafter,330\nafter,320\nafter,300\nafter,320\n";

const char job_repeats[] =
    "spot,repeat,gloss\n"
    "1,1,82.4\n1,2,82.6\n2,1,81.1\n2,2,81.4\n3,1,83.0\n3,2,82.7\n"
    "4,1,82.2\n4,2,82.2\n";

const char job_commas[] =
    "spot;before;after\n1;82,4;84,1\n2;81,9;83,6\n3;83,0;84,0\n"
    "4;82,2;84,4\n";

static int take(void *user, const char *data, size_t size) {
  job_output *out = user;
  if (size >= JOB_ROOM - out->length) return 1;
  memcpy(out->text + out->length, data, size);
  out->length += size;
  out->text[out->length] = 0;
  return 0;
}

scw_sink job_sink(job_output *out) { return (scw_sink){take, out}; }

/* Hands out small pieces, so that block borders fall inside cells. */
static int give(void *user, char *buffer, size_t size, size_t *got) {
  job_text *text = user;
  size_t left = text->size - text->at, piece = size < 7 ? size : 7;
  *got = left < piece ? left : piece;
  memcpy(buffer, text->text + text->at, *got);
  text->at += *got;
  return 0;
}

scw_source job_source(job_text *text, const char *name) {
  return (scw_source){give, text, name};
}

void job_say(job_output *out, const char *words) {
  if (words) take(out, words, strlen(words));
  take(out, "\n", 1);
}

void job_bits(job_output *out, double value) {
  char text[24];
  uint64_t bits;
  memcpy(&bits, &value, sizeof bits);
  snprintf(text, sizeof text, "%016llx", (unsigned long long)bits);
  job_say(out, text);
}

void job_expect(job_output *out, bool holds, const char *promise) {
  if (!holds && !out->complaint) out->complaint = promise;
}

scw_status job_read(scw_context *context, job_output *out, const char *text,
                    const scw_table_options *options, scw_table **table) {
  static const scw_table_options all_guesses;
  job_text source = {text, strlen(text), 0};
  scw_status status =
      scw_table_read(context, options ? options : &all_guesses,
                     job_source(&source, "shed.csv"), table);
  job_expect(out, (status == SCW_OK) == (*table != NULL),
             "scw_table_read gives a table on success and only then");
  return status;
}

static scw_status codes(scw_context *context, job_output *out) {
  for (int i = 0; i <= SCW_STATUS_END; i++)
    job_say(out, scw_status_text((scw_status)i));
  for (int i = 0; i <= SCW_PRESENCE_END; i++) {
    job_say(out, scw_presence_code((scw_presence)i));
    job_say(out, scw_presence_text((scw_presence)i));
  }
  for (int i = 0; i <= SCW_KIND_END; i++) {
    job_say(out, scw_budget_kind_code((scw_budget_kind)i));
    job_say(out, scw_budget_kind_text((scw_budget_kind)i));
  }
  for (int i = 0; i <= SCW_DESIGN_END; i++)
    job_say(out, scw_design_code((scw_design)i));
  for (int i = 0; i <= SCW_VERDICT_END; i++)
    job_say(out, scw_verdict_code((scw_verdict)i));
  for (int i = 0; i <= SCW_AGREEMENT_END; i++)
    job_say(out, scw_agreement_code((scw_agreement)i));
  job_say(out, scw_version());
  return scw_context_set_threads(context, 3);
}

const job jobs[] = {{"codes", codes},
                    {"table: wide pair", job_reads_pairs},
                    {"table: long", job_reads_long},
                    {"table: decimal commas", job_reads_commas},
                    {"table: quotes, marks, gaps", job_reads_quoted},
                    {"table: file", job_reads_file},
                    {"table: from values, append", job_appends},
                    {"readings: pairs", job_readings_of_pairs},
                    {"readings: list", job_readings_of_list},
                    {"readings: left out", job_readings_left_out},
                    {"readings: degenerate", job_readings_degenerate},
                    {"readings: brief", job_brief},
                    {"readings: brief, long", job_brief_long},
                    {"change: paired", job_change_paired},
                    {"change: products", job_change_products},
                    {"change: friction", job_change_friction},
                    {"change: control", job_change_control},
                    {"change: baseline", job_change_baseline},
                    {"change: from numbers", job_change_from_numbers},
                    {"change: summaries", job_change_summaries},
                    {"panel: grid", job_panel_grid},
                    {"panel: sets", job_panel_sets},
                    {"panel: operators", job_panel_operators},
                    {"change: scatter bank", job_change_scatter},
                    {"change: instruments", job_change_instruments},
                    {"bench", job_bench},
                    {"budget", job_budget},
                    {"gloss", job_gloss},
                    {"bridge", job_bridge},
                    {"drift", job_drift},
                    {"compare", job_compare},
                    {"score", job_score},
                    {"audit", job_audit},
                    {"audit raw", job_audit_raw},
                    {"audit against", job_audit_against},
                    {"plan", job_plans},
                    {"take: change", job_take_change},
                    {"take: spots, resumed", job_take_spots},
                    {"plan: grid", job_plan_grid},
                    {"plan: two sides apart", job_plan_split},
                    {"plan: spots and repeats", job_plan_spots},
                    {"plan: where", job_layout}};
const size_t n_jobs = sizeof jobs / sizeof *jobs;
