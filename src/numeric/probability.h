/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the quantiles share: refusing what is no probability, and the part of
 * it that carries the digits. */
#ifndef SCWI_PROBABILITY_H
#define SCWI_PROBABILITY_H

#include <stdbool.h>

#include "scatterwise/context.h"

/* SCW_BAD_ARGUMENT unless 1e-300 <= p <= 1 - 1e-16. */
scw_status scwi_check_probability(scw_context *context, double p);

/* Degrees of freedom for which sums and fractions end: chi-square, F, beta. */
#define SCWI_LEAST_DF 0.5
#define SCWI_MOST_DF 1e10
bool scwi_df_usable(double df);

/* SCW_BAD_ARGUMENT unless usable. */
scw_status scwi_check_df(scw_context *context, double df);

/* A point of a symmetric distribution, by the side of the centre and either
 * the mass between centre and point (central) or the mass beyond it. Both are
 * exact: no digits of p are lost near 1/2 or in a tail. */
typedef struct scwi_split {
  bool upper, central;
  double mass;
} scwi_split;
scw_status scwi_split_probability(scw_context *context, double p,
                                  scwi_split *out);
#endif
