/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What tells one set from another, and what sets are called. */
#ifndef SCWI_SET_KEYS_H
#define SCWI_SET_KEYS_H

#include "context.h"
#include "scatterwise/table.h"

/* Any of these labels. */
typedef struct scwi_set_key {
  size_t input; /* readings of two files are never one set */
  int32_t set, product, panel, session, state;
  scw_side side;
} scwi_set_key;

scwi_set_key scwi_set_key_of(const scw_reading *reading, size_t input);

/* Keys numbered in the order they are first asked for. */
typedef struct scwi_set_index {
  scwi_set_key *key;
  size_t n, capacity;
  size_t *slot; /* key number + 1; 0 is free; a power of two of them */
  size_t slots;
} scwi_set_index;

/* The number of a key; a new one is index->n - 1 afterwards. */
scw_status scwi_set_index_find(scw_context *context, scwi_set_index *index,
                               const scwi_set_key *key, size_t *out);
/* Adds a key that is new and will not be asked for again. */
scw_status scwi_set_index_append(scw_context *context, scwi_set_index *index,
                                 const scwi_set_key *key, size_t *out);
void scwi_set_index_free(scwi_set_index *index);

/* The parts of which a set's label is made: those that differ among the
 * sets. */
enum { SCWI_SET_PARTS = 6 };
typedef struct scwi_set_parts {
  bool shown[SCWI_SET_PARTS];
} scwi_set_parts;

scwi_set_parts scwi_set_parts_of(const scw_table *table,
                                 const scwi_set_key *key, size_t n);

/* The label where it is one text of the table as it stands; else null. */
const char *scwi_set_name(const scw_table *table, const scwi_set_key *key,
                          const scwi_set_parts *parts);
/* The label: its parts joined by " / "; the input's name when none differs. */
scw_status scwi_set_label(scw_context *context, const scw_table *table,
                          const scwi_set_key *key,
                          const scwi_set_parts *parts, char **out);

#endif
