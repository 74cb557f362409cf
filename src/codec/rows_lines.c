/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whole lines without quotes, many at a time. */
#include <string.h>

#include "rows_inside.h"

/* Bytes of the whole lines among the first `size`. */
static size_t whole_lines(const char *text, size_t size) {
  const char *last = memrchr(text, '\n', size);
  return last ? (size_t)(last - text) + 1 : 0;
}

/* The same for lines that may be given out as they are: those before a quote
 * and before a CR that is not followed by LF. */
static size_t plain_lines(const char *text, size_t size) {
  const char *quote = memchr(text, '"', size);
  size = whole_lines(text, quote ? (size_t)(quote - text) : size);
  for (size_t at = 0; at < size; at++) {
    const char *cr = memchr(text + at, '\r', size - at);
    if (!cr) break;
    at = (size_t)(cr - text);
    if (cr[1] != '\n') return whole_lines(text, at);
  }
  return size;
}

static size_t count_lines(const char *text, size_t size) {
  size_t count = 0;
  for (size_t i = 0; i < size; i++) count += text[i] == '\n';
  return count;
}

scw_status scwi_rows_lines(scw_context *context, scwi_rows *rows, char *to,
                           size_t most, scwi_lines *out) {
  *out = (scwi_lines){0, rows->line, 0};
  if (rows->filled - rows->at < most && !rows->ended) {
    scw_status status = scwi_rows_fill(context, rows, most);
    if (status != SCW_OK) return status;
  }
  const char *from = rows->text + rows->at;
  size_t left = rows->filled - rows->at;
  out->size = plain_lines(from, left < most ? left : most);
  if (out->size == 0) return SCW_OK;
  memcpy(to, from, out->size);
  out->count = count_lines(from, out->size);
  rows->at += out->size;
  rows->line += out->count;
  rows->heading = false;
  return SCW_OK;
}
