/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Many questions cost: levels and p adjusted for a family of k claims. */
#ifndef SCWI_MULTIPLICITY_H
#define SCWI_MULTIPLICITY_H

#include "context.h"

/* The level of each of k intervals that hold together with probability at
 * least `level` (Bonferroni): 1 - (1 - level)/k. */
double scwi_bonferroni_level(double level, size_t k);

/* Holm's step-down adjusted p (Holm 1979, Scand. J. Statist. 6, 65-70), in
 * place. A NaN is a claim whose p does not exist: it stays NaN and counts in
 * the family as the largest. */
scw_status scwi_holm(scw_context *context, double *p, size_t k);

/* The q of Benjamini and Hochberg (1995, J. R. Statist. Soc. B 57, 289-300), in
 * place: calling all claims with q <= a shown, no more than the part a of them
 * is expected to be wrong. A NaN as for Holm. Independent claims, or such as
 * move together. */
scw_status scwi_benjamini_hochberg(scw_context *context, double *p, size_t k);

/* Both at once, in one go through the order: holm and q have k each, either may
 * be null. */
scw_status scwi_adjust_p(scw_context *context, const double *p, size_t k,
                         double *holm, double *q);

#endif
