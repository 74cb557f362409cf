/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two results of one model compared: what both sides share is one and the same
 * value, and acts on the comparison only as far as the two slopes differ. Only
 * what cancels, cancels. */
#ifndef SCWI_TWO_SIDES_H
#define SCWI_TWO_SIDES_H

#include <stdbool.h>

#include "context.h"

/* Variance of a comparison with slopes a by the inputs of the first side and b
 * by those of the second, signs included (a difference: -f' and f'). `u` are
 * the inputs' standard uncertainties, `correlation` as in correlation.h.
 * Between the sides inputs that are not shared are independent; an input
 * correlated with a shared one must be shared too. */
double scwi_two_sides_variance(const double *a, const double *b,
                               const bool *shared, const double *u,
                               const double *correlation, size_t n);

/* Takes `shared` from inputs that are correlated, directly or through others,
 * with one that is not shared. */
scw_status scwi_two_sides_shared(scw_context *context,
                                 const double *correlation, size_t n,
                                 bool *shared);

/* Whether an input's part cancels: the slopes add up to nothing but
 * rounding. */
bool scwi_two_sides_cancels(double a, double b);

#endif
