/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sets told apart by one label, each with its exact sums: what one thread of
 * the quick way gathers. */
#ifndef SCWI_FAST_SETS_H
#define SCWI_FAST_SETS_H

#include "arena.h"
#include "tick_sums.h"

typedef struct scwi_fast_set {
  const char *text; /* the label */
  uint32_t length;
  size_t line;      /* of the first reading */
  uint64_t hash;    /* scwi_label_hash */
  scwi_tick_sums sums;
} scwi_fast_set;

typedef struct scwi_fast_sets {
  scwi_fast_set *set; /* by first reading, as long as lines only rise */
  size_t n, capacity;
  uint32_t *slot;     /* set number + 1; 0 is free; a power of two of them */
  size_t slots;
  scwi_arena texts;
  scwi_tick_scale scale;
} scwi_fast_sets;

/* The number of the set of that label; *out = SCWI_NO_FAST_SET when the label
 * needs the slow way. */
#define SCWI_NO_FAST_SET ((size_t)-1)
scw_status scwi_fast_sets_find(scw_context *context, scwi_fast_sets *sets,
                               const char *label, size_t length, size_t line,
                               size_t *out);

/* Adds mantissa * 10^-digits (digits >= 0) to a set; false when no common
 * tick can hold it. */
bool scwi_fast_sets_add(scwi_fast_sets *sets, size_t set, int64_t mantissa,
                        int digits);
void scwi_fast_sets_free(scwi_fast_sets *sets);

#endif
