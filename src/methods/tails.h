/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tails of many values in order, the middle left as it is: what a coverage
 * interval needs, in a fraction of the time that sorting takes. */
#ifndef SCWI_TAILS_H
#define SCWI_TAILS_H

#include <stddef.h>

/* Rearranges x so that its k smallest stand first and its k largest last, each
 * in order; k <= n/2. Finite values. Cost: linear in n, and k log k. */
void scwi_tails_apart(double *x, size_t n, size_t k);

/* The value with `rank` others before it, were x in order; x is rearranged so
 * that those stand before it. rank < n. */
double scwi_value_of_rank(double *x, size_t n, size_t rank);

#endif
