/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The JSON reports of reading sets and plans. */
#include "fields.h"
#include "json_parts.h"
#include "plan_designs.h"
#include "json_views.h"
#include "reports.h"

scw_status scwi_json_readings(scw_context *context,
                              const scw_readings_result *result,
                              const scwi_inputs *inputs, scw_sink sink) {
  scwi_stream stream = {context, sink, SCW_OK};
  scwi_json_begin(&stream, "readings", inputs,
                  scwi_json_settings(&result->settings));
  scwi_stream_text(&stream, "\"sets\":[");
  for (size_t i = 0; i < result->n_sets && !stream.status; i++)
    scwi_json_item(&stream, i, scwi_json_set(&result->sets[i]));
  scwi_stream_text(&stream, "]");
  scwi_json_end(&stream, result->notes, result->n_notes);
  return stream.status;
}

static scwi_json *brief_settings(const scw_brief_result *result) {
  scwi_json *to = scwi_json_object();
  if (result->n_sets)
    scwi_json_number(to, "level", result->sets[0].interval.level);
  else
    scwi_json_null(to, "level");
  scwi_json_figure(to, "step", scwi_step_figure(result->step));
  scwi_json_text(to, "step_origin", scwi_step_origin_code(result->step.origin));
  return to;
}

static void put_brief_set(scwi_json_flat *to, const scw_brief_set *set) {
  scwi_json_flat_open(to);
  scwi_json_flat_text(to, "label", set->label);
  scwi_json_flat_whole(to, "n", set->n);
  scwi_json_flat_figure(to, "mean", set->mean);
  scwi_json_flat_figure(to, "sd", set->sd);
  scwi_json_flat_interval(to, "interval", set->interval);
  scwi_json_flat_close(to);
}

/* There may be very many, so they are written without a tree, some thousand
 * at a time. */
static void write_brief_sets(scwi_stream *stream,
                             const scw_brief_result *result) {
  enum { ENOUGH = 1 << 16 };
  scwi_json_flat to = {0};
  for (size_t i = 0; i < result->n_sets && !stream->status; i++) {
    scwi_text_add(&to.text, i ? ",\n" : "\n");
    put_brief_set(&to, &result->sets[i]);
    if (to.text.length < ENOUGH && i + 1 < result->n_sets) continue;
    stream->status = scwi_text_status(stream->context, &to.text);
    if (stream->status == SCW_OK) scwi_stream_text(stream, to.text.data);
    scwi_text_clear(&to.text);
  }
  scwi_json_flat_free(&to);
}

scw_status scwi_json_brief(scw_context *context, const scw_brief_result *result,
                           const scwi_inputs *inputs, scw_sink sink) {
  scwi_stream stream = {context, sink, SCW_OK};
  scwi_json_begin(&stream, "readings", inputs, brief_settings(result));
  scwi_stream_text(&stream, "\"sets\":[");
  write_brief_sets(&stream, result);
  scwi_stream_text(&stream, "]");
  scwi_json_end(&stream, NULL, 0);
  return stream.status;
}

static const char *goal_code(scw_plan_goal goal) {
  switch (goal) {
    case SCW_PLAN_HALF_WIDTH:
      return "half_width";
    case SCW_PLAN_DETECT:
      return "detect";
    case SCW_PLAN_WITHIN:
      return "within";
    case SCW_PLAN_READINGS:
      return "readings";
    default:
      return "unknown";
  }
}

static void number_or_null(scwi_json *to, const char *key, double value) {
  if (value > 0)
    scwi_json_number(to, key, value);
  else
    scwi_json_null(to, key);
}

static scwi_json *plan_settings(const scw_plan_result *result) {
  const scw_plan_request *request = &result->request;
  scwi_json *to = scwi_json_settings(&result->settings);
  scwi_json_text(to, "goal", goal_code(request->goal));
  number_or_null(to, "target", request->target);
  scwi_json_count(to, "readings", request->readings);
  scwi_json_bool(to, "paired", request->paired);
  number_or_null(to, "sd", request->sd);
  number_or_null(to, "sd_after", request->sd_after);
  scwi_json_count(to, "pilot_readings", request->pilot_readings);
  scwi_json_scatter(to, request->bench, result->bank);
  scwi_json_bool(to, "unequal", request->unequal);
  number_or_null(to, "ratio", request->ratio);
  number_or_null(to, "cost_spot", request->cost_spot);
  number_or_null(to, "cost_repeat", request->cost_repeat);
  number_or_null(to, "cost_session", request->cost_session);
  number_or_null(to, "cost_panel", request->cost_panel);
  scwi_json_text(to, "cost_unit", result->cost_unit);
  scwi_json_bool(to, "control_half", request->control_half);
  scwi_json_count(to, "fits", request->fits);
  return to;
}

static void add_row_figures(scwi_json *to, const scw_plan_row *row) {
  scwi_json_figure(to, "readings_per_side", row->readings_per_side);
  scwi_json_figure(to, "spots", row->spots);
  scwi_json_figure(to, "half_width", row->half_width);
  scwi_json_figure(to, "detectable", row->detectable);
  scwi_json_figure(to, "power", row->power);
}

/* A number of readings under the name of what it counts. */
static void add_count(scwi_json *to, const char *key, bool paired,
                      scw_figure count) {
  scwi_json *object = scwi_json_object();
  const scw_figure other = {0};
  scwi_json_figure(object, "readings_per_side", paired ? other : count);
  scwi_json_figure(object, "spots", paired ? count : other);
  scwi_json_add(to, key, object);
}

static scwi_json *plan_of(const scw_plan_result *result) {
  scwi_json *to = scwi_json_object();
  bool paired = result->request.paired;
  scwi_json_bool(to, "possible", result->possible);
  scwi_json_text(to, "sentence", result->sentence);
  scwi_json_text(to, "unit", result->unit);
  add_row_figures(to, &result->plan);
  add_count(to, "assured", paired, result->assured);
  add_count(to, "expected", paired, result->expected);
  add_count(to, "top_up_total", paired, result->top_up_total);
  return to;
}

static void add_split(scwi_stream *stream, const scw_plan_split *split) {
  scwi_json *object = scwi_json_object();
  scwi_json_figure(object, "before", split->before);
  scwi_json_figure(object, "after", split->after);
  scwi_stream_text(stream, ",\n\"split\":");
  scwi_stream_json(stream, object);
}

/* What was asked for beyond one number a side. */
static void add_designs(scwi_stream *stream, const scw_plan_result *result) {
  if (result->request.unequal) add_split(stream, &result->split);
  if (result->request.scatter) scwi_stream_designs(stream, result);
}

scw_status scwi_json_plan(scw_context *context, const scw_plan_result *result,
                          const scwi_inputs *inputs, scw_sink sink) {
  scwi_stream stream = {context, sink, SCW_OK};
  scwi_json_begin(&stream, "plan", inputs, plan_settings(result));
  scwi_stream_text(&stream, "\"plan\":");
  scwi_stream_json(&stream, plan_of(result));
  scwi_stream_text(&stream, ",\n\"table\":[");
  for (size_t i = 0; i < result->n_table && i < SCW_PLAN_TABLE_ROWS; i++) {
    scwi_json *row = scwi_json_object();
    add_row_figures(row, &result->table[i]);
    scwi_json_item(&stream, i, row);
  }
  scwi_stream_text(&stream, "]");
  add_designs(&stream, result);
  scwi_json_end(&stream, result->notes, result->n_notes);
  return stream.status;
}
