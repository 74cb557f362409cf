/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Did the scatter change? */
#ifndef SCWI_SD_RATIO_H
#define SCWI_SD_RATIO_H

#include "context.h"
#include "moments.h"
#include "scatterwise/comparison.h"

/* SD after over SD before with the equal-tailed F interval (e-Handbook
 * 1.3.5.9), normal readings, the two sides independent. SCW_ONE_READING,
 * SCW_NO_SCATTER (either side). */
scw_status scwi_sd_ratio(scw_context *context, scwi_moments before,
                         scwi_moments after, double level, scw_sd_ratio *out);
#endif
