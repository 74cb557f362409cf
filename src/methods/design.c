/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "design.h"

#include "chi_average.h"
#include "figure.h"

scw_plan_level scwi_design_top(const scwi_design_scatter *scatter) {
  int level = SCW_LEVEL_PANEL;
  while (level < SCW_LEVEL_REPEAT && !scatter->told_apart[level])
    level++;
  return (scw_plan_level)level;
}

double scwi_design_unit_variance(const scwi_design_scatter *scatter,
                                 const scwi_design *design) {
  scw_plan_level top = scwi_design_top(scatter);
  double sum = scatter->variance[top], items = 1;
  for (int level = (int)top + 1; level < SCW_LEVEL_COUNT; level++) {
    items *= (double)design->count[level];
    sum += scatter->variance[level] / items;
  }
  return sum;
}

scwi_uncertainty scwi_design_uncertainty(const scwi_design_task *task,
                                         double unit_variance, size_t n) {
  double sd = sqrt(unit_variance);
  bool of_differences =
      task->form == SCWI_PAIRED || task->form == SCWI_CONTROL_HALF;
  scwi_uncertainty one =
      of_differences
          ? scwi_difference_uncertainty(sd, n, (scwi_display){task->step, 0})
          : scwi_mean_uncertainty(sd, n, task->step);
  bool one_side = task->form == SCWI_ONE_MEAN || task->form == SCWI_PAIRED;
  return one_side ? one : scwi_uncertainty_sum(one, one);
}

double scwi_design_times(scwi_design_form form, scw_plan_level level) {
  switch (form) {
    case SCWI_PAIRED:
      return level == SCW_LEVEL_PANEL ? 1 : 2;
    case SCWI_TWO_SIDES:
      return 2;
    case SCWI_CONTROL_HALF:
      return level == SCW_LEVEL_PANEL ? 1 : level == SCW_LEVEL_SESSION ? 2 : 4;
    default:
      return 1;
  }
}

double scwi_design_cost(const scwi_design_task *task,
                        const scwi_design *design) {
  double cost = 0, items = 1;
  for (int level = 0; level < SCW_LEVEL_COUNT; level++) {
    items *= (double)design->count[level];
    cost += task->cost[level] * items *
            scwi_design_times(task->form, (scw_plan_level)level);
  }
  return cost;
}

/* The chance of the goal, or NaN. */
static scw_status chance_of(scw_context *context, const scwi_design_task *task,
                            scwi_uncertainty u, double *out) {
  return task->goal.kind == SCW_PLAN_WITHIN
             ? scwi_chance_inside(context, u, task->level, 0,
                                  task->goal.target, out)
             : scwi_chance_to_exclude(context, u, task->level,
                                      task->goal.target, out);
}

scw_status scwi_design_figures(scw_context *context,
                               const scwi_design_task *task,
                               const scwi_design_scatter *scatter,
                               const scwi_design *design,
                               scw_design_figures *out) {
  size_t n = design->count[scwi_design_top(scatter)];
  double variance = scwi_design_unit_variance(scatter, design), t, chance;
  scwi_uncertainty u = scwi_design_uncertainty(task, variance, n);
  *out = (scw_design_figures){scwi_missing(SCW_NOT_COMPUTED),
                              scwi_missing(SCW_NOT_COMPUTED),
                              scwi_missing(SCW_NOT_COMPUTED)};
  scw_status status = scwi_critical(context, u.df, task->level, &t);
  if (status == SCW_OK) {
    out->half_width = scwi_figure(t * u.u);
    status = scwi_detectable_at(context, u, task->level, task->goal.power,
                                &out->detectable);
  }
  bool by_chance =
      task->goal.kind == SCW_PLAN_DETECT || task->goal.kind == SCW_PLAN_WITHIN;
  if (status != SCW_OK || !by_chance) return status;
  status = chance_of(context, task, u, &chance);
  if (status == SCW_OK) out->power = scwi_figure(chance);
  return status;
}

typedef struct average {
  scw_context *context;
  const scwi_design_task *task;
  double variance;
  size_t n;
} average;

/* The chance, had the pilot found its SD `s` times the true one. */
static double chance_given(double s, void *parameters) {
  const average *a = parameters;
  double chance;
  scwi_uncertainty u =
      scwi_design_uncertainty(a->task, a->variance / (s * s), a->n);
  return chance_of(a->context, a->task, u, &chance) == SCW_OK ? chance : NAN;
}

scw_status scwi_design_expected(scw_context *context,
                                const scwi_design_task *task,
                                const scwi_design_scatter *scatter,
                                const scwi_design *design, double df,
                                scw_figure *out) {
  average a = {context, task, scwi_design_unit_variance(scatter, design),
               design->count[scwi_design_top(scatter)]};
  double found;
  *out = scwi_missing(SCW_NOT_COMPUTED);
  if (task->goal.kind != SCW_PLAN_DETECT && task->goal.kind != SCW_PLAN_WITHIN)
    return SCW_OK;
  scw_status status =
      scwi_chi_average(context, chance_given, &a, df, 0, INFINITY, 1e-8, &found);
  if (status == SCW_OK) *out = scwi_figure(found);
  return status;
}
