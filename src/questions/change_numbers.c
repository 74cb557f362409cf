/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 2 asked of numbers instead of readings. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "change_bank.h"
#include "change_options.h"
#include "change_report.h"
#include "family.h"
#include "friction.h"
#include "instruments_words.h"
#include "memory.h"
#include "settings.h"

static scw_status check_options(scw_context *context,
                                const scw_change_options *options) {
  if (options->has_block)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a block was given, but the numbers are no pulls to "
                     "divide by it; give coefficients");
  if (options->control || options->paired_halves || options->has_baseline)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a control or a baseline cannot be combined with numbers "
                     "for both sides; give the readings");
  scw_status status = scwi_check_margin(context, options->margin);
  return status ? status : scwi_check_bench(context, options);
}

static scw_status check_change(scw_context *context,
                               const scw_given_change *change,
                               const scwi_instruments *instruments) {
  scw_status status = scwi_check_given(context, "before", &change->before);
  if (!status) status = scwi_check_given(context, "after", &change->after);
  if (!status && instruments &&
      !(change->before.has_sd && change->after.has_sd))
    status = scwi_fail(context, SCW_BAD_ARGUMENT,
                       "a bare number and a bench were given; the instruments "
                       "add to a scatter, so give the SDs of both sides, or "
                       "leave the bench out");
  return status;
}

/* A side that does not say in which step it was shown takes that of the
 * settings. */
static scw_given_side with_step(const scw_given_side *side,
                                const scw_settings *settings) {
  scw_given_side given = *side;
  if (given.step == 0 && settings->step.origin == SCW_STEP_GIVEN)
    given.step = settings->step.size;
  return given;
}

/* The side in the quantity of the bench's model. */
static scw_given_side by_model(scw_given_side side,
                               const scwi_instruments *model) {
  side.mean = model->offset + model->factor * side.mean;
  side.sd *= fabs(model->factor);
  side.step *= fabs(model->factor);
  return side;
}

static scw_status report_change(scw_context *context,
                                const scw_given_change *change,
                                const char *unit, const char *quantity,
                                size_t family, const scwi_bank *bank,
                                const scwi_instruments *model,
                                const scw_change_result *run,
                                scw_change_report *out) {
  scwi_arm nothing = {0};
  scw_given_side before = with_step(&change->before, &run->settings);
  scw_given_side after = with_step(&change->after, &run->settings);
  if (model) before = by_model(before, model);
  if (model) after = by_model(after, model);
  scwi_change_case one = {
      .compared = {.arm = &nothing,
                   .given_before = &before,
                   .given_after = &after,
                   .instruments = model},
      .subject = {change->product ? change->product : "",
                  model                  ? scwi_quantity_words(model->quantity)
                  : quantity && *quantity ? quantity
                                          : "the reading"},
      .unit = model  ? scwi_quantity_unit(model->quantity)
              : unit ? unit
                     : "",
      .step = {after.step, SCW_STEP_GIVEN},
      .margin = run->options.margin,
      .family = family,
      .retention = run->options.retention,
      .settings = &run->settings,
      .bank = run->scatter ? bank : NULL};
  return scwi_change_report(context, &one, out);
}

static scw_status take_model(scw_context *context, const char *unit,
                             const char *quantity, scwi_instruments *model,
                             scw_change_result *out) {
  const scw_change_options *options = &out->options;
  const char *geometry = options->scatter.geometry;
  scwi_read_facts numbers = {quantity ? quantity : "", unit ? unit : "",
                             geometry ? geometry : ""};
  double margin = 0;
  scw_status status = scwi_instruments_of(
      context, options->instruments, options->quantity, numbers, model);
  if (!status) status = scwi_bench_margin(context, options, model, &margin);
  if (status) return status;
  scwi_tell_bench(model, margin, out);
  out->friction = model->quantity->measures == SCW_MEASURES_FRICTION;
  return SCW_OK;
}

scw_status scw_change_from_numbers(scw_context *context,
                                   const scw_given_change *changes, size_t n,
                                   const char *unit, const char *quantity,
                                   const scw_settings *settings,
                                   const scw_change_options *options,
                                   scw_change_result *out) {
  static const scw_change_options none = {0};
  const scw_scatter_wanted numbers = {.quantity = quantity, .unit = unit};
  scwi_notes notes = {0};
  scwi_instruments room = {.factor = 1}, *model = NULL;
  scwi_bank bank;
  *out = (scw_change_result){.options = options ? *options : none};
  scw_status status = scwi_settings_take(context, settings, &out->settings);
  if (!status) status = check_options(context, &out->options);
  if (!status && n == 0)
    status = scwi_fail(context, SCW_BAD_ARGUMENT,
                       "no numbers were given; a change needs a before and an "
                       "after");
  if (!status && out->options.instruments) {
    model = &room;
    status = take_model(context, unit, quantity, model, out);
  }
  for (size_t i = 0; i < n && !status; i++)
    status = check_change(context, &changes[i], model);
  if (!status)
    status = scwi_find_bank(context, &out->options, &numbers, 1, &out->scatter,
                            &bank);
  if (!status) status = SCWI_ALLOCATE(context, n, &out->changes);
  for (size_t i = 0; i < n && !status; i++) {
    status = report_change(context, &changes[i], unit, quantity, n, &bank,
                           model, out, &out->changes[i]);
    if (!status) out->n_changes++;
  }
  if (!status && model)
    status = scwi_instruments_run_notes(context, model, &notes);
  if (!status && out->friction) status = scwi_friction_caution(context, &notes);
  if (!status) status = scwi_family_adjust(context, out, &notes);
  scwi_instruments_free(&room);
  out->notes = notes.note;
  out->n_notes = notes.n;
  if (status) scw_change_result_free(out);
  return status;
}
