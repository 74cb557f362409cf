/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The point x > 0 at which a tail probability takes a wanted value. */
#ifndef SCWI_NEWTON_H
#define SCWI_NEWTON_H

#include "scatterwise/context.h"

/* A tail at x and its slope d log(tail) / d log(x). */
typedef struct scwi_tail {
  double value, slope;
} scwi_tail;

typedef scwi_tail (*scwi_tail_function)(double x, const void *parameters);

/* Needs log(tail) concave in log(x), as it is for both tails of t (above 0),
 * chi-square and beta odds. `start` is a guess, `inner` a point where the tail
 * is known not to vanish. Relative accuracy: that of the tail divided by its
 * slope. SCW_NOT_REACHED when the point lies outside 2.3e-308 .. 1.7e308. */
scw_status scwi_tail_point(scw_context *context, scwi_tail_function tail,
                           const void *parameters, double wanted, double start,
                           double inner, double *out);
#endif
