/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Differences of two instruments on shared days. */
#ifndef SCWI_DRIFT_PAIRS_H
#define SCWI_DRIFT_PAIRS_H

#include "drift_inside.h"

/* Pairs of logs that differ in their instrument only and share days. */
scw_status scwi_drift_pairs(scw_context *context, const scwi_drift_list *list,
                            scw_drift_result *result);

#endif
