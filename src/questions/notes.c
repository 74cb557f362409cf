/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "notes.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#include "memory.h"

scw_status scwi_note_take(scw_context *context, scwi_notes *notes,
                          const char *code, scwi_text *text) {
  char *words = NULL;
  scw_status status =
      SCWI_RESERVE(context, notes->n + 1, &notes->note, &notes->capacity);
  if (status == SCW_OK) status = scwi_text_take(context, text, &words);
  if (status == SCW_OK) notes->note[notes->n++] = (scw_note){code, words};
  scwi_text_free(text);
  return status;
}

scw_status scwi_note(scw_context *context, scwi_notes *notes, const char *code,
                     const char *format, ...) {
  char words[1024];
  scwi_text text = {0};
  va_list arguments;
  va_start(arguments, format);
  vsnprintf(words, sizeof words, format, arguments);
  va_end(arguments);
  scwi_text_add(&text, words);
  return scwi_note_take(context, notes, code, &text);
}

void scwi_notes_free(scw_note *note, size_t n) {
  for (size_t i = 0; i < n; i++) free(note[i].text);
  free(note);
}
