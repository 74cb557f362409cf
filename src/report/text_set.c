/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "text_set.h"

#include "figure.h"
#include "figure_rows.h"
#include "number_words.h"
#include "strip.h"
#include "wording.h"

/* Readings from which a median says more than the mean. */
enum { MIDDLE_FROM = 3 };

/* "95 % interval, 9 df". */
static void remark_mean(scwi_text *text, const scw_summary *s) {
  if (s->interval.state == SCW_PRESENT) {
    scwi_word_percent(text, s->interval.level);
    scwi_text_add(text, " interval");
  }
  if (!scwi_present(s->df)) return;
  scwi_word_join(text, ", ");
  scwi_word_df(text, s->df.value);
  scwi_text_add(text, " df");
}

/* "95 % of them, 95 % sure". */
static void remark_tolerance(scwi_text *text, const scw_tolerance *t) {
  if (t->interval.state != SCW_PRESENT) return;
  scwi_word_percent(text, t->content);
  scwi_text_add(text, " of them, ");
  scwi_word_percent(text, t->interval.level);
  scwi_text_add(text, " sure");
}

static void remark_robust(scwi_text *text, const scw_summary *s, int decimals,
                          const char *unit) {
  if (!scwi_present(s->robust_sd)) return;
  scwi_text_add(text, "robust SD ");
  scwi_word_quantity(text, s->robust_sd.value, decimals, unit);
}

static void add_rows(scwi_figure_rows *rows, const scw_set_report *set,
                     const char *const remarks[3]) {
  const scw_summary *s = &set->summary;
  int d = scwi_decimals_of(s->standard_uncertainty, s->mean);
  scw_interval quartiles = scwi_present(s->q1) && scwi_present(s->q3)
                               ? scwi_interval(s->q1.value, s->q3.value, 0.5)
                               : scwi_no_interval(s->q1.state, 0.5);
  const scwi_figure_row list[] = {
      {.label = "mean",
       .value = &s->mean,
       .interval = &s->interval,
       .remark = remarks[0]},
      {.label = "scatter (SD)", .value = &s->sd, .interval = &s->sd_interval},
      {.label = "uncertainty",
       .value = &s->standard_uncertainty,
       .remark = "standard, of the mean"},
      {.label = "next reading", .interval = &s->prediction},
      {.label = "the spots",
       .interval = &s->tolerance.interval,
       .remark = remarks[1]},
      {.label = "median",
       .value = &s->median,
       .interval = &quartiles,
       .remark = "middle half of the readings"},
      {.label = "robust mean", .value = &s->robust_mean, .remark = remarks[2]}};
  size_t n = sizeof list / sizeof *list;
  if (s->n < MIDDLE_FROM) n -= 2; /* no middle to speak of */
  for (size_t i = 0; i < n; i++) {
    scwi_figure_row row = list[i];
    row.decimals = d;
    scwi_figure_rows_add(rows, row);
  }
}

static void figures(scwi_sheet *sheet, const scw_set_report *set,
                    scwi_figure_rows *rows) {
  const scw_summary *s = &set->summary;
  int decimals = scwi_decimals_of(s->standard_uncertainty, s->mean);
  scwi_text mean = {0}, spots = {0}, robust = {0};
  remark_mean(&mean, s);
  remark_tolerance(&spots, &s->tolerance);
  remark_robust(&robust, s, decimals, set->unit);
  if (mean.failed || spots.failed || robust.failed) sheet->text.failed = true;
  const char *remarks[3] = {mean.data, spots.data, robust.data};
  add_rows(rows, set, remarks);
  scwi_sheet_figure_rows(sheet, rows);
  scwi_text_free(&mean);
  scwi_text_free(&spots);
  scwi_text_free(&robust);
}

static void strip(scwi_sheet *sheet, const scw_set_report *set) {
  const scw_summary *s = &set->summary;
  if (!set->values || s->n < 2) return;
  const scwi_strip one = {"readings",         set->values,          s->n,
                          s->stand_out.flags, s->stand_out.n_flags, s->mean,
                          s->interval};
  scwi_sheet_gap(sheet);
  scwi_sheet_strips(sheet, &one, 1,
                    scwi_decimals_of(s->standard_uncertainty, s->mean),
                    set->unit);
  scwi_sheet_gap(sheet);
}

static void left_out(scwi_sheet *sheet, const scw_set_report *set) {
  for (size_t i = 0; i < set->n_left_out; i++) {
    const scw_leave_out *out = &set->left_out[i];
    scwi_text_format(&sheet->scratch, "%s %zu, because: %s",
                     scwi_reading_word(set), out->place,
                     out->because ? out->because : "");
    scwi_sheet_labelled_scratch(sheet, i ? "" : "left out");
  }
}

static void add_statistic(scwi_text *text, const char *name,
                          scw_figure statistic, scw_figure p) {
  if (!scwi_present(statistic)) return;
  scwi_word_join(text, "; ");
  scwi_text_add(text, name);
  scwi_put_short(text, statistic.value, 3);
  scwi_word_p_aside(text, p);
}

static void shape(scwi_sheet *sheet, const scw_shape *shape) {
  add_statistic(&sheet->scratch, "Shapiro-Wilk W ", shape->shapiro_w,
                shape->shapiro_p);
  add_statistic(&sheet->scratch, "Anderson-Darling ", shape->anderson_darling,
                shape->anderson_darling_p);
  scwi_sheet_labelled_scratch(sheet, "shape");
}

void scwi_sheet_set(scwi_sheet *sheet, const scw_set_report *set) {
  scwi_figure_rows rows = scwi_figure_rows_start(set->unit);
  scwi_sheet_answer(sheet, set->sentence);
  figures(sheet, set, &rows);
  strip(sheet, set);
  left_out(sheet, set);
  scwi_sheet_stand_out(sheet, set, NULL);
  scwi_sheet_order(sheet, set);
  shape(sheet, &set->summary.shape);
  scwi_figure_rows_missing(&rows, "slope in order",
                           set->summary.creep.slope_interval.state);
  scwi_figure_rows_missing(&rows, "shape", set->summary.shape.shapiro_w.state);
  scwi_sheet_missing(sheet, &rows);
}
