/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "plan_designs.h"

#include <math.h>
#include <string.h>

#include "design_pilot.h"
#include "figure.h"
#include "memory.h"
#include "number_text.h"

scw_status scwi_take_scatter(scw_context *context, scw_plan_result *out) {
  const scw_plan_scatter *found = out->request.scatter;
  const char *unit = out->request.cost_unit ? out->request.cost_unit : "";
  double sum = 0;
  scw_status status =
      scwi_copy_text(context, unit, strlen(unit), &out->cost_unit);
  out->request.cost_unit = out->cost_unit;
  if (status || !found) return status;
  out->scatter = *found;
  out->request.scatter = &out->scatter;
  for (int level = 0; level < SCW_LEVEL_COUNT; level++)
    if (scwi_present(found->variance[level]))
      sum += fmax(0, found->variance[level].value);
  out->request.sd = sqrt(sum);
  return SCW_OK;
}

static scw_status check_cost(scw_context *context, const char *what,
                             double cost, bool may_be_zero) {
  char text[SCWI_NUMBER_SIZE];
  if (isfinite(cost) && (cost > 0 || (may_be_zero && cost == 0))) return SCW_OK;
  return scwi_fail(context, SCW_BAD_ARGUMENT, "%s that costs %s: give a %s",
                   what, scwi_number_text(cost, text),
                   may_be_zero ? "number that is not negative"
                               : "positive number");
}

/* A level that one pilot does not hold cannot be planned. */
static scw_status check_level(scw_context *context,
                              const scw_plan_request *request, int level,
                              double cost, const char *things) {
  if (!(cost > 0) || scwi_present(request->scatter->variance[level]))
    return SCW_OK;
  return scwi_fail(context, SCW_BAD_ARGUMENT,
                   "a cost of %s, but the pilot holds one of them only, which "
                   "says nothing about others; give a pilot with several, or "
                   "leave out the cost",
                   things);
}

static scw_status check_form(scw_context *context,
                             const scw_plan_request *request) {
  const scw_plan_scatter *scatter = request->scatter;
  bool change = request->paired || request->control_half;
  bool spots_alone = scwi_present(scatter->variance[SCW_LEVEL_REPEAT]);
  if (request->goal == SCW_PLAN_READINGS)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "costs weigh designs that reach something; ask for a "
                     "half-width or a change, not for a number of readings");
  if (request->unequal)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "designs by cost have equal sides; leave out the ratio "
                     "or the costs");
  if (request->paired && request->control_half)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a control half is read before and after at the same "
                     "spots anyway; give one of paired and control half");
  if (scatter->of_differences && !change)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "the pilot holds readings before and after: plan a "
                     "change paired by spot or with a control half (--paired, "
                     "--control-half), or give one side");
  if (change && !scatter->of_differences && !spots_alone)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "one side read once at each spot cannot tell what "
                     "pairing leaves; read the pilot's spots twice, or before "
                     "and after");
  return SCW_OK;
}

scw_status scwi_check_plan_designs(scw_context *context,
                                   const scw_plan_request *request) {
  scw_status status = check_form(context, request);
  if (!status) status = check_cost(context, "a spot", request->cost_spot, true);
  if (!status)
    status = check_cost(context, "a repeat", request->cost_repeat, false);
  if (!status)
    status = check_cost(context, "a session", request->cost_session, true);
  if (!status)
    status = check_cost(context, "a panel", request->cost_panel, true);
  if (!status)
    status = check_level(context, request, SCW_LEVEL_PANEL,
                         request->cost_panel, "panels");
  if (!status)
    status = check_level(context, request, SCW_LEVEL_SESSION,
                         request->cost_session, "sessions");
  return status;
}

static scwi_design_form form_of(const scw_plan_request *request) {
  if (request->paired) return SCWI_PAIRED;
  if (request->control_half) return SCWI_CONTROL_HALF;
  return request->goal == SCW_PLAN_HALF_WIDTH ? SCWI_ONE_MEAN : SCWI_TWO_SIDES;
}

static scwi_design_task task_of(const scw_plan_result *result) {
  const scw_plan_request *request = &result->request;
  return (scwi_design_task){
      .form = form_of(request),
      .goal = {request->goal, request->target, result->settings.power},
      .level = result->settings.level,
      .step = result->settings.step.size,
      .cost = {request->cost_panel, request->cost_session, request->cost_spot,
               request->cost_repeat},
      .fits = request->fits};
}

/* The three scatters a design is looked at with. */
typedef struct scatters {
  scwi_design_task task;
  scwi_design_scatter estimate, upper, uncancelled;
  bool may_cancel; /* nobody knows whether the spots' differences cancel */
} scatters;

static scatters scatters_of(const scw_plan_result *result) {
  const scw_plan_scatter *pilot = &result->scatter;
  scwi_design_form form = form_of(&result->request);
  bool change = form == SCWI_PAIRED || form == SCWI_CONTROL_HALF;
  return (scatters){
      .task = task_of(result),
      .estimate = scwi_design_scatter_of(form, pilot, false, false),
      .upper = scwi_design_scatter_of(form, pilot, true, false),
      .uncancelled = scwi_design_scatter_of(form, pilot, false, true),
      .may_cancel = change && !pilot->of_differences};
}

/* Counts, cost and degrees of freedom. */
static void put_counts(const scatters *s, const scwi_design *design,
                       scw_plan_design *out) {
  scw_figure *counts[] = {&out->panels, &out->sessions, &out->spots,
                          &out->repeats};
  double readings = 1;
  for (int level = 0; level < SCW_LEVEL_COUNT; level++) {
    *counts[level] = scwi_figure((double)design->count[level]);
    readings *= (double)design->count[level];
  }
  size_t n = design->count[scwi_design_top(&s->estimate)];
  double variance = scwi_design_unit_variance(&s->estimate, design);
  out->readings = scwi_figure(
      readings * scwi_design_times(s->task.form, SCW_LEVEL_REPEAT));
  out->cost = scwi_figure(design->cost);
  out->df = scwi_figure(scwi_design_uncertainty(&s->task, variance, n).df);
}

static scw_status put_design(scw_context *context, const scw_plan_result *plan,
                             const scatters *s, const scwi_design *design,
                             scw_plan_design *out) {
  double df = scwi_design_pilot_df(&plan->scatter, &s->estimate, design);
  put_counts(s, design, out);
  scw_status status = scwi_design_figures(context, &s->task, &s->estimate,
                                          design, &out->at_estimate);
  if (!status)
    status = scwi_design_figures(context, &s->task, &s->upper, design,
                                 &out->at_upper_limit);
  if (!status && s->may_cancel)
    status = scwi_design_figures(context, &s->task, &s->uncancelled, design,
                                 &out->uncancelled);
  if (!status)
    status = scwi_design_expected(context, &s->task, &s->estimate, design, df,
                                  &out->expected);
  return status;
}

/* The cheapest design for one of the scatters. */
static scw_status cheapest(scw_context *context, const scw_plan_result *plan,
                           const scatters *s,
                           const scwi_design_scatter *scatter,
                           scw_plan_design *out) {
  scwi_design design;
  size_t n;
  scw_presence why;
  scw_status status =
      scwi_best_designs(context, &s->task, scatter, &design, 1, &n, &why);
  if (!status && n) return put_design(context, plan, s, &design, out);
  out->cost = scwi_missing(why);
  return status;
}

/* What all the spots there is room for give, read without end. */
static scw_status best_there_is(scw_context *context, const scatters *s,
                                scw_plan_result *out) {
  enum { WITHOUT_END = 1000 };
  scwi_design design = {{1, 1, 1, 1}, 0};
  scw_design_figures figures;
  bool told = s->estimate.told_apart[SCW_LEVEL_REPEAT];
  size_t room = out->request.fits / (s->task.form == SCWI_CONTROL_HALF ? 2 : 1);
  if (scwi_design_top(&s->estimate) != SCW_LEVEL_SPOT || room < 2) return SCW_OK;
  design.count[SCW_LEVEL_SPOT] = room;
  design.count[SCW_LEVEL_REPEAT] = told ? WITHOUT_END : 1;
  scw_status status =
      scwi_design_figures(context, &s->task, &s->estimate, &design, &figures);
  if (status) return status;
  out->plan.half_width = figures.half_width;
  out->plan.detectable = figures.detectable;
  out->plan.power = figures.power;
  return SCW_OK;
}

scw_status scwi_plan_designs(scw_context *context, scw_plan_result *out) {
  scatters s = scatters_of(out);
  scwi_design designs[SCW_PLAN_DESIGNS];
  scw_presence why;
  size_t n;
  scw_status status = scwi_best_designs(context, &s.task, &s.estimate, designs,
                                        SCW_PLAN_DESIGNS, &n, &why);
  for (size_t i = 0; i < n && !status; i++)
    status = put_design(context, out, &s, &designs[i], &out->designs[i]);
  if (status) return status;
  out->n_designs = n;
  out->possible = n > 0;
  status = cheapest(context, out, &s, &s.upper, &out->design_upper);
  if (!status && s.may_cancel)
    status = cheapest(context, out, &s, &s.uncancelled,
                      &out->design_uncancelled);
  if (status || !n) return status ? status : best_there_is(context, &s, out);
  out->plan.half_width = out->designs[0].at_estimate.half_width;
  out->plan.detectable = out->designs[0].at_estimate.detectable;
  out->plan.power = out->designs[0].at_estimate.power;
  return SCW_OK;
}
