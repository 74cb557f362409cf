/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading JSON strictly (RFC 8259): a tree in which every value and every key
 * knows its place. Refused, with line and column: anything outside the
 * grammar, numbers beyond a double, keys that repeat, text that is no UTF-8,
 * zero characters, nesting beyond SCWI_JSON_DEPTH, more than SCWI_JSON_KEYS
 * keys in one object, more than SCWI_JSON_BYTES bytes. A UTF-8 byte order mark
 * at the very start is passed over, as the RFC allows. */
#ifndef SCWI_JSON_IN_H
#define SCWI_JSON_IN_H

#include <stdbool.h>

#include "context.h"
#include "scatterwise/sink.h"

enum { SCWI_JSON_DEPTH = 64, SCWI_JSON_KEYS = 256, SCWI_JSON_BYTES = 1 << 24 };

typedef enum scwi_json_kind {
  SCWI_JSON_NULL,
  SCWI_JSON_BOOL,
  SCWI_JSON_NUMBER,
  SCWI_JSON_TEXT,
  SCWI_JSON_ARRAY,
  SCWI_JSON_OBJECT
} scwi_json_kind;

/* Counted from 1; columns count characters. */
typedef struct scwi_json_place {
  size_t line, column;
} scwi_json_place;

typedef struct scwi_json_value {
  scwi_json_kind kind;
  scwi_json_place place, key_place;
  const char *key;       /* of an object's member; else null */
  const char *text;      /* of a text, closed by a zero; else null */
  const char *written;   /* of a text: as the file has it, escapes and all */
  double number;         /* of a number */
  int digits;            /* decimals it is written with, below 0 for 12e3 */
  bool yes;              /* of true */
  const struct scwi_json_value *first, *next; /* members or items, in order */
  size_t n;              /* how many */
} scwi_json_value;

/* Everything is borrowed from the file. */
typedef struct scwi_json_file {
  const char *name;      /* borrowed from the source */
  char sha256[65];
  const scwi_json_value *root;
  char *bytes;           /* texts decoded */
  char *original;        /* as read; null where nothing was to be decoded */
  scwi_json_value *values;
} scwi_json_file;

/* SCW_BAD_INPUT with place, what stands there and what may. Free with
 * scwi_json_file_free, also after a failure. */
scw_status scwi_json_read(scw_context *context, scw_source source,
                          scwi_json_file *out);
void scwi_json_file_free(scwi_json_file *file);

/* The member of an object by its key, or null. */
const scwi_json_value *scwi_json_find(const scwi_json_value *object,
                                      const char *key);

/* Where the n-th character of a text stands in the file, from 1 on; behind the
 * last one its closing quote. An escape is one character. */
scwi_json_place scwi_json_place_in(const scwi_json_value *text, size_t n);

/* "a number", "a text", ... for messages. */
const char *scwi_json_kind_words(scwi_json_kind kind);

#endif
