/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words of a public enum from its list: one function for each column. */
#ifndef SCWI_CODES_H
#define SCWI_CODES_H

/* Columns of the lists: (code, key) or (code, key, text). */
#define SCWI_KEY(code, key)            key,
#define SCWI_KEY_OF_3(code, key, text) key,
#define SCWI_TEXT_OF_3(code, key, text) text,

/* const char *function(type value): never null; `other` for a value that is
 * none of the enum. `end` is the enumerator behind the last. */
#define SCWI_CODE_FUNCTION(function, type, list, column, end, other)           \
  const char *function(type value) {                                           \
    static const char *const words[] = {list(column)};                         \
    return (unsigned)value < (unsigned)(end) ? words[value] : other;           \
  }

#endif
