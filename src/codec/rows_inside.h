/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of the row iterator: rows.c reads and opens, row_scan.c takes one row
 * apart. */
#ifndef SCWI_ROWS_INSIDE_H
#define SCWI_ROWS_INSIDE_H

#include "rows.h"
#include "text_in.h"

/* What a byte means while an unquoted cell is scanned. */
enum {
  SCWI_PLAIN = 0,
  SCWI_ENDS_CELL,
  SCWI_ENDS_LINE,
  SCWI_BEYOND_ASCII
};

struct scwi_rows {
  scwi_text_in *in;
  const char *name;
  char *text;               /* decoded; text[filled] is a line end */
  size_t capacity, filled;
  size_t at;                /* where the next row starts */
  size_t line;              /* of that row */
  unsigned long long before; /* decoded bytes before text[0] */
  bool ended;               /* the text has no more ... */
  bool ended_well;          /* ... and nothing was wrong with it */
  bool heading;             /* no row with cells was given yet */
  scwi_cell *cells;
  size_t cells_capacity;
  unsigned char meaning[256];
  scwi_rows_facts facts;
};

/* A place in the text. */
typedef struct scwi_text_place {
  const char *at;
  size_t line, column;
} scwi_text_place;

/* Steps a place forward over the text up to `to`. */
void scwi_text_place_step(scwi_text_place *place, const char *to);

/* Behind the line end (LF, CR, CRLF) at `at`; `end` where there is none. */
const char *scwi_after_line(const char *at, const char *end);

/* Bytes of the text at `from` worth quoting in a message: at most 30
 * characters, none beyond the line or `end`. */
int scwi_excerpt(const char *from, const char *end);

typedef enum outcome {
  DONE,
  NEEDS_MORE, /* the row is not wholly there; nothing changed */
  FAILED
} outcome;

/* Moves what is left to the front and reads until `wanted` bytes are there, or
 * the text ends. */
scw_status scwi_rows_fill(scw_context *context, scwi_rows *rows,
                          size_t wanted);

/* Takes the row at rows->at (which is before rows->filled) apart and steps
 * behind it. *status tells what failed. */
outcome scwi_rows_scan(scw_context *context, scwi_rows *rows,
                                 scwi_row *row, scw_status *status);

#endif
