/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "split.h"

#include "figure.h"
#include "smallest.h"

typedef struct division {
  const scwi_comparison *comparison;
  scwi_goal goal;
  double ratio;
} division;

/* ceil(ratio n), where a whole product is not pushed up by rounding. */
static size_t after_for(const division *d, size_t before) {
  double after = ceil(d->ratio * (double)before * (1 - 1e-14));
  return (size_t)fmin(fmax(after, SCWI_PLAN_LEAST), 1e12);
}

static scw_status ratio_reached(scw_context *context, void *parameters,
                                size_t before, bool *reached) {
  const division *d = parameters;
  double chance;
  scw_status status = scwi_goal_chance(context, d->comparison, d->goal, before,
                                       after_for(d, before), &chance);
  *reached = status == SCW_OK && chance >= d->goal.power;
  return status;
}

/* The number before, of `total`, with the best chance: uphill from Neyman's
 * split, whose only fault is that it knows no df. */
static scw_status best_before(scw_context *context, const division *d,
                              size_t total, size_t *before, double *chance) {
  const scwi_comparison *c = d->comparison;
  double share = c->sd_before / (c->sd_before + c->sd_after);
  double start = rint(share * (double)total);
  size_t most = total - SCWI_PLAN_LEAST;
  *before = (size_t)fmin(fmax(start, SCWI_PLAN_LEAST), (double)most);
  scw_status status =
      scwi_goal_chance(context, c, d->goal, *before, total - *before, chance);
  for (int up = 0; up <= 1; up++)
    for (bool better = true; better && status == SCW_OK;) {
      double next;
      size_t there = up ? *before + 1 : *before - 1;
      if (there < SCWI_PLAN_LEAST || there > most) break;
      status =
          scwi_goal_chance(context, c, d->goal, there, total - there, &next);
      better = status == SCW_OK && next > *chance;
      if (better) *before = there, *chance = next;
    }
  return status;
}

static scw_status total_reached(scw_context *context, void *parameters,
                                size_t total, bool *reached) {
  const division *d = parameters;
  size_t before;
  double chance;
  scw_status status = best_before(context, d, total, &before, &chance);
  *reached = status == SCW_OK && chance >= d->goal.power;
  return status;
}

static scw_plan_split both(size_t before, size_t after) {
  return (scw_plan_split){scwi_figure((double)before),
                          scwi_figure((double)after)};
}

/* The equal split with n per side reaches it, so no more than 2 n. */
static scw_status best_split(scw_context *context, const division *d, size_t n,
                             scw_plan_split *out) {
  const scwi_comparison *c = d->comparison;
  double gain = (c->sd_before + c->sd_after) /
                (sqrt(2) * hypot(c->sd_before, c->sd_after));
  size_t guess = (size_t)(2 * (double)n * gain * gain), total, before;
  double chance;
  *out = both(n, n);
  scw_status status = scwi_smallest(context, total_reached, (void *)d, guess,
                                    2 * SCWI_PLAN_LEAST, 2 * n, &total);
  if (status != SCW_OK || total == 2 * n) return status;
  status = best_before(context, d, total, &before, &chance);
  if (status == SCW_OK) *out = both(before, total - before);
  return status;
}

scw_status scwi_plan_split(scw_context *context,
                           const scwi_comparison *comparison, scwi_goal goal,
                           double ratio, scw_plan_split *out) {
  division d = {comparison, goal, ratio};
  scw_figure equal;
  *out = (scw_plan_split){scwi_missing(SCW_NOT_COMPUTED),
                          scwi_missing(SCW_NOT_COMPUTED)};
  scw_status status = scwi_plan_n(context, comparison, goal.kind, goal.target,
                                  goal.power, &equal);
  if (status != SCW_OK) return status;
  if (!scwi_present(equal)) {
    *out = (scw_plan_split){equal, equal};
    return SCW_OK;
  }
  size_t n = (size_t)equal.value, before;
  if (ratio <= 0) return best_split(context, &d, n, out);
  status = scwi_smallest(context, ratio_reached, &d, n, SCWI_PLAN_LEAST,
                         SCWI_PLAN_MOST, &before);
  if (status != SCW_OK) return status;
  *out = before ? both(before, after_for(&d, before))
                : (scw_plan_split){scwi_missing(SCW_TOO_MANY),
                                   scwi_missing(SCW_TOO_MANY)};
  return SCW_OK;
}
