/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Kendall's S of the readings against their order. */
#ifndef SCWI_KENDALL_H
#define SCWI_KENDALL_H

#include "scatterwise/summary.h"
#include "workings.h"

/* Fills kendall_s and kendall_p: P(|S*| >= |S|), exact to n = 50 without ties
 * and to n = 9 with ties, else normal with the tie-corrected variance and a
 * continuity correction. O(n log n). */
scw_status scwi_kendall(scw_context *context, const scwi_workings *workings,
                        scw_creep *out);

#endif
