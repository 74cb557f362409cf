/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How many readings, when the SD itself comes from a small pilot. */
#ifndef SCWI_PILOT_H
#define SCWI_PILOT_H

#include "comparison.h"
#include "scatterwise/planning.h"

/* The SDs of `comparison` come from m pilot readings (m spots).
 *   *assured       n with every SD at its upper limit
 *                  s sqrt((m-1)/chi2(1-assurance, m-1))
 *   *expected      n at which the chance of DETECT or WITHIN, averaged over
 *                  sigma^2 = (m-1) s^2/chi2(m-1), reaches `power`
 *   *top_up_total  Stein 1945, HALF_WIDTH only:
 *                  max(m, ceil((t((1+level)/2, m-1) s/target)^2))
 * Two SDs keep their ratio; both are as uncertain as one from m readings.
 * m = 0: the SD is known and nothing is computed; m = 1: SCW_ONE_READING. Also
 * as scwi_plan_n: SCW_TOO_MANY, SCW_NEVER. */
scw_status scwi_plan_from_pilot(scw_context *context,
                                const scwi_comparison *comparison,
                                scw_plan_goal goal, double target, double power,
                                double assurance, size_t m, scw_figure *assured,
                                scw_figure *expected, scw_figure *top_up_total);
#endif
