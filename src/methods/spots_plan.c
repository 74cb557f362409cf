/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spots_plan.h"

#include "figure.h"

enum { MOST_REPEATS = 1000, AROUND = 20 };

/* Repeats per spot up to which it is worth looking: well past the best real
 * number, sqrt((cost_spot/cost_repeat)(repeat/spot)), around which the cost is
 * flat (Cochran 1977, Sampling Techniques, section 10.6, from memory). */
static size_t look_up_to(const scwi_spot_costs *c) {
  double best = sqrt(c->cost_spot / c->cost_repeat) *
                sqrt(c->repeat_variance / c->spot_variance);
  return best < MOST_REPEATS / 4 - AROUND ? (size_t)(4 * best) + AROUND
                                          : MOST_REPEATS;
}

/* Dearer, or as dear with no fewer readings, is not better. */
static bool better(const scw_spots_plan *a, const scw_spots_plan *b) {
  if (!scwi_present(b->cost)) return true;
  double slack = 1e-12 * b->cost.value;
  if (fabs(a->cost.value - b->cost.value) > slack)
    return a->cost.value < b->cost.value;
  return a->readings.value < b->readings.value;
}

static scw_spots_plan plan_of(const scwi_spot_costs *c, double spots,
                              size_t repeats) {
  double readings = spots * (double)repeats;
  return (scw_spots_plan){
      scwi_figure(spots), scwi_figure((double)repeats), scwi_figure(readings),
      scwi_figure(spots * c->cost_spot + readings * c->cost_repeat)};
}

scw_status scwi_plan_spots(scw_context *context, const scwi_comparison *design,
                           const scwi_spot_costs *costs, scwi_goal goal,
                           scw_spots_plan *out) {
  scw_figure n = scwi_missing(SCW_NOT_COMPUTED);
  *out = (scw_spots_plan){n, n, n, n};
  size_t most = look_up_to(costs);
  for (size_t repeats = 1; repeats <= most; repeats++) {
    scwi_comparison c = *design;
    c.sd_before = c.sd_after =
        sqrt(costs->spot_variance + costs->repeat_variance / (double)repeats);
    scw_status status =
        scwi_plan_n(context, &c, goal.kind, goal.target, goal.power, &n);
    if (status != SCW_OK) return status;
    if (!scwi_present(n)) {
      if (!scwi_present(out->cost)) *out = (scw_spots_plan){n, n, n, n};
      continue;
    }
    scw_spots_plan plan = plan_of(costs, n.value, repeats);
    if (better(&plan, out)) *out = plan;
    if (n.value <= SCWI_PLAN_LEAST) break; /* more repeats only cost more */
  }
  return SCW_OK;
}
