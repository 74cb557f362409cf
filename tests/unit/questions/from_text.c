/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "from_text.h"

#include <string.h>

static int read_text(void *user, char *buffer, size_t size, size_t *got) {
  text_place *place = user;
  size_t left = strlen(place->at);
  *got = left < size ? left : size;
  memcpy(buffer, place->at, *got);
  place->at += *got;
  return 0;
}

scw_source source_of_text(text_place *place) {
  return (scw_source){read_text, place, "shed.csv"};
}

scw_context *a_context(void) {
  scw_context *context = NULL;
  assert_int_equal(scw_context_new(&context), SCW_OK);
  return context;
}

void went_well(scw_context *context, scw_status status) {
  if (status != SCW_OK)
    fail_msg("%s: %s", scw_status_text(status),
             scw_context_message(context));
}

scw_table *table_from(scw_context *context, const char *text,
                      const scw_table_options *options) {
  static const scw_table_options none;
  text_place place = {text};
  scw_source source = source_of_text(&place);
  scw_table *table = NULL;
  went_well(context, scw_table_read(context, options ? options : &none, source,
                                    &table));
  return table;
}

const char *note_text(const scw_note *notes, size_t n, const char *code) {
  for (size_t i = 0; i < n; i++)
    if (!strcmp(notes[i].code, code)) return notes[i].text;
  return NULL;
}

void message_names(scw_context *context, ...) {
  const char *message = scw_context_message(context), *word;
  va_list words;
  va_start(words, context);
  while ((word = va_arg(words, const char *)))
    if (!strstr(message, word)) fail_msg("\"%s\" lacks \"%s\"", message, word);
  va_end(words);
}
