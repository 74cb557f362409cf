/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows of figures: label, value, unit, "low to high", remark. What does not
 * exist is told once for each reason, below the rows. */
#ifndef SCWI_FIGURE_ROWS_H
#define SCWI_FIGURE_ROWS_H

#include "grid.h"

enum { SCWI_MOST_MISSING = 24 };

typedef struct scwi_figure_rows {
  scwi_grid grid;
  const char *unit;
  struct {
    const char *label;
    bool interval_only;
    scw_presence why;
  } missing[SCWI_MOST_MISSING];
  size_t n_missing;
} scwi_figure_rows;

/* What stands in a row; leave out what it does not have. A figure in state
 * "not computed" prints nothing. */
typedef struct scwi_figure_row {
  const char *label; /* static */
  const scw_figure *value;
  const scw_interval *interval;
  int decimals;
  bool signed_value; /* a change: "+3.48" */
  const char *remark;
} scwi_figure_row;

scwi_figure_rows scwi_figure_rows_start(const char *unit);
void scwi_figure_rows_add(scwi_figure_rows *rows, scwi_figure_row row);
/* A label told as missing although it has no row of its own. */
void scwi_figure_rows_missing(scwi_figure_rows *rows, const char *label,
                              scw_presence why);
/* Prints the rows and frees them; the missing ones wait for
 * scwi_sheet_missing, since other words may come between. */
void scwi_sheet_figure_rows(scwi_sheet *sheet, scwi_figure_rows *rows);
void scwi_sheet_missing(scwi_sheet *sheet, const scwi_figure_rows *rows);

#endif
