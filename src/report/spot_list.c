/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A spot list as text, and the choice of the format. */
#include "spot_list.h"

#include <stdio.h>

#include "context.h"
#include "grid.h"
#include "number_words.h"
#include "text_parts.h"
#include "wording.h"

const char *scwi_spot_treatment(const scw_layout_result *list,
                                const scw_spot *spot) {
  if (spot->half == 0) return "";
  return spot->control ? list->control_code : list->treated_code;
}

void scwi_put_heading(scwi_text *text, const char *what, const char *unit) {
  scwi_text_add(text, what);
  if (unit && *unit) scwi_text_format(text, " (%s)", unit);
}

static int decimals_of(double resolution) {
  int decimals = 0;
  for (; resolution < 0.5; resolution *= 10)
    decimals++;
  return decimals;
}

/* The columns that tell something in this list. */
enum { MOST_COLUMNS = 6 };

static size_t choose_columns(const scw_layout_result *list, const char *x,
                             const char *y, scwi_column *columns) {
  size_t n = 0;
  bool panels = list->request.panels > 1;
  if (panels) columns[n++] = (scwi_column){"panel", SCWI_RIGHT, 0, false, 0};
  columns[n++] = (scwi_column){"spot", SCWI_RIGHT, panels ? 2 : 0, false, 0};
  columns[n++] = (scwi_column){x, SCWI_POINT, 2, false, 0};
  columns[n++] = (scwi_column){y, SCWI_POINT, 2, false, 0};
  columns[n++] = (scwi_column){"code", SCWI_LEFT, 2, false, 0};
  if (list->request.halves)
    columns[n++] = (scwi_column){"half", SCWI_LEFT, 2, false, 0};
  return n;
}

static void table(scwi_sheet *sheet, const scw_layout_result *list) {
  scwi_column columns[MOST_COLUMNS];
  scwi_text x = {0}, y = {0};
  int decimals = decimals_of(list->resolution);
  scwi_put_heading(&x, "x", list->length_unit);
  scwi_put_heading(&y, "y", list->length_unit);
  scwi_grid grid = {.columns = columns,
                    .n_columns = choose_columns(list, x.data, y.data, columns)};
  if (x.failed || y.failed) sheet->text.failed = true;
  for (size_t i = 0; i < list->n_spots && !sheet->text.failed; i++) {
    const scw_spot *spot = &list->spots[i];
    if (list->request.panels > 1) scwi_grid_whole(&grid, spot->panel);
    scwi_grid_whole(&grid, spot->number);
    scwi_grid_fixed(&grid, spot->x, decimals);
    scwi_grid_fixed(&grid, spot->y, decimals);
    scwi_grid_cell(&grid, spot->code);
    if (list->request.halves)
      scwi_grid_cell(&grid, scwi_spot_treatment(list, spot));
  }
  scwi_sheet_gap(sheet);
  scwi_sheet_grid(sheet, &grid);
  scwi_sheet_gap(sheet);
  scwi_text_free(&x);
  scwi_text_free(&y);
}

/* The order of one panel and state, by spot numbers (with its half's label
 * where there are two). */
static void order_of(scwi_sheet *sheet, const scw_layout_result *list,
                     size_t first, size_t next) {
  char label[64] = "read in order", panel[32] = "";
  const scw_turn *turn = &list->turns[first];
  const char *state = turn->side == SCW_SIDE_BEFORE  ? "before"
                      : turn->side == SCW_SIDE_AFTER ? "after"
                                                     : "";
  if (list->request.panels > 1)
    snprintf(panel, sizeof panel, "%spanel %zu", *state ? ", " : "",
             list->spots[turn->spot].panel);
  if (*state || *panel) snprintf(label, sizeof label, "%s%s", state, panel);
  for (size_t i = first; i < next; i += list->request.repeats) {
    const scw_spot *spot = &list->spots[list->turns[i].spot];
    if (i > first) scwi_text_add(&sheet->scratch, ", ");
    if (list->request.halves)
      scwi_text_add(&sheet->scratch, spot->code);
    else
      scwi_text_format(&sheet->scratch, "%zu", spot->number);
  }
  scwi_sheet_labelled_scratch(sheet, label);
}

static void orders(scwi_sheet *sheet, const scw_layout_result *list) {
  size_t each = list->request.spots * list->request.repeats;
  for (size_t first = 0; first + each <= list->n_turns; first += each)
    order_of(sheet, list, first, first + each);
  if (list->request.repeats > 1) {
    scwi_text_format(&sheet->scratch, "%zu readings one after the other",
                     list->request.repeats);
    scwi_sheet_labelled_scratch(sheet, "at each spot");
  }
}

static void settings(scwi_sheet *sheet, const scw_layout_result *list) {
  scwi_text_format(&sheet->scratch, "layout %s, ",
                   scw_layout_code(list->request.layout));
  if (list->request.margin > 0) {
    scwi_text_add(&sheet->scratch, "margin ");
    scwi_put_short(&sheet->scratch, list->request.margin, 6);
    scwi_text_format(&sheet->scratch, "%s%s, ", *list->length_unit ? " " : "",
                     list->length_unit);
  }
  scwi_text_format(&sheet->scratch,
                   "order %s, seed %llu; x to the right and y up from the "
                   "lower left corner.",
                   list->request.reading_order == SCW_ORDER_WALK ? "walk"
                                                                 : "random",
                   list->settings.seed);
  scwi_sheet_labelled_scratch(sheet, "settings");
}

static scw_status text_of(scw_context *context, const scw_layout_result *list,
                          scw_report_options options, scw_sink sink) {
  scwi_sheet sheet = {.options = options};
  scwi_sheet_answer(&sheet, list->sentence);
  scwi_spot_map(&sheet, list);
  table(&sheet, list);
  orders(&sheet, list);
  scwi_sheet_gap(&sheet);
  scwi_sheet_notes(&sheet, list->notes, list->n_notes);
  scwi_sheet_gap(&sheet);
  settings(&sheet, list);
  return scwi_sheet_send(context, &sheet, sink);
}

scw_status scw_report_layout(scw_context *context,
                             const scw_layout_result *result,
                             scw_report_options options, scw_sink sink) {
  switch (options.format) {
    case SCW_TEXT:
      return text_of(context, result, options, sink);
    case SCW_JSON:
      return scwi_json_spots(context, result, sink);
    case SCW_CSV:
      return scwi_csv_spots(context, result, sink);
    default:
      return scwi_fail(context, SCW_BAD_ARGUMENT,
                       "unknown report format: choose text, JSON or CSV");
  }
}
