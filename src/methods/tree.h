/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings sorted into groups within groups, with the mean of each group. */
#ifndef SCWI_TREE_H
#define SCWI_TREE_H

#include "context.h"
#include "deviations.h"
#include "scatterwise/components.h"

/* Readings and where they were taken: label[level][i] is a number standing for
 * the panel, session or spot of reading i, null where the file has no such
 * column. A label counts within the level above: spot 1 of panel A is not spot
 * 1 of panel B. Readings under the same labels are repeats; the order of
 * readings does not matter. label[SCW_LEVEL_REPEAT] is not looked at. */
typedef struct scwi_level_labels {
  const uint32_t *label[SCW_LEVEL_COUNT];
} scwi_level_labels;

/* A mean is kept as its distance from one reading of the group, so that groups
 * far from zero, or from each other, lose no digits. */
typedef struct scwi_group_mean {
  size_t reading;
  double offset; /* in the unit of deviations.h */
} scwi_group_mean;

/* Depth d has count[d] groups (depth 0: the one that holds all); the children
 * of group g are first[d][g] to first[d][g+1] - 1 at depth d + 1, at the last
 * depth readings in the order of `order`. Every depth below 0 has more groups
 * than the one above. */
enum { SCWI_TREE_DEPTH = SCW_LEVEL_COUNT };
typedef struct scwi_tree {
  scwi_centre centre;
  size_t n;     /* readings */
  size_t depth; /* of the lowest groups; 0: no groups */
  size_t count[SCWI_TREE_DEPTH];
  size_t *first[SCWI_TREE_DEPTH];
  scwi_group_mean *mean[SCWI_TREE_DEPTH]; /* of the means of its children,
                                  each with the same weight */
  double spread[SCWI_TREE_DEPTH]; /* sum of the squares of the children's
                                  distances from the means of depth d */
  bool balanced;                  /* at every depth equally many children */
  uint32_t *order;
  scw_plan_level level[SCWI_TREE_DEPTH]; /* whose scatter is that of the
                                  children of depth d */
  scw_presence state[SCW_LEVEL_COUNT];
  size_t groups[SCW_LEVEL_COUNT]; /* of each level, whether told apart or not */
} scwi_tree;

/* n from 1 to 2^32 - 1. Free with scwi_tree_free, also after a failure. The
 * sample must outlive the tree. */
scw_status scwi_tree_of(scw_context *context, const scwi_sample *sample,
                        const scwi_level_labels *labels, scwi_tree *out);
void scwi_tree_free(scwi_tree *tree);

/* The mean of a child of depth d: a group of depth d + 1, or a reading. */
scwi_group_mean scwi_child_mean(const scwi_tree *tree, size_t depth,
                                size_t child);

/* How far a is above b; and the mean in the unit of the readings. */
double scwi_mean_distance(const scwi_tree *tree, scwi_group_mean a,
                          scwi_group_mean b);
double scwi_mean_value(const scwi_tree *tree, scwi_group_mean a);

#endif
