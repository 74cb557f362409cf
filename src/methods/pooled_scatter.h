/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The pooled SD of many small sets, and which of them do not belong. */
#ifndef SCWI_POOLED_SCATTER_H
#define SCWI_POOLED_SCATTER_H

#include "moments.h"
#include "scatterwise/pooling.h"

/* Pools `n` sets (sets of one reading take part in nothing; n = 0 is
 * answered): sd^2 = sum (n_i-1) sd_i^2 / sum (n_i-1), its chi-square interval
 * at `level`, Bartlett's, Levene's and Brown-Forsythe's tests, and the sets
 * apart at `significance`: the set with the smallest p of its F test against
 * the others is put aside while that p times the number of sets left is below
 * it, as long as more than half belong; then Holm over the rest. All sets
 * carry one display step, that of set[0]. Cost: O(readings), and O(n) for every
 * set apart. Free with scwi_pool_free. */
scw_status scwi_pool(scw_context *context, const scwi_sample *set, size_t n,
                     double level, double significance, scw_pool *out);
void scwi_pool_free(scw_pool *pool);

/* Pooled SD and df of sets known by their moments. */
scwi_uncertainty scwi_pooled_sd(const scwi_moments *set, size_t n);

#endif
