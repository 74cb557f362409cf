/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "print.h"

#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

enum { WIDTH = 80, LONGEST = 4096 };

void cli_print(scw_sink sink, const char *format, ...) {
  char text[LONGEST];
  va_list arguments;
  va_start(arguments, format);
  int size = vsnprintf(text, sizeof text, format, arguments);
  va_end(arguments);
  if (size > 0) {
    size_t kept = (size_t)size < sizeof text ? (size_t)size : sizeof text - 1;
    (void)sink.write(sink.user, text, kept);
  }
}

void cli_print_wrapped(scw_sink sink, const char *text, size_t at,
                       size_t indent) {
  cli_print(sink, "%*s", at < indent ? (int)(indent - at) : 0, "");
  size_t column = at > indent ? at : indent;
  bool fresh = true; /* no word on this line yet */
  while (*text != '\0') {
    size_t word = strcspn(text, " \n");
    if (!fresh && column + 1 + word > WIDTH) {
      cli_print(sink, "\n%*s", (int)indent, "");
      column = indent;
    } else if (!fresh) {
      cli_print(sink, " ");
      column++;
    }
    cli_print(sink, "%.*s", (int)word, text);
    column += word;
    text += word;
    fresh = false;
    if (strncmp(text, "\n\n", 2) == 0) {
      cli_print(sink, "\n\n%*s", (int)indent, "");
      column = indent;
      fresh = true;
    }
    text += strspn(text, " \n");
  }
  cli_print(sink, "\n");
}
