/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Level shift: the largest difference between the mean of the first k readings
 * and the mean of the rest, two or more on each side. */
#ifndef SCWI_LEVEL_SHIFT_H
#define SCWI_LEVEL_SHIFT_H

#include "scatterwise/summary.h"
#include "workings.h"

/* p: the share of all n! orders of these readings whose largest difference is
 * at least the observed one, the observed order included. Exact while the
 * product of (times each reading occurs + 1) is at most 2^18: 18 different
 * readings, more with ties. Beyond, (1 + reached) / (1 + drawn) of random
 * orders from `seed`: 9999 to n = 200, 999 to 2000, 99 to 20000, and too_many
 * above. n < 4: too_few. */
scw_status scwi_level_shift(scw_context *context,
                            const scwi_workings *workings,
                            unsigned long long seed, scw_level_shift *out);

/* The same for the split of the least squares: the difference of the means over
 * its standard error is the largest, which finds shifts in the middle of many
 * readings too. p: the share of orders with one as large. */
scw_status scwi_level_split(scw_context *context, const scwi_workings *workings,
                            unsigned long long seed, scw_level_shift *out);

#endif
