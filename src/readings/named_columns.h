/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tables of named columns of numbers and texts (summaries, grids), with the
 * text tolerance of reading tables and errors true to the line. */
#ifndef SCWI_NAMED_COLUMNS_H
#define SCWI_NAMED_COLUMNS_H

#include "blanks.h"
#include "context.h"
#include "scatterwise/table.h"

enum { SCWI_NAMED_MOST = 16 };

typedef struct scwi_named_column {
  const char *name;  /* compared without case, unit, blanks and underscores */
  const char *other; /* a second name, or null */
  bool is_text, required;
} scwi_named_column;

/* One row; the arrays follow the list of columns. A number that is not there
 * is NaN, a text "" (length 0). */
typedef struct scwi_named_row {
  size_t line;
  const double *number;
  const scwi_span *text;
  const bool *has; /* is the column in the file at all? */
} scwi_named_row;

typedef scw_status (*scwi_take_row)(void *user, scw_context *context,
                                    const scwi_named_row *row);

/* Reads the source to its end, a call of `take` each row. *account becomes a
 * table without readings that carries the account of the input; columns that
 * are not asked for are left alone. SCW_BAD_INPUT names what is wrong and
 * where: a column that is missing or named twice, text in place of a number,
 * a file without rows. */
scw_status scwi_named_columns_read(scw_context *context, scw_source source,
                                   const scwi_named_column *columns, size_t n,
                                   scwi_take_row take, void *user,
                                   scw_table **account);

/* Before, after or neither, for a cell of a state column. */
scw_side scwi_named_side(scwi_span text);

#endif
