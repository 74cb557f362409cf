/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A comparison of several products as text. */
#include "figure.h"
#include "grid.h"
#include "number_words.h"
#include "reports.h"
#include "text_parts.h"
#include "wording.h"

enum { MOST_ROWS = 40, MOST_NAMES = 12 };

/* What the text holds becomes a cell; the text is freed. */
static void cell_of(scwi_grid *grid, scwi_text *text) {
  scwi_grid_cell(grid, text->data ? text->data : "");
  if (text->failed) grid->cells.failed = true;
  scwi_text_free(text);
}

static void products(scwi_sheet *sheet, const scw_compare_result *result) {
  static const scwi_column columns[] = {
      {"product", SCWI_LEFT, 0, false, 7}, {"n", SCWI_RIGHT, 2, false, 3},
      {NULL, SCWI_POINT, 2, false, 0},     {"interval", SCWI_POINT, 2, true, 0},
      {NULL, SCWI_LEFT, 1, false, 0},      {NULL, SCWI_POINT, 1, false, 0},
      {"tied with", SCWI_LEFT, 3, false, 0}};
  scwi_column own[sizeof columns / sizeof *columns];
  for (size_t i = 0; i < sizeof columns / sizeof *columns; i++)
    own[i] = columns[i];
  own[2].heading = result->compared == SCW_COMPARED_CHANGES ? "change" : "mean";
  scwi_grid grid = {.columns = own,
                    .n_columns = sizeof columns / sizeof *columns};
  scwi_sheet_gap(sheet);
  for (size_t i = 0; i < result->n_products; i++) {
    const scw_compare_product *p = &result->product[i];
    scwi_text names = {0};
    int decimals =
        scwi_decimals_of(p->figure.standard_uncertainty, p->figure.estimate);
    scwi_grid_cell(&grid, p->label);
    scwi_grid_whole(&grid, p->n[1]);
    scwi_grid_figure(&grid, p->figure.estimate, decimals);
    if (p->figure.interval.state == SCW_PRESENT)
      scwi_grid_range(&grid, p->figure.interval, decimals);
    else
      scwi_grid_blanks(&grid, 3);
    for (size_t k = 0; k < p->n_tied && k < MOST_NAMES; k++)
      scwi_text_format(&names, "%s%s", k ? ", " : "",
                       result->product[p->tied[k]].label);
    if (!p->n_tied) scwi_text_add(&names, "none");
    if (p->n_tied > MOST_NAMES)
      scwi_text_format(&names, " and %zu more", p->n_tied - MOST_NAMES);
    cell_of(&grid, &names);
  }
  scwi_sheet_grid(sheet, &grid);
}

static const char *verdict_words(const scw_product_comparison *one) {
  switch (one->verdict) {
    case SCW_CHANGED: return "differs";
    case SCW_CHANGED_SIZE_UNCLEAR: return "differs, size unclear";
    case SCW_CHANGED_BUT_SMALL: return "differs, less than the margin";
    case SCW_NO_CHANGE_BEYOND_MARGIN: return "no difference beyond the margin";
    case SCW_CANNOT_TELL: return "cannot tell";
    default: return scw_presence_text(one->interval.state);
  }
}

static void put_verdict(scwi_text *text, const scw_product_comparison *one) {
  scwi_text_add(text, verdict_words(one));
  if (one->verdict != SCW_CANNOT_TELL) return;
  if (scwi_present(one->settle.more))
    scwi_text_format(text, "; about %zu more %s",
                     (size_t)one->settle.more.value,
                     one->settle.per_spot ? "spots each" : "each");
  else if (one->settle.more.state == SCW_TOO_MANY)
    scwi_text_add(text, "; more than is practical");
  else if (one->settle.more.state == SCW_NEVER)
    scwi_text_add(text, "; no number of readings would");
}

/* Too small for a double is small enough to say so. */
static void put_p(scwi_text *text, scw_figure p) {
  if (scwi_present(p))
    scwi_put_p(text, p.value);
  else if (p.state == SCW_OUT_OF_RANGE)
    scwi_put_p(text, 0);
}

static void comparisons(scwi_sheet *sheet, const scw_compare_result *result) {
  static const scwi_column columns[] = {
      {"comparison", SCWI_LEFT, 0, false, 0},
      {"difference", SCWI_POINT, 2, false, 0},
      {"interval", SCWI_POINT, 2, true, 0},
      {NULL, SCWI_LEFT, 1, false, 0},
      {NULL, SCWI_POINT, 1, false, 0},
      {"p", SCWI_LEFT, 2, false, 0}, /* adjusted; so is the interval */
      {NULL, SCWI_LEFT, 2, false, 0}};
  scwi_grid grid = {.columns = columns,
                    .n_columns = sizeof columns / sizeof *columns};
  size_t n = result->n_comparisons;
  scwi_sheet_gap(sheet);
  for (size_t i = 0; i < n && i < MOST_ROWS; i++) {
    const scw_product_comparison *one = &result->comparison[i];
    int decimals = scwi_decimals_of(one->alone.standard_uncertainty,
                                    one->alone.estimate);
    scwi_text text = {0};
    scwi_text_format(&text, "%s - %s", result->product[one->product].label,
                     result->product[one->against].label);
    cell_of(&grid, &text);
    scwi_grid_figure(&grid, one->alone.estimate, decimals);
    if (one->interval.state == SCW_PRESENT)
      scwi_grid_range(&grid, one->interval, decimals);
    else
      scwi_grid_blanks(&grid, 3);
    put_p(&text, one->p_adjusted);
    cell_of(&grid, &text);
    put_verdict(&text, one);
    cell_of(&grid, &text);
  }
  scwi_sheet_grid(sheet, &grid);
  if (n <= MOST_ROWS) return;
  scwi_text_format(&sheet->scratch,
                   "... and %zu more comparisons; --csv gives them all.",
                   n - MOST_ROWS);
  if (sheet->scratch.failed)
    sheet->text.failed = true;
  else
    scwi_sheet_hanging(sheet, "", 0, sheet->scratch.data);
  scwi_sheet_clear_scratch(sheet);
}

static void put_test(scwi_text *text, const char *name,
                     const scw_f_test *test) {
  if (!scwi_present(test->f)) return;
  scwi_text_format(text, "%s%s: F" SCWI_TIE, text->length ? "; " : "", name);
  scwi_put_digits(text, test->f.value, 3);
  scwi_text_add(text, " on ");
  scwi_put_short(text, test->df_between.value, 3);
  scwi_text_add(text, " and ");
  scwi_put_short(text, test->df_within.value, 3);
  scwi_text_add(text, " df, p" SCWI_TIE);
  put_p(text, test->p);
}

static void background(scwi_sheet *sheet, const scw_compare_result *result) {
  put_test(&sheet->scratch, "SDs as equal", &result->one_way);
  put_test(&sheet->scratch, "SDs as found (Welch)", &result->welch_one_way);
  if (sheet->scratch.failed) sheet->text.failed = true;
  if (sheet->scratch.length == 0) return;
  scwi_sheet_gap(sheet);
  scwi_sheet_labelled_scratch(sheet, "all together");
}

static void settings(scwi_sheet *sheet, const scw_compare_result *result) {
  const scw_compare_options *options = &result->options;
  scwi_text more = {0};
  scwi_text_add(&more, options->margin > 0 ? ", margin "
                                           : ", no margin given");
  if (options->margin > 0) scwi_put_short(&more, options->margin, 6);
  if (options->control)
    scwi_text_format(&more, ", control %s", options->control);
  if (options->untreated)
    scwi_text_format(&more, ", untreated %s", options->untreated);
  if (options->shared_spots) scwi_text_add(&more, ", shared spots");
  if (options->equal_sd) scwi_text_add(&more, ", SDs taken as equal");
  if (options->smaller_is_better) scwi_text_add(&more, ", smaller is better");
  if (options->has_block) {
    scwi_text_add(&more, ", block ");
    scwi_put_short(&more, options->block, 6);
    if (options->block_unit)
      scwi_text_format(&more, " %s", options->block_unit);
  }
  if (more.failed) sheet->text.failed = true;
  scwi_sheet_settings(sheet, &result->settings,
                      SCWI_SET_STAND_OUT | SCWI_SET_POWER, more.data);
  scwi_text_free(&more);
}

scw_status scwi_text_compare(scw_context *context,
                             const scw_compare_result *result,
                             const scwi_inputs *inputs,
                             scw_report_options options, scw_sink sink) {
  scwi_sheet sheet = {.options = options};
  scwi_sheet_answer(&sheet, result->sentence);
  products(&sheet, result);
  comparisons(&sheet, result);
  background(&sheet, result);
  scwi_sheet_gap(&sheet);
  scwi_sheet_notes(&sheet, result->notes, result->n_notes);
  scwi_sheet_gap(&sheet);
  scwi_sheet_inputs(&sheet, inputs, result->step, result->unit);
  settings(&sheet, result);
  return scwi_sheet_send(context, &sheet, sink);
}
