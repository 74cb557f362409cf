/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a reader must know beside the figures of a budget. */
#include <math.h>
#include <string.h>

#include "angle_advice.h"
#include "budget_parts.h"
#include "number_words.h"
#include "text.h"
#include "words.h"

/* Why the law and the trials part, the first that applies. */
static const char *reason(const scw_quantity_budget *of) {
  const scw_budget *budget = &of->budget;
  double largest = 0;
  bool normal = true;
  if (budget->second_order.matters)
    return "the model bends within the uncertainty of its inputs";
  for (size_t i = 0; i < budget->n_lines; i++) {
    const scw_budget_line *line = &budget->lines[i];
    if (!(line->contribution > largest)) continue;
    largest = line->contribution;
    normal = line->kind == SCW_KIND_NORMAL || line->kind == SCW_KIND_T ||
             line->kind == SCW_KIND_READINGS ||
             line->kind == SCW_KIND_CERTIFICATE;
  }
  if (!normal)
    return "an input that is not normal outweighs the others, and its limits "
           "show in the result";
  if (budget->df.state == SCW_PRESENT && budget->df.value < 30)
    return "few readings stand behind the largest contribution, and the law "
           "counts their degrees of freedom by an approximation";
  return "the result is not spread like a normal or a t distribution";
}

static scw_status note_law(scw_context *context, const scw_quantity_budget *of,
                           scwi_notes *notes) {
  const scw_monte_carlo *trials = &of->trials;
  if (trials->agreement == SCW_DIFFERS)
    return scwi_note(context, notes, "law_differs",
                     "The law of propagation and the trials differ by more than "
                     "half a unit of the last digit (JCGM 101, clause 8): %s.",
                     reason(of));
  if (trials->agreement == SCW_AGREEMENT_UNDECIDED)
    return scwi_note(context, notes, "law_undecided",
                     "So many trials cannot say whether the law of propagation "
                     "holds to the last digit; ask for more with --trials.");
  return SCW_OK;
}

static scw_status note_trials(scw_context *context,
                              const scw_quantity_budget *of,
                              scwi_notes *notes) {
  const scw_monte_carlo *trials = &of->trials;
  if (!of->has_trials) return SCW_OK;
  if (trials->failed)
    return scwi_note(context, notes, "trials_failed",
                     "At %zu of %zu trials the model has no value (a logarithm "
                     "or root of a number below 0, or a division by 0): an "
                     "input reaches where it cannot be. No figure is given by "
                     "trials, and the law's own is in doubt.",
                     trials->failed, trials->trials);
  scw_status status = note_law(context, of, notes);
  bool no_mean = trials->mean.state == SCW_NO_MEAN;
  if (!status && (no_mean || trials->sd.state == SCW_NO_SD))
    status = scwi_note(context, notes, no_mean ? "no_mean" : "no_sd",
                       "So few readings behind an input, or an input of "
                       "readings to divide by, leave the result of the trials "
                       "without %s; its median and intervals stand.",
                       no_mean ? "a mean and an SD" : "an SD");
  if (!status && !trials->settled)
    status = scwi_note(context, notes, "trials_unsettled",
                       "%zu trials do not settle the last digit shown.",
                       trials->trials);
  if (!status && trials->as_normal)
    status = scwi_note(context, notes, "drawn_as_normal",
                       "Correlated inputs of different kinds have no one "
                       "distribution together; the trials take them as "
                       "normal.");
  return status;
}

static scw_status note_second_order(scw_context *context,
                                    const scw_quantity_budget *of,
                                    scwi_notes *notes) {
  const scw_second_order *second = &of->budget.second_order;
  const char *unit = scwi_shown_unit(of->quantity->unit);
  scwi_text text = {0};
  if (!second->matters || second->standard_uncertainty.state != SCW_PRESENT)
    return SCW_OK;
  scwi_text_add(&text, "The model bends within the uncertainty of its inputs: "
                       "with terms of second order (JCGM 100, 5.1.2) the "
                       "standard uncertainty is ");
  scwi_say_digits(&text, second->standard_uncertainty.value, 2, unit);
  if (second->shift != 0) {
    scwi_text_add(&text, ", and the mean lies ");
    scwi_say_digits(&text, fabs(second->shift), 2, unit);
    scwi_text_format(&text, " %s the value at the estimates",
                     second->shift > 0 ? "above" : "below");
  }
  scwi_text_add(&text, ".");
  return scwi_note_take(context, notes, "second_order", &text);
}

/* What else stands behind the figures of the law. */
static scw_status note_figures(scw_context *context,
                               const scw_quantity_budget *of,
                               scwi_notes *notes) {
  scw_status status = SCW_OK;
  if (of->budget.df_from == SCW_DF_CAUTIOUS)
    status = scwi_note(context, notes, "df_cautious",
                       "Correlated inputs differ in their degrees of freedom; "
                       "together they are given the smallest of them.");
  if (!status && of->has_limits && of->has_trials &&
      of->trials.agreement == SCW_DIFFERS)
    status = scwi_note(context, notes, "limits_by_law",
                       "The probability of lying within the limits is by the "
                       "law of propagation, from which the trials differ.");
  return status;
}

/* Inputs that could be shared and do not say. */
static scw_status note_shared(scw_context *context, const scw_bench *bench,
                              const scwi_bench_compiled *model,
                              const scw_quantity_budget *of,
                              scwi_notes *notes) {
  scwi_text text = {0};
  size_t n = 0;
  if (of->two.state != SCW_PRESENT) return SCW_OK;
  for (size_t i = 0; i < model->n; i++) {
    bool silent = bench->input[model->index[i]].shared == SCW_SHARED_NOT_SAID;
    if (!silent || model->given[i].kind == SCW_KIND_READINGS ||
        !(model->known[i].u > 0))
      continue;
    scwi_text_format(&text, "%s%s", n++ ? ", " : "", model->given[i].name);
  }
  if (n == 0) return SCW_OK;
  scwi_text_format(&text, " %s not say whether %s shared between two results, "
                          "and nothing is taken to cancel: say \"shared\": true "
                          "where it is the same value on both sides.",
                   n == 1 ? "does" : "do", n == 1 ? "it is" : "they are");
  return scwi_note_take(context, notes, "shared_not_said", &text);
}

/* A level of gloss, and no difference of two: some readings are near it. */
static bool is_level(const scw_budget *budget) {
  for (size_t i = 0; i < budget->n_lines; i++)
    if (budget->lines[i].kind == SCW_KIND_READINGS &&
        fabs(budget->lines[i].estimate - budget->estimate) <=
            0.2 * fabs(budget->estimate))
      return true;
  return false;
}

/* Common practice after ISO 2813: 60 degrees for all, 20 above 70 GU, 85 below
 * 10 GU. */
static scw_status note_geometry(scw_context *context,
                                const scw_quantity_budget *of,
                                scwi_notes *notes) {
  const scw_bench_quantity *quantity = of->quantity;
  scwi_best_angle best = {0, false};
  if (quantity->measures != SCW_MEASURES_GLOSS || of->why_not ||
      !is_level(&of->budget))
    return SCW_OK;
  scwi_see_gloss(&best, (scw_figure){of->budget.estimate, SCW_PRESENT});
  return scwi_angle_advice(context, best, quantity->geometry, notes);
}

/* What the readings behind an input say of themselves. */
static scw_status note_readings(scw_context *context,
                                const scw_bench_input *input,
                                const scw_settings *settings,
                                scwi_notes *notes) {
  scw_table *table = NULL;
  scw_readings_result result = {.n_sets = 0};
  scw_settings own = *settings;
  own.step = input->given.step;
  if (own.step.origin != SCW_STEP_GIVEN) own.step = (scw_step){0};
  scw_status status =
      scw_table_from_values(context, input->given.name, input->readings,
                            input->n_readings, &table);
  if (!status)
    status = scw_readings(context, table, &own, NULL, 0, &result);
  if (!status && result.sets->summary.creep.creeping)
    status = scwi_note(context, notes, "creep",
                       "The readings of %s drift in their order: part of their "
                       "scatter is drift, which more of them will not average "
                       "away.",
                       input->given.name);
  if (!status && result.sets->summary.stand_out.n_flags)
    status = scwi_note(context, notes, "stands_out",
                       "Of the readings of %s, %zu stand out; all of them are "
                       "used.",
                       input->given.name,
                       result.sets->summary.stand_out.n_flags);
  scw_readings_result_free(&result);
  scw_table_free(table);
  return status;
}

scw_status scwi_budget_notes(scw_context *context, const scw_bench *bench,
                             const scwi_bench_compiled *model,
                             const scw_settings *settings,
                             const scw_quantity_budget *of,
                             scwi_notes *notes) {
  scw_status status = SCW_OK;
  if (!of->why_not) {
    status = note_trials(context, of, notes);
    if (!status) status = note_second_order(context, of, notes);
    if (!status) status = note_figures(context, of, notes);
    if (!status) status = note_shared(context, bench, model, of, notes);
    if (!status) status = note_geometry(context, of, notes);
  }
  for (size_t i = 0; i < model->n && !status; i++) {
    const scw_bench_input *input = &bench->input[model->index[i]];
    if (input->n_readings >= 2)
      status = note_readings(context, input, settings, notes);
  }
  return status;
}
