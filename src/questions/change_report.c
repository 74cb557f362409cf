/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "change_report.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "arm_estimate.h"
#include "change_bank.h"
#include "change_notes.h"
#include "change_views.h"
#include "figure.h"
#include "memory.h"
#include "retention.h"
#include "set_report.h"
#include "settings.h"
#include "summarise.h"

static scw_figure margin_of(const scwi_change_case *one) {
  return one->margin > 0 ? scwi_figure(one->margin)
                         : scwi_missing(SCW_NO_MARGIN);
}

/* One spot gives a figure, but never a verdict about the panel. */
static scw_verdict verdict_of(const scwi_change_case *one,
                              const scwi_arm_estimate *found) {
  if (one->compared.arm->one_spot) return SCW_NO_VERDICT;
  if (found->bare != SCW_VERDICT_END) return found->bare;
  if (found->change.interval.state != SCW_PRESENT) return SCW_CANNOT_TELL;
  return scwi_verdict(found->change.interval, margin_of(one));
}

/* The level at which the verdict is read: Bonferroni's in a family. */
static double answer_level(const scwi_change_case *one) {
  return scwi_bonferroni_level(one->settings->level, one->family);
}

/* What this design could have seen, and what would settle it. */
static scw_status look_ahead(scw_context *context, const scwi_change_case *one,
                             const scwi_arm_estimate *estimate,
                             scw_change_report *out) {
  const scw_settings *settings = one->settings;
  out->settle.per_spot = one->compared.arm->paired;
  out->settle.chance = settings->power;
  if (estimate->bare != SCW_VERDICT_END ||
      estimate->change.interval.state != SCW_PRESENT) {
    scw_presence why = estimate->bare != SCW_VERDICT_END
                           ? SCW_BARE_NUMBER
                           : estimate->change.interval.state;
    out->detectable = out->settle.total = out->settle.more = scwi_missing(why);
    return SCW_OK;
  }
  scw_status status = scwi_detectable(
      context, &estimate->comparison, estimate->n_before, estimate->n_after,
      settings->power, &out->detectable);
  out->settle.total = out->settle.more = scwi_missing(SCW_SETTLED);
  if (!status && out->verdict == SCW_CANNOT_TELL)
    status = scwi_settle(context, &estimate->comparison,
                         estimate->change.estimate.value, out->margin,
                         estimate->n_before, estimate->n_after,
                         settings->power, &out->settle);
  out->settle.per_spot = one->compared.arm->paired;
  return status;
}

static scw_status report_side(scw_context *context,
                              const scwi_change_case *one,
                              const scw_given_side *given,
                              const scwi_values *values, const char *label,
                              scw_set_report *out) {
  scwi_set_words words = {label, one->unit, false};
  if (given)
    return scwi_given_report(context, given, words, one->settings, out);
  return scwi_set_report(context, values, words, one->step, one->settings,
                         out);
}

static scw_status report_sides(scw_context *context,
                               const scwi_change_case *one,
                               scw_change_report *out) {
  const scwi_compared *all = &one->compared;
  scw_status status =
      report_side(context, one, all->given_before, &all->arm->before, "before",
                  &out->before);
  if (!status)
    status = report_side(context, one, all->given_after, &all->arm->after,
                         "after", &out->after);
  if (!status && all->control)
    status = report_side(context, one, NULL, &all->control->before,
                         "control before", &out->control_before);
  if (!status && all->control)
    status = report_side(context, one, NULL, &all->control->after,
                         "control after", &out->control_after);
  return status;
}

/* Which values of an arm stand out. */
typedef struct arm_marks {
  bool *before, *after;
  size_t marked;
} arm_marks;

static void free_marks(arm_marks *marks) {
  free(marks->before);
  free(marks->after);
}

/* A pair whose difference stands out is marked too. */
static scw_status mark_pairs(scw_context *context, const scwi_change_case *one,
                             const scwi_arm *arm, arm_marks *marks) {
  scwi_summary_settings how = scwi_settings_for_summary(one->settings);
  scwi_values differences = {0};
  scw_summary summary;
  scw_status status = scwi_arm_differences(context, arm, &differences);
  if (status) return status;
  scwi_sample sample = scwi_values_sample(&differences, one->step);
  status = scwi_summarise(context, &sample, &how, &summary);
  for (size_t i = 0; !status && i < summary.stand_out.n_flags; i++) {
    size_t pair = summary.stand_out.flags[i].place - 1;
    bool *mark = &marks->before[arm->pair_before[pair]];
    marks->marked += !*mark;
    *mark = true;
  }
  scwi_values_free(&differences);
  return status;
}

static scw_status mark_arm(scw_context *context, const scwi_change_case *one,
                           const scwi_arm *arm, const scw_set_report *before,
                           const scw_set_report *after, arm_marks *marks) {
  scw_status status = SCWI_ALLOCATE(context, arm->before.n, &marks->before);
  if (!status) status = SCWI_ALLOCATE(context, arm->after.n, &marks->after);
  if (status) return status;
  marks->marked = scwi_mark_flagged(&before->summary, marks->before) +
                  scwi_mark_flagged(&after->summary, marks->after);
  return arm->paired ? mark_pairs(context, one, arm, marks) : SCW_OK;
}

static bool two_sides_left(scwi_compared compared, const scwi_arm *arm) {
  if (!arm) return true;
  if (arm->paired) return arm->n_pairs > 0;
  return (compared.given_before || arm->before.n) &&
         (compared.given_after || arm->after.n);
}

/* The change with fewer values; *has is false when too few remain. */
static scw_status estimate_rest(scw_context *context,
                                const scwi_change_case *one,
                                scwi_compared rest, bool *has,
                                scw_estimate *estimate, scw_verdict *verdict) {
  scwi_arm_estimate found, answer;
  *has = two_sides_left(rest, rest.arm) && two_sides_left(rest, rest.control);
  if (!*has) return SCW_OK;
  scw_status status = scwi_change_estimate(context, rest, one->step,
                                           one->settings->level, &found);
  if (!status)
    status = scwi_change_estimate(context, rest, one->step, answer_level(one),
                                  &answer);
  if (status) return status;
  *estimate = found.change;
  *verdict = verdict_of(one, &answer);
  return SCW_OK;
}

static scw_status report_without_flagged(scw_context *context,
                                         const scwi_change_case *one,
                                         scw_change_report *out) {
  const scwi_compared *all = &one->compared;
  arm_marks treated = {0}, control = {0};
  scwi_arm arm = {0}, control_arm = {0};
  scw_status status = mark_arm(context, one, all->arm, &out->before,
                               &out->after, &treated);
  if (!status && all->control)
    status = mark_arm(context, one, all->control, &out->control_before,
                      &out->control_after, &control);
  if (!status && treated.marked + control.marked) {
    status = scwi_arm_without(context, all->arm, treated.before, treated.after,
                              &arm);
    if (!status && all->control)
      status = scwi_arm_without(context, all->control, control.before,
                                control.after, &control_arm);
    scwi_compared rest = *all;
    rest.arm = &arm;
    if (all->control) rest.control = &control_arm;
    if (!status)
      status = estimate_rest(context, one, rest, &out->has_without_flagged,
                             &out->without_flagged,
                             &out->verdict_without_flagged);
  }
  scwi_arm_free(&arm);
  scwi_arm_free(&control_arm);
  free_marks(&treated);
  free_marks(&control);
  return status;
}

/* Everything left unmatched: in the arm, in its control, between the halves. */
static scw_status copy_unmatched(scw_context *context,
                                 const scwi_change_case *one,
                                 scw_change_report *out) {
  const scwi_arm *from[] = {one->compared.arm, one->compared.control,
                            one->view == one->compared.arm ? NULL : one->view};
  size_t capacity = 0;
  scw_status status = SCW_OK;
  for (size_t f = 0; f < sizeof from / sizeof *from; f++)
    for (size_t i = 0; from[f] && i < from[f]->n_unmatched && !status; i++) {
      const char *text = from[f]->unmatched[i];
      status = SCWI_RESERVE(context, out->n_unmatched + 1, &out->unmatched,
                            &capacity);
      if (!status)
        status = scwi_copy_text(context, text, strlen(text),
                                &out->unmatched[out->n_unmatched]);
      if (!status) out->n_unmatched++;
    }
  return status;
}

static scw_design design_of(const scwi_compared *compared) {
  if (compared->given_after)
    return compared->given_before->has_sd || compared->given_after->has_sd
               ? SCW_FROM_SUMMARY
               : SCW_BREAK_EVEN;
  if (compared->given_before) return SCW_AGAINST_BASELINE;
  if (compared->control)
    return compared->halves ? SCW_CONTROL_PAIRED : SCW_CONTROL;
  return compared->arm->paired ? SCW_PAIRED : SCW_UNPAIRED;
}

/* The instruments' part, beside the scatter. */
static scw_status report_instruments(scw_context *context,
                                     const scwi_change_case *one,
                                     const scwi_arm_estimate *estimate,
                                     const scwi_arm_estimate *answer,
                                     scw_change_report *out) {
  const scwi_instruments *instruments = one->compared.instruments;
  scw_instruments *to = &out->instruments;
  if (!instruments) return SCW_OK;
  scw_figure u = estimate->scatter.standard_uncertainty;
  scwi_arm_estimate alone = *answer;
  alone.change = answer->scatter;
  to->state = u.state;
  to->scatter = estimate->scatter;
  to->scatter_verdict = verdict_of(one, &alone);
  to->standard_uncertainty = to->df = scwi_missing(u.state);
  if (!scwi_present(u)) return SCW_OK;
  scwi_uncertainty fixed = estimate->comparison.fixed;
  to->standard_uncertainty = scwi_figure(fixed.u);
  to->df = isfinite(fixed.df) ? scwi_figure(fixed.df)
                              : scwi_missing(SCW_UNBOUNDED);
  scw_status status = SCWI_ALLOCATE(context, instruments->n + 1, &to->input);
  if (status) return status;
  scwi_side_means sides = scwi_sides_of(&one->compared);
  to->n_inputs =
      scwi_instruments_rows(instruments, &sides,
                            estimate->scatter.estimate.value, to->input);
  return SCW_OK;
}

/* What treated and control did, each for itself. */
static scw_status report_arms(scw_context *context,
                              const scwi_change_case *one,
                              scw_change_report *out) {
  const scwi_compared *compared = &one->compared;
  scwi_arm_estimate treated, control;
  scwi_compared one_arm = {.arm = compared->arm,
                           .instruments = compared->instruments};
  scwi_compared other_arm = {.arm = compared->control,
                             .instruments = compared->instruments};
  double level = one->settings->level;
  if (!compared->control) return SCW_OK;
  scw_status status =
      scwi_copy_text(context, one->control, strlen(one->control),
                     &out->control);
  if (!status)
    status =
        scwi_change_estimate(context, one_arm, one->step, level, &treated);
  if (!status)
    status =
        scwi_change_estimate(context, other_arm, one->step, level, &control);
  if (status) return status;
  out->treated_change = treated.change;
  out->control_change = control.change;
  return SCW_OK;
}

static scw_status report_figures(scw_context *context,
                                 const scwi_change_case *one,
                                 scw_change_report *out) {
  scwi_arm_estimate estimate, answer;
  scw_status status = scwi_change_estimate(context, one->compared, one->step,
                                           one->settings->level, &estimate);
  if (!status)
    status = scwi_change_estimate(context, one->compared, one->step,
                                  answer_level(one), &answer);
  if (status) return status;
  out->design = design_of(&one->compared);
  out->change = estimate.change;
  out->pairs = estimate.comparison.paired ? estimate.n_before : 0;
  if (estimate.comparison.paired)
    out->difference_sd = out->pairs > 1
                             ? scwi_figure(estimate.comparison.sd_before)
                             : scwi_missing(SCW_ONE_READING);
  out->margin = margin_of(one);
  out->verdict = verdict_of(one, &answer);
  out->break_even_baseline_u = answer.break_even_u;
  out->break_even_sd = answer.break_even_sd;
  out->alone_verdict = verdict_of(one, &estimate);
  if (one->family > 1) out->family_interval = answer.change.interval;
  status = report_instruments(context, one, &estimate, &answer, out);
  if (!status && one->retention)
    status = scwi_retention(context, &one->compared, &estimate,
                            one->settings->level, &out->retention);
  if (!status) status = look_ahead(context, one, &answer, out);
  if (!status) status = scwi_df_origin(context, &one->compared, &estimate, out);
  return status;
}

scw_status scwi_change_report(scw_context *context,
                              const scwi_change_case *one,
                              scw_change_report *out) {
  const char *product = one->subject.product;
  scwi_notes notes = {0};
  *out = (scw_change_report){0};
  scw_status status =
      scwi_copy_text(context, product, strlen(product), &out->product);
  if (!status)
    status =
        scwi_copy_text(context, one->unit, strlen(one->unit), &out->unit);
  if (!status) status = report_figures(context, one, out);
  if (!status) status = scwi_change_bank(context, one, out);
  if (!status) status = scwi_change_views(context, one, out);
  if (!status) status = report_arms(context, one, out);
  if (!status) status = report_sides(context, one, out);
  if (!status) status = copy_unmatched(context, one, out);
  if (!status) status = report_without_flagged(context, one, out);
  if (!status && one->worn_in)
    status = estimate_rest(context, one, *one->worn_in,
                           &out->has_without_first,
                           &out->without_first, &out->verdict_without_first);
  if (!status)
    status = scwi_change_sentence(context, one->subject, &one->compared, out);
  out->repicked = one->replaced;
  if (!status && one->replaced)
    status = estimate_rest(context, one, *one->again, &out->has_repicked,
                           &out->with_repicked, &out->verdict_with_repicked);
  if (one->tile) out->tile = *one->tile;
  if (!status) status = scwi_change_notes(context, one, out, &notes);
  out->notes = notes.note;
  out->n_notes = notes.n;
  if (status) scwi_change_report_free(out);
  return status;
}

void scwi_change_report_free(scw_change_report *report) {
  scwi_set_report_free(&report->before);
  scwi_set_report_free(&report->after);
  scwi_set_report_free(&report->control_before);
  scwi_set_report_free(&report->control_after);
  free(report->control);
  free(report->instruments.input);
  for (size_t i = 0; i < report->n_unmatched; i++) free(report->unmatched[i]);
  free(report->unmatched);
  free(report->product);
  free(report->unit);
  free(report->sentence);
  free(report->df_origin);
  scwi_notes_free(report->notes, report->n_notes);
  *report = (scw_change_report){0};
}
