/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "planning.h"

#include "distributions.h"
#include "figure.h"
#include "smallest.h"

/* Half-width of the interval a goal looks at. */
static scw_status half_width(scw_context *context, const scwi_comparison *c,
                             scw_plan_goal goal, size_t n, double *out) {
  bool one_mean = goal == SCW_PLAN_HALF_WIDTH && !c->paired;
  scwi_uncertainty u = one_mean
                           ? scwi_mean_uncertainty(c->sd_before, n, c->step)
                           : scwi_comparison_uncertainty(c, n, n);
  double t;
  scw_status status = scwi_critical(context, u.df, c->level, &t);
  *out = t * u.u;
  return status;
}

scw_status scwi_goal_chance(scw_context *context,
                            const scwi_comparison *comparison, scwi_goal goal,
                            size_t n_before, size_t n_after, double *chance) {
  scwi_uncertainty u =
      scwi_comparison_uncertainty(comparison, n_before, n_after);
  double level = comparison->level;
  return goal.kind == SCW_PLAN_WITHIN
             ? scwi_chance_inside(context, u, level, 0, goal.target, chance)
             : scwi_chance_to_exclude(context, u, level, goal.target, chance);
}

typedef struct search {
  const scwi_comparison *comparison;
  scwi_goal goal;
} search;

static scw_status reached(scw_context *context, void *parameters, size_t n,
                          bool *there) {
  const search *s = parameters;
  bool by_width = s->goal.kind == SCW_PLAN_HALF_WIDTH;
  double found;
  scw_status status =
      by_width
          ? half_width(context, s->comparison, s->goal.kind, n, &found)
          : scwi_goal_chance(context, s->comparison, s->goal, n, n, &found);
  *there = status == SCW_OK &&
           (by_width ? found <= s->goal.target : found >= s->goal.power);
  return status;
}

/* How many u must fit into the target, by the normal distribution. */
static scw_status normal_multiple(scw_context *context, scwi_goal goal,
                                  double level, double *level_part,
                                  double *out) {
  double share =
             goal.kind == SCW_PLAN_WITHIN ? (1 + goal.power) / 2 : goal.power,
         power_part = 0;
  scw_status status =
      scwi_normal_quantile(context, (1 + level) / 2, level_part);
  if (status == SCW_OK && goal.kind != SCW_PLAN_HALF_WIDTH)
    status = scwi_normal_quantile(context, share, &power_part);
  *out = *level_part + power_part;
  return status;
}

/* A first guess: the normal answer plus z^2/2 (one mean) or z^2/4 (per side)
 * for the t (Guenther 1981, The Statistician 30, 243-244, from memory). Where
 * the search ends does not depend on it. */
static scw_status first_guess(scw_context *context, const search *s,
                              size_t *guess) {
  const scwi_comparison *c = s->comparison;
  bool two_sides = !c->paired && s->goal.kind != SCW_PLAN_HALF_WIDTH;
  double z, multiple;
  scw_status status =
      normal_multiple(context, s->goal, c->level, &z, &multiple);
  double scatter = two_sides ? hypot(c->sd_before, c->sd_after) : c->sd_before;
  double floor_u = scwi_comparison_uncertainty(c, SCWI_ENDLESS, SCWI_ENDLESS).u;
  double per_u = scatter / s->goal.target * multiple;
  double left = floor_u / s->goal.target * multiple;
  double n = per_u * per_u / (1 - left * left) + z * z / (two_sides ? 4 : 2);
  if (left >= 1 || n > SCWI_PLAN_MOST) n = SCWI_PLAN_MOST;
  *guess = (size_t)ceil(fmax(n, SCWI_PLAN_LEAST));
  return status;
}

scw_status scwi_plan_n(scw_context *context, const scwi_comparison *comparison,
                       scw_plan_goal goal, double target, double power,
                       scw_figure *n) {
  search s = {comparison, {goal, target, power}};
  size_t guess, found;
  bool ever = true;
  *n = scwi_missing(SCW_NOT_COMPUTED);
  if (goal == SCW_PLAN_READINGS)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "the number of readings is given; say what it shall "
                     "reach, or ask what it buys");
  scw_status status = first_guess(context, &s, &guess);
  if (status == SCW_OK)
    status = scwi_smallest(context, reached, &s, guess, SCWI_PLAN_LEAST,
                           SCWI_PLAN_MOST, &found);
  if (status != SCW_OK) return status;
  if (found) {
    *n = scwi_figure((double)found);
    return SCW_OK;
  }
  if (scwi_has_floor(comparison))
    status = reached(context, &s, SCWI_ENDLESS, &ever);
  if (status == SCW_OK) *n = scwi_missing(ever ? SCW_TOO_MANY : SCW_NEVER);
  return status;
}

scw_status scwi_plan_row(scw_context *context,
                         const scwi_comparison *comparison, scw_plan_goal goal,
                         double target, double power, size_t n,
                         scw_plan_row *out) {
  scw_figure none = scwi_missing(SCW_NOT_COMPUTED);
  *out = (scw_plan_row){none, none, none, none, none};
  *(comparison->paired ? &out->spots : &out->readings_per_side) =
      scwi_figure((double)n);
  if (n < 2) {
    out->half_width = out->detectable = out->power =
        scwi_missing(SCW_ONE_READING);
    return SCW_OK;
  }
  double width, found;
  scw_status status = half_width(context, comparison, goal, n, &width);
  if (status != SCW_OK) return status;
  out->half_width = scwi_figure(width);
  status = scwi_detectable(context, comparison, n, n, power, &out->detectable);
  if (status != SCW_OK) return status;
  if (goal != SCW_PLAN_DETECT && goal != SCW_PLAN_WITHIN) return SCW_OK;
  status = scwi_goal_chance(context, comparison,
                            (scwi_goal){goal, target, power}, n, n, &found);
  if (status == SCW_OK) out->power = scwi_figure(found);
  return status;
}
