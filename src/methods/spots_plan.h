/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How many spots, and how many repeats at each, at what cost. */
#ifndef SCWI_SPOTS_PLAN_H
#define SCWI_SPOTS_PLAN_H

#include "planning.h"

typedef struct scwi_spot_costs {
  double spot_variance, repeat_variance; /* >= 0, not both 0 */
  double cost_spot, cost_repeat;         /* >= 0 and > 0 */
} scwi_spot_costs;

/* Cheapest spots (at least 3) and repeats (1 to 1000) per side that reach the
 * goal when spot means are the unit, var = spot_variance +
 * repeat_variance/repeats; of equal costs the fewer readings. `design` gives
 * level, step and, for DETECT and WITHIN, two sides of this scatter; its SDs
 * are not used. Missing as in scwi_plan_n. */
scw_status scwi_plan_spots(scw_context *context, const scwi_comparison *design,
                           const scwi_spot_costs *costs, scwi_goal goal,
                           scw_spots_plan *out);
#endif
