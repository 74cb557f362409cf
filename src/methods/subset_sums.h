/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How many subsets of whole numbers have a sum far from the centre: what every
 * exact permutation p comes down to. */
#ifndef SCWI_SUBSET_SUMS_H
#define SCWI_SUBSET_SUMS_H

#include <stdbool.h>
#include <stdint.h>

#include "context.h"

__extension__ typedef __int128 scwi_wide;

/* Subsets of `size` of the n values (any_size: of any size); a subset with sum
 * S lies |times S - centre| from the centre. */
typedef struct scwi_subsets {
  const int64_t *value; /* ascending, none negative, below 2^62 */
  size_t n, size;
  bool any_size;
  int64_t times;
  scwi_wide centre, distance; /* the distance asked about */
} scwi_subsets;

typedef struct scwi_subset_shares {
  bool counted;    /* false: too many to count, no shares */
  double as_far;   /* share of subsets at least `distance` away */
  double farthest; /* share of those that lie farthest away */
} scwi_subset_shares;

/* Exact shares (relative rounding of the quotient only, below 1e-14). Counted
 * by building up the table of sums (shift algorithm: Streitberg & Roehmel
 * 1986, Statistical Software Newsletter 12, 10-17, from memory) while that
 * takes at most 5e7 steps, else by listing while there are at most 5e6
 * subsets. */
scw_status scwi_subset_shares_of(scw_context *context,
                                 const scwi_subsets *subsets,
                                 scwi_subset_shares *out);

/* One over the number of subsets; 0 when that is beyond a double. */
double scwi_subset_share_of_one(const scwi_subsets *subsets);
#endif
