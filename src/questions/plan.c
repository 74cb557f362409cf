/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 3: how many readings? */
#include "scatterwise/plan.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "figure.h"
#include "memory.h"
#include "notes.h"
#include "number_text.h"
#include "plan_bank.h"
#include "plan_design.h"
#include "plan_designs.h"
#include "plan_words.h"
#include "planning.h"
#include "settings.h"
#include "words.h"

static scw_status check_request(scw_context *context,
                                const scw_plan_request *request,
                                double step) {
  char text[SCWI_NUMBER_SIZE];
  bool target_used = request->goal != SCW_PLAN_READINGS;
  if (target_used && (!(request->target > 0) || !isfinite(request->target)))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a target of %s: give a positive number in the unit of "
                     "the readings",
                     scwi_number_text(request->target, text));
  if (!target_used && request->readings < 1)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "0 readings show nothing: give a number of at least 1");
  if (!target_used && request->readings > SCWI_PLAN_MOST)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "%zu readings: plans go up to a million",
                     request->readings);
  if (!(request->sd >= 0) || !isfinite(request->sd) ||
      !(request->sd_after >= 0) || !isfinite(request->sd_after))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "an SD of %s: give the scatter of the readings as a "
                     "positive number",
                     scwi_number_text(request->sd, text));
  if (request->sd == 0 && step == 0)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "an SD of 0: the readings showed no scatter, so nothing "
                     "can be planned from it; give the display step with "
                     "--step, or a pilot whose readings differ");
  if (request->pilot_readings == 1)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a pilot of one reading has no scatter; take at least 3");
  if (request->scatter) return scwi_check_plan_designs(context, request);
  return scwi_check_plan_design(context, request);
}

static scwi_comparison comparison_of(const scw_plan_result *result) {
  const scw_plan_request *request = &result->request;
  return (scwi_comparison){
      .paired = request->paired,
      .sd_before = request->sd,
      .sd_after = request->sd_after > 0 ? request->sd_after : request->sd,
      .step = result->settings.step.size,
      .level = result->settings.level};
}

static scw_status row_at(scw_context *context, const scw_plan_result *result,
                         size_t n, scw_plan_row *out) {
  scwi_comparison comparison = comparison_of(result);
  return scwi_plan_row(context, &comparison, result->request.goal,
                       result->request.target, result->settings.power, n, out);
}

/* The numbers shown around the answer: half to double. */
static size_t numbers_around(size_t n, size_t out[SCW_PLAN_TABLE_ROWS]) {
  const size_t wanted[SCW_PLAN_TABLE_ROWS] = {
      n / 2, n - n / 4, n - 1, n, n + 1, n + (n + 1) / 2, 2 * n};
  size_t found = 0;
  for (size_t i = 0; i < SCW_PLAN_TABLE_ROWS; i++) {
    size_t one = wanted[i];
    if (one < SCWI_PLAN_LEAST && one != n) continue;
    if (found && one <= out[found - 1]) continue;
    out[found++] = one;
  }
  return found;
}

static scw_status fill_table(scw_context *context, size_t n,
                             scw_plan_result *out) {
  size_t numbers[SCW_PLAN_TABLE_ROWS];
  size_t rows = numbers_around(n, numbers);
  scw_status status = row_at(context, out, n, &out->plan);
  for (size_t i = 0; i < rows && !status; i++) {
    if (numbers[i] < 2) continue;
    status = row_at(context, out, numbers[i], &out->table[out->n_table]);
    if (!status) out->n_table++;
  }
  return status;
}

/* The answer at known SDs, then what the pilot's own uncertainty adds. */
static scw_status find_number(scw_context *context, scw_plan_result *out) {
  const scw_plan_request *request = &out->request;
  scwi_comparison comparison = comparison_of(out);
  scw_figure n = scwi_figure((double)request->readings);
  scw_status status = SCW_OK;
  if (request->scatter) return scwi_plan_designs(context, out);
  if (request->goal != SCW_PLAN_READINGS)
    status = scwi_plan_n(context, &comparison, request->goal, request->target,
                         out->settings.power, &n);
  if (status) return status;
  out->possible = scwi_present(n) && n.value >= 2;
  if (!out->possible) {
    *(request->paired ? &out->plan.spots : &out->plan.readings_per_side) = n;
    return SCW_OK;
  }
  status = fill_table(context, (size_t)n.value, out);
  if (!status && request->goal != SCW_PLAN_READINGS)
    status = scwi_plan_from_pilot(
        context, &comparison, request->goal, request->target,
        out->settings.power, out->settings.assurance, request->pilot_readings,
        &out->assured, &out->expected, &out->top_up_total);
  if (request->bench) /* whose readings are no part of the set */
    out->top_up_total = scwi_missing(SCW_NOT_COMPUTED);
  if (!status) status = scwi_plan_design(context, &comparison, out);
  return status;
}

static scw_status note_pilot(scw_context *context,
                             const scw_plan_result *result,
                             scwi_notes *notes) {
  scwi_text text = {0};
  size_t m = result->request.pilot_readings;
  if (!m)
    return scwi_note(context, notes, "sd_taken_as_known",
                     "The SD is taken as known. From a handful of readings it "
                     "is not: plan from the pilot file (--pilot) to allow for "
                     "that.");
  if (!scwi_present(result->assured)) return SCW_OK;
  scwi_text_add(&text, "The SD comes from ");
  if (result->bank)
    scwi_say_bank(&text, result->bank);
  else
    scwi_say_count(&text, m, result->request.paired ? "spot" : "reading");
  scwi_text_format(&text,
                   " and may be larger. %zu instead would be enough with ",
                   (size_t)result->assured.value);
  scwi_say_percent(&text, result->settings.assurance);
  scwi_text_add(&text, " assurance");
  if (scwi_present(result->expected))
    scwi_text_format(&text, "; %zu keep the chance on average over what the "
                            "SD may be",
                     (size_t)result->expected.value);
  if (scwi_present(result->top_up_total))
    scwi_text_format(&text, "; topping the pilot up to %zu in all keeps the "
                            "interval exact (Stein)",
                     (size_t)result->top_up_total.value);
  scwi_text_add(&text, ".");
  return scwi_note_take(context, notes, "pilot", &text);
}

static scw_status note_plan(scw_context *context, scw_plan_result *out) {
  scwi_notes notes = {0};
  scw_status status = SCW_OK;
  double n = out->request.paired ? out->plan.spots.value
                                 : out->plan.readings_per_side.value;
  if (out->request.scatter) return scwi_note_plan_designs(context, out);
  if (out->possible && out->request.goal != SCW_PLAN_READINGS &&
      n == SCWI_PLAN_LEAST)
    status = scwi_note(context, &notes, "at_least_three",
                       "Fewer might do on paper, but no plan goes below 3: "
                       "two readings can agree by chance.");
  if (!status && out->possible)
    status = scwi_note_plan_design(context, out, &notes);
  if (!status && out->possible)
    status = note_pilot(context, out, &notes);
  if (!status && out->possible && !out->request.paired &&
      out->request.goal != SCW_PLAN_HALF_WIDTH)
    status = scwi_note(context, &notes, "pairing_helps",
                       "Reading the same spots before and after takes the "
                       "panel's unevenness out; plan with --paired and the SD "
                       "of the spot-wise differences.");
  out->notes = notes.note;
  out->n_notes = notes.n;
  return status;
}

scw_status scw_plan(scw_context *context, const scw_plan_request *request,
                    const char *unit, const scw_settings *settings,
                    scw_plan_result *out) {
  *out = (scw_plan_result){.request = *request};
  if (!unit) unit = "";
  scw_status status = scwi_settings_take(context, settings, &out->settings);
  if (!status) status = scwi_take_scatter(context, out);
  if (!status) status = scwi_take_bank(context, unit, out);
  if (out->bank && !*unit) unit = out->bank->unit;
  if (!status)
    status = check_request(context, &out->request, out->settings.step.size);
  if (!status) status = scwi_copy_text(context, unit, strlen(unit), &out->unit);
  if (!status) status = find_number(context, out);
  if (!status) status = scwi_plan_sentence(context, out);
  if (!status) status = note_plan(context, out);
  if (status) scw_plan_result_free(out);
  return status;
}

void scw_plan_result_free(scw_plan_result *result) {
  free(result->unit);
  free(result->cost_unit);
  free(result->sentence);
  scwi_notes_free(result->notes, result->n_notes);
  *result = (scw_plan_result){0};
}
