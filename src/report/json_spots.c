/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A spot list as JSON. */
#include "json_parts.h"
#include "spot_list.h"

static const char *order_code(scw_reading_order order) {
  return order == SCW_ORDER_WALK ? "walk" : "random";
}

static scwi_json *settings_of(const scw_layout_result *list) {
  const scw_layout_request *request = &list->request;
  scwi_json *to = scwi_json_settings(&list->settings);
  scwi_json_text(to, "layout", scw_layout_code(request->layout));
  scwi_json_text(to, "reading_order", order_code(request->reading_order));
  scwi_json_number(to, "width", request->width);
  scwi_json_number(to, "height", request->height);
  scwi_json_text(to, "length_unit", list->length_unit);
  scwi_json_number(to, "margin", request->margin);
  if (request->apart > 0)
    scwi_json_number(to, "apart", request->apart);
  else
    scwi_json_null(to, "apart");
  scwi_json_whole(to, "spots", request->spots);
  scwi_json_whole(to, "panels", request->panels);
  scwi_json_whole(to, "repeats", request->repeats);
  scwi_json_bool(to, "halves", request->halves);
  scwi_json_bool(to, "blind", request->blind);
  scwi_json_bool(to, "before_after", request->before_after);
  return to;
}

static scwi_json *layout_of(const scw_layout_result *list) {
  scwi_json *to = scwi_json_object();
  bool halves = list->request.halves;
  scwi_json_bool(to, "possible", list->possible);
  scwi_json_text(to, "sentence", list->sentence);
  scwi_json_number(to, "resolution", list->resolution);
  scwi_json_figure(to, "nearest", list->nearest);
  scwi_json_figure(to, "edge", list->edge);
  scwi_json_figure(to, "fits", list->fits);
  scwi_json_text(to, "treated", halves ? list->treated_code : NULL);
  scwi_json_text(to, "control", halves ? list->control_code : NULL);
  return to;
}

static scwi_json *spot_of(const scw_layout_result *list,
                          const scw_spot *spot) {
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "code", spot->code);
  scwi_json_whole(to, "panel", spot->panel);
  if (spot->half) {
    scwi_json_whole(to, "half", (unsigned long long)spot->half);
    scwi_json_text(to, "treatment", scwi_spot_treatment(list, spot));
  }
  scwi_json_whole(to, "spot", spot->number);
  scwi_json_number(to, "x", spot->x);
  scwi_json_number(to, "y", spot->y);
  return to;
}

static scwi_json *turn_of(const scw_layout_result *list, size_t index) {
  const scw_turn *turn = &list->turns[index];
  scwi_json *to = scwi_json_object();
  scwi_json_whole(to, "order", index + 1);
  scwi_json_text(to, "code", list->spots[turn->spot].code);
  if (turn->side != SCW_SIDE_NONE)
    scwi_json_text(to, "state",
                   turn->side == SCW_SIDE_BEFORE ? "before" : "after");
  scwi_json_whole(to, "repeat", turn->repeat);
  return to;
}

scw_status scwi_json_spots(scw_context *context, const scw_layout_result *list,
                           scw_sink sink) {
  scwi_stream stream = {context, sink, SCW_OK};
  const scwi_inputs none = {0};
  scwi_json_begin(&stream, "plan", &none, settings_of(list));
  scwi_stream_text(&stream, "\"layout\":");
  scwi_stream_json(&stream, layout_of(list));
  scwi_stream_text(&stream, ",\n\"spots\":[");
  for (size_t i = 0; i < list->n_spots && !stream.status; i++)
    scwi_json_item(&stream, i, spot_of(list, &list->spots[i]));
  scwi_stream_text(&stream, "],\n\"turns\":[");
  for (size_t i = 0; i < list->n_turns && !stream.status; i++)
    scwi_json_item(&stream, i, turn_of(list, i));
  scwi_stream_text(&stream, "]");
  scwi_json_end(&stream, list->notes, list->n_notes);
  return stream.status;
}
