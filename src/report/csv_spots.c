/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A spot list as CSV, and as the template to fill in at the bench. */
#include "csv_table.h"
#include "spot_list.h"

/* Headers with their units. */
typedef struct headings {
  scwi_text x, y, reading;
} headings;

static headings headings_of(const scw_layout_result *list) {
  headings h = {{0}, {0}, {0}};
  scwi_put_heading(&h.x, "x", list->length_unit);
  scwi_put_heading(&h.y, "y", list->length_unit);
  scwi_put_heading(&h.reading, "reading", list->unit);
  return h;
}

static scw_status finish(scw_context *context, scwi_csv *csv, headings *h) {
  scw_status status = scwi_csv_end(csv);
  if (!status) status = scwi_text_status(context, &h->x);
  if (!status) status = scwi_text_status(context, &h->y);
  if (!status) status = scwi_text_status(context, &h->reading);
  scwi_text_free(&h->x);
  scwi_text_free(&h->y);
  scwi_text_free(&h->reading);
  return status;
}

static bool have(const headings *h) {
  return !h->x.failed && !h->y.failed && !h->reading.failed;
}

static void put_place(scwi_csv *csv, const headings *h, const scw_spot *spot) {
  scwi_csv_number(csv, h->x.data, spot->x);
  scwi_csv_number(csv, h->y.data, spot->y);
}

static void put_spot(scwi_csv *csv, const scw_layout_result *list,
                     const headings *h, const scw_spot *spot) {
  scwi_csv_text(csv, "code", spot->code);
  if (list->request.panels > 1) scwi_csv_whole(csv, "panel", spot->panel);
  if (list->request.halves)
    scwi_csv_text(csv, "treatment", scwi_spot_treatment(list, spot));
  scwi_csv_whole(csv, "spot", spot->number);
  put_place(csv, h, spot);
  scwi_csv_row(csv);
}

scw_status scwi_csv_spots(scw_context *context, const scw_layout_result *list,
                          scw_sink sink) {
  scwi_csv csv = scwi_csv_start(context, sink);
  headings h = headings_of(list);
  if (have(&h) && list->n_spots) put_spot(&csv, list, &h, list->spots);
  for (size_t i = 0; i < list->n_spots && have(&h); i++)
    put_spot(&csv, list, &h, &list->spots[i]);
  return finish(context, &csv, &h);
}

static void put_turn(scwi_csv *csv, const scw_layout_result *list,
                     const headings *h, size_t index) {
  const scw_turn *turn = &list->turns[index];
  const scw_spot *spot = &list->spots[turn->spot];
  scwi_csv_whole(csv, "order", index + 1);
  scwi_csv_text(csv, "code", spot->code);
  if (list->request.panels > 1) scwi_csv_whole(csv, "panel", spot->panel);
  if (list->request.before_after)
    scwi_csv_text(csv, "state",
                  turn->side == SCW_SIDE_BEFORE ? "before" : "after");
  if (list->request.halves)
    scwi_csv_text(csv, "treatment", scwi_spot_treatment(list, spot));
  scwi_csv_whole(csv, "spot", spot->number);
  if (list->request.repeats > 1) scwi_csv_whole(csv, "repeat", turn->repeat);
  put_place(csv, h, spot);
  scwi_csv_text(csv, h->reading.data, "");
  scwi_csv_row(csv);
}

scw_status scw_report_template(scw_context *context,
                               const scw_layout_result *result,
                               scw_sink sink) {
  scwi_csv csv = scwi_csv_start(context, sink);
  headings h = headings_of(result);
  if (have(&h) && result->n_turns) put_turn(&csv, result, &h, 0);
  for (size_t i = 0; i < result->n_turns && have(&h); i++)
    put_turn(&csv, result, &h, i);
  return finish(context, &csv, &h);
}
