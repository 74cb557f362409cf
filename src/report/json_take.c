/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Live taking as JSON: one object on one line for each thing that happened. */
#include "fields.h"
#include "json_parts.h"
#include "take_reports.h"
#include "write.h"

static const char *code_of(scw_take_event event) {
  static const char *const codes[] = {
      [SCW_TAKEN_READING] = "reading", [SCW_TAKEN_AGAIN] = "again",
      [SCW_TAKEN_UNDO] = "undo",       [SCW_TAKEN_MARK] = "mark",
      [SCW_TAKEN_RESUMED] = "resumed", [SCW_TAKEN_END] = "end"};
  return (unsigned)event <= SCW_TAKEN_END ? codes[event] : "unknown";
}

static void text_or_null(scwi_json *to, const char *key, const char *text) {
  if (*text)
    scwi_json_text(to, key, text);
  else
    scwi_json_null(to, key);
}

static void add_top_up(scwi_json *to, const scw_take_state *state) {
  if (state->rule != SCW_TAKE_TOP_UP) {
    scwi_json_null(to, "top_up");
    return;
  }
  scwi_json *object = scwi_json_object();
  scwi_json_figure(object, "total", state->top_up_total);
  scwi_json_interval(object, "interval", state->top_up);
  scwi_json_add(to, "top_up", object);
}

static void add_rule(scwi_json *to, const scw_take_state *state) {
  static const char *const rules[] = {"open", "plan", "top_up", "anytime"};
  scwi_json_text(to, "rule", rules[state->rule]);
  add_top_up(to, state);
  if (state->change)
    scwi_json_text(to, "verdict", scw_verdict_code(state->verdict));
  else
    scwi_json_null(to, "verdict");
  scwi_json_text(to, "advice", scw_advice_code(state->advice));
  scwi_json_bool(to, "stop", state->stop);
  text_or_null(to, "sentence", state->sentence);
}

static scw_status write_line(scw_context *context, scwi_json *object,
                             scw_sink sink) {
  scw_status status = scwi_json_write(context, object, sink);
  return status ? status : scwi_write(context, sink, "\n", 1);
}

scw_status scwi_json_taken(scw_context *context, scw_take_event event,
                          const scw_take_state *state, scw_sink sink) {
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "event", code_of(event));
  scwi_json_count(to, "order", state->last);
  text_or_null(to, "spot", state->last_spot);
  text_or_null(to, "reading", state->last_reading);
  scwi_json_figure(to, "change_here", state->last_change);
  text_or_null(to, "unit", state->unit);
  scwi_json_whole(to, "readings", state->readings);
  scwi_json_whole(to, "taken_back", state->taken_back);
  scwi_json_whole(to, "read_again", state->read_again);
  scwi_json_count(to, "undone", state->undone);
  scwi_json_bool(to, "change", state->change);
  scwi_json_bool(to, "paired", state->paired);
  scwi_json_whole(to, "n", state->n);
  scwi_json_figure(to, "mean", state->mean);
  scwi_json_figure(to, "sd", state->sd);
  scwi_json_interval(to, "interval", state->interval);
  scwi_json_interval(to, "anytime", state->anytime);
  scwi_json_number(to, "g", state->g);
  scwi_json_figure(to, "e_value", state->e_value);
  scwi_json_figure(to, "step", scwi_step_figure(state->step));
  scwi_json_text(to, "step_origin", scwi_step_origin_code(state->step.origin));
  add_rule(to, state);
  text_or_null(to, "next_spot", state->next_spot);
  scwi_json_whole(to, "spots_left", state->spots_left);
  scwi_json_notes(to, "notes", state->notes, state->n_notes);
  return write_line(context, to, sink);
}

scw_status scwi_json_take_message(scw_context *context, const char *event,
                                  const char *text, scw_sink sink) {
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "event", event);
  scwi_json_text(to, "text", text);
  return write_line(context, to, sink);
}
