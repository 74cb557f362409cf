/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Row iterator over separated text (RFC 4180 and its everyday relatives),
 * from a source read in blocks. It says what other readers do not: line,
 * column and whether a cell was quoted. It knows nothing of what cells mean.
 *
 * Text: UTF-8 with or without BOM, UTF-16 with BOM or recognised by its zero
 * bytes, else Latin-1 (text_in.h). Line ends CRLF, LF, CR; a line end that
 * closes the file starts no further row.
 *
 * Cells: blanks (space, tab unless it separates) and no-break spaces (U+00A0,
 * U+2007, U+202F, U+FEFF) at both ends are taken off, outside quotes only. A
 * quote opens a quoted cell only as the cell's first character; inside, quotes
 * are doubled and line ends are kept. Elsewhere a quote is a character like
 * any other. With the blank as separator, runs of spaces and tabs separate and
 * those at the ends of a line do not.
 *
 * Rows: a line of blanks only is a row without cells. A line whose first
 * character that is no blank is `#` is a comment: one cell, the whole line,
 * whatever it holds; but in the first row a `#` alone in its cell heads a
 * column of numbers ("#,before,after"), and a spreadsheet's error value such
 * as #DIV/0! in the first cell makes no comment. A first line `sep=;` (any
 * character that can separate; "\t" may be spelled out) sets the separator
 * and is no row. */
#ifndef SCWI_ROWS_H
#define SCWI_ROWS_H

#include <stdbool.h>

#include "context.h"
#include "scatterwise/sink.h"

typedef struct scwi_cell {
  const char *text;  /* UTF-8, not closed by a zero */
  size_t length;
  size_t line, column; /* of its first character (of the opening quote, if
                          quoted); column in characters */
  bool quoted;
} scwi_cell;

typedef struct scwi_row {
  const scwi_cell *cells; /* borrowed until the next row */
  size_t n;               /* 0 for an empty line */
  size_t line;            /* where the row starts, counted from 1 */
  unsigned long long offset; /* bytes before the row in the decoded text */
} scwi_row;

typedef struct scwi_rows scwi_rows;

/* `separator` 0: found from the first 64 KiB (separator.h). `decimal_mark`
 * ',' keeps the comma from being found, '.' has it taken for a separator
 * wherever it stands, 0 leaves both to the guess. SCW_BAD_ARGUMENT for a
 * separator that cannot be one; SCW_BAD_INPUT when the commas can be read in
 * two ways (line and column of the first that can). */
scw_status scwi_rows_open(scw_context *context, scw_source source,
                          char separator, char decimal_mark, scwi_rows **out);
void scwi_rows_close(scwi_rows *rows);

/* The next row; *more = false at the end. Errors (SCW_BAD_INPUT) name line
 * and column: a zero byte (binary), invalid UTF-8 or UTF-16, a failed read,
 * an unclosed quote (where it opened), text after a closing quote, a cell or
 * row beyond the limits (1 MiB a cell, 16 MiB and 100,000 cells a row). Rows
 * before the fault are always given first. After an error only closing is
 * allowed. */
scw_status scwi_rows_next(scw_context *context, scwi_rows *rows, scwi_row *row,
                          bool *more);

/* Many lines at once, for a caller that knows the shape of their rows and
 * takes them apart himself. Copies up to `most` bytes of whole lines that
 * hold no quote, each closed by LF or CRLF, and steps behind them. Size 0: the
 * next row must be taken by scwi_rows_next (it holds a quote or a lone CR, is
 * longer than `most`, not closed, or the last). `to` has room for `most`. */
typedef struct scwi_lines {
  size_t size;  /* bytes copied */
  size_t line;  /* of the first */
  size_t count; /* lines */
} scwi_lines;
scw_status scwi_rows_lines(scw_context *context, scwi_rows *rows, char *to,
                           size_t most, scwi_lines *out);

/* Takes one of those lines apart as scwi_rows_next would have: `size` bytes
 * with the line end, line `number`. The row's offset is 0. */
scw_status scwi_rows_split(scw_context *context, scwi_rows *rows,
                           const char *line, size_t size, size_t number,
                           scwi_row *row);

/* What was found; final after the last row. */
typedef struct scwi_rows_facts {
  const char *encoding;  /* "UTF-8", "UTF-16LE", "UTF-16BE", "Latin-1" */
  char separator;        /* 0 when the file has one column */
  bool separator_line;   /* a sep= line said so */
  bool decimal_commas;   /* separator 0 or blank because commas were found to
                            be decimal marks (separator.h) */
  bool any_quote;        /* a quoted cell was seen */
  unsigned long long bytes;
  char sha256[65];       /* of the bytes as read; "" before the end */
} scwi_rows_facts;
scwi_rows_facts scwi_rows_facts_of(const scwi_rows *rows);

#endif
