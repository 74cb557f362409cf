/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Designs of panels, sessions, spots and repeats: what they cost, what they
 * give, and the cheapest that reach a goal.
 *
 * The unit is the highest level that is told apart, as in every question: n of
 * its means are averaged on n - 1 degrees of freedom, each of variance
 *   v_top + v_session/K + v_spot/(K S) + v_repeat/(K S R)
 * with what stands above the top left out. */
#ifndef SCWI_DESIGN_H
#define SCWI_DESIGN_H

#include "planning.h"

typedef enum scwi_design_form {
  SCWI_ONE_MEAN,
  SCWI_PAIRED,      /* same spots before and after; variances of differences */
  SCWI_TWO_SIDES,   /* other spots before and after */
  SCWI_CONTROL_HALF /* the change of one half less that of the other; variances
                       of differences */
} scwi_design_form;

/* Variances of one reading or difference (>= 0), by scw_plan_level. A level
 * that is not told apart occurs once in each of the level above. */
typedef struct scwi_design_scatter {
  double variance[SCW_LEVEL_COUNT];
  bool told_apart[SCW_LEVEL_COUNT];
} scwi_design_scatter;

typedef struct scwi_design_task {
  scwi_design_form form;
  scwi_goal goal;
  double level, step;
  double cost[SCW_LEVEL_COUNT]; /* of one more; repeats > 0, others >= 0 */
  size_t fits;                  /* spots that a panel has room for; 0: any */
} scwi_design_task;

typedef struct scwi_design {
  size_t count[SCW_LEVEL_COUNT]; /* within the level above, on one side */
  double cost;                   /* of all sides and halves */
} scwi_design;

/* The level whose means are the unit. */
scw_plan_level scwi_design_top(const scwi_design_scatter *scatter);

/* Variance of one unit. */
double scwi_design_unit_variance(const scwi_design_scatter *scatter,
                                 const scwi_design *design);

/* What n units of this variance leave. n >= 2. */
scwi_uncertainty scwi_design_uncertainty(const scwi_design_task *task,
                                         double unit_variance, size_t n);

/* How often a level's items are taken: a pair reads every spot twice, on one
 * panel. */
double scwi_design_times(scwi_design_form form, scw_plan_level level);
double scwi_design_cost(const scwi_design_task *task,
                        const scwi_design *design);

/* The cheapest design and others that cost at most a tenth more, cheapest
 * first, none of them another one and more of something; of equal costs the
 * fewer readings. At least 3 units, at most 1e6; lower levels up to
 * 1000 each. *n = 0 when there is none: SCW_NEVER (the display step or, with
 * `fits`, the room is in the way) or SCW_TOO_MANY in *why. */
scw_status scwi_best_designs(scw_context *context,
                             const scwi_design_task *task,
                             const scwi_design_scatter *scatter,
                             scwi_design *designs, size_t most, size_t *n,
                             scw_presence *why);

/* Half-width, change seen with the power, and the chance of the goal. */
scw_status scwi_design_figures(scw_context *context,
                               const scwi_design_task *task,
                               const scwi_design_scatter *scatter,
                               const scwi_design *design,
                               scw_design_figures *out);

/* The chance of DETECT or WITHIN averaged over what the variance of a unit
 * could be when its estimate has `df` degrees of freedom. */
scw_status scwi_design_expected(scw_context *context,
                                const scwi_design_task *task,
                                const scwi_design_scatter *scatter,
                                const scwi_design *design, double df,
                                scw_figure *out);
#endif
