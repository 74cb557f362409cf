/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Designs as text. */
#include "plan_designs.h"

#include <math.h>

#include "figure.h"
#include "grid.h"
#include "number_text.h"
#include "number_words.h"

static bool told_apart(const scw_plan_result *result, int level) {
  return scwi_present(result->scatter.variance[level]);
}

static void add_digits(scwi_grid *grid, scw_figure figure) {
  char number[SCWI_NUMBER_SIZE];
  scwi_grid_cell(grid, scwi_present(figure)
                           ? scwi_significant_text(figure.value, 2, number)
                           : NULL);
}

static void add_chance(scwi_grid *grid, scw_figure chance) {
  char number[SCWI_NUMBER_SIZE];
  if (!scwi_present(chance))
    scwi_grid_cell(grid, NULL);
  else if (chance.value > 0.9995)
    scwi_grid_cell(grid, ">0.999");
  else
    scwi_grid_cell(grid, scwi_fixed_text(chance.value, 3, number));
}

static void add_count(scwi_grid *grid, scw_figure count) {
  scwi_grid_whole(grid, (unsigned long long)count.value);
}

static void add_cost(scwi_grid *grid, double cost) {
  scwi_text text = {0};
  scwi_put_short(&text, cost, 6);
  if (text.failed) grid->cells.failed = true;
  scwi_grid_cell(grid, text.data);
  scwi_text_free(&text);
}

/* A goal of a half-width shows that; others show the change seen and the
 * chance: by the pilot's scatter, on average, and at the upper limits. */
static size_t choose_columns(const scw_plan_result *result, const char *figure,
                             const char *cost, scwi_column *columns) {
  size_t n = 0;
  bool width = result->request.goal == SCW_PLAN_HALF_WIDTH;
  columns[n++] = (scwi_column){NULL, SCWI_LEFT, 0, false, 0};
  if (told_apart(result, SCW_LEVEL_PANEL))
    columns[n++] = (scwi_column){"panels", SCWI_RIGHT, 1, false, 0};
  if (told_apart(result, SCW_LEVEL_SESSION))
    columns[n++] = (scwi_column){"sessions", SCWI_RIGHT, 2, false, 0};
  columns[n++] = (scwi_column){"spots", SCWI_RIGHT, 2, false, 0};
  columns[n++] = (scwi_column){"repeats", SCWI_RIGHT, 2, false, 0};
  columns[n++] = (scwi_column){cost, SCWI_POINT, 2, false, 0};
  columns[n++] = (scwi_column){figure, SCWI_POINT, 2, false, 0};
  if (width) {
    columns[n++] = (scwi_column){"at most", SCWI_POINT, 2, false, 0};
    return n;
  }
  columns[n++] = (scwi_column){"chance", SCWI_POINT, 2, false, 0};
  columns[n++] = (scwi_column){"average", SCWI_POINT, 2, false, 0};
  columns[n++] = (scwi_column){"at least", SCWI_POINT, 2, false, 0};
  return n;
}

static void add_row(scwi_grid *grid, const scw_plan_result *result, size_t i) {
  const scw_plan_design *design = &result->designs[i];
  bool width = result->request.goal == SCW_PLAN_HALF_WIDTH;
  scwi_grid_cell(grid, i == 0 ? ">" : " ");
  if (told_apart(result, SCW_LEVEL_PANEL)) add_count(grid, design->panels);
  if (told_apart(result, SCW_LEVEL_SESSION)) add_count(grid, design->sessions);
  add_count(grid, design->spots);
  add_count(grid, design->repeats);
  add_cost(grid, design->cost.value);
  if (width) {
    add_digits(grid, design->at_estimate.half_width);
    add_digits(grid, design->at_upper_limit.half_width);
    return;
  }
  add_digits(grid, design->at_estimate.detectable);
  add_chance(grid, design->at_estimate.power);
  add_chance(grid, design->expected);
  add_chance(grid, design->at_upper_limit.power);
}

static void put_with_unit(scwi_text *text, const char *what,
                          const char *unit) {
  scwi_text_add(text, what);
  if (unit && *unit) scwi_text_format(text, ", %s", unit);
}

void scwi_sheet_designs(scwi_sheet *sheet, const scw_plan_result *result) {
  enum { MOST_COLUMNS = 11 };
  scwi_column columns[MOST_COLUMNS];
  scwi_text figure = {0}, cost = {0};
  bool width = result->request.goal == SCW_PLAN_HALF_WIDTH;
  put_with_unit(&figure, width ? "half-width" : "seen", result->unit);
  put_with_unit(&cost, "cost", result->cost_unit);
  scwi_grid grid = {.columns = columns,
                    .n_columns = choose_columns(result, figure.data, cost.data,
                                                columns)};
  if (figure.failed || cost.failed) sheet->text.failed = true;
  for (size_t i = 0; i < result->n_designs && !sheet->text.failed; i++)
    add_row(&grid, result, i);
  scwi_sheet_gap(sheet);
  scwi_sheet_grid(sheet, &grid);
  scwi_sheet_gap(sheet);
  scwi_text_free(&figure);
  scwi_text_free(&cost);
}

/* "spots 0.36 (at most 0.69)". */
static void add_level(scwi_text *text, const scw_plan_result *result,
                      int level, const char *name, bool first) {
  scw_figure variance = result->scatter.variance[level];
  scw_figure upper = result->scatter.upper[level];
  scwi_text_format(text, "%s%s ", first ? "" : ", ", name);
  if (variance.value > 0)
    scwi_put_digits(text, sqrt(variance.value), 2);
  else
    scwi_text_add(text, "not told apart");
  if (!scwi_present(upper)) return;
  scwi_text_add(text, " (at most ");
  scwi_put_digits(text, sqrt(upper.value), 2);
  scwi_text_add(text, ")");
}

void scwi_sheet_scatter(scwi_sheet *sheet, const scw_plan_result *result) {
  static const char *const names[] = {"panels", "sessions", "spots", "repeats"};
  static const char *const counted[] = {"panel", "session", "spot", "reading"};
  scwi_text *text = &sheet->scratch;
  const scw_plan_scatter *pilot = &result->scatter;
  const char *comma = "";
  bool first = true;
  scwi_text_add(text, pilot->of_differences ? "SD of the differences, of "
                                            : "SD of ");
  for (int level = 0; level < SCW_LEVEL_COUNT; level++) {
    if (!told_apart(result, level)) continue;
    add_level(text, result, level, names[level], first);
    first = false;
  }
  if (result->unit && *result->unit)
    scwi_text_format(text, " %s", result->unit);
  scwi_text_add(text, ", from a pilot of");
  for (int level = 0; level < SCW_LEVEL_COUNT; level++) {
    size_t groups = pilot->groups[level];
    bool differences = pilot->of_differences && level == SCW_LEVEL_REPEAT;
    if (level < SCW_LEVEL_SPOT && !told_apart(result, level)) continue;
    scwi_text_format(text, "%s %zu %s%s", comma, groups,
                     differences ? "difference" : counted[level],
                     groups == 1 ? "" : "s");
    comma = level == SCW_LEVEL_SPOT ? " with" : ",";
  }
  scwi_sheet_labelled_scratch(sheet, "made from");
}
