/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading tables of every shape, and what a table tells about itself. */
#include <string.h>

#include "jobs_inside.h"

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
  for (size_t i = 0; i < scw_table_events(table); i++)
    job_say(out, scw_table_label(table, scw_table_event(table, i)->event));
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

scw_status job_reads_pairs(scw_context *context, job_output *out) {
  return reads(context, out, job_pairs);
}

scw_status job_reads_long(scw_context *context, job_output *out) {
  return reads(context, out, job_long);
}

scw_status job_reads_commas(scw_context *context, job_output *out) {
  return reads(context, out, job_commas);
}

scw_status job_reads_quoted(scw_context *context, job_output *out) {
  return reads(context, out,
               "spot,gloss (GU),note\n\"1\",\"82.4\",\"a \"\"dry\"\" edge,\n"
               "then wax\"\n2,81.9*,\n3,,not taken\n4,(83.1),\nMean,82.5,\n");
}

scw_status job_reads_file(scw_context *context, job_output *out) {
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

scw_status job_appends(scw_context *context, job_output *out) {
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
               "scw_table_append job_appends all or nothing");
  }
  if (status == SCW_OK) tell_table(out, table);
  scw_table_free(table);
  scw_table_free(more);
  return status;
}
