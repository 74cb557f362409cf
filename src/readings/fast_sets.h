/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sets told apart by one label, each with its exact sums: what one thread of
 * the quick way gathers. Millions of readings in any order mean millions of
 * looks at memory that is in no cache, so what every reading touches fills one
 * line of it, and can be sent for in time. */
#ifndef SCWI_FAST_SETS_H
#define SCWI_FAST_SETS_H

#include "arena.h"
#include "tick_sums.h"

/* What each reading touches. */
typedef struct scwi_fast_set {
  scwi_tick_sums sums;
  char start[16]; /* of the label, zeros behind it */
} scwi_fast_set;

/* The rest of a set. */
typedef struct scwi_fast_name {
  const char *text; /* the label */
  size_t length;
  size_t line;      /* of the first reading */
  uint64_t hash;    /* scwi_label_hash */
} scwi_fast_name;

enum { SCWI_FAST_CHUNK = 4096 }; /* sets */

typedef struct scwi_fast_sets {
  scwi_fast_set **chunk; /* aligned to 64 bytes, inside of ... */
  void **room;           /* ... what was allocated */
  size_t chunks, chunk_capacity, room_capacity;
  scwi_fast_name *name;  /* by first reading, as long as lines only rise */
  size_t n, capacity;
  uint64_t *slot;        /* upper half of the hash, set number + 1; 0 is free;
                            a power of two of them */
  size_t slots;
  scwi_arena texts;
  scwi_tick_scale scale;
} scwi_fast_sets;

static inline scwi_fast_set *scwi_fast_set_at(const scwi_fast_sets *sets,
                                              size_t set) {
  return &sets->chunk[set / SCWI_FAST_CHUNK][set % SCWI_FAST_CHUNK];
}

/* Sends for what finding a label of this hash will need: first its slot, then
 * (once that has come) the set it points to. */
void scwi_fast_sets_expect_slot(const scwi_fast_sets *sets, uint64_t hash);
void scwi_fast_sets_expect_set(const scwi_fast_sets *sets, uint64_t hash);

/* The number of the set of that label; *out = SCWI_NO_FAST_SET when the label
 * needs the slow way. */
#define SCWI_NO_FAST_SET ((size_t)-1)
scw_status scwi_fast_sets_find(scw_context *context, scwi_fast_sets *sets,
                               const char *label, size_t length, uint64_t hash,
                               size_t line, size_t *out);

/* Adds mantissa * 10^-digits (digits >= 0) to a set; false when no common
 * tick can hold it. */
bool scwi_fast_sets_add_slowly(scwi_fast_sets *sets, size_t set,
                               int64_t mantissa, int digits);

static inline bool scwi_fast_sets_add(scwi_fast_sets *sets, size_t set,
                                      int64_t mantissa, int digits) {
  scwi_tick_scale *scale = &sets->scale;
  uint64_t size = mantissa < 0 ? -(uint64_t)mantissa : (uint64_t)mantissa;
  if (digits != scale->digits || !scale->settled || size > scale->largest)
    return scwi_fast_sets_add_slowly(sets, set, mantissa, digits);
  scale->n++;
  scwi_tick_sums_add(&scwi_fast_set_at(sets, set)->sums, mantissa);
  return true;
}

void scwi_fast_sets_free(scwi_fast_sets *sets);

#endif
