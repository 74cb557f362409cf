/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "jobs.h"

#include <stdio.h>
#include <stdint.h>
#include <string.h>

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

/* ---- tables ------------------------------------------------------------ */

static void tell_input(job_output *out, const scw_input *input) {
  job_say(out, input->name);
  job_say(out, input->sha256);
  job_say(out, input->encoding);
  job_say(out, input->shape);
  job_say(out, input->unit);
  for (int role = 0; role < SCW_ROLE_COUNT; role++) {
    job_say(out, scw_role_name((scw_role)role));
    job_say(out, input->role_column[role]);
  }
  for (size_t i = 0; i < input->n_not_used; i++) {
    job_say(out, input->not_used[i].reason);
    job_say(out, input->not_used[i].text);
  }
}

static void tell_table(job_output *out, const scw_table *table) {
  const scw_reading *readings = scw_table_readings(table);
  for (size_t i = 0; i < scw_table_size(table); i++) {
    job_bits(out, readings[i].value);
    job_bits(out, (double)scw_table_input_of(table, i));
    if (readings[i].spot != SCW_NO_LABEL)
      job_say(out, scw_table_label(table, readings[i].spot));
  }
  for (size_t i = 0; i < scw_table_inputs(table); i++)
    tell_input(out, scw_table_input(table, i));
}

static scw_status reads(scw_context *context, job_output *out,
                        const char *text) {
  scw_table *table = NULL;
  scw_status status = job_read(context, out, text, NULL, &table);
  if (status == SCW_OK) tell_table(out, table);
  scw_table_free(table);
  return status;
}

static scw_status reads_pairs(scw_context *context, job_output *out) {
  return reads(context, out, job_pairs);
}

static scw_status reads_long(scw_context *context, job_output *out) {
  return reads(context, out, job_long);
}

static scw_status reads_commas(scw_context *context, job_output *out) {
  return reads(context, out, job_commas);
}

static scw_status reads_quoted(scw_context *context, job_output *out) {
  return reads(context, out,
               "spot,gloss (GU),note\n\"1\",\"82.4\",\"a \"\"dry\"\" edge,\n"
               "then wax\"\n2,81.9*,\n3,,not taken\n4,(83.1),\nMean,82.5,\n");
}

static scw_status reads_file(scw_context *context, job_output *out) {
  static const scw_table_options options;
  scw_table *table = NULL;
  scw_status status =
      scw_table_read_file(context, &options, JOB_FILE, &table);
  job_expect(out, (status == SCW_OK) == (table != NULL),
             "scw_table_read_file gives a table on success and only then");
  if (status == SCW_OK) tell_table(out, table);
  scw_table_free(table);
  return status;
}

static scw_status appends(scw_context *context, job_output *out) {
  static const double values[] = {82.4, 81.9, 83.0, 82.2};
  scw_table *table = NULL, *more = NULL;
  scw_status status =
      scw_table_from_values(context, "morning", values, 4, &table);
  job_expect(out, (status == SCW_OK) == (table != NULL),
             "scw_table_from_values gives a table on success and only then");
  if (status == SCW_OK)
    status = scw_table_from_values(context, "evening", values, 3, &more);
  if (status == SCW_OK) {
    status = scw_table_append(context, table, more);
    size_t wanted = status == SCW_OK ? 7 : 4;
    job_expect(out, scw_table_size(table) == wanted,
               "scw_table_append appends all or nothing");
  }
  if (status == SCW_OK) tell_table(out, table);
  scw_table_free(table);
  scw_table_free(more);
  return status;
}

/* ---- reports ----------------------------------------------------------- */

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

static scw_status readings_of_pairs(scw_context *context, job_output *out) {
  return readings_of(context, out, job_pairs, NULL, 0);
}

static scw_status readings_of_list(scw_context *context, job_output *out) {
  return readings_of(context, out, "82.4 81.9 83.0 82.2 81.7 97.5\n", NULL, 0);
}

static scw_status readings_left_out(scw_context *context, job_output *out) {
  static const scw_leave_out left = {6, NULL, "fingerprint"};
  return readings_of(context, out, "82.4\n81.9\n83.0\n82.2\n81.7\n97.5\n",
                     &left, 1);
}

static scw_status readings_degenerate(scw_context *context, job_output *out) {
  scw_status status =
      readings_of(context, out, "set,gloss\na,82\nb,1\nb,1\nc,5\nc,6\n", NULL,
                  0);
  return status == SCW_NO_FIGURE ? SCW_OK : status;
}

static scw_status brief(scw_context *context, job_output *out) {
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

static scw_status change_paired(scw_context *context, job_output *out) {
  static const scw_change_options options = {.margin = 0.5};
  return change_of(context, out, job_pairs, &options);
}

static scw_status change_products(scw_context *context, job_output *out) {
  static const scw_change_options options;
  return change_of(context, out, job_long, &options);
}

static scw_status change_friction(scw_context *context, job_output *out) {
  static const scw_change_options options = {.has_block = true, .block = 1000};
  return change_of(context, out, job_pulls, &options);
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

static scw_status plans(scw_context *context, job_output *out) {
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

/* ---- codes ------------------------------------------------------------- */

static scw_status codes(scw_context *context, job_output *out) {
  for (int i = 0; i <= SCW_STATUS_END; i++)
    job_say(out, scw_status_text((scw_status)i));
  for (int i = 0; i <= SCW_PRESENCE_END; i++) {
    job_say(out, scw_presence_code((scw_presence)i));
    job_say(out, scw_presence_text((scw_presence)i));
  }
  for (int i = 0; i <= SCW_DESIGN_END; i++)
    job_say(out, scw_design_code((scw_design)i));
  for (int i = 0; i <= SCW_VERDICT_END; i++)
    job_say(out, scw_verdict_code((scw_verdict)i));
  job_say(out, scw_version());
  return scw_context_set_threads(context, 3);
}

const job jobs[] = {{"codes", codes},
                    {"table: wide pair", reads_pairs},
                    {"table: long", reads_long},
                    {"table: decimal commas", reads_commas},
                    {"table: quotes, marks, gaps", reads_quoted},
                    {"table: file", reads_file},
                    {"table: from values, append", appends},
                    {"readings: pairs", readings_of_pairs},
                    {"readings: list", readings_of_list},
                    {"readings: left out", readings_left_out},
                    {"readings: degenerate", readings_degenerate},
                    {"readings: brief", brief},
                    {"change: paired", change_paired},
                    {"change: products", change_products},
                    {"change: friction", change_friction},
                    {"plan", plans}};
const size_t n_jobs = sizeof jobs / sizeof *jobs;
