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

/* The same by ranks, where enough readings allow it, with what its interval
 * really covers. */
static void add_ranks(scwi_figure_rows *rows, const scw_change_report *change) {
  const scw_hodges_lehmann *by = &change->hodges_lehmann;
  scwi_text remark = {0};
  if (by->interval.state != SCW_PRESENT) return;
  scw_estimate ranks = change->change; /* shown to the same digits */
  ranks.estimate = by->estimate;
  ranks.interval = by->interval;
  if (scwi_present(by->coverage)) {
    scwi_put_short(&remark, 100 * by->coverage.value, 3);
    scwi_text_add(&remark, SCWI_TIE "%, ");
  }
  scwi_text_add(&remark, "Hodges-Lehmann");
  if (remark.failed) rows->grid.cells.failed = true;
  add_change(rows, "by ranks", &ranks, remark.data);
  scwi_text_free(&remark);
}

/* Bare numbers: how far the change can be trusted. */
static void add_break_even(scwi_figure_rows *rows, scw_figure figure,
                           const char *remark) {
  if (!scwi_present(figure) && figure.state != SCW_WITHIN_STEP) return;
  scwi_figure_rows_add(
      rows, (scwi_figure_row){.label = "stands up to",
                              .value = &figure,
                              .decimals = scwi_decimals_of(figure, figure),
                              .remark = remark});
}

/* What this design could have seen, beside the margin asked about. */
static void add_limits(scwi_figure_rows *rows, const scw_change_report *change,
                       double power) {
  scwi_text remark = {0};
  scw_figure u = change->change.standard_uncertainty;
  add_break_even(rows, change->break_even_baseline_u,
                 "uncertainty of the number");
  add_break_even(rows, change->break_even_sd, "SD of single readings");
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
  bool control = change->control != NULL;
  add_side(rows, control ? "treated before" : "before", &change->before);
  add_side(rows, control ? "treated after" : "after", &change->after);
  if (control) {
    add_change(rows, "treated moved", &change->treated_change, NULL);
    add_change(rows, "control moved", &change->control_change, NULL);
  }
  add_change(rows, control ? "difference" : "change", &change->change, NULL);
  if (change->instruments.n_inputs)
    add_change(rows, "scatter alone", &change->instruments.scatter, NULL);
  if (change->bank.state == SCW_PRESENT)
    add_change(rows, "by the bank", &change->bank.change, NULL);
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

/* The sides that have readings, on one scale; a number is no reading. */
static void strips(scwi_sheet *sheet, const scw_change_report *change) {
  const scw_set_report *sides[] = {&change->before, &change->after};
  bool control = change->control != NULL;
  const char *const labels[] = {control ? "treated before" : "before",
                                control ? "treated after" : "after"};
  scwi_strip shown[2];
  size_t n = 0;
  scwi_sheet_gap(sheet);
  for (size_t i = 0; i < 2; i++) {
    shown[n] = strip_of(labels[i], sides[i]);
    if (shown[n].n > 0) n++;
  }
  if (n == 0) return;
  const scw_summary *s = n == 2 ? &change->before.summary
                                : &sides[change->before.values == NULL]->summary;
  scwi_sheet_strips(sheet, shown, n,
                    scwi_decimals_of(s->standard_uncertainty, s->mean),
                    change->unit);
  scwi_sheet_gap(sheet);
}

static void change_section(scwi_sheet *sheet, const scw_change_report *change,
                           const scw_bench_scatter *scatter, double power) {
  scwi_figure_rows rows = scwi_figure_rows_start(change->unit);
  scwi_sheet_answer(sheet, change->sentence);
  figures(sheet, change, power, &rows);
  strips(sheet, change);
  scwi_sheet_retention(sheet, change, false);
  scwi_sheet_views(sheet, change);
  scwi_sheet_bank(sheet, change, scatter);
  scwi_sheet_instruments(sheet, change, false);
  scwi_sheet_unmatched(sheet, change, false, "not paired");
  scwi_sheet_side_stand_outs(sheet, NULL, change);
  scwi_sheet_missing(sheet, &rows);
}

static void add_setting(scwi_text *to, const char *name, double value) {
  char number[SCWI_NUMBER_SIZE];
  scwi_text_format(to, ", %s %s", name, scwi_number_text(value, number));
}

static void settings(scwi_sheet *sheet, const scw_change_result *result) {
  scwi_text more = {0};
  const scw_change_options *options = &result->options;
  if (options->margin > 0)
    add_setting(&more, result->margin_of_bench ? "margin of the bench"
                                               : "margin",
                options->margin);
  else
    scwi_text_add(&more, ", no margin given");
  if (options->has_block) {
    add_setting(&more, "block", options->block);
    if (options->block_unit)
      scwi_text_format(&more, " %s", options->block_unit);
  }
  if (options->control) scwi_text_format(&more, ", control %s", options->control);
  if (options->paired_halves) scwi_text_add(&more, ", paired halves");
  if (options->has_baseline)
    add_setting(&more, "baseline", options->baseline.mean);
  if (options->has_tile) add_setting(&more, "tile", options->tile);
  if (result->scatter && options->bench->name)
    scwi_text_format(&more, ", scatter bank %s sha256 %.12s",
                     options->bench->name, options->bench->sha256);
  if (result->quantity)
    scwi_text_format(&more, ", quantity %s of bench %s sha256 %.12s",
                     result->quantity->name,
                     options->instruments->name ? options->instruments->name
                                                : "given",
                     options->instruments->sha256);
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
    change_section(&sheet, first, result->scatter, result->settings.power);
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
