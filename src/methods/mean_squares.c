/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The mean of c children has 1/c^2 of the sum of their variances; a child lies
 * (c-1)/c of its own variance, summed, off the mean of the c. Balanced trees
 * give the classical mean squares, divided by the readings in a group. */
#include "mean_squares.h"

#include <stdlib.h>

#include "memory.h"

/* How much of each level's variance is in the variance of one mean. */
typedef struct parts {
  double of[SCWI_TREE_DEPTH];
} parts;

/* The children of depth d have `child` (null: single readings); fills `own`
 * for the groups of depth d and shares[] for their scatter. */
static void climb(const scwi_tree *tree, size_t d, const parts *child,
                  parts *own, double *shares) {
  const size_t *first = tree->first[d];
  for (size_t g = 0; g < tree->count[d]; g++) {
    double c = (double)(first[g + 1] - first[g]);
    parts sum = {{0}};
    for (size_t i = first[g]; child && i < first[g + 1]; i++)
      for (size_t j = d + 1; j <= tree->depth; j++)
        sum.of[j] += child[i].of[j];
    for (size_t j = d + 1; j <= tree->depth; j++) {
      shares[j] += sum.of[j] * ((c - 1) / c);
      own[g].of[j] = sum.of[j] / (c * c);
    }
    own[g].of[d] = 1 / c; /* the children's own level */
  }
}

static void solve(const scwi_tree *tree, scwi_mean_squares *out) {
  for (size_t d = out->levels; d-- > 0;)
    for (size_t j = d + 1; j < out->levels; j++) {
      double less = out->share[d][j];
      for (size_t m = d + 1; m < j; m++)
        less -= out->share[d][m] * out->less[m][j];
      /* Balanced trees need the next level only; rounding is no term. */
      out->less[d][j] = tree->balanced && j > d + 1 ? 0 : less;
    }
}

scw_status scwi_mean_squares_of(scw_context *context, const scwi_tree *tree,
                                scwi_mean_squares *out) {
  parts *child = NULL, *own;
  scw_status status = SCW_OK;
  *out = (scwi_mean_squares){.levels = tree->n > 1 ? tree->depth + 1 : 0};
  for (size_t d = out->levels; d-- > 0;) {
    size_t below = d < tree->depth ? tree->count[d + 1] : tree->n;
    out->df[d] = (double)(below - tree->count[d]);
    out->square[d] = tree->spread[d] / out->df[d];
    status = SCWI_ALLOCATE(context, tree->count[d], &own);
    if (status != SCW_OK) break;
    climb(tree, d, child, own, out->share[d]);
    for (size_t j = d + 1; j < out->levels; j++)
      out->share[d][j] /= out->df[d];
    free(child);
    child = own;
  }
  free(child);
  if (status == SCW_OK) solve(tree, out);
  return status;
}

double scwi_variance_at(const scwi_mean_squares *squares, size_t depth) {
  double variance = squares->square[depth];
  for (size_t j = depth + 1; j < squares->levels; j++)
    variance -= squares->less[depth][j] * squares->square[j];
  return variance;
}
