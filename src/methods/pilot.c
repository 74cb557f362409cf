/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pilot.h"

#include "chi_average.h"
#include "distributions.h"
#include "figure.h"
#include "planning.h"
#include "smallest.h"
#include "top_up.h"

typedef struct pilot {
  scw_context *context;
  const scwi_comparison *comparison;
  scwi_goal goal;
  double df; /* m - 1 */
  size_t n;
} pilot;

static scwi_comparison scaled(const scwi_comparison *comparison,
                              double factor) {
  scwi_comparison out = *comparison;
  out.sd_before *= factor;
  out.sd_after *= factor;
  return out;
}

static scw_status assured_n(const pilot *p, double assurance, scw_figure *out) {
  double chi2;
  scw_status status =
      scwi_chi2_quantile(p->context, 1 - assurance, p->df, &chi2);
  if (status != SCW_OK) return status;
  scwi_comparison upper = scaled(p->comparison, sqrt(p->df / chi2));
  return scwi_plan_n(p->context, &upper, p->goal.kind, p->goal.target,
                     p->goal.power, out);
}

/* The chance, had the pilot found its SD `s` times the true one. */
static double chance_given(double s, void *parameters) {
  const pilot *p = parameters;
  double found;
  scwi_comparison truth = scaled(p->comparison, 1 / s);
  scw_status status =
      scwi_goal_chance(p->context, &truth, p->goal, p->n, p->n, &found);
  return status == SCW_OK ? found : NAN;
}

static scw_status expected_reached(scw_context *context, void *parameters,
                                   size_t n, bool *reached) {
  pilot *p = parameters;
  double average;
  p->n = n;
  scw_status status = scwi_chi_average(context, chance_given, p, p->df, 0,
                                       INFINITY, 1e-8, &average);
  *reached = status == SCW_OK && average >= p->goal.power;
  return status;
}

static scw_status expected_n(pilot *p, scw_figure assured, scw_figure *out) {
  size_t n, guess = scwi_present(assured) ? (size_t)assured.value : 0;
  bool ever = true;
  scw_status status = scwi_smallest(p->context, expected_reached, p, guess,
                                    SCWI_PLAN_LEAST, SCWI_PLAN_MOST, &n);
  if (status != SCW_OK) return status;
  if (n) {
    *out = scwi_figure((double)n);
    return SCW_OK;
  }
  if (scwi_has_floor(p->comparison))
    status = expected_reached(p->context, p, SCWI_ENDLESS, &ever);
  if (status == SCW_OK) *out = scwi_missing(ever ? SCW_TOO_MANY : SCW_NEVER);
  return status;
}

scw_status scwi_plan_from_pilot(scw_context *context,
                                const scwi_comparison *comparison,
                                scw_plan_goal goal, double target, double power,
                                double assurance, size_t m, scw_figure *assured,
                                scw_figure *expected,
                                scw_figure *top_up_total) {
  pilot p = {.context = context,
             .comparison = comparison,
             .goal = {goal, target, power},
             .df = (double)m - 1};
  *assured = *expected = *top_up_total =
      scwi_missing(m == 1 ? SCW_ONE_READING : SCW_NOT_COMPUTED);
  if (m < 2 || goal == SCW_PLAN_READINGS) return SCW_OK;
  scw_status status = assured_n(&p, assurance, assured);
  if (status != SCW_OK) return status;
  if (goal != SCW_PLAN_HALF_WIDTH) return expected_n(&p, *assured, expected);
  return scwi_top_up_total(context, comparison->sd_before, m, comparison->level,
                           target, top_up_total);
}
