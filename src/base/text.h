/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text that grows. A failed append is remembered, so that a run of appends is
 * checked once, at its end, with scwi_text_status. */
#ifndef SCWI_TEXT_H
#define SCWI_TEXT_H

#include <stdbool.h>

#include "context.h"

typedef struct scwi_text {
  char *data; /* closed by a zero; null while empty */
  size_t length, capacity;
  bool failed;
} scwi_text;

void scwi_text_append(scwi_text *text, const char *more, size_t length);
void scwi_text_add(scwi_text *text, const char *more);

/* printf-like for words and whole numbers only: no %f, %g, %e. */
void scwi_text_format(scwi_text *text, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

void scwi_text_repeat(scwi_text *text, char c, size_t times);
void scwi_text_clear(scwi_text *text); /* keeps the room */
void scwi_text_free(scwi_text *text);

/* SCW_OUT_OF_MEMORY when any append failed. */
scw_status scwi_text_status(scw_context *context, const scwi_text *text);

/* Hands the text over as a heap string ("" when empty) and empties `text`. */
scw_status scwi_text_take(scw_context *context, scwi_text *text, char **out);

/* Columns a UTF-8 text takes on a terminal: its characters, combining marks
 * not counted apart (the report uses no wide characters). */
size_t scwi_text_columns(const char *text, size_t length);

/* ASCII letters without case, the same in every locale (the C library's own
 * functions take I and i for different letters in some). Text compared must
 * have `length` bytes on both sides. */
char scwi_lower(char c);
bool scwi_same_letters(const char *a, const char *b, size_t length);

#endif
