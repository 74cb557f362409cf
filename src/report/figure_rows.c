/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "figure_rows.h"

#include "figure.h"
#include "number_text.h"

static const scwi_column columns[] = {
    {NULL, SCWI_LEFT, 0, false, 14}, /* label */
    {NULL, SCWI_POINT, 2, false, 0}, /* value */
    {NULL, SCWI_LEFT, 1, false, 0},  /* unit */
    {NULL, SCWI_POINT, 3, false, 0}, /* low */
    {NULL, SCWI_LEFT, 1, false, 0},  /* to */
    {NULL, SCWI_POINT, 1, false, 0}, /* high */
    {NULL, SCWI_LEFT, 3, false, 0}}; /* remark */

scwi_figure_rows scwi_figure_rows_start(const char *unit) {
  return (scwi_figure_rows){
      .grid = {.columns = columns,
               .n_columns = sizeof columns / sizeof *columns},
      .unit = unit ? unit : ""};
}

static void note_missing(scwi_figure_rows *rows, const char *label,
                         bool interval_only, scw_presence why) {
  if (why == SCW_PRESENT || why == SCW_NOT_COMPUTED) return;
  if (why == SCW_BARE_NUMBER) return; /* it is what the answer is about */
  if (rows->n_missing == SCWI_MOST_MISSING) return;
  rows->missing[rows->n_missing].label = label;
  rows->missing[rows->n_missing].interval_only = interval_only;
  rows->missing[rows->n_missing++].why = why;
}

void scwi_figure_rows_missing(scwi_figure_rows *rows, const char *label,
                              scw_presence why) {
  note_missing(rows, label, false, why);
}

static void add_signed(scwi_grid *grid, double value, int decimals) {
  char number[SCWI_NUMBER_SIZE + 1] = "+";
  char *plain = number + 1;
  scwi_fixed_text(value, decimals, plain);
  scwi_grid_cell(grid, value > 0 ? number : plain);
}

void scwi_figure_rows_add(scwi_figure_rows *rows, scwi_figure_row row) {
  scwi_grid *grid = &rows->grid;
  bool value = row.value && scwi_present(*row.value);
  bool interval = row.interval && row.interval->state == SCW_PRESENT;
  if (row.value && !value)
    note_missing(rows, row.label, false, row.value->state);
  else if (row.interval && !interval)
    note_missing(rows, row.label, row.value != NULL, row.interval->state);
  if (!value && !interval) return;
  scwi_grid_cell(grid, row.label);
  if (value && row.signed_value)
    add_signed(grid, row.value->value, row.decimals);
  else if (value)
    scwi_grid_fixed(grid, row.value->value, row.decimals);
  else
    scwi_grid_blanks(grid, 1);
  scwi_grid_cell(grid, value ? rows->unit : NULL);
  if (interval)
    scwi_grid_range(grid, *row.interval, row.decimals);
  else
    scwi_grid_blanks(grid, 3);
  scwi_grid_cell(grid, row.remark);
}

void scwi_sheet_figure_rows(scwi_sheet *sheet, scwi_figure_rows *rows) {
  if (rows->grid.n_cells == 0) return;
  scwi_sheet_gap(sheet);
  scwi_sheet_grid(sheet, &rows->grid);
}

static bool told_before(const scwi_figure_rows *rows, size_t m) {
  for (size_t i = 0; i < m; i++)
    if (rows->missing[i].why == rows->missing[m].why) return true;
  return false;
}

void scwi_sheet_missing(scwi_sheet *sheet, const scwi_figure_rows *rows) {
  bool first = true;
  for (size_t m = 0; m < rows->n_missing; m++) {
    if (told_before(rows, m)) continue;
    scw_presence why = rows->missing[m].why;
    for (size_t i = m; i < rows->n_missing; i++) {
      if (rows->missing[i].why != why) continue;
      scwi_text_format(&sheet->scratch, "%s%s%s", i == m ? "" : ", ",
                       rows->missing[i].label,
                       rows->missing[i].interval_only ? " (interval)" : "");
    }
    scwi_text_format(&sheet->scratch, ": %s", scw_presence_text(why));
    scwi_sheet_labelled_scratch(sheet, first ? "not given" : "");
    first = false;
  }
}
