/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "change_report.h"

#include <stdlib.h>
#include <string.h>

#include "arm_estimate.h"
#include "change_notes.h"
#include "change_views.h"
#include "figure.h"
#include "memory.h"
#include "set_report.h"
#include "settings.h"
#include "summarise.h"

static scw_figure margin_of(const scwi_change_case *one) {
  return one->margin > 0 ? scwi_figure(one->margin)
                         : scwi_missing(SCW_NO_MARGIN);
}

/* One spot gives a figure, but never a verdict about the panel. */
static scw_verdict verdict_of(const scwi_change_case *one,
                              const scw_estimate *change) {
  if (one->arm->one_spot) return SCW_NO_VERDICT;
  if (change->interval.state != SCW_PRESENT) return SCW_CANNOT_TELL;
  return scwi_verdict(change->interval, margin_of(one));
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
  out->settle.per_spot = one->arm->paired;
  out->settle.chance = settings->power;
  if (estimate->change.interval.state != SCW_PRESENT) {
    scw_presence why = estimate->change.interval.state;
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
  return status;
}

static scw_status report_side(scw_context *context,
                              const scwi_change_case *one,
                              const scwi_values *values, const char *label,
                              scw_set_report *out) {
  scwi_set_words words = {label, one->unit, false};
  return scwi_set_report(context, values, words, one->step, one->settings,
                         out);
}

/* Marks flagged values of both sides; for pairs also those whose difference
 * stands out. Returns how many were marked. */
static scw_status mark_flagged(scw_context *context,
                               const scwi_change_case *one,
                               const scw_change_report *report,
                               bool *drop_before, bool *drop_after,
                               size_t *marked) {
  const scwi_arm *arm = one->arm;
  scwi_summary_settings how = scwi_settings_for_summary(one->settings);
  scwi_values differences = {0};
  scw_summary summary;
  *marked = scwi_mark_flagged(&report->before.summary, drop_before) +
            scwi_mark_flagged(&report->after.summary, drop_after);
  if (!arm->paired) return SCW_OK;
  scw_status status = scwi_arm_differences(context, arm, &differences);
  if (status) return status;
  scwi_sample sample = scwi_values_sample(&differences, one->step);
  status = scwi_summarise(context, &sample, &how, &summary);
  for (size_t i = 0; !status && i < summary.stand_out.n_flags; i++) {
    size_t pair = summary.stand_out.flags[i].place - 1;
    bool *mark = &drop_before[arm->pair_before[pair]];
    *marked += !*mark;
    *mark = true;
  }
  scwi_values_free(&differences);
  return status;
}

/* The change of another arm of the same product; *has is false when too few
 * values remain. */
static scw_status estimate_rest(scw_context *context,
                                const scwi_change_case *one,
                                const scwi_arm *rest, bool *has,
                                scw_estimate *estimate, scw_verdict *verdict) {
  scwi_arm_estimate found, answer;
  *has = rest->before.n && rest->after.n && (!rest->paired || rest->n_pairs);
  if (!*has) return SCW_OK;
  scw_status status = scwi_arm_estimate_of(context, rest, one->step,
                                           one->settings->level, &found);
  if (!status)
    status = scwi_arm_estimate_of(context, rest, one->step, answer_level(one),
                                  &answer);
  if (status) return status;
  *estimate = found.change;
  *verdict = verdict_of(one, &answer.change);
  return SCW_OK;
}

static scw_status report_without_flagged(scw_context *context,
                                         const scwi_change_case *one,
                                         scw_change_report *out) {
  bool *drop_before = NULL, *drop_after = NULL;
  scwi_arm rest = {0};
  size_t marked = 0;
  scw_status status = SCWI_ALLOCATE(context, one->arm->before.n, &drop_before);
  if (!status)
    status = SCWI_ALLOCATE(context, one->arm->after.n, &drop_after);
  if (!status)
    status = mark_flagged(context, one, out, drop_before, drop_after, &marked);
  if (!status && marked)
    status =
        scwi_arm_without(context, one->arm, drop_before, drop_after, &rest);
  if (!status && marked)
    status = estimate_rest(context, one, &rest, &out->has_without_flagged,
                           &out->without_flagged,
                           &out->verdict_without_flagged);
  scwi_arm_free(&rest);
  free(drop_before);
  free(drop_after);
  return status;
}

static scw_status copy_unmatched(scw_context *context, const scwi_arm *arm,
                                 scw_change_report *out) {
  scw_status status =
      SCWI_ALLOCATE(context, arm->n_unmatched, &out->unmatched);
  for (size_t i = 0; i < arm->n_unmatched && !status; i++) {
    status = scwi_copy_text(context, arm->unmatched[i],
                            strlen(arm->unmatched[i]), &out->unmatched[i]);
    if (!status) out->n_unmatched++;
  }
  return status;
}

static scw_status report_figures(scw_context *context,
                                 const scwi_change_case *one,
                                 scw_change_report *out) {
  scwi_arm_estimate estimate, answer;
  scw_status status = scwi_arm_estimate_of(context, one->arm, one->step,
                                           one->settings->level, &estimate);
  if (!status)
    status = scwi_arm_estimate_of(context, one->arm, one->step,
                                  answer_level(one), &answer);
  if (status) return status;
  out->design = one->arm->paired ? SCW_PAIRED : SCW_UNPAIRED;
  out->change = estimate.change;
  out->pairs = one->arm->n_pairs;
  if (one->arm->paired)
    out->difference_sd = out->pairs > 1
                             ? scwi_figure(estimate.comparison.sd_before)
                             : scwi_missing(SCW_ONE_READING);
  out->margin = margin_of(one);
  out->verdict = verdict_of(one, &answer.change);
  out->alone_verdict = verdict_of(one, &estimate.change);
  if (one->family > 1) out->family_interval = answer.change.interval;
  status = look_ahead(context, one, &answer, out);
  if (!status) status = scwi_df_origin(context, one->arm, &estimate, out);
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
  if (!status) status = scwi_change_views(context, one, out);
  if (!status)
    status = report_side(context, one, &one->arm->before, "before",
                         &out->before);
  if (!status)
    status =
        report_side(context, one, &one->arm->after, "after", &out->after);
  if (!status) status = copy_unmatched(context, one->arm, out);
  if (!status) status = report_without_flagged(context, one, out);
  if (!status && one->worn_in)
    status = estimate_rest(context, one, one->worn_in, &out->has_without_first,
                           &out->without_first, &out->verdict_without_first);
  if (!status)
    status = scwi_change_sentence(context, one->subject, one->arm, out);
  if (!status) status = scwi_change_notes(context, one, out, &notes);
  out->notes = notes.note;
  out->n_notes = notes.n;
  if (status) scwi_change_report_free(out);
  return status;
}

void scwi_change_report_free(scw_change_report *report) {
  scwi_set_report_free(&report->before);
  scwi_set_report_free(&report->after);
  for (size_t i = 0; i < report->n_unmatched; i++) free(report->unmatched[i]);
  free(report->unmatched);
  free(report->product);
  free(report->unit);
  free(report->sentence);
  free(report->df_origin);
  scwi_notes_free(report->notes, report->n_notes);
  *report = (scw_change_report){0};
}
