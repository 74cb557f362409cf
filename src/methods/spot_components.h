/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How much of a panel's scatter is between spots and how much between repeats
 * at a spot. */
#ifndef SCWI_SPOT_COMPONENTS_H
#define SCWI_SPOT_COMPONENTS_H

#include "context.h"
#include "scatterwise/planning.h"

/* `x` holds spots * repeats readings, the repeats of a spot together; both at
 * least 2, else SCW_TOO_FEW. repeat = MS within, spot = (MS between - MS
 * within)/repeats. Upper limits one-sided at `assurance`: chi-square for
 * repeats; modified large sample for spots (Ting et al. 1990, J. Statist.
 * Comput. Simul. 35, 135-143, from memory; coverage in
 * docs/methods/planning.md), never below 0. */
scw_status scwi_spot_components(scw_context *context, const double *x,
                                size_t spots, size_t repeats, double assurance,
                                scw_spot_components *out);
#endif
