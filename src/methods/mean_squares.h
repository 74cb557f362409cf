/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Variances of group means at each depth of a tree, and what they are made
 * of. */
#ifndef SCWI_MEAN_SQUARES_H
#define SCWI_MEAN_SQUARES_H

#include "tree.h"

/* `square[d]`: variance of the children of depth d about their group's mean,
 * pooled on df[d]. Its expectation is variance[d] + sum over j > d of
 * share[d][j] * variance[j], so that
 * variance[d] = square[d] - sum over j > d of less[d][j] * square[j].
 * In the unit of deviations.h. */
typedef struct scwi_mean_squares {
  size_t levels; /* 1 to SCW_LEVEL_COUNT; 0 for one reading */
  double square[SCWI_TREE_DEPTH], df[SCWI_TREE_DEPTH];
  double share[SCWI_TREE_DEPTH][SCWI_TREE_DEPTH];
  double less[SCWI_TREE_DEPTH][SCWI_TREE_DEPTH];
} scwi_mean_squares;

scw_status scwi_mean_squares_of(scw_context *context, const scwi_tree *tree,
                                scwi_mean_squares *out);

/* variance[d], negative where the data have it so. */
double scwi_variance_at(const scwi_mean_squares *squares, size_t depth);

#endif
