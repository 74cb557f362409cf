/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The smallest whole number that reaches something. */
#ifndef SCWI_SMALLEST_H
#define SCWI_SMALLEST_H

#include <stdbool.h>

#include "context.h"

typedef scw_status (*scwi_reached)(scw_context *context, void *parameters,
                                   size_t n, bool *reached);

/* Smallest n in [least, most] with reached(n), which must stay true once it
 * is; *n = 0 when there is none. Starts at `guess` and steps away from it by
 * doubling, so a guess off by d costs about 2 log2(d) calls and a right one
 * two. */
scw_status scwi_smallest(scw_context *context, scwi_reached reached,
                         void *parameters, size_t guess, size_t least,
                         size_t most, size_t *n);
#endif
