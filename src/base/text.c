/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "text.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "memory.h"

static bool grow(scwi_text *text, size_t more) {
  enum { LEAST = 128 }; /* most texts never grow again */
  scw_context unheard;  /* only ever written to */
  size_t needed = text->length + more + 1;
  if (text->failed) return false;
  text->failed = SCWI_RESERVE(&unheard, needed < LEAST ? LEAST : needed,
                              &text->data, &text->capacity) != SCW_OK;
  return !text->failed;
}

/* Room for `more` bytes and the closing zero; false and remembered if none. */
static bool make_room(scwi_text *text, size_t more) {
  if (text->length + more < text->capacity) return !text->failed;
  return grow(text, more);
}

void scwi_text_append(scwi_text *text, const char *more, size_t length) {
  if (!make_room(text, length)) return;
  if (length) memcpy(text->data + text->length, more, length);
  text->length += length;
  text->data[text->length] = 0;
}

void scwi_text_add(scwi_text *text, const char *more) {
  scwi_text_append(text, more, strlen(more));
}

void scwi_text_format(scwi_text *text, const char *format, ...) {
  va_list arguments;
  va_start(arguments, format);
  int needed = vsnprintf(NULL, 0, format, arguments);
  va_end(arguments);
  if (needed < 0 || !make_room(text, (size_t)needed)) {
    text->failed = true;
    return;
  }
  va_start(arguments, format);
  vsnprintf(text->data + text->length, (size_t)needed + 1, format, arguments);
  va_end(arguments);
  text->length += (size_t)needed;
}

void scwi_text_repeat(scwi_text *text, char c, size_t times) {
  if (!make_room(text, times)) return;
  memset(text->data + text->length, c, times);
  text->length += times;
  text->data[text->length] = 0;
}

void scwi_text_clear(scwi_text *text) {
  text->length = 0;
  text->failed = false;
  if (text->data) text->data[0] = 0;
}

void scwi_text_free(scwi_text *text) {
  free(text->data);
  *text = (scwi_text){0};
}

scw_status scwi_text_status(scw_context *context, const scwi_text *text) {
  if (!text->failed) return SCW_OK;
  return scwi_fail(context, SCW_OUT_OF_MEMORY, "memory ran out writing text");
}

scw_status scwi_text_take(scw_context *context, scwi_text *text, char **out) {
  *out = NULL;
  scwi_text_append(text, "", 0);
  scw_status status = scwi_text_status(context, text);
  if (status == SCW_OK) {
    *out = text->data;
    *text = (scwi_text){0};
  } else {
    scwi_text_free(text);
  }
  return status;
}

size_t scwi_text_columns(const char *text, size_t length) {
  size_t columns = 0;
  for (size_t i = 0; i < length; i++) {
    unsigned char c = (unsigned char)text[i];
    bool continues = (c & 0xC0U) == 0x80U;
    bool combining = c == 0xCCU && i + 1 < length; /* U+0300 to U+033F */
    if (!continues && !combining) columns++;
  }
  return columns;
}

char scwi_lower(char c) {
  return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

bool scwi_same_letters(const char *a, const char *b, size_t length) {
  for (size_t i = 0; i < length; i++)
    if (scwi_lower(a[i]) != scwi_lower(b[i])) return false;
  return true;
}
