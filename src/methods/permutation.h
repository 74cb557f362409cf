/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exact permutation p of a change, compared in whole ticks. */
#ifndef SCWI_PERMUTATION_H
#define SCWI_PERMUTATION_H

#include "context.h"
#include "sample.h"
#include "scatterwise/comparison.h"

/* P(|D*| >= |D|) for the difference of the two means over all assignments of
 * the readings to sides of these sizes, the observed one included. Both
 * samples need ticks, of tick sizes in a whole-number ratio (such as 1:3 for
 * means of three repeats); without: SCW_TOO_FINE. An empty side:
 * SCW_TOO_FEW. */
scw_status scwi_permutation_unpaired(scw_context *context,
                                     const scwi_sample *before,
                                     const scwi_sample *after,
                                     scw_permutation *out);

/* The same over all signs of the m differences, zeros kept. */
scw_status scwi_permutation_paired(scw_context *context,
                                   const scwi_sample *differences,
                                   scw_permutation *out);
#endif
