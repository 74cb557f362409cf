/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How many readings: half-width, power, equivalence, at known SDs. */
#ifndef SCWI_PLANNING_H
#define SCWI_PLANNING_H

#include "comparison.h"
#include "pilot.h"
#include "scatterwise/planning.h"
#include "settle.h"

/* What n readings per side (or spots) shall reach.
 *   SCW_PLAN_HALF_WIDTH  half-width <= target: of one mean (sd_before)
 *                        unpaired, of the mean difference paired
 *   SCW_PLAN_DETECT      power to find a change of `target` >= power
 *   SCW_PLAN_WITHIN      chance that the interval at `level` lies wholly
 *                        inside -+target when nothing changed >= power */
typedef struct scwi_goal {
  scw_plan_goal kind;
  double target, power;
} scwi_goal;

/* The fewest a plan proposes, and the most it looks at. */
enum { SCWI_PLAN_LEAST = 3, SCWI_PLAN_MOST = 1000000 };

/* The chance DETECT or WITHIN asks about. */
scw_status scwi_goal_chance(scw_context *context,
                            const scwi_comparison *comparison, scwi_goal goal,
                            size_t n_before, size_t n_after, double *chance);

/* Smallest n, at least 3, for a goal at known SDs. In its place:
 * SCW_TOO_MANY above 1e6, SCW_NEVER when the display step is in the way.
 * SCW_BAD_ARGUMENT for SCW_PLAN_READINGS, which has nothing to reach. */
scw_status scwi_plan_n(scw_context *context, const scwi_comparison *comparison,
                       scw_plan_goal goal, double target, double power,
                       scw_figure *n);

/* One row: what n readings per side (or spots) buy; n >= 2, else the figures
 * are SCW_ONE_READING. `power` of the row is the chance to see `target`
 * (DETECT) or to show it within (WITHIN), not computed for other goals. */
scw_status scwi_plan_row(scw_context *context,
                         const scwi_comparison *comparison, scw_plan_goal goal,
                         double target, double power, size_t n,
                         scw_plan_row *out);
#endif
