/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "plan_design.h"

#include <math.h>

#include "figure.h"
#include "number_text.h"
#include "split.h"
#include "words.h"

static bool two_sides(const scw_plan_request *request) {
  return !request->paired && (request->goal == SCW_PLAN_DETECT ||
                              request->goal == SCW_PLAN_WITHIN);
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
  return SCW_OK;
}

static scwi_goal goal_of(const scw_plan_result *result) {
  return (scwi_goal){result->request.goal, result->request.target,
                     result->settings.power};
}

scw_status scwi_plan_design(scw_context *context,
                            const scwi_comparison *comparison,
                            scw_plan_result *out) {
  if (!out->request.unequal) return SCW_OK;
  return scwi_plan_split(context, comparison, goal_of(out), out->request.ratio,
                         &out->split);
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
  return result->request.unequal ? note_split(context, result, notes) : SCW_OK;
}
