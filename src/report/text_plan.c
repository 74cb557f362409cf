/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 3 as text. */
#include "figure.h"
#include "grid.h"
#include "number_text.h"
#include "number_words.h"
#include "plan_designs.h"
#include "reports.h"
#include "text_change.h"
#include "text_parts.h"
#include "wording.h"

static const char *thing_of(const scw_plan_request *request) {
  if (request->paired) return "spots";
  return request->goal == SCW_PLAN_HALF_WIDTH ? "readings"
                                              : "readings per side";
}

static void add_figure(scwi_grid *grid, scw_figure figure) {
  char number[SCWI_NUMBER_SIZE];
  scwi_grid_cell(grid, scwi_present(figure)
                           ? scwi_significant_text(figure.value, 2, number)
                           : NULL);
}

static void add_chance(scwi_grid *grid, scw_figure power) {
  char number[SCWI_NUMBER_SIZE];
  if (!scwi_present(power))
    scwi_grid_cell(grid, NULL);
  else if (power.value > 0.9995)
    scwi_grid_cell(grid, ">0.999");
  else
    scwi_grid_cell(grid, scwi_fixed_text(power.value, 3, number));
}

/* The row of the plan; what the table is of, where the plan is another. */
static const char *remark_chosen(const scw_plan_request *request) {
  return request->unequal ? "equal sides" : "this plan";
}

static void add_row(scwi_grid *grid, const scw_plan_result *result,
                    const scw_plan_row *row) {
  scw_figure count = scwi_plan_count(result, row);
  bool chosen = scwi_plan_chosen(result, row);
  scwi_grid_cell(grid, chosen ? ">" : " ");
  if (scwi_present(count))
    scwi_grid_whole(grid, (unsigned long long)count.value);
  else
    scwi_grid_blanks(grid, 1);
  add_figure(grid, row->half_width);
  add_figure(grid, row->detectable);
  add_chance(grid, row->power);
  scwi_grid_cell(grid, chosen ? remark_chosen(&result->request) : "");
}

/* "half-width, GU". */
static void add_heading(scwi_text *text, const char *what, const char *unit) {
  scwi_text_add(text, what);
  if (unit && *unit) scwi_text_format(text, ", %s", unit);
}

static void table(scwi_sheet *sheet, const scw_plan_result *result) {
  scwi_text width = {0}, seen = {0};
  add_heading(&width, "half-width", result->unit);
  add_heading(&seen, "change seen", result->unit);
  const scwi_column columns[] = {
      {NULL, SCWI_LEFT, 0, false, 0},
      {thing_of(&result->request), SCWI_RIGHT, 1, false, 0},
      {width.data, SCWI_POINT, 2, false, 0},
      {seen.data, SCWI_POINT, 2, false, 0},
      {"chance", SCWI_POINT, 2, false, 0},
      {NULL, SCWI_LEFT, 2, false, 0}};
  scwi_grid grid = {.columns = columns,
                    .n_columns = sizeof columns / sizeof *columns};
  if (width.failed || seen.failed) sheet->text.failed = true;
  for (size_t i = 0; i < result->n_table && i < SCW_PLAN_TABLE_ROWS; i++)
    add_row(&grid, result, &result->table[i]);
  scwi_sheet_gap(sheet);
  scwi_sheet_grid(sheet, &grid);
  scwi_sheet_gap(sheet);
  scwi_text_free(&width);
  scwi_text_free(&seen);
}

/* What the plan was made from: "SD 0.43 GU, from a pilot of 8 readings". */
static void made_from(scwi_sheet *sheet, const scw_plan_result *result) {
  const scw_plan_request *request = &result->request;
  scwi_text *text = &sheet->scratch;
  if (!(request->sd > 0)) return;
  if (request->scatter) {
    scwi_sheet_scatter(sheet, result);
    return;
  }
  scwi_text_add(text,
                request->paired ? "SD of the differences at a spot " : "SD ");
  scwi_put_short(text, request->sd, 4);
  if (result->unit && *result->unit)
    scwi_text_format(text, " %s", result->unit);
  if (request->sd_after > 0) {
    scwi_text_add(text, " before, ");
    scwi_put_short(text, request->sd_after, 4);
    scwi_text_add(text, " after");
  }
  if (result->bank) {
    scwi_text_add(text, ", df ");
    scwi_word_df(text, result->bank->df);
    scwi_text_add(text, ", from ");
    scwi_word_count(text, result->bank->sets, "set");
    scwi_text_add(text, " of ");
    scwi_put_entry(text, result->bank);
  } else if (request->pilot_readings)
    scwi_text_format(text, ", from a pilot of %zu %s", request->pilot_readings,
                     request->paired ? "spots" : "readings");
  scwi_sheet_labelled_scratch(sheet, "made from");
}

scw_status scwi_text_plan(scw_context *context, const scw_plan_result *result,
                          const scwi_inputs *inputs, scw_report_options options,
                          scw_sink sink) {
  scwi_sheet sheet = {.options = options};
  scwi_sheet_answer(&sheet, result->sentence);
  if (result->request.scatter)
    scwi_sheet_designs(&sheet, result);
  else
    table(&sheet, result);
  made_from(&sheet, result);
  scwi_sheet_gap(&sheet);
  scwi_sheet_notes(&sheet, result->notes, result->n_notes);
  scwi_sheet_gap(&sheet);
  scwi_sheet_inputs(&sheet, inputs, (scw_step){0}, result->unit);
  scwi_sheet_settings(&sheet, &result->settings,
                      SCWI_SET_POWER | SCWI_SET_ASSURANCE | SCWI_SET_AT_LEAST,
                      NULL);
  return scwi_sheet_send(context, &sheet, sink);
}
