/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A score as text: the products in order, then the parts they are made of. */
#include <string.h>

#include "figure.h"
#include "grid.h"
#include "number_text.h"
#include "number_words.h"
#include "reports.h"
#include "text_parts.h"
#include "wording.h"

/* Decimals for an interval: two digits of a quarter of its width, which is
 * about its standard uncertainty. */
static int decimals_of(scw_interval ends, scw_figure value) {
  double v = scwi_present(value) ? value.value : 0;
  return scwi_decimals_for(
      ends.state == SCW_PRESENT ? (ends.high - ends.low) / 4 : 0, v);
}

/* Rungs and looks are whole figures: as many decimals as they have. */
static int decimals_of_part(const scw_rule *rule, scw_interval ends,
                            scw_figure value) {
  if (rule->kind != SCW_RULE_LADDER) return decimals_of(ends, value);
  double high = ends.state == SCW_PRESENT ? ends.high : 0;
  int own = scwi_decimals_for(0, scwi_present(value) ? value.value : 0);
  int other = scwi_decimals_for(0, high);
  return own > other ? own : other;
}

static void put_places(scwi_text *text, const scw_scored_product *product) {
  if (!product->of)
    scwi_text_add(text, "not ranked");
  else if (product->place_low == product->place_high)
    scwi_text_format(text, "%zu", product->place_low);
  else
    scwi_text_format(text, "%zu to %zu", product->place_low,
                     product->place_high);
}

static void put_tied(scwi_text *text, const scw_score_result *result,
                     const scw_scored_product *product) {
  for (size_t i = 0; i < product->n_tied; i++)
    scwi_text_format(text, "%s%s", i ? ", " : "",
                     result->product[product->tied[i]].label);
  if (product->of && !product->n_tied) scwi_text_add(text, "none");
}

/* Trials do not tell more than whole percents. */
static void put_chance(scwi_text *text, double chance) {
  if (chance > 0.995 && chance < 1)
    scwi_text_add(text, "over 99 %");
  else if (chance > 0 && chance < 0.005)
    scwi_text_add(text, "under 1 %");
  else
    scwi_text_format(text, "%d %%", (int)(100 * chance + 0.5));
}

static void add_product(scwi_grid *grid, const scw_score_result *result,
                        const scw_scored_product *p) {
  scwi_text text = {0};
  int decimals = decimals_of(p->interval, p->points);
  scwi_grid_cell(grid, p->label);
  scwi_grid_figure(grid, p->points, decimals);
  if (p->interval.state == SCW_PRESENT)
    scwi_grid_range(grid, p->interval, decimals);
  else
    scwi_grid_blanks(grid, 3);
  if (scwi_present(p->published)) scwi_put_short(&text, p->published.value, 6);
  scwi_grid_cell(grid, text.data);
  if (text.failed) grid->cells.failed = true;
  scwi_text_clear(&text);
  put_places(&text, p);
  scwi_grid_cell(grid, text.data);
  if (text.failed) grid->cells.failed = true;
  scwi_text_clear(&text);
  if (p->chance) put_chance(&text, p->chance[0]);
  scwi_grid_cell(grid, text.data);
  if (text.failed) grid->cells.failed = true;
  scwi_text_clear(&text);
  put_tied(&text, result, p);
  scwi_grid_cell(grid, text.data);
  if (text.failed) grid->cells.failed = true;
  scwi_text_free(&text);
}

static void products(scwi_sheet *sheet, const scw_score_result *result,
                     const char *category) {
  static const scwi_column columns[] = {
      {"product", SCWI_LEFT, 0, false, 7},
      {"points", SCWI_POINT, 2, false, 0},
      {"interval", SCWI_POINT, 2, true, 0},
      {NULL, SCWI_LEFT, 1, false, 0},
      {NULL, SCWI_POINT, 1, false, 0},
      {"published", SCWI_RIGHT, 2, false, 0},
      {"places", SCWI_LEFT, 2, false, 0},
      {"first", SCWI_RIGHT, 2, false, 0},
      {"tied with", SCWI_LEFT, 2, false, 0}};
  scwi_grid grid = {.columns = columns,
                    .n_columns = sizeof columns / sizeof *columns};
  scwi_sheet_gap(sheet);
  if (category) scwi_sheet_answer(sheet, category);
  for (size_t i = 0; i < result->n_products; i++)
    if (!category || !strcmp(category, result->product[i].category))
      add_product(&grid, result, &result->product[i]);
  scwi_sheet_grid(sheet, &grid);
}

static void by_category(scwi_sheet *sheet, const scw_score_result *result) {
  if (!result->score->within_category) {
    products(sheet, result, NULL);
    return;
  }
  for (size_t i = 0; i < result->n_products; i++) {
    bool met = false;
    for (size_t j = 0; j < i; j++)
      met = met || !strcmp(result->product[i].category,
                           result->product[j].category);
    if (!met) products(sheet, result, result->product[i].category);
  }
}

static void part(scwi_sheet *sheet, const scw_score_result *result, size_t at) {
  static const scwi_column columns[] = {
      {"product", SCWI_LEFT, 0, false, 7}, {"n", SCWI_RIGHT, 2, false, 0},
      {NULL, SCWI_POINT, 2, false, 0},     {"points", SCWI_POINT, 2, false, 0},
      {"interval", SCWI_POINT, 2, true, 0}, {NULL, SCWI_LEFT, 1, false, 0},
      {NULL, SCWI_POINT, 1, false, 0},     {"published", SCWI_RIGHT, 2, false, 0}};
  enum { COLUMNS = sizeof columns / sizeof *columns };
  const scw_score_part *of = &result->score->part[at];
  const scw_rule *rule = &result->rules[of->rule];
  scwi_column own[COLUMNS];
  memcpy(own, columns, sizeof own);
  own[2].heading = rule->kind == SCW_RULE_LADDER ? "passes"
                   : rule->kind == SCW_RULE_DIFFERENCE ? "change"
                                                        : "mean";
  scwi_grid grid = {.columns = own, .n_columns = COLUMNS};
  scwi_text_format(&sheet->scratch, "%s", rule->name);
  if (of->weight != 1) {
    scwi_text_add(&sheet->scratch, ", weight ");
    scwi_put_short(&sheet->scratch, of->weight, 4);
  }
  scwi_sheet_gap(sheet);
  scwi_sheet_answer(sheet, sheet->scratch.data);
  scwi_sheet_clear_scratch(sheet);
  for (size_t i = 0; i < result->n_products; i++) {
    const scw_scored_part *p = &result->product[i].part[at];
    scwi_text text = {0};
    int decimals = decimals_of_part(rule, p->interval, p->points);
    scwi_grid_cell(&grid, result->product[i].label);
    scwi_grid_whole(&grid, p->n);
    scwi_grid_figure(&grid, p->quantity,
                     decimals_of_part(rule, p->quantity_interval,
                                      p->quantity));
    scwi_grid_figure(&grid, p->points, decimals);
    if (p->interval.state == SCW_PRESENT)
      scwi_grid_range(&grid, p->interval, decimals);
    else
      scwi_grid_blanks(&grid, 3);
    if (scwi_present(p->published))
      scwi_put_short(&text, p->published.value, 6);
    scwi_grid_cell(&grid, text.data);
    if (text.failed) grid.cells.failed = true;
    scwi_text_free(&text);
  }
  scwi_sheet_grid(sheet, &grid);
}

scw_status scwi_text_score(scw_context *context, const scw_score_result *result,
                           const scwi_inputs *inputs,
                           scw_report_options options, scw_sink sink) {
  scwi_sheet sheet = {.options = options};
  scwi_sheet_answer(&sheet, result->sentence);
  by_category(&sheet, result);
  for (size_t i = 0; i < result->score->n_parts && result->score->n_parts > 1;
       i++)
    part(&sheet, result, i);
  scwi_sheet_gap(&sheet);
  scwi_sheet_notes(&sheet, result->notes, result->n_notes);
  scwi_sheet_gap(&sheet);
  scwi_sheet_inputs(&sheet, inputs, (scw_step){0, SCW_STEP_UNSET}, "");
  scwi_sheet_settings(&sheet, &result->settings, 0, NULL);
  return scwi_sheet_send(context, &sheet, sink);
}
