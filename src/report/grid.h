/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows of cells in columns: words to the left, whole numbers to the right,
 * numbers aligned on the decimal point. */
#ifndef SCWI_GRID_H
#define SCWI_GRID_H

#include "sheet.h"

typedef enum scwi_align { SCWI_LEFT, SCWI_RIGHT, SCWI_POINT } scwi_align;

typedef struct scwi_column {
  const char *heading; /* null: none */
  scwi_align align;
  size_t gap;   /* blanks before the column */
  bool spans;   /* the heading may run over the columns that follow */
  size_t least; /* columns it takes at least, when not empty */
} scwi_column;

enum { SCWI_GRID_COLUMNS = 12 };

/* Zero-initialise but for `columns` and `n_columns` (at most 12). A last
 * column to the left is wrapped; a first one that is long stands on its own
 * line. A grid that cannot fit the page is printed as wrapped rows. */
typedef struct scwi_grid {
  const scwi_column *columns;
  size_t n_columns;
  size_t n_cells;  /* filled so far, row after row */
  scwi_text cells; /* each closed by a zero */
} scwi_grid;

/* The next cell; null is empty. */
void scwi_grid_cell(scwi_grid *grid, const char *text);
void scwi_grid_fixed(scwi_grid *grid, double value, int decimals);
void scwi_grid_whole(scwi_grid *grid, unsigned long long value);
/* Empty cells where there is none; a range takes three: low, "to", high. */
void scwi_grid_figure(scwi_grid *grid, scw_figure figure, int decimals);
void scwi_grid_range(scwi_grid *grid, scw_interval interval, int decimals);
void scwi_grid_blanks(scwi_grid *grid, size_t cells);

/* Whether its columns fit the page. */
bool scwi_grid_fits(const scwi_grid *grid);

/* Prints the grid, headings first where there are any, and frees it. */
void scwi_sheet_grid(scwi_sheet *sheet, scwi_grid *grid);

#endif
