/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Notes: remarks a reader must see, each with a stable code. */
#ifndef SCWI_NOTES_H
#define SCWI_NOTES_H

#include "scatterwise/readings.h"
#include "text.h"

typedef struct scwi_notes {
  scw_note *note;
  size_t n, capacity;
} scwi_notes;

/* Adds a note with the text so far in `text`, which is emptied. `code` must
 * be static. */
scw_status scwi_note_take(scw_context *context, scwi_notes *notes,
                          const char *code, scwi_text *text);

/* The same with printf-like words (no %f, %g, %e). */
scw_status scwi_note(scw_context *context, scwi_notes *notes, const char *code,
                     const char *format, ...)
    __attribute__((format(printf, 4, 5)));

void scwi_notes_free(scw_note *note, size_t n);

#endif
