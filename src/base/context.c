/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The context's memory and the messages of failures. */
#include "context.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

scw_status scwi_context_make(scw_context **out) {
  *out = calloc(1, sizeof **out);
  if (!*out) return SCW_OUT_OF_MEMORY;
  (*out)->threads = 2;
  return SCW_OK;
}

void scw_context_free(scw_context *context) { free(context); }

const char *scw_context_message(const scw_context *context) {
  return context ? context->message : "";
}

size_t scw_context_line(const scw_context *context) {
  return context ? context->line : 0;
}

size_t scw_context_column(const scw_context *context) {
  return context ? context->column : 0;
}

scw_status scw_context_set_threads(scw_context *context, unsigned threads) {
  if (threads < 1 || threads > 64)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "%u threads: choose a number from 1 to 64", threads);
  context->threads = threads;
  return SCW_OK;
}

/* Appends to the message from offset `at`; returns the new length. A message
 * that does not fit is cut, never overrun. */
static size_t append_message(scw_context *context, size_t at,
                             const char *format, va_list arguments) {
  int wrote = vsnprintf(context->message + at, SCWI_MESSAGE_SIZE - at, format,
                        arguments);
  if (wrote < 0) return at;
  size_t end = at + (size_t)wrote;
  return end < SCWI_MESSAGE_SIZE ? end : SCWI_MESSAGE_SIZE - 1;
}

__attribute__((format(printf, 3, 4))) static size_t
append_words(scw_context *context, size_t at, const char *format, ...) {
  va_list arguments;
  va_start(arguments, format);
  at = append_message(context, at, format, arguments);
  va_end(arguments);
  return at;
}

scw_status scwi_fail(scw_context *context, scw_status status,
                     const char *format, ...) {
  va_list arguments;
  context->line = context->column = 0;
  va_start(arguments, format);
  append_message(context, 0, format, arguments);
  va_end(arguments);
  return status;
}

scw_status scwi_fail_at(scw_context *context, scw_status status,
                        const char *name, size_t line, size_t column,
                        const char *format, ...) {
  va_list arguments;
  size_t at = append_words(context, 0, "%s", name);
  if (line) at = append_words(context, at, ", line %zu", line);
  if (line && column) at = append_words(context, at, ", column %zu", column);
  at = append_words(context, at, ": ");
  va_start(arguments, format);
  append_message(context, at, format, arguments);
  va_end(arguments);
  context->line = line;
  context->column = column;
  return status;
}
