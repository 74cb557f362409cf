/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 4, first half: what is the uncertainty of a figure? */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "budget_parts.h"
#include "conformance.h"
#include "friction.h"
#include "memory.h"
#include "monte_carlo.h"
#include "propagate.h"
#include "settings.h"
#include "text.h"

/* Twice as many readings halve their part of the variance, and leave that of
 * the display. */
static scw_figure with_more(const scw_budget *budget,
                            const scwi_bench_compiled *model) {
  size_t i = budget->most_help;
  if (i >= model->n || model->given[i].kind != SCW_KIND_READINGS ||
      model->correlation)
    return (scw_figure){0, SCW_NOT_COMPUTED};
  double half = model->known[i].scale * model->known[i].scale / 2;
  double slope = budget->lines[i].sensitivity;
  double u = budget->standard_uncertainty.value;
  return (scw_figure){sqrt(fmax(u * u - slope * slope * half, 0)), SCW_PRESENT};
}

static scw_status take_limits(scw_context *context,
                              scw_quantity_budget *out) {
  const scw_bench_quantity *quantity = out->quantity;
  const scw_budget *budget = &out->budget;
  out->has_limits = quantity->conformance.state == SCW_PRESENT &&
                    budget->standard_uncertainty.state == SCW_PRESENT;
  if (!out->has_limits) return SCW_OK;
  double df =
      budget->df.state == SCW_PRESENT ? budget->df.value : INFINITY;
  return scwi_conformance(context, budget->estimate,
                          budget->standard_uncertainty.value, df,
                          quantity->low, quantity->high,
                          quantity->conformance.value, &out->conformance);
}

static scw_status take_figures(scw_context *context, const scw_bench *bench,
                               const scwi_bench_compiled *model,
                               const scw_settings *settings,
                               const scw_bench_budget_options *options,
                               scw_quantity_budget *out) {
  scw_status status =
      scwi_propagate(context, &model->expression, model->given, model->known,
                     model->correlation, settings->level, &out->budget);
  if (status) return status;
  out->more_readings = with_more(&out->budget, model);
  out->has_trials = !options->no_trials && scwi_budget_uncertain(&out->budget);
  if (out->has_trials)
    status = scwi_monte_carlo(context, &model->expression, model->given,
                              model->known, model->correlation,
                              settings->level, &options->trials, &out->budget,
                              &out->trials);
  if (!status) status = take_limits(context, out);
  if (!status) status = scwi_budget_two(context, bench, model, &out->two);
  return status;
}

/* The input behind each line. */
static scw_status take_inputs(scw_context *context, const scw_bench *bench,
                              const scwi_bench_compiled *model,
                              scw_quantity_budget *out) {
  scw_status status = SCWI_ALLOCATE(context, model->n, &out->input);
  for (size_t i = 0; i < model->n && !status; i++)
    out->input[i] = &bench->input[model->index[i]];
  return status;
}

/* A model without a value is an answer of its own kind. */
static scw_status note_failure(scw_context *context, scw_status status,
                               scw_quantity_budget *out) {
  if (status != SCW_NO_FIGURE) return status;
  const char *words = scw_context_message(context);
  return scwi_copy_text(context, words, strlen(words), &out->why_not);
}

static scw_status take_quantity(scw_context *context, const scw_bench *bench,
                                size_t index, const scw_settings *settings,
                                const scw_bench_budget_options *options,
                                scw_quantity_budget *out) {
  scwi_bench_compiled model;
  scwi_notes notes = {0};
  *out = (scw_quantity_budget){.quantity = &bench->quantity[index]};
  scw_status status = scwi_bench_model(context, bench, index, &model);
  if (!status) status = take_inputs(context, bench, &model, out);
  if (!status)
    status = note_failure(context,
                          take_figures(context, bench, &model, settings,
                                       options, out),
                          out);
  if (!status)
    status = scwi_budget_sentence(context, out, settings->level,
                                  &out->sentence);
  if (!status)
    status = scwi_budget_notes(context, bench, &model, settings, out, &notes);
  out->notes = notes.note;
  out->n_notes = notes.n;
  scwi_bench_compiled_free(&model);
  return status;
}

static scw_status take_quantities(scw_context *context, const scw_bench *bench,
                                  scw_bench_budget *out,
                                  const scw_bench_budget_options *options) {
  const scw_bench_quantity *only = NULL;
  scw_status status = SCW_OK;
  if (options->quantity || bench->n_quantities == 0)
    status = scw_bench_find_quantity(context, bench, options->quantity, &only);
  size_t from = only ? (size_t)(only - bench->quantity) : 0;
  size_t n = only ? 1 : bench->n_quantities;
  if (!status) status = SCWI_ALLOCATE(context, n, &out->quantities);
  for (size_t i = 0; i < n && !status; i++) {
    out->n_quantities = i + 1; /* also what a failure leaves is freed */
    status = take_quantity(context, bench, from + i, &out->settings, options,
                           &out->quantities[i]);
  }
  return status;
}

static scw_status note_run(scw_context *context, scw_bench_budget *out) {
  scwi_notes notes = {0};
  scw_status status = SCW_OK;
  bool friction = false;
  for (size_t i = 0; i < out->n_quantities; i++)
    friction = friction || out->quantities[i].quantity->measures ==
                               SCW_MEASURES_FRICTION;
  if (friction) status = scwi_friction_caution(context, &notes);
  out->notes = notes.note;
  out->n_notes = notes.n;
  return status;
}

scw_status scw_bench_budget_of(scw_context *context, const scw_bench *bench,
                               const scw_settings *settings,
                               const scw_bench_budget_options *options,
                               scw_bench_budget *out) {
  const scw_bench_budget_options none = {.quantity = NULL};
  *out = (scw_bench_budget){.n_quantities = 0};
  if (!options) options = &none;
  scw_status status = scwi_settings_take(context, settings, &out->settings);
  if (!status) status = take_quantities(context, bench, out, options);
  if (!status) status = note_run(context, out);
  out->options = *options;
  out->options.quantity = NULL;
  if (!out->options.trials.digits) out->options.trials.digits = 2;
  out->bench = (scw_input){.name = bench->name, .shape = "bench file",
                           .encoding = "UTF-8"};
  memcpy(out->bench.sha256, bench->sha256, sizeof out->bench.sha256);
  if (status) scw_bench_budget_free(out);
  return status;
}

void scw_bench_budget_free(scw_bench_budget *budget) {
  for (size_t i = 0; i < budget->n_quantities; i++) {
    scw_quantity_budget *of = &budget->quantities[i];
    scwi_budget_free(&of->budget);
    scwi_notes_free(of->notes, of->n_notes);
    free(of->input);
    free(of->sentence);
    free(of->why_not);
    free(of->two.moved);
    free(of->two.cancel_in_difference);
    free(of->two.cancel_in_ratio);
  }
  free(budget->quantities);
  scwi_notes_free(budget->notes, budget->n_notes);
  *budget = (scw_bench_budget){.n_quantities = 0};
}

static scw_status check_unit(scw_context *context,
                             const scw_bench_input *input,
                             const scw_set_report *set) {
  size_t length = strlen(input->unit);
  if (!length || !*set->unit ||
      (strlen(set->unit) == length &&
       scwi_same_letters(set->unit, input->unit, length)))
    return SCW_OK;
  return scwi_fail(context, SCW_BAD_INPUT,
                   "input `%s` is in %s, but the readings in %s are in %s; let "
                   "both say the same unit",
                   input->given.name, input->unit, input->file, set->unit);
}

scw_status scw_bench_take_table(scw_context *context, scw_bench *bench,
                                size_t input, const scw_table *table,
                                const scw_settings *settings) {
  scw_readings_result result;
  const char *name = bench->input[input].given.name;
  scw_status status =
      scw_readings(context, table, settings, NULL, 0, &result);
  if (status) return status;
  const scw_set_report *set = result.sets;
  if (result.n_sets != 1)
    status = scwi_fail(context, SCW_BAD_INPUT,
                       "input `%s`: %s holds %zu sets of readings, and an "
                       "input is one of them; give a file with that one, or "
                       "the readings themselves",
                       name, bench->input[input].file, result.n_sets);
  if (!status) status = check_unit(context, &bench->input[input], set);
  if (!status)
    status = scw_bench_take_readings(context, bench, input, set->values,
                                     set->summary.n, set->summary.step);
  scw_readings_result_free(&result);
  return status;
}
