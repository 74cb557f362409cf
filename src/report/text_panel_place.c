/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Place on a panel as text. */
#include <math.h>

#include "figure.h"
#include "map.h"
#include "number_words.h"
#include "text_panel.h"
#include "wording.h"

enum { NAME_SIZE = 8 };

/* "+0.31 GU per column (0.10 to 0.52)". */
static void word_slope(scwi_text *text, const scw_estimate *slope,
                       const char *unit, const char *per) {
  if (!scwi_present(slope->estimate)) return;
  scwi_word_join(text, ", ");
  int decimals = scwi_decimals_of(slope->standard_uncertainty, slope->estimate);
  if (slope->estimate.value > 0) scwi_text_add(text, "+");
  scwi_word_quantity(text, slope->estimate.value, decimals, unit);
  scwi_text_format(text, " per %s", per);
  if (slope->interval.state != SCW_PRESENT) return;
  scwi_text_add(text, " (");
  scwi_put_range(text, slope->interval.low, slope->interval.high, decimals);
  scwi_text_add(text, ")");
}

static void gradient(scwi_sheet *sheet, const scw_panel_part *part,
                     const char *unit) {
  const scw_gradient *found = &part->place->gradient;
  bool grid = part->positions != SCW_POSITIONS_XY;
  const char *along = grid                  ? "column"
                      : *part->length_unit ? part->length_unit
                                           : "unit of x";
  const char *across = grid                  ? "row"
                       : *part->length_unit ? part->length_unit
                                            : "unit of y";
  scwi_text *text = &sheet->scratch;
  if (!scwi_present(found->f)) {
    scw_presence why = found->f.state;
    if (why != SCW_NOT_COMPUTED) scwi_text_add(text, scw_presence_text(why));
    scwi_sheet_labelled_scratch(sheet, "gradient");
    return;
  }
  word_slope(text, &found->x, unit, along);
  if (scwi_present(found->x.estimate) && !grid) scwi_text_add(text, " in x");
  word_slope(text, &found->y, unit, across);
  if (scwi_present(found->y.estimate) && !grid) scwi_text_add(text, " in y");
  if (scwi_present(found->rise)) {
    scwi_text_add(text, "; ");
    scwi_word_short(text, found->rise.value, unit);
    scwi_text_add(text, " over the spots");
  }
  scwi_word_p_aside(text, found->p);
  scwi_sheet_labelled_scratch(sheet, "gradient");
}

static void edge(scwi_sheet *sheet, const scw_edge *found, const char *unit) {
  scwi_text *text = &sheet->scratch;
  const scw_estimate *difference = &found->difference;
  if (!scwi_present(difference->estimate)) return;
  int decimals =
      scwi_decimals_of(difference->standard_uncertainty, difference->estimate);
  if (difference->estimate.value > 0) scwi_text_add(text, "+");
  scwi_word_quantity(text, difference->estimate.value, decimals, unit);
  if (difference->interval.state == SCW_PRESENT) {
    scwi_text_add(text, " (");
    scwi_put_range(text, difference->interval.low, difference->interval.high,
                   decimals);
    scwi_text_add(text, ")");
  }
  scwi_text_format(text, " at %zu outer spots against %zu inside",
                   found->outer, found->inner);
  scwi_sheet_labelled_scratch(sheet, "edge");
}

static void neighbours(scwi_sheet *sheet, const scw_panel_part *part) {
  const scw_moran *found = &part->place->moran;
  scwi_text *text = &sheet->scratch;
  if (!scwi_present(found->i) || !scwi_present(found->expected)) return;
  scwi_text_add(text, "Moran's I ");
  scwi_put_digits(text, found->i.value, 2);
  scwi_text_add(text, ", ");
  scwi_put_digits(text, found->expected.value, 2);
  scwi_text_add(text, " expected of unrelated spots");
  scwi_word_p_aside(text, found->p);
  if (scwi_present(part->range)) {
    scwi_text_add(text, "; their correlation falls to a third over ");
    scwi_word_short(text, part->range.value,
                    part->positions == SCW_POSITIONS_XY ? part->length_unit
                                                        : "places");
  }
  if (scwi_present(part->effective_spots)) {
    scwi_text_format(text, "; the %zu spots are worth ", part->place->used);
    scwi_put_digits(text, part->effective_spots.value, 2);
    scwi_text_add(text, " far apart");
  }
  scwi_sheet_labelled_scratch(sheet, "neighbours");
}

/* "C", "AB", "7": of a row or column. */
static void name_of(double number, bool letters, char out[NAME_SIZE]) {
  unsigned n = number > 0 && number < 703 ? (unsigned)number : 0;
  size_t at = 0;
  out[0] = 0;
  if (!letters || n == 0 || number != floor(number)) return;
  if (n > 26) out[at++] = (char)('A' + (n - 1) / 26 - 1);
  out[at++] = (char)('A' + (n - 1) % 26);
  out[at] = 0;
}

static void map(scwi_sheet *sheet, const scw_panel_part *part,
                const char *unit) {
  const scw_place_map *found = &part->place->map;
  char row[SCW_MAP_ROWS][NAME_SIZE], column[SCW_MAP_COLUMNS][NAME_SIZE];
  const char *rows[SCW_MAP_ROWS] = {NULL}, *columns[SCW_MAP_COLUMNS] = {NULL};
  bool grid = part->positions != SCW_POSITIONS_XY && found->grid;
  double low = INFINITY, high = -INFINITY;
  for (size_t i = 0; i < found->rows; i++) {
    name_of(found->y[i], part->letter_rows, row[i]);
    rows[i] = row[i][0] ? row[i] : NULL;
  }
  for (size_t i = 0; i < found->columns; i++) {
    name_of(found->x[i], part->letter_columns, column[i]);
    columns[i] = column[i][0] ? column[i] : NULL;
  }
  for (size_t i = 0; i < found->rows * found->columns; i++) {
    low = fmin(low, found->mean[i]);
    high = fmax(high, found->mean[i]);
  }
  scwi_map_words words = {.decimals = scwi_decimals_of(
                              scwi_figure(high - low), scwi_figure(high)),
                          .unit = unit,
                          .length_unit = part->length_unit,
                          .row_names = grid ? rows : NULL,
                          .column_names = grid ? columns : NULL};
  if (found->rows == 0) return;
  scwi_sheet_gap(sheet);
  scwi_sheet_map(sheet, found, &words);
  scwi_sheet_gap(sheet);
}

void scwi_sheet_place(scwi_sheet *sheet, const scw_panel_part *part,
                      const char *unit) {
  if (!part->place) return;
  gradient(sheet, part, unit);
  edge(sheet, &part->place->edge, unit);
  neighbours(sheet, part);
  map(sheet, part, unit);
}
