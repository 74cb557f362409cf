/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Robust mean and SD: Algorithm A (ISO 13528:2015 C.3, ISO 5725-5). */
#ifndef SCWI_ROBUST_H
#define SCWI_ROBUST_H

#include "scatterwise/summary.h"
#include "workings.h"

/* Starts at the median and 1.483 mad; readings are drawn in to 1.5 s about the
 * mean, the SD of what results is raised by 1.134, and so on until nothing
 * moves. Fills robust_mean and robust_sd. */
scw_status scwi_robust(scw_context *context, const scwi_workings *workings,
                       scw_summary *out);

#endif
