/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 2 as text: one product in full, several as a table. */
#include "figure.h"
#include "figure_rows.h"
#include "grid.h"
#include "number_text.h"
#include "reports.h"
#include "strip.h"
#include "text_set.h"
#include "wording.h"

static const char *verdict_words(scw_verdict verdict) {
  switch (verdict) {
    case SCW_CHANGED: return "changed";
    case SCW_CHANGED_SIZE_UNCLEAR: return "changed, size unclear";
    case SCW_CHANGED_BUT_SMALL: return "changed, but small";
    case SCW_NO_CHANGE_BEYOND_MARGIN: return "within the margin";
    case SCW_CONDITIONAL: return "conditional";
    case SCW_CANNOT_TELL: return "cannot tell";
    default: return "no verdict";
  }
}

/* The same at the start of a sentence. */
static const char *family_words(scw_verdict verdict) {
  switch (verdict) {
    case SCW_CHANGED: return "Changed";
    case SCW_CHANGED_SIZE_UNCLEAR: return "Changed, size unclear";
    case SCW_CHANGED_BUT_SMALL: return "Changed, but by less than the margin";
    case SCW_NO_CHANGE_BEYOND_MARGIN: return "No change beyond the margin";
    case SCW_CONDITIONAL: return "Changed only if the baseline is good enough";
    case SCW_CANNOT_TELL: return "Cannot tell";
    default: return "No verdict";
  }
}

static int decimals_of_change(const scw_estimate *change) {
  return scwi_decimals_of(change->standard_uncertainty, change->estimate);
}

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
                .label = label, .value = &s->mean, .interval = &s->interval,
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
                              .decimals = decimals_of_change(change),
                              .signed_value = true,
                              .remark = remark.data});
  scwi_text_free(&remark);
}

/* What this design could have seen, beside the margin asked about. */
static void add_limits(scwi_figure_rows *rows, const scw_change_report *change,
                       double power) {
  scwi_text remark = {0};
  scw_figure u = change->change.standard_uncertainty;
  scwi_word_chance(&remark, power);
  if (remark.failed) rows->grid.cells.failed = true;
  scwi_figure_rows_add(
      rows,
      (scwi_figure_row){.label = "would be seen",
                        .value = &change->detectable,
                        .decimals = scwi_decimals_of(u, change->detectable),
                        .remark = remark.data});
  if (scwi_present(change->margin))
    scwi_figure_rows_add(
        rows, (scwi_figure_row){
                  .label = "your margin",
                  .value = &change->margin,
                  .decimals = scwi_decimals_for(0, change->margin.value)});
  scwi_text_free(&remark);
}

static void figures(scwi_sheet *sheet, const scw_change_report *change,
                    double power, scwi_figure_rows *rows) {
  add_side(rows, "before", &change->before);
  add_side(rows, "after", &change->after);
  add_change(rows, "change", &change->change, NULL);
  if (change->has_without_flagged)
    add_change(rows, "without stand-outs", &change->without_flagged,
               verdict_words(change->verdict_without_flagged));
  if (change->has_without_first)
    add_change(rows, "without first pulls", &change->without_first,
               verdict_words(change->verdict_without_first));
  add_limits(rows, change, power);
  scwi_sheet_figure_rows(sheet, rows);
}

static scwi_strip strip_of(const char *label, const scw_set_report *side) {
  const scw_summary *s = &side->summary;
  return (scwi_strip){label, side->values, side->values ? s->n : 0,
                      s->stand_out.flags, s->stand_out.n_flags,
                      s->mean, s->interval};
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
    scwi_word_digits(text, change->change.df.value, 4);
  if (origin && *origin)
    scwi_text_format(text, "%s%s", text->length ? ": " : "", origin);
  scwi_sheet_labelled_scratch(sheet, "df");
}

static void settle(scwi_sheet *sheet, const scw_settle *settle) {
  scwi_text *text = &sheet->scratch;
  scw_presence state = settle->more.state;
  if (state == SCW_NOT_COMPUTED || state == SCW_SETTLED) return;
  if (scwi_present(settle->more) && scwi_present(settle->total)) {
    scwi_word_digits(text, settle->more.value, 12);
    scwi_text_add(text, settle->per_spot ? " more spots ("
                                         : " more readings on each side (");
    scwi_word_digits(text, settle->total.value, 12);
    scwi_text_add(text, " in all) settle it ");
    scwi_word_chance(text, settle->chance);
    scwi_text_add(text, ", if the change really is this size");
  } else {
    scwi_text_add(text, scw_presence_text(state));
  }
  scwi_sheet_labelled_scratch(sheet, "to settle it");
}

/* In a family each line says whose spot it is. */
static void unmatched(scwi_sheet *sheet, const scw_change_report *change,
                      bool named, const char *label) {
  for (size_t i = 0; i < change->n_unmatched && change->unmatched; i++) {
    if (named && change->product)
      scwi_text_format(&sheet->scratch, "%s: ", change->product);
    scwi_text_add(&sheet->scratch,
                  change->unmatched[i] ? change->unmatched[i] : "");
    scwi_sheet_labelled_scratch(sheet, i ? "" : label);
  }
}

/* What stands out on a side, under its name. */
static void side_stand_out(scwi_sheet *sheet, const char *product,
                           const char *side, const scw_set_report *set) {
  if (set->summary.stand_out.n_flags == 0) return;
  scwi_text name = {0};
  if (product && *product) scwi_text_format(&name, "%s, ", product);
  scwi_text_format(&name, "%s:", side);
  if (name.failed) sheet->text.failed = true;
  scwi_sheet_hanging(sheet, "", 0, name.data);
  scwi_sheet_stand_out(sheet, set);
  scwi_text_free(&name);
}

static void stand_outs(scwi_sheet *sheet, const char *product,
                       const scw_change_report *change) {
  side_stand_out(sheet, product, "before", &change->before);
  side_stand_out(sheet, product, "after", &change->after);
}

static void change_section(scwi_sheet *sheet, const scw_change_report *change,
                           double power) {
  scwi_figure_rows rows = scwi_figure_rows_start(change->unit);
  scwi_sheet_answer(sheet, change->sentence);
  figures(sheet, change, power, &rows);
  strips(sheet, change);
  degrees_of_freedom(sheet, change);
  settle(sheet, &change->settle);
  unmatched(sheet, change, false, "not paired");
  stand_outs(sheet, NULL, change);
  scwi_sheet_missing(sheet, &rows);
}

static void add_range(scwi_grid *grid, scw_interval interval, int decimals) {
  if (interval.state == SCW_PRESENT) {
    scwi_grid_fixed(grid, interval.low, decimals);
    scwi_grid_cell(grid, "to");
    scwi_grid_fixed(grid, interval.high, decimals);
  } else {
    scwi_grid_blanks(grid, 3);
  }
}

static void add_p(scwi_grid *grid, scw_figure p) {
  if (!scwi_present(p))
    scwi_grid_blanks(grid, 1);
  else if (p.value < 0.0001)
    scwi_grid_cell(grid, "<0.0001");
  else
    scwi_grid_fixed(grid, p.value, p.value < 0.1 ? 4 : 2);
}

static void add_product(scwi_grid *grid, const scw_change_report *change) {
  int decimals = decimals_of_change(&change->change);
  scwi_grid_cell(grid, change->product);
  if (scwi_present(change->change.estimate))
    scwi_grid_fixed(grid, change->change.estimate.value, decimals);
  else
    scwi_grid_blanks(grid, 1);
  add_range(grid, change->change.interval, decimals);
  add_range(grid, change->family_interval, decimals);
  add_p(grid, change->family_p);
  scwi_grid_cell(grid, verdict_words(change->family_verdict));
}

/* " Changed: K1, K2.": the products of one verdict, named as far as five. */
static void add_products_of(scwi_text *text, const scw_change_result *result,
                            scw_verdict verdict) {
  enum { MOST_NAMES = 5 };
  size_t n = 0;
  for (size_t i = 0; i < result->n_changes; i++) {
    const scw_change_report *change = &result->changes[i];
    if (change->family_verdict != verdict || n++ >= MOST_NAMES) continue;
    if (n == 1)
      scwi_text_format(text, " %s: ", family_words(verdict));
    else
      scwi_text_add(text, ", ");
    scwi_text_add(text, change->product ? change->product : "");
  }
  if (n > MOST_NAMES)
    scwi_text_format(text, " and %zu more", n - MOST_NAMES);
  if (n) scwi_text_add(text, ".");
}

static void family_answer(scwi_sheet *sheet, const scw_change_result *result) {
  scwi_text line = {0};
  scwi_text_format(&line, "%zu products judged together.", result->n_changes);
  for (unsigned v = SCW_CHANGED; v < SCW_VERDICT_END; v++)
    add_products_of(&line, result, (scw_verdict)v);
  add_products_of(&line, result, SCW_CANNOT_TELL);
  if (line.failed) sheet->text.failed = true;
  scwi_sheet_answer(sheet, line.data);
  scwi_text_free(&line);
}

static scwi_note_owner notes_of_change(const void *from, size_t i) {
  const scw_change_report *change = (const scw_change_report *)from + i;
  return (scwi_note_owner){change->product, change->notes, change->n_notes};
}

static void family_table(scwi_sheet *sheet, const scw_change_result *result) {
  scwi_text change = {0};
  const char *unit = result->changes[0].unit;
  scwi_text_add(&change, "change");
  if (unit && *unit) scwi_text_format(&change, ", %s", unit);
  const scwi_column columns[] = {
      {"product", SCWI_LEFT, 0, false, 0},
      {change.data, SCWI_POINT, 2, false, 0},
      {"alone", SCWI_POINT, 3, true, 0},
      {NULL, SCWI_LEFT, 1, false, 0},
      {NULL, SCWI_POINT, 1, false, 0},
      {"in the family", SCWI_POINT, 3, true, 0},
      {NULL, SCWI_LEFT, 1, false, 0},
      {NULL, SCWI_POINT, 1, false, 0},
      {"p", SCWI_POINT, 2, false, 0},
      {"verdict", SCWI_LEFT, 2, true, 0}};
  scwi_grid grid = {.columns = columns,
                    .n_columns = sizeof columns / sizeof *columns};
  for (size_t i = 0; i < result->n_changes; i++)
    add_product(&grid, &result->changes[i]);
  if (change.failed) grid.cells.failed = true;
  scwi_sheet_grid(sheet, &grid);
  scwi_text_free(&change);
}

static void family(scwi_sheet *sheet, const scw_change_result *result) {
  family_answer(sheet, result);
  scwi_sheet_gap(sheet);
  family_table(sheet, result);
  scwi_sheet_gap(sheet);
  for (size_t i = 0; i < result->n_changes; i++)
    scwi_sheet_note(sheet, result->changes[i].sentence);
  scwi_sheet_gap(sheet);
  bool first = true;
  for (size_t i = 0; i < result->n_changes; i++) {
    unmatched(sheet, &result->changes[i], true, first ? "not paired" : "");
    first = first && result->changes[i].n_unmatched == 0;
  }
  for (size_t i = 0; i < result->n_changes; i++)
    stand_outs(sheet, result->changes[i].product, &result->changes[i]);
  scwi_sheet_gap(sheet);
  scwi_sheet_notes_of(sheet, result->n_changes, result->changes,
                     notes_of_change);
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
    family(&sheet, result);
  }
  scwi_sheet_notes(&sheet, result->notes, result->n_notes);
  scwi_sheet_gap(&sheet);
  scwi_sheet_inputs(&sheet, inputs,
                    first ? first->before.summary.step : (scw_step){0},
                    first ? first->unit : NULL);
  settings(&sheet, result);
  return scwi_sheet_send(context, &sheet, sink);
}
