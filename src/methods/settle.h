/* SPDX-License-Identifier: GPL-3.0-or-later */
/* "About 12 more spots would settle it." */
#ifndef SCWI_SETTLE_H
#define SCWI_SETTLE_H

#include "comparison.h"
#include "scatterwise/comparison.h"

/* Smallest equal number per side (or of spots), above the present one (the
 * smaller side's where they differ) and at least 3, at which the verdict
 * would leave cannot_tell with probability at least `power`, were the true
 * change and the SDs those found. margin absent: none was given. `more` counts
 * from the smaller side. Instead of a number:
 *   SCW_ZERO_CHANGE  zero change found, no margin
 *   SCW_NEVER        the change found lies at the margin, or the display step
 *                    leaves more doubt than any number of readings removes
 *   SCW_INSTRUMENTS  the comparison's fixed part does
 *   SCW_TOO_MANY     more than max(10 n, 200), n being the larger side's
 *   SCW_NO_SCATTER, SCW_ONE_READING */
scw_status scwi_settle(scw_context *context, const scwi_comparison *comparison,
                       double change, scw_figure margin, size_t n_before,
                       size_t n_after, double power, scw_settle *out);
#endif
