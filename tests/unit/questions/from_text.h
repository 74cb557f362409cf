/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tables from text in memory, and the check that a call went well. */
#ifndef FROM_TEXT_H
#define FROM_TEXT_H

#include "check.h"

#include "scatterwise/scatterwise.h"

/* A text that is read like a file. */
typedef struct text_place {
  const char *at;
} text_place;
scw_source source_of_text(text_place *place);

scw_context *a_context(void);

/* Fails the test with the context's message when status is not SCW_OK. */
void went_well(scw_context *context, scw_status status);

/* The table of a text, as if it were the file "shed.csv". */
scw_table *table_from(scw_context *context, const char *text,
                      const scw_table_options *options);

/* The note with this code, or null. */
const char *note_text(const scw_note *notes, size_t n, const char *code);

/* The message names every one of the words (a null ends the list). */
void message_names(scw_context *context, ...);

#endif
