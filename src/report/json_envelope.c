/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The envelope: what ran, on what, with which settings. It is written piece
 * by piece; no report is ever held as one tree. */
#include <stdio.h>

#include "fields.h"
#include "json_parts.h"
#include "scatterwise/version.h"

enum { AT_LEAST_PER_SIDE = 3 };

void scwi_json_count(scwi_json *to, const char *key, size_t count) {
  if (count)
    scwi_json_whole(to, key, count);
  else
    scwi_json_null(to, key);
}

void scwi_json_item(scwi_stream *stream, size_t index, scwi_json *item) {
  scwi_stream_text(stream, index ? ",\n" : "\n");
  scwi_stream_json(stream, item);
}

static void add_mark(scwi_json *to, const char *key, char mark) {
  char text[2] = {mark, 0};
  scwi_json_text(to, key, mark ? text : NULL);
}

static scwi_json *roles_of(const scw_input *input) {
  scwi_json *roles = scwi_json_object();
  for (unsigned r = 0; r < SCW_ROLE_COUNT; r++)
    if (input->role_column[r])
      scwi_json_text(roles, scw_role_name((scw_role)r), input->role_column[r]);
  return roles;
}

static scwi_json *input_of(const scw_input *input) {
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "name", input->name);
  scwi_json_text(to, "sha256", input->sha256[0] ? input->sha256 : NULL);
  scwi_json_count(to, "bytes", (size_t)input->bytes);
  scwi_json_text(to, "encoding", input->encoding);
  add_mark(to, "separator", input->separator);
  scwi_json_bool(to, "separator_given", input->separator_given);
  add_mark(to, "decimal_mark", input->decimal_mark);
  scwi_json_bool(to, "decimal_mark_given", input->decimal_mark_given);
  scwi_json_text(to, "shape", input->shape);
  scwi_json_text(to, "unit", input->unit);
  scwi_json_text(to, "quantity", input->quantity);
  scwi_json_text(to, "geometry", input->geometry);
  scwi_json_add(to, "roles", roles_of(input));
  scwi_json_whole(to, "rows", input->rows);
  scwi_json_whole(to, "used", input->used);
  scwi_json_whole(to, "labels_carried", input->labels_carried);
  return to;
}

static scwi_json *not_used_of(const scw_not_used *entry) {
  scwi_json *to = scwi_json_object();
  scwi_json_count(to, "line", entry->line);
  scwi_json_count(to, "column", entry->column);
  scwi_json_text(to, "reason", entry->reason);
  scwi_json_text(to, "text", entry->text);
  return to;
}

static void write_input(scwi_stream *stream, size_t index,
                        const scw_input *input) {
  scwi_stream_text(stream, index ? ",\n" : "\n");
  scwi_stream_json_open(stream, input_of(input));
  scwi_stream_text(stream, ",\"not_used\":[");
  for (size_t i = 0; i < input->n_not_used && !stream->status; i++)
    scwi_json_item(stream, i, not_used_of(&input->not_used[i]));
  scwi_stream_text(stream, "]}");
}

void scwi_json_begin(scwi_stream *stream, const char *command,
                     const scwi_inputs *inputs, scwi_json *settings) {
  scwi_json *head = scwi_json_object();
  size_t written = 0;
  scwi_json_text(head, "tool", "scatterwise");
  scwi_json_text(head, "version", scw_version());
  scwi_json_text(head, "command", command);
  scwi_stream_json_open(stream, head);
  scwi_stream_text(stream, ",\n\"inputs\":[");
  for (size_t i = 0; i < inputs->n && !stream->status; i++) {
    const scw_input *input = inputs->at(inputs->source, i);
    if (input) write_input(stream, written++, input);
  }
  scwi_stream_text(stream, "],\n\"settings\":");
  scwi_stream_json(stream, settings);
  scwi_stream_text(stream, ",\n\"results\":{");
}

static scwi_json *note_of(const scw_note *note) {
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "code", note->code);
  scwi_json_text(to, "text", note->text);
  return to;
}

void scwi_json_end(scwi_stream *stream, const scw_note *notes, size_t n) {
  scwi_stream_text(stream, "},\n\"notes\":[");
  for (size_t i = 0; i < n && !stream->status; i++)
    scwi_json_item(stream, i, note_of(&notes[i]));
  scwi_stream_text(stream, "]}\n");
}

void scwi_json_notes(scwi_json *to, const char *key, const scw_note *notes,
                     size_t n) {
  scwi_json *array = scwi_json_array();
  for (size_t i = 0; i < n; i++)
    scwi_json_add(array, NULL, note_of(&notes[i]));
  scwi_json_add(to, key, array);
}

/* A seed has 64 bits, more than a JSON number carries for every reader. */
static void add_seed(scwi_json *to, unsigned long long seed) {
  char text[24];
  snprintf(text, sizeof text, "%llu", seed);
  scwi_json_text(to, "seed", text);
}

scwi_json *scwi_json_settings(const scw_settings *settings) {
  scwi_json *to = scwi_json_object();
  scwi_json_number(to, "level", settings->level);
  scwi_json_number(to, "stand_out", settings->stand_out);
  scwi_json_number(to, "content", settings->content);
  scwi_json_number(to, "assurance", settings->assurance);
  scwi_json_number(to, "power", settings->power);
  scwi_json_count(to, "candidates", settings->candidates);
  scwi_json_bool(to, "step_given", settings->step.origin == SCW_STEP_GIVEN);
  if (settings->step.origin == SCW_STEP_GIVEN)
    scwi_json_number(to, "step", settings->step.size);
  else
    scwi_json_null(to, "step");
  add_seed(to, settings->seed);
  scwi_json_count(to, "expect", settings->expect);
  scwi_json_whole(to, "at_least", AT_LEAST_PER_SIDE);
  return to;
}
