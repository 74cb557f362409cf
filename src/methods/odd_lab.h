/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which laboratory stands out by its variance or its mean. */
#ifndef SCWI_ODD_LAB_H
#define SCWI_ODD_LAB_H

#include "scatterwise/components.h"
#include "tree.h"

/* Of each laboratory, in the unit of the tree; one block of memory at n. */
typedef struct scwi_lab_sums {
  size_t labs;              /* 2 or more */
  double *n, *apart;        /* readings; mean less the mean of the means */
  double *squares;          /* of its readings about its mean */
  double within, df_within; /* of all, df > 0 */
  double sd_of_means;
} scwi_lab_sums;

/* Depth-1 groups of the tree are the laboratories. Free `n`. */
scw_status scwi_lab_sums_of(scw_context *context, const scwi_tree *tree,
                            scwi_lab_sums *out);

/* Cochran's test: p is the smallest of the laboratories' own, by their share in
 * the sum of squares (a beta variable), times their number; limits where all
 * have the same number of readings. */
scw_status scwi_odd_variance(scw_context *context, const scwi_lab_sums *sums,
                             scw_odd_one *out);
/* Grubbs' test of the means, and the limits of |h|. */
scw_status scwi_odd_mean(scw_context *context, const scwi_lab_sums *sums,
                         scw_precision *out);

/* Cochran's limit of the largest of p variances on df degrees of freedom each,
 * over their sum: 1/(1 + (p-1)/F), F at alpha/p with df and (p-1) df; exact
 * from 1/2 on, an upper bound below. p >= 2. */
scw_status scwi_cochran_limit(scw_context *context, size_t p, double df,
                              double alpha, double *out);
/* Mandel's limits: of |h| for p >= 3 laboratories, and of k for a laboratory
 * with df of the df_all > df degrees of freedom. */
scw_status scwi_mandel_h_limit(scw_context *context, size_t p, double alpha,
                               double *out);
scw_status scwi_mandel_k_limit(scw_context *context, double df, double df_all,
                               double alpha, double *out);
/* lab->k_limit and k_limit_strict; missing where no limit exists. */
scw_status scwi_k_limits(scw_context *context, double df, double df_all,
                         scw_lab *lab);

#endif
