/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows as one text, so that a test shows in one line what it expects:
 * "1: 1.1[spot] 1.6q[87,4]" is row, line.column[cell], q for quoted; then the
 * facts, or the error. */
#ifndef ROWS_DUMP_H
#define ROWS_DUMP_H

#include <stdbool.h>

#include "rows.h"

/* A source over bytes in memory. */
typedef struct memory_source {
  const char *bytes;
  size_t size, at;
  size_t block;    /* bytes a read gives at most; 0: as many as are asked */
  int error;       /* what reading fails with at the end; 0: it ends well */
} memory_source;

scw_source memory_source_of(memory_source *source);

typedef struct dump_options {
  size_t block;
  int error;
  char separator, decimal_mark;
  bool facts;      /* the separator and the encoding in a last line */
  bool offsets;    /* byte offset of each row */
} dump_options;

/* Freed by the caller. */
char *rows_dump(const char *bytes, size_t size, dump_options options);

/* Fails the test unless the dump of the text (a string) is `wanted`. */
void check_rows_with(const char *text, dump_options options,
                     const char *wanted, const char *file, int line);
#define check_rows(text, wanted)                                               \
  check_rows_with((text), (dump_options){0}, (wanted), __FILE__, __LINE__)
#define check_rows_by(text, by, wanted)                                 \
  check_rows_with((text), (dump_options){.separator = (by)}, (wanted),         \
                  __FILE__, __LINE__)
#endif
