/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The studentised range: (largest - smallest) of `groups` independent standard
 * normal deviates over S = sqrt(chi2(df)/df), independent of them (Tukey
 * 1953). */
#ifndef SCWI_STUDENTISED_RANGE_H
#define SCWI_STUDENTISED_RANGE_H

#include <stddef.h>

#include "studentised.h"

enum { SCWI_RANGE_GROUPS = 100, SCWI_RANGE_NODES = 185 };

/* Its tails and quantiles: scwi_studentised_upper(context, &range.of, ...). */
typedef struct scwi_studentised_range {
  scwi_studentised of;
  double others; /* groups - 1 */
  double cdf[SCWI_RANGE_NODES], weight[SCWI_RANGE_NODES];
} scwi_studentised_range;

/* 2 to SCWI_RANGE_GROUPS groups; SCW_BAD_ARGUMENT else. */
scw_status scwi_studentised_range_of(scw_context *context, size_t groups,
                                     scwi_studentised_range *out);

#endif
