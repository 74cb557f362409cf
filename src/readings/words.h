/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words a header may use, each with one meaning, and texts taken apart
 * into words. The full list is in docs/manual/tables.md. */
#ifndef SCWI_WORDS_H
#define SCWI_WORDS_H

#include "blanks.h"
#include "scatterwise/table.h"

typedef enum scwi_meaning {
  SCWI_MEANS_NOTHING, /* a word we do not know: a label */
  SCWI_MEANS_ROLE,
  SCWI_MEANS_READING, /* what is read: gloss, pull, reading */
  SCWI_MEANS_SIDE,
  SCWI_MEANS_SUMMARY, /* mean, sd, max */
  SCWI_MEANS_OTHER,   /* row number, temperature, remark: never a reading */
  SCWI_MEANS_FILLER   /* after "wax", "the" */
} scwi_meaning;

typedef struct scwi_word {
  scwi_span span;          /* as written */
  char key[24];            /* lower case, without points; "" when too long */
  scwi_meaning meaning;
  scw_role role;           /* of SCWI_MEANS_ROLE */
  scw_side side;           /* of SCWI_MEANS_SIDE */
  const char *quantity;    /* of SCWI_MEANS_READING; "" when it is no
                              particular one */
  scwi_span digits;        /* before1, gloss-3: the number behind the word */
} scwi_word;

enum { SCWI_WORDS_MOST = 12 };

typedef struct scwi_phrase {
  scwi_word word[SCWI_WORDS_MOST];
  size_t n;
  bool cut; /* more words than fit: nothing we know */
} scwi_phrase;

/* Splits at blanks and at _ , ; : = / and looks every word up; two words that
 * mean something together ("std dev", "run order") become one. */
void scwi_words_of(const char *text, size_t length, scwi_phrase *out);

/* Before, after or neither, for a cell of the state column. */
scw_side scwi_side_of(const char *text, size_t length);

/* Does the text name a summary: Mean, Std. dev., Max: ...? */
bool scwi_is_summary(const char *text, size_t length);

/* Equal without case, with blanks and underscores alike; `name` may hold *
 * for any text. */
bool scwi_same_name(scwi_span name, scwi_span other);

/* A unit we know: GU, g, N, um ... */
bool scwi_is_unit(scwi_span text);

/* 60, 60°, 60deg, 60-degree: the angle in digits; length 0 when it is none.
 * `marked`: the degree sign or word is required. */
scwi_span scwi_angle_of(scwi_span text, bool marked);

#endif
