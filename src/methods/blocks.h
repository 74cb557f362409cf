/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Several products at the same spots: every spot is a block, whose level
 * cancels in the differences. */
#ifndef SCWI_BLOCKS_H
#define SCWI_BLOCKS_H

#include "several.h"

/* value[product * spots + spot], complete; at least 2 products and 2 spots.
 * `step`: of the displayed values; `sides`: displayed values in each, 1 or 2.
 */
typedef struct scwi_blocks {
  const double *value;
  size_t products, spots;
  double step, sides;
} scwi_blocks;

/* The family of comparisons: against `control` (out as scwi_many_to_one) or,
 * with control == products, all pairs (out as scwi_all_pairs).
 *
 * By default each is a paired t of the spot-wise differences, the intervals
 * Bonferroni's and p Holm's: the differences of different pairs may scatter
 * and vary together as they like. With equal_sd the residual SD of spots and
 * products crossed, with (products - 1)(spots - 1) df, judged by Dunnett's
 * maximum (lambda = sqrt(1/2)) or Tukey's range. */
scw_status scwi_blocks_compare(scw_context *context, const scwi_blocks *blocks,
                               size_t control, bool equal_sd, double level,
                               scwi_adjusted *out);
#endif
