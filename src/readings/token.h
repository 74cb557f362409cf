/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What one cell says: a number as people and spreadsheets write it, nothing,
 * a value beyond the scale, or text. Which mark is the decimal mark is not
 * decided here (marks.h). */
#ifndef SCWI_TOKEN_H
#define SCWI_TOKEN_H

#include "blanks.h"
#include "scatterwise/table.h"

typedef enum scwi_token_kind {
  SCWI_EMPTY,
  SCWI_MISSING,  /* NA, n/a, -, ., NaN, #N/A, #DIV/0! ... */
  SCWI_NUMBER,
  SCWI_CENSORED, /* >100 */
  SCWI_INFINITE, /* inf: never a reading */
  SCWI_TEXT
} scwi_token_kind;

/* How a number uses point and comma. */
typedef struct scwi_form {
  char decimal;   /* the mark that must be the decimal mark; 0: none */
  char group;     /* the mark that must separate thousands; 0: none */
  bool open;      /* 1.234: `decimal` may be a thousands separator as well */
} scwi_form;

enum { SCWI_TOKEN_ROOM = 400 };

typedef struct scwi_token {
  scwi_token_kind kind;
  scw_mark mark;
  scwi_form form;
  scwi_span body; /* of a number: sign, digits, points, commas, exponent in
                     ASCII, either in the cell or in `room` */
  char room[SCWI_TOKEN_ROOM];
} scwi_token;

/* Reads a cell; `text` must outlive the token. */
void scwi_token_read(const char *text, size_t length, scwi_token *out);

#endif
