/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "plan_design.h"

#include <math.h>

#include "figure.h"
#include "number_text.h"
#include "split.h"
#include "spots_plan.h"
#include "words.h"

static bool two_sides(const scw_plan_request *request) {
  return !request->paired && (request->goal == SCW_PLAN_DETECT ||
                              request->goal == SCW_PLAN_WITHIN);
}

static scw_status check_costs(scw_context *context,
                              const scw_plan_request *request) {
  char text[SCWI_NUMBER_SIZE];
  if (!(request->cost_spot >= 0) || !isfinite(request->cost_spot))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a spot that costs %s: give a number that is not "
                     "negative",
                     scwi_number_text(request->cost_spot, text));
  if (!(request->cost_repeat > 0) || !isfinite(request->cost_repeat))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a repeat that costs %s: give a positive number",
                     scwi_number_text(request->cost_repeat, text));
  if (request->paired || request->goal == SCW_PLAN_READINGS)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "spots and repeats from a pilot of one side plan a mean "
                     "or two unpaired sides; leave out --paired and "
                     "--readings");
  return SCW_OK;
}

scw_status scwi_check_plan_design(scw_context *context,
                                  const scw_plan_request *request) {
  char text[SCWI_NUMBER_SIZE];
  if (request->unequal && !two_sides(request))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a ratio of readings needs two unpaired sides and a "
                     "change to detect or to rule out");
  if (request->unequal && (!(request->ratio >= 0) || request->ratio > 1000))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a ratio of %s: give readings after over readings before, "
                     "up to 1000, or 'best'",
                     scwi_number_text(request->ratio, text));
  return request->components ? check_costs(context, request) : SCW_OK;
}

static scwi_goal goal_of(const scw_plan_result *result) {
  return (scwi_goal){result->request.goal, result->request.target,
                     result->settings.power};
}

/* A spot component below zero counts as none. */
static double at_least_zero(scw_figure variance) {
  return scwi_present(variance) && variance.value > 0 ? variance.value : 0;
}

static scw_status plan_spots(scw_context *context,
                             const scwi_comparison *comparison,
                             scw_figure spot, scw_figure repeat,
                             const scw_plan_result *result,
                             scw_spots_plan *out) {
  const scw_plan_request *request = &result->request;
  scwi_spot_costs costs = {.spot_variance = at_least_zero(spot),
                           .repeat_variance = at_least_zero(repeat),
                           .cost_spot = request->cost_spot,
                           .cost_repeat = request->cost_repeat};
  return scwi_plan_spots(context, comparison, &costs, goal_of(result), out);
}

scw_status scwi_plan_design(scw_context *context,
                            const scwi_comparison *comparison,
                            scw_plan_result *out) {
  const scw_spot_components *components = &out->components;
  scw_status status = SCW_OK;
  if (out->request.unequal)
    status = scwi_plan_split(context, comparison, goal_of(out),
                             out->request.ratio, &out->split);
  if (status || !out->request.components) return status;
  status = plan_spots(context, comparison, components->spot,
                      components->repeat, out, &out->spots_plan);
  if (status) return status;
  return plan_spots(context, comparison, components->spot_upper,
                    components->repeat_upper, out, &out->spots_plan_upper);
}

static void say_spots(scwi_text *text, const scw_spots_plan *plan) {
  if (!scwi_present(plan->spots)) {
    scwi_text_format(text, "no design reaches it (%s)",
                     scw_presence_text(plan->spots.state));
    return;
  }
  scwi_say_count(text, (size_t)plan->spots.value, "spot");
  scwi_text_add(text, " with ");
  scwi_say_count(text, (size_t)plan->repeats.value, "reading");
  scwi_text_add(text, " each, at a cost of ");
  scwi_say_given(text, plan->cost.value, NULL);
}

static scw_status note_spots(scw_context *context,
                             const scw_plan_result *result,
                             scwi_notes *notes) {
  scwi_text text = {0};
  scwi_text_add(&text, "Cheapest by the pilot's scatter: ");
  say_spots(&text, &result->spots_plan);
  if (result->request.goal != SCW_PLAN_HALF_WIDTH)
    scwi_text_add(&text, " on each side");
  scwi_text_add(&text, ". With the scatter at its upper limits (");
  scwi_say_percent(&text, result->components.assurance);
  scwi_text_add(&text, "): ");
  say_spots(&text, &result->spots_plan_upper);
  scwi_text_add(&text, ".");
  if (at_least_zero(result->components.spot) == 0)
    scwi_text_add(&text, " The spots did not differ beyond their repeats, "
                         "which in a small pilot is no proof that they do "
                         "not.");
  return scwi_note_take(context, notes, "spots_and_repeats", &text);
}

static scw_status note_split(scw_context *context,
                             const scw_plan_result *result,
                             scwi_notes *notes) {
  const scw_plan_split *split = &result->split;
  if (!scwi_present(split->before))
    return scwi_note(context, notes, "split", "No split reaches it: %s.",
                     scw_presence_text(split->before.state));
  size_t before = (size_t)split->before.value;
  size_t after = (size_t)split->after.value;
  double equal = result->plan.readings_per_side.value;
  return scwi_note(context, notes, "split",
                   "That is %zu readings in all%s; equal sides take %zu each, "
                   "%zu in all, as in the table.",
                   before + after,
                   result->request.ratio > 0 ? "" : ", the fewest there are",
                   (size_t)equal, 2 * (size_t)equal);
}

scw_status scwi_note_plan_design(scw_context *context,
                                 const scw_plan_result *result,
                                 scwi_notes *notes) {
  scw_status status = SCW_OK;
  if (result->request.unequal) status = note_split(context, result, notes);
  if (!status && result->request.components)
    status = note_spots(context, result, notes);
  return status;
}
