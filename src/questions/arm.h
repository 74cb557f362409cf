/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One arm of a comparison: a product (or control) before and after, and how
 * its two sides belong together. */
#ifndef SCWI_ARM_H
#define SCWI_ARM_H

#include "scatterwise/change.h"
#include "table_facts.h"
#include "two_sample.h"
#include "values.h"

typedef struct scwi_arm {
  scwi_values before, after; /* of the unit: spots, readings or panels */
  bool paired;               /* after.x[pair_after[i]] - before.x[...] */
  size_t *pair_before, *pair_after;
  size_t n_pairs;
  bool one_spot;             /* repeats of one spot: no verdict about a panel */
  size_t panels;             /* panels behind it; 2 or more: panels are the
                                unit */
  char **unmatched;          /* in words */
  size_t n_unmatched, unmatched_capacity;
} scwi_arm;

/* `before` and `after` name the readings of both sides in reading order, at
 * least one each; `divisor` as in scwi_values_of. */
scw_status scwi_arm_of(scw_context *context, const scw_table *table,
                       const scwi_table_facts *facts, const size_t *before,
                       size_t n_before, const size_t *after, size_t n_after,
                       double divisor, scwi_arm *out);
void scwi_arm_free(scwi_arm *arm);

/* "spot 7 was read before (line 12) but not after". */
typedef struct scwi_match_words {
  const char *thing, *before, *after;
} scwi_match_words;

/* Pairs the values of both sides by label and lists those left over; a null
 * table lists nothing. */
scw_status scwi_arm_match(scw_context *context, const scw_table *table,
                          scwi_match_words words, scwi_arm *arm);

/* The same without the marked values of each side (and their pairs). */
scw_status scwi_arm_without(scw_context *context, const scwi_arm *arm,
                            const bool *drop_before, const bool *drop_after,
                            scwi_arm *out);

/* The mean of a side as it counts in the change: of the matched values where
 * there are pairs. */
double scwi_arm_mean(const scwi_arm *arm, bool after);

/* Adds `offset` to all values of both sides. */
void scwi_arm_shift(scwi_arm *arm, double offset);

/* The differences after - before of a paired arm, as one set of values. */
scw_status scwi_arm_differences(scw_context *context, const scwi_arm *arm,
                                scwi_values *out);

#endif
