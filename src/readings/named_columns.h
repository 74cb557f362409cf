/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tables of numbers made from readings (summaries, grids): named columns, read
 * with the text tolerance of reading tables and errors true to line and
 * column. */
#ifndef SCWI_NAMED_COLUMNS_H
#define SCWI_NAMED_COLUMNS_H

#include "decimal.h"
#include "number_headings.h"
#include "scatterwise/table.h"

/* One cell of a row. A number that is not there is NaN, a text "". */
typedef struct scwi_named_cell {
  bool has;            /* the file has the column */
  size_t line, column; /* of the cell, or of the row where it ends before */
  double number;
  int digits;          /* decimals the number is written with */
  scwi_span text;
} scwi_named_cell;

typedef struct scwi_named_row {
  const char *file;
  size_t line;
  scwi_named_cell cell[SCWI_NAMED_END][SCW_SIDE_AFTER + 1];
  /* SCWI_NAMED_READING: those of each side that are there */
  const scwi_decimal *reading[SCW_SIDE_AFTER + 1];
  size_t n_readings[SCW_SIDE_AFTER + 1];
} scwi_named_row;

typedef scw_status (*scwi_take_row)(void *user, scw_context *context,
                                    const scwi_named_row *row);

#define SCWI_NAMED_BIT(what) (1U << (what))

/* What is asked of a table. */
typedef struct scwi_named_ask {
  unsigned wanted;     /* SCWI_NAMED_BIT of the columns to read */
  unsigned required;   /* of those that must be there */
  bool sided;          /* columns may be of one side: "before mean" */
  bool open;           /* units, quantities and geometries may differ between
                          columns: every row stands for itself. The
                          account has the unit of the first mean */
  scwi_take_row check; /* told where the headings are, before the first row;
                          or null */
  scwi_take_row take;
  void *user;
} scwi_named_ask;

/* The reason in the account for a column of numbers whose heading is no word
 * we know. */
#define SCWI_NOT_UNDERSTOOD "column not understood"

/* Reads the source to its end, a call of `take` each row. *account becomes a
 * table without readings that carries the account of the input: unit,
 * quantity and geometry as the headings say, columns that are not read.
 * `options` may be null; columns cannot be chosen by it (SCW_BAD_ARGUMENT).
 * SCW_BAD_INPUT names what is wrong and where: a column that is missing or
 * named twice, units that differ, a scatter that cannot be used, anything but
 * a number in place of one, a number with two readings, a cell without a
 * heading, a file without rows. */
scw_status scwi_named_columns_read(scw_context *context,
                                   const scw_table_options *options,
                                   scw_source source, const scwi_named_ask *ask,
                                   scw_table **account);

/* SCW_BAD_INPUT at a cell, or at the row when `cell` is null. */
scw_status scwi_named_fail(scw_context *context, const scwi_named_row *row,
                           const scwi_named_cell *cell, const char *words);

#endif
