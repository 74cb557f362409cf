/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How many readings: power, half-width, assurance; and what settles it. */
#ifndef SCWI_PLANNING_H
#define SCWI_PLANNING_H

#include "context.h"
#include "scatterwise/change.h"
#include "scatterwise/plan.h"

/* A comparison to be planned or judged. For paired designs sd_before is the
 * SD of the spot-wise differences and sd_after is not used. */
typedef struct scwi_comparison {
  bool paired;
  double sd_before, sd_after;
  double step;   /* display step; 0: continuous */
  double level;
} scwi_comparison;

/* Power to find a change of `effect` with n_before and n_after readings
 * (paired: n_before spots); Satterthwaite df for two sides. */
scw_status scwi_power(scw_context *context, const scwi_comparison *comparison,
                      size_t n_before, size_t n_after, double effect,
                      double *power);

/* Smallest change found with probability `power` (noncentral t). */
scw_status scwi_detectable(scw_context *context,
                           const scwi_comparison *comparison, size_t n_before,
                           size_t n_after, double power, scw_figure *out);

/* Smallest equal number per side (or of spots) at which the verdict would
 * leave cannot_tell with probability `power`, were change and SDs those
 * found; conventions "settle". margin absent: none. */
scw_status scwi_settle(scw_context *context, const scwi_comparison *comparison,
                       double change, scw_figure margin, size_t n_before,
                       size_t n_after, double power, scw_settle *out);

/* Smallest n, at least 3, for a goal at known SDs; SCW_NEVER or
 * SCW_TOO_MANY in the figure when there is none up to 1e6. */
scw_status scwi_plan_n(scw_context *context, const scwi_comparison *comparison,
                       scw_plan_goal goal, double target, double power,
                       scw_figure *n);

/* One row: what n buys. */
scw_status scwi_plan_row(scw_context *context,
                         const scwi_comparison *comparison, scw_plan_goal goal,
                         double target, double power, size_t n,
                         scw_plan_row *out);

/* From a pilot of m readings: n by assurance on the SD's upper limit, n by
 * power averaged over sigma^2, Stein's total for a half-width. */
scw_status scwi_plan_from_pilot(scw_context *context,
                                const scwi_comparison *comparison,
                                scw_plan_goal goal, double target,
                                double power, double assurance, size_t m,
                                scw_figure *assured, scw_figure *expected,
                                scw_figure *top_up_total);
#endif
