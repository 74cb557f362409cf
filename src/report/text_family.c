/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Several products as text: judged together, then each in its own words. */
#include "figure.h"
#include "grid.h"
#include "number_words.h"
#include "text_change.h"
#include "text_parts.h"

/* The same at the start of a sentence. */
static const char *family_words(scw_verdict verdict) {
  switch (verdict) {
    case SCW_CHANGED:
      return "Changed";
    case SCW_CHANGED_SIZE_UNCLEAR:
      return "Changed, size unclear";
    case SCW_CHANGED_BUT_SMALL:
      return "Changed, but by less than the margin";
    case SCW_NO_CHANGE_BEYOND_MARGIN:
      return "No change beyond the margin";
    case SCW_CONDITIONAL:
      return "Changed only if the numbers are good enough";
    case SCW_CANNOT_TELL:
      return "Cannot tell";
    default:
      return "No verdict";
  }
}

static void add_p(scwi_grid *grid, scw_figure p) {
  if (!scwi_present(p))
    scwi_grid_blanks(grid, 1);
  else if (p.value < 0.0001)
    scwi_grid_cell(grid, "<0.0001");
  else
    scwi_grid_fixed(grid, p.value, scwi_p_decimals(p.value));
}

static void add_product(scwi_grid *grid, const scw_change_report *change) {
  int decimals = scwi_decimals_of_change(&change->change);
  scwi_grid_cell(grid, change->product);
  scwi_grid_figure(grid, change->change.estimate, decimals);
  scwi_grid_range(grid, change->family_interval, decimals);
  add_p(grid, change->family_p);
  scwi_grid_cell(grid, scwi_verdict_label(change->verdict));
}

/* " Changed: K1, K2.": the products of one verdict, named as far as five. */
static void add_products_of(scwi_text *text, const scw_change_result *result,
                            scw_verdict verdict) {
  enum { MOST_NAMES = 5 };
  size_t n = 0;
  for (size_t i = 0; i < result->n_changes; i++) {
    const scw_change_report *change = &result->changes[i];
    if (change->verdict != verdict || n++ >= MOST_NAMES) continue;
    if (n == 1)
      scwi_text_format(text, " %s: ", family_words(verdict));
    else
      scwi_text_add(text, ", ");
    scwi_text_add(text, change->product ? change->product : "");
  }
  if (n > MOST_NAMES) scwi_text_format(text, " and %zu more", n - MOST_NAMES);
  if (n) scwi_text_add(text, ".");
}

static void family_answer(scwi_sheet *sheet, const scw_change_result *result) {
  scwi_text line = {0};
  scwi_text_format(&line, "%zu products judged together.", result->n_changes);
  for (unsigned v = SCW_CHANGED; v < SCW_VERDICT_END; v++)
    add_products_of(&line, result, (scw_verdict)v);
  add_products_of(&line, result, SCW_CANNOT_TELL);
  if (line.failed) sheet->text.failed = true;
  scwi_sheet_answer(sheet, line.data);
  scwi_text_free(&line);
}

static scwi_note_owner notes_of_change(const void *from, size_t i) {
  const scw_change_report *change = (const scw_change_report *)from + i;
  return (scwi_note_owner){change->product, change->notes, change->n_notes};
}

static void family_table(scwi_sheet *sheet, const scw_change_result *result) {
  scwi_text change = {0};
  const char *unit = result->changes[0].unit;
  scwi_text_add(&change, "change");
  if (unit && *unit) scwi_text_format(&change, ", %s", unit);
  const scwi_column columns[] = {{"product", SCWI_LEFT, 0, false, 0},
                                 {change.data, SCWI_POINT, 2, false, 0},
                                 {"in the family", SCWI_POINT, 3, true, 0},
                                 {NULL, SCWI_LEFT, 1, false, 0},
                                 {NULL, SCWI_POINT, 1, false, 0},
                                 {"p", SCWI_POINT, 2, false, 0},
                                 {"verdict", SCWI_LEFT, 2, true, 0}};
  scwi_grid grid = {.columns = columns,
                    .n_columns = sizeof columns / sizeof *columns};
  for (size_t i = 0; i < result->n_changes; i++)
    add_product(&grid, &result->changes[i]);
  if (change.failed) grid.cells.failed = true;
  scwi_sheet_grid(sheet, &grid);
  scwi_text_free(&change);
}

void scwi_sheet_family(scwi_sheet *sheet, const scw_change_result *result) {
  family_answer(sheet, result);
  scwi_sheet_gap(sheet);
  family_table(sheet, result);
  scwi_sheet_gap(sheet);
  for (size_t i = 0; i < result->n_changes; i++)
    scwi_sheet_note(sheet, result->changes[i].sentence);
  scwi_sheet_gap(sheet);
  bool first = true;
  for (size_t i = 0; i < result->n_changes; i++) {
    scwi_sheet_unmatched(sheet, &result->changes[i], true,
                         first ? "not paired" : "");
    first = first && result->changes[i].n_unmatched == 0;
  }
  for (size_t i = 0; i < result->n_changes; i++)
    scwi_sheet_retention(sheet, &result->changes[i], true);
  for (size_t i = 0; i < result->n_changes; i++)
    scwi_sheet_instruments(sheet, &result->changes[i], true);
  scwi_sheet_gap(sheet);
  for (size_t i = 0; i < result->n_changes; i++)
    scwi_sheet_side_stand_outs(sheet, result->changes[i].product,
                               &result->changes[i]);
  scwi_sheet_gap(sheet);
  scwi_sheet_notes_of(sheet, result->n_changes, result->changes,
                      notes_of_change);
}
