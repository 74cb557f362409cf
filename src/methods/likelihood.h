/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The restricted likelihood of nested variances, with its derivatives. */
#ifndef SCWI_LIKELIHOOD_H
#define SCWI_LIKELIHOOD_H

#include "jet.h"
#include "tree.h"

typedef struct scwi_likelihood {
  const scwi_tree *tree;          /* of depth 1 or more, with some scatter at
                                     its last depth */
  double unit;                    /* SD of all readings, in the unit of the
                                     tree; everything else here is in it */
  double within;                  /* squares of the readings about their lowest
                                     group */
  double *apart[SCWI_TREE_DEPTH]; /* of each group of depth d: its mean less
                                     that of the group above */
  scwi_jet *variance, *mean;      /* room for one depth of groups */
} scwi_likelihood;

/* -2 log of the restricted likelihood without its constants, the variance of
 * the generalised least-squares mean, and that mean less the mean of the top
 * groups; by variance[0 .. depth], variance[depth] > 0. */
typedef struct scwi_likelihood_at {
  scwi_jet deviance, mean_variance;
  double mean;
} scwi_likelihood_at;

/* Free with scwi_likelihood_free, also after a failure. */
scw_status scwi_likelihood_of(scw_context *context, const scwi_tree *tree,
                              scwi_likelihood *out);
void scwi_likelihood_free(scwi_likelihood *likelihood);

scwi_likelihood_at scwi_likelihood_here(const scwi_likelihood *likelihood,
                                        const double *variance);

#endif
