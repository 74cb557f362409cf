/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tables out of texts, in one line each. */
#ifndef READING_TABLE_H
#define READING_TABLE_H

#include "check.h"
#include "scatterwise/table.h"

/* Reads `size` bytes of text under the name boat.csv, `block` bytes at a time
 * (0: all at once). */
scw_status read_bytes(scw_context *context, const scw_table_options *options,
                      const char *text, size_t size, size_t block,
                      scw_table **out);

/* The table of a text; fails the test with the message when it is refused.
 * `options` may be null. Free with scw_table_free. */
scw_table *table_of(const char *text, const scw_table_options *options);

/* Every reading with what is known of it, "87.4 spot=1 before; ...". The
 * parts in this order: value, mark (* or brackets), set= product= panel=
 * state= spot= repeat= session= direction= geometry= operator= row= column=,
 * before or after, order= x= y=. Free it. */
char *described(const scw_table *table);

/* The text reads as described; or everything of it is as in the account:
 * "shape separator mark unit quantity geometry; LINE:COLUMN reason 'text'; ..." */
void check_readings(const char *text, const scw_table_options *options,
                    const char *wanted);
void check_account(const char *text, const scw_table_options *options,
                   const char *wanted);

/* The text is refused with the status, at the line and column (0: none); the
 * message holds all fragments (up to a null). *out must be null. */
void check_refused_at(const char *text, const scw_table_options *options,
                      scw_status status, size_t line, size_t column,
                      const char *const *fragments);
#define check_refused(text, options, status, line, column, ...)                \
  check_refused_at((text), (options), (status), (line), (column),              \
                   (const char *const[]){__VA_ARGS__, NULL})

#endif
