/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 2 as text: one product in full, several as a table. */
#include "figure.h"
#include "figure_rows.h"
#include "number_text.h"
#include "number_words.h"
#include "reports.h"
#include "strip.h"
#include "text_change.h"
#include "text_set.h"
#include "wording.h"

/* "10 readings, SD 0.43". */
static void remark_side(scwi_text *text, const scw_set_report *side) {
  const scw_summary *s = &side->summary;
  scwi_word_count(text, s->n, side->spots ? "spot" : "reading");
  if (!scwi_present(s->sd)) return;
  scwi_text_add(text, ", SD ");
  scwi_word_quantity(text, s->sd.value,
                     scwi_decimals_of(s->standard_uncertainty, s->sd), NULL);
}

static void add_side(scwi_figure_rows *rows, const char *label,
                     const scw_set_report *side) {
  const scw_summary *s = &side->summary;
  scwi_text remark = {0};
  if (s->n == 0) return;
  remark_side(&remark, side);
  if (remark.failed) rows->grid.cells.failed = true;
  scwi_figure_rows_add(
      rows, (scwi_figure_row){
                .label = label,
                .value = &s->mean,
                .interval = &s->interval,
                .decimals = scwi_decimals_of(s->standard_uncertainty, s->mean),
                .remark = remark.data});
  scwi_text_free(&remark);
}

/* "95 %, p 0.0021". */
static void remark_change(scwi_text *text, const scw_estimate *change) {
  if (change->interval.state == SCW_PRESENT)
    scwi_word_percent(text, change->interval.level);
  if (!scwi_present(change->p)) return;
  scwi_word_join(text, ", ");
  scwi_word_p(text, change->p);
}

/* `verdict` is null where it is told in the sentence. */
static void add_change(scwi_figure_rows *rows, const char *label,
                       const scw_estimate *change, const char *verdict) {
  scwi_text remark = {0};
  if (verdict)
    scwi_text_add(&remark, verdict);
  else
    remark_change(&remark, change);
  if (remark.failed) rows->grid.cells.failed = true;
  scwi_figure_rows_add(
      rows, (scwi_figure_row){.label = label,
                              .value = &change->estimate,
                              .interval = &change->interval,
                              .decimals = scwi_decimals_of_change(change),
                              .signed_value = true,
                              .remark = remark.data});
  scwi_text_free(&remark);
}

/* The same by ranks, where few readings allow it. */
static void add_ranks(scwi_figure_rows *rows, const scw_change_report *change) {
  const scw_hodges_lehmann *by = &change->hodges_lehmann;
  if (by->interval.state != SCW_PRESENT) return;
  scw_estimate ranks = change->change; /* shown to the same digits */
  ranks.estimate = by->estimate;
  ranks.interval = by->interval;
  add_change(rows, "by ranks", &ranks, "Hodges-Lehmann");
}

/* What this design could have seen, beside the margin asked about. */
static void add_limits(scwi_figure_rows *rows, const scw_change_report *change,
                       double power) {
  scwi_text remark = {0};
  scw_figure u = change->change.standard_uncertainty;
  scwi_word_chance(&remark, power);
  if (remark.failed) rows->grid.cells.failed = true;
  scwi_figure_rows_add(rows, (scwi_figure_row){.label = "would be seen",
                                               .value = &change->detectable,
                                               .decimals = scwi_decimals_of(
                                                   u, change->detectable),
                                               .remark = remark.data});
  if (scwi_present(change->margin))
    scwi_figure_rows_add(rows, (scwi_figure_row){.label = "your margin",
                                                 .value = &change->margin,
                                                 .decimals = scwi_decimals_for(
                                                     0, change->margin.value)});
  scwi_text_free(&remark);
}

static void figures(scwi_sheet *sheet, const scw_change_report *change,
                    double power, scwi_figure_rows *rows) {
  add_side(rows, "before", &change->before);
  add_side(rows, "after", &change->after);
  if (change->control) {
    add_change(rows, "treated moved", &change->treated_change, NULL);
    add_change(rows, "control moved", &change->control_change, NULL);
  }
  add_change(rows, change->control ? "difference" : "change", &change->change,
             NULL);
  add_ranks(rows, change);
  if (change->has_without_flagged)
    add_change(rows, "without stand-outs", &change->without_flagged,
               scwi_verdict_label(change->verdict_without_flagged));
  if (change->has_without_first)
    add_change(rows, "without first pulls", &change->without_first,
               scwi_verdict_label(change->verdict_without_first));
  if (change->has_repicked)
    add_change(rows, "with later reads", &change->with_repicked,
               scwi_verdict_label(change->verdict_with_repicked));
  add_limits(rows, change, power);
  scwi_sheet_figure_rows(sheet, rows);
}

static scwi_strip strip_of(const char *label, const scw_set_report *side) {
  const scw_summary *s = &side->summary;
  return (scwi_strip){label,
                      side->values,
                      side->values ? s->n : 0,
                      s->stand_out.flags,
                      s->stand_out.n_flags,
                      s->mean,
                      s->interval};
}

static void strips(scwi_sheet *sheet, const scw_change_report *change) {
  const scwi_strip both[] = {strip_of("before", &change->before),
                             strip_of("after", &change->after)};
  if (both[0].n < 1 || both[1].n < 1) return;
  const scw_summary *s = &change->before.summary;
  scwi_sheet_gap(sheet);
  scwi_sheet_strips(sheet, both, 2,
                    scwi_decimals_of(s->standard_uncertainty, s->mean),
                    change->unit);
  scwi_sheet_gap(sheet);
}

static void degrees_of_freedom(scwi_sheet *sheet,
                               const scw_change_report *change) {
  scwi_text *text = &sheet->scratch;
  const char *origin = change->df_origin;
  if (scwi_present(change->change.df))
    scwi_put_short(text, change->change.df.value, 4);
  if (origin && *origin)
    scwi_text_format(text, "%s%s", text->length ? ": " : "", origin);
  scwi_sheet_labelled_scratch(sheet, "df");
}

/* How often shuffling alone does as much. */
static void shuffling(scwi_sheet *sheet, const scw_change_report *change) {
  scwi_text *text = &sheet->scratch;
  const scw_permutation *found = &change->permutation;
  if (!scwi_present(found->p)) return;
  scwi_word_p(text, found->p);
  scwi_text_add(text, " of all assignments of these readings");
  if (scwi_present(found->smallest_p)) {
    scwi_text_add(text, ", which can give no less than ");
    scwi_put_short(text, found->smallest_p.value, 2);
  }
  scwi_sheet_labelled_scratch(sheet, "by shuffling");
}

static void scatter_ratio(scwi_sheet *sheet, const scw_change_report *change) {
  scwi_text *text = &sheet->scratch;
  const scw_sd_ratio *found = &change->sd_ratio;
  if (found->interval.state != SCW_PRESENT) return;
  scwi_text_add(text, "SD after over SD before ");
  scwi_put_short(text, found->ratio.value, 3);
  scwi_text_add(text, " (");
  scwi_put_short(text, found->interval.low, 2);
  scwi_text_add(text, " to ");
  scwi_put_short(text, found->interval.high, 2);
  scwi_text_add(text, ")");
  scwi_sheet_labelled_scratch(sheet, "scatter");
}

static void settle(scwi_sheet *sheet, const scw_settle *settle) {
  scwi_text *text = &sheet->scratch;
  scw_presence state = settle->more.state;
  if (state == SCW_NOT_COMPUTED || state == SCW_SETTLED) return;
  if (scwi_present(settle->more) && scwi_present(settle->total)) {
    scwi_put_short(text, settle->more.value, 12);
    scwi_text_add(text, settle->per_spot ? " more spots ("
                                         : " more readings on each side (");
    scwi_put_short(text, settle->total.value, 12);
    scwi_text_add(text, " in all) settle it ");
    scwi_word_chance(text, settle->chance);
    scwi_text_add(text, ", if the change really is this size");
  } else {
    scwi_text_add(text, scw_presence_text(state));
  }
  scwi_sheet_labelled_scratch(sheet, "to settle it");
}

static void change_section(scwi_sheet *sheet, const scw_change_report *change,
                           double power) {
  scwi_figure_rows rows = scwi_figure_rows_start(change->unit);
  scwi_sheet_answer(sheet, change->sentence);
  figures(sheet, change, power, &rows);
  strips(sheet, change);
  degrees_of_freedom(sheet, change);
  shuffling(sheet, change);
  scatter_ratio(sheet, change);
  settle(sheet, &change->settle);
  scwi_sheet_unmatched(sheet, change, false, "not paired");
  scwi_sheet_side_stand_outs(sheet, NULL, change);
  scwi_sheet_missing(sheet, &rows);
}

static void settings(scwi_sheet *sheet, const scw_change_result *result) {
  scwi_text more = {0};
  const scw_change_options *options = &result->options;
  char number[SCWI_NUMBER_SIZE];
  if (options->margin > 0)
    scwi_text_format(&more, ", margin %s",
                     scwi_number_text(options->margin, number));
  else
    scwi_text_add(&more, ", no margin given");
  if (options->has_block) {
    scwi_text_format(&more, ", block %s",
                     scwi_number_text(options->block, number));
    if (options->block_unit)
      scwi_text_format(&more, " %s", options->block_unit);
  }
  if (more.failed) sheet->text.failed = true;
  scwi_sheet_settings(sheet, &result->settings,
                      SCWI_SET_STAND_OUT | SCWI_SET_POWER, more.data);
  scwi_text_free(&more);
}

scw_status scwi_text_change(scw_context *context,
                            const scw_change_result *result,
                            const scwi_inputs *inputs,
                            scw_report_options options, scw_sink sink) {
  scwi_sheet sheet = {.options = options};
  const scw_change_report *first = result->n_changes ? result->changes : NULL;
  if (result->n_changes == 1) {
    change_section(&sheet, first, result->settings.power);
    scwi_sheet_gap(&sheet);
    scwi_sheet_notes(&sheet, first->notes, first->n_notes);
  } else if (first) {
    scwi_sheet_family(&sheet, result);
  }
  scwi_sheet_notes(&sheet, result->notes, result->n_notes);
  scwi_sheet_gap(&sheet);
  scwi_sheet_inputs(&sheet, inputs,
                    first ? first->before.summary.step : (scw_step){0},
                    first ? first->unit : NULL);
  settings(&sheet, result);
  return scwi_sheet_send(context, &sheet, sink);
}
