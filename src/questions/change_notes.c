/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "change_notes.h"

#include <string.h>

#include "change_bank.h"
#include "figure.h"
#include "tile.h"
#include "words.h"

static scw_status note_design(scw_context *context,
                              const scwi_change_case *one, scwi_notes *notes) {
  const scwi_arm *arm = one->compared.arm;
  if (scwi_by_numbers(&one->compared))
    return scwi_note(context, notes, "from_numbers",
                     "Behind numbers that stand for readings, stand-outs, "
                     "creep and spots read twice stay hidden; meter and panel "
                     "are taken to be the same.");
  if (arm->one_spot)
    return scwi_note(context, notes, "one_spot",
                     "All readings are of one spot. The interval describes "
                     "this spot; read other spots for a verdict on the "
                     "panel.");
  if (arm->panels > 1)
    return scwi_note(context, notes, "panel_means",
                     "%zu panels: each panel counts once, by the mean of its "
                     "spots.",
                     arm->panels);
  if (arm->paired) return SCW_OK;
  if (arm->before.by_spot && arm->after.by_spot)
    return scwi_note(context, notes, "no_common_spots",
                     "The two sides name different spots, so nothing could be "
                     "paired. Reading the same spots before and after is the "
                     "stronger design.");
  return scwi_note(context, notes, "not_paired",
                   "The readings are not paired: the panel's own unevenness "
                   "counts on both sides. Name the spots and read the same "
                   "ones before and after for a sharper answer.");
}

static scw_status note_few_pairs(scw_context *context,
                                 const scwi_change_case *one,
                                 scwi_notes *notes) {
  if (one->compared.arm->paired && one->compared.arm->n_pairs == 2)
    return scwi_note(context, notes, "two_readings",
                     "Two pairs leave one degree of freedom; a third narrows "
                     "the interval most.");
  return SCW_OK;
}

/* Welch's approximation is at its weakest with so few readings; what it still
 * covers is measured by tests/bench/welch_few.c (docs/methods/honesty.md). */
enum { FEW_FOR_WELCH = 4 };

static scw_status note_few_sides(scw_context *context,
                                 const scwi_change_case *one,
                                 const scw_change_report *report,
                                 scwi_notes *notes) {
  size_t before = report->before.summary.n, after = report->after.summary.n;
  size_t least = before < after ? before : after;
  bool welch = (report->design == SCW_UNPAIRED ||
                report->design == SCW_FROM_SUMMARY) &&
               !one->compared.arm->one_spot;
  if (!welch || least < 2 || least > FEW_FOR_WELCH) return SCW_OK;
  return scwi_note(context, notes, "few_and_unequal",
                   "With only %zu %s on a side the interval can cover less "
                   "than it says where the sides scatter unequally: 92.8 %% "
                   "at a nominal 95 %% was the worst measured.",
                   least, one->compared.arm->panels > 1 ? "panels"
                                                        : "readings");
}

static scw_status note_order(scw_context *context,
                             const scw_change_report *report,
                             scwi_notes *notes) {
  bool before = report->before.summary.creep.creeping;
  bool after = report->after.summary.creep.creeping;
  if (!before && !after) return SCW_OK;
  return scwi_note(context, notes, "creep",
                   "The %s readings drift in the order they were taken; a "
                   "drift on one side can pass for a change.",
                   before && after ? "before and the after"
                   : before        ? "before"
                                   : "after");
}

static scw_status note_without(scw_context *context, const char *code,
                               const char *what,
                               const scw_change_report *report,
                               scw_verdict without, scwi_notes *notes) {
  scw_verdict with = scwi_own_verdict(report);
  if (with == without) return SCW_OK;
  return scwi_note(context, notes, code,
                   "The verdict hangs on %s: with %s it is \"%s\", without "
                   "\"%s\". Both stand; look at what happened there.",
                   what, strchr(what, ' ') ? "them" : "it",
                   scwi_verdict_words(with, report->design),
                   scwi_verdict_words(without, report->design));
}

static scw_status note_again(scw_context *context,
                             const scw_change_report *report,
                             scwi_notes *notes) {
  if (!report->repicked) return SCW_OK;
  return scwi_note(context, notes, "read_again",
                   "%zu reading%s taken again. The verdict is that of the "
                   "first readings; with the later ones in their place it is "
                   "\"%s\".%s",
                   report->repicked, report->repicked == 1 ? " was" : "s were",
                   scwi_verdict_words(report->verdict_with_repicked,
                                      report->design),
                   scwi_own_verdict(report) == report->verdict_with_repicked
                       ? ""
                       : " The answer hangs on which reading is believed.");
}

static scw_status note_display(scw_context *context,
                               const scwi_change_case *one,
                               const scw_change_report *report,
                               scwi_notes *notes) {
  scwi_text text = {0};
  if (one->step.origin == SCW_STEP_NOT_KNOWN &&
      !one->compared.given_after)
    return scwi_note(context, notes, "step_unknown",
                     "The display step cannot be told from these readings; "
                     "give it with --step.");
  bool small = scwi_present(report->change.estimate) &&
               one->step.size > 0 && report->change.interval.state ==
                   SCW_PRESENT &&
               report->change.interval.high - report->change.interval.low <
                   2 * one->step.size;
  if (!small) return SCW_OK;
  scwi_text_add(&text, "The display shows steps of ");
  scwi_say_given(&text, one->step.size, one->unit);
  scwi_text_add(&text, "; the uncertainty of the displayed values is counted "
                       "in.");
  return scwi_note_take(context, notes, "display_step", &text);
}

static scw_status note_bare(scw_context *context,
                            const scw_change_report *report,
                            scwi_notes *notes) {
  bool bare = report->settle.total.state == SCW_BARE_NUMBER;
  if (!bare || report->change.interval.state != SCW_PRESENT) return SCW_OK;
  return scwi_note(context, notes, "interval_if_exact",
                   "The interval is the one that would hold if the bare number "
                   "were exact, which no measured number is.");
}

/* A change in another unit than the tile's is no measure of its drift. */
static scw_status note_tile(scw_context *context, const scwi_change_case *one,
                            const scw_change_report *report,
                            scwi_notes *notes) {
  if (!one->tile_unit) return SCW_OK;
  bool alike = !strcmp(one->tile_unit, one->unit);
  return scwi_tile_note(context, &report->tile, one->tile_unit,
                        alike ? &report->change.estimate : NULL, notes);
}

scw_status scwi_change_notes(scw_context *context, const scwi_change_case *one,
                             const scw_change_report *report,
                             scwi_notes *notes) {
  scw_status status = note_design(context, one, notes);
  if (!status) status = note_few_pairs(context, one, notes);
  if (!status) status = note_few_sides(context, one, report, notes);
  if (!status) status = note_order(context, report, notes);
  if (!status && report->has_without_flagged)
    status = note_without(context, "flagged_decide",
                          "the readings that stand out", report,
                          report->verdict_without_flagged, notes);
  if (!status && report->has_without_first)
    status = note_without(context, "first_pull_decides",
                          "the first pulls", report,
                          report->verdict_without_first, notes);
  if (!status) status = note_again(context, report, notes);
  if (!status) status = note_bare(context, report, notes);
  if (!status && one->family < 2) /* else once for the run */
    status = note_tile(context, one, report, notes);
  if (!status) status = note_display(context, one, report, notes);
  if (!status) status = scwi_bank_notes(context, one, report, notes);
  return status;
}
