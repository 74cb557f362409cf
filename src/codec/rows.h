/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Row iterator over separated text (RFC 4180 and its everyday relatives),
 * from a source read in blocks. It says what other readers do not: line,
 * column and whether a cell was quoted. It knows nothing of what cells mean.
 *
 * Text: UTF-8 with or without BOM, UTF-16 with BOM or recognised by its zero
 * bytes, else Latin-1 (decided at the first byte that is not ASCII). Line
 * ends CRLF, LF, CR. A line `sep=;` at the top sets the separator and is no
 * row. Quotes double inside quotes; quoted cells may hold line ends. */
#ifndef SCWI_ROWS_H
#define SCWI_ROWS_H

#include <stdbool.h>

#include "context.h"
#include "scatterwise/sink.h"

typedef struct scwi_cell {
  const char *text;  /* UTF-8, not closed by a zero, blanks and no-break
                        spaces at both ends removed unless quoted */
  size_t length;
  size_t line, column; /* where the cell starts; column in characters */
  bool quoted;
} scwi_cell;

typedef struct scwi_row {
  const scwi_cell *cells; /* borrowed until the next row */
  size_t n;               /* 0 for an empty line */
  size_t line;            /* where the row starts, counted from 1 */
  unsigned long long offset; /* bytes before the row in the decoded text */
} scwi_row;

typedef struct scwi_rows scwi_rows;

/* `separator` 0: found from the first 64 KiB (comma, semicolon, tab; a file
 * with none of them, blanks; a file where comma may be a decimal mark is a
 * semicolon or tab file). */
scw_status scwi_rows_open(scw_context *context, scw_source source,
                          char separator, scwi_rows **out);
void scwi_rows_close(scwi_rows *rows);

/* The next row; *more = false at the end. Errors (SCW_BAD_INPUT) name line
 * and column: a zero byte (binary), invalid UTF-8 or UTF-16, an unclosed
 * quote (the line where it opened), text after a closing quote, a cell or
 * row beyond the limits (1 MiB a cell, 100,000 cells a row). */
scw_status scwi_rows_next(scw_context *context, scwi_rows *rows, scwi_row *row,
                          bool *more);

/* What was found; final after the last row. */
typedef struct scwi_rows_facts {
  const char *encoding;  /* "UTF-8", "UTF-16LE", "UTF-16BE", "Latin-1" */
  char separator;        /* 0 when the file has one column */
  bool separator_line;   /* a sep= line said so */
  bool any_quote;
  unsigned long long bytes;
  char sha256[65];       /* of the bytes as read */
} scwi_rows_facts;
scwi_rows_facts scwi_rows_facts_of(const scwi_rows *rows);

#endif
