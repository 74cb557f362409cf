/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The CSV reports, read back by the reader of files; and a sink that refuses
 * at every write in turn, for all reports. */
#include <stdlib.h>
#include <string.h>

#include "made_up.h"
#include "rows.h"

/* A report read back: cells by row and column name. */
typedef struct read_back {
  char *cell[8][96];
  size_t columns, rows;
} read_back;

typedef struct place {
  const char *at;
  size_t left;
} place;

static int give(void *user, char *buffer, size_t size, size_t *got) {
  place *from = user;
  *got = from->left < size ? from->left : size;
  memcpy(buffer, from->at, *got);
  from->at += *got;
  from->left -= *got;
  return 0;
}

static char *copied(const scwi_cell *cell) {
  char *text = calloc(cell->length + 1, 1);
  assert_non_null(text);
  memcpy(text, cell->text, cell->length);
  return text;
}

static read_back read_again(scw_status status, written *to) {
  read_back back = {.rows = 0};
  scw_context *context = made_up_context();
  place from = {to->text.data, to->text.length};
  scwi_rows *rows = NULL;
  scwi_row row;
  bool more = true;
  assert_int_equal(status, SCW_OK);
  assert_int_equal(scwi_rows_open(context, (scw_source){give, &from, "csv"},
                                  ',', '.', &rows),
                   SCW_OK);
  while (scwi_rows_next(context, rows, &row, &more) == SCW_OK && more) {
    assert_true(back.rows < 8 && row.n <= 96);
    if (back.rows == 0) back.columns = row.n;
    assert_int_equal(row.n, back.columns);
    for (size_t c = 0; c < row.n; c++)
      back.cell[back.rows][c] = copied(&row.cells[c]);
    back.rows++;
  }
  assert_false(more);
  scwi_rows_close(rows);
  scw_context_free(context);
  scwi_text_free(&to->text);
  return back;
}

static void let_go(read_back *back) {
  for (size_t r = 0; r < back->rows; r++)
    for (size_t c = 0; c < back->columns; c++)
      free(back->cell[r][c]);
}

static const char *cell_of(const read_back *back, size_t row,
                           const char *column) {
  for (size_t c = 0; c < back->columns; c++)
    if (strcmp(back->cell[0][c], column) == 0) return back->cell[row][c];
  fail_msg("no column %s", column);
  return NULL;
}

static void check_cell(const read_back *back, size_t row, const char *column,
                       const char *wanted) {
  const char *cell = cell_of(back, row, column);
  if (strcmp(cell, wanted) != 0)
    fail_msg("%s is \"%s\", not \"%s\"", column, cell, wanted);
}

static void check_value(const read_back *back, size_t row, const char *column,
                        double wanted) {
  const char *cell = cell_of(back, row, column);
  if (check_strtod(cell) != wanted || !*cell ||
      strspn(cell, "0123456789+-.e") != strlen(cell))
    fail_msg("%s is \"%s\"", column, cell);
}

/* Every number of a set in its column. */
static const struct {
  const char *column;
  double value;
} set_columns[] = {{"n", 10},
                   {"mean", 84.964},
                   {"sd", 1.297176420795054},
                   {"standard_uncertainty", 0.41},
                   {"standard_uncertainty_scatter", 0.40},
                   {"df", 9.25},
                   {"median", 84.6},
                   {"q1", 84.425},
                   {"q3", 84.775},
                   {"mad", 0.2},
                   {"mad_sd", 0.2965204437011204},
                   {"robust_mean", 84.60661505314627},
                   {"robust_sd", 0.30635698554435825},
                   {"smallest", 84.2},
                   {"largest", 88.6},
                   {"lag1", -0.18},
                   {"lag1_p", 0.073},
                   {"rank_von_neumann", 3.03},
                   {"level", 0.95},
                   {"low", 84.03205588912195},
                   {"high", 85.88794411087804},
                   {"sd_low", 0.89},
                   {"sd_high", 2.37},
                   {"prediction_low", 81.88},
                   {"prediction_high", 88.04},
                   {"tolerance_k", 3.39},
                   {"tolerance_low", 80.56},
                   {"tolerance_high", 89.36},
                   {"step", 0.1},
                   {"grubbs_statistic", 2.806},
                   {"grubbs_limit", 2.29},
                   {"grubbs_p", 0.00000167},
                   {"creep_slope", 0.128},
                   {"creep_low", -0.2047},
                   {"creep_high", 0.4617},
                   {"creep_p", 0.4},
                   {"sd_about_line", 1.3125},
                   {"kendall_s", 6},
                   {"kendall_p", 0.653},
                   {"level_shift_size", 1.39},
                   {"level_shift_p", 0.49},
                   {"shapiro_w", 0.5296},
                   {"shapiro_p", 0.0000081},
                   {"anderson_darling", 2.297}};

static void sets_are_rows(void **state) {
  (void)state;
  scw_set_report sets[] = {made_up_set(), made_up_single()};
  sets[1].label = "=K2, \"wet\"";
  scw_readings_result result = {made_up_settings(), sets, 2, NULL, 0};
  scw_context *context = made_up_context();
  written to = {0};
  read_back back =
      read_again(scwi_csv_readings(context, &result, sink_of(&to)), &to);
  assert_int_equal(back.rows, 3);
  check_cell(&back, 1, "set", "K1");
  for (size_t i = 0; i < sizeof set_columns / sizeof *set_columns; i++)
    check_value(&back, 1, set_columns[i].column, set_columns[i].value);
  check_cell(&back, 1, "flags", "9");
  check_cell(&back, 1, "step_origin", "inferred");
  check_cell(&back, 1, "anderson_darling_p", "");
  check_cell(&back, 1, "notes", "assumes_one_reading_per_spot");
  check_cell(&back, 1, "sentence", sets[0].sentence);
  check_cell(&back, 2, "set", "'=K2, \"wet\""); /* no formula */
  check_cell(&back, 2, "sd", "");
  check_cell(&back, 2, "level", "");
  check_cell(&back, 2, "step", "");
  let_go(&back);
  scw_context_free(context);
}

static void brief_columns_are_fixed(void **state) {
  (void)state;
  scw_brief_set sets[] = {
      {"K1", 10, FIGURE(0.1), FIGURE(1.0 / 3), INTERVAL(84, 85.888)},
      {"K2", 1, FIGURE(84.6), NO_FIGURE(SCW_ONE_READING),
       NO_INTERVAL(SCW_ONE_READING)}};
  scw_brief_result result = {.sets = sets, .n_sets = 2};
  scw_context *context = made_up_context();
  written to = {0};
  assert_int_equal(scwi_csv_brief(context, &result, sink_of(&to)), SCW_OK);
  assert_string_equal(to.text.data,
                      "set,n,mean,sd,low,high\n"
                      "K1,10,0.1,0.3333333333333333,84,85.888\n"
                      "K2,1,84.6,,,\n");
  scwi_text_free(&to.text);
  scw_context_free(context);
}

static void changes_are_rows(void **state) {
  (void)state;
  scw_change_report changes[] = {made_up_change(), {0}};
  changes[0].family_p = FIGURE(0.0042);
  changes[0].family_interval = INTERVAL(3.1, 4.5);
  changes[0].alone_verdict = SCW_CHANGED;
  scw_change_result result = {.changes = changes, .n_changes = 2};
  scw_context *context = made_up_context();
  written to = {0};
  read_back back =
      read_again(scwi_csv_change(context, &result, sink_of(&to)), &to);
  assert_int_equal(back.rows, 3);
  check_cell(&back, 1, "product", "K1");
  check_cell(&back, 1, "design", "unpaired");
  check_value(&back, 1, "estimate", 3.7833);
  check_value(&back, 1, "df", 8.253);
  check_cell(&back, 1, "verdict", "changed");
  check_value(&back, 1, "settle_more", 25);
  check_value(&back, 1, "before_mean", 84.56);
  check_value(&back, 1, "after_standard_uncertainty", 0.12);
  check_value(&back, 1, "unmatched", 1);
  check_value(&back, 1, "without_flagged_estimate", 3.9);
  check_cell(&back, 1, "without_flagged_verdict", "cannot_tell");
  check_cell(&back, 1, "without_first_verdict", "");
  check_value(&back, 1, "family_low", 3.1);
  check_cell(&back, 1, "alone_verdict", "changed");
  check_cell(&back, 2, "estimate", "");
  check_cell(&back, 2, "margin", "");
  let_go(&back);
  scw_context_free(context);
}

static void views_are_columns(void **state) {
  static const struct {
    const char *column;
    double value;
  } wanted[] = {{"permutation_p", 0.031},   {"smallest_p", 0.0079},
                {"smallest_p_design", 0.0022}, {"hodges_lehmann", 3.75},
                {"hodges_lehmann_coverage", 0.96875},
                {"sd_ratio_high", 1.58},    {"tost_p", 0.61},
                {"tost_level", 0.025},      {"control_change", 0.35},
                {"control_low", 0.1},       {"treated_high", 4.4},
                {"tile_n", 2},              {"tile_assigned", 95},
                {"tile_drift_steps", 3},    {"read_again_n", 2},
                {"read_again_estimate", 3.6}, {"break_even_sd", 1.17},
                {"scatter_u", 0.21},        {"scatter_high", 4.2},
                {"instruments_u", 0.34},    {"instruments_df", 6.5}};
  scw_change_report changes[] = {made_up_change(), {0}};
  scw_change_report *one = &changes[0];
  (void)state;
  one->permutation =
      (scw_permutation){FIGURE(0.031), FIGURE(0.0079), FIGURE(0.0022)};
  one->hodges_lehmann =
      (scw_hodges_lehmann){FIGURE(3.75), INTERVAL(3.4, 4.1), FIGURE(0.96875)};
  one->sd_ratio = (scw_sd_ratio){FIGURE(0.783), INTERVAL(0.389, 1.58)};
  one->tost = (scw_tost){FIGURE(0.61), 0.025};
  one->control = "K0";
  one->control_change = (scw_estimate){.estimate = FIGURE(0.35),
                                       .interval = INTERVAL(0.1, 0.6)};
  one->treated_change = (scw_estimate){.estimate = FIGURE(4.1),
                                       .interval = INTERVAL(3.8, 4.4)};
  one->tile = (scw_tile){.n = 2,
                         .assigned = 95,
                         .difference = FIGURE(0.25),
                         .drift_steps = FIGURE(3)};
  one->repicked = 2;
  one->has_repicked = true;
  one->with_repicked.estimate = FIGURE(3.6);
  one->break_even_sd = FIGURE(1.17);
  one->instruments =
      (scw_instruments){.state = SCW_PRESENT,
                        .scatter = {.standard_uncertainty = FIGURE(0.21),
                                    .interval = INTERVAL(3.3, 4.2)},
                        .scatter_verdict = SCW_CHANGED,
                        .standard_uncertainty = FIGURE(0.34),
                        .df = FIGURE(6.5)};
  scw_change_result result = {.changes = changes, .n_changes = 2};
  scw_context *context = made_up_context();
  written to = {0};
  read_back back =
      read_again(scwi_csv_change(context, &result, sink_of(&to)), &to);
  for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++)
    check_value(&back, 1, wanted[i].column, wanted[i].value);
  check_cell(&back, 1, "control", "K0");
  check_cell(&back, 1, "settle_per", "reading_per_side");
  check_cell(&back, 2, "settle_per", "");
  check_cell(&back, 2, "tost_level", "");
  check_cell(&back, 2, "tile_assigned", "");
  check_cell(&back, 1, "scatter_verdict", "changed");
  check_cell(&back, 2, "scatter_verdict", "");
  size_t sentence = 0; /* what came later stands behind it */
  while (strcmp(back.cell[0][sentence], "sentence")) sentence++;
  assert_string_equal(back.cell[0][sentence + 1], "scatter_u");
  let_go(&back);
  scw_context_free(context);
}

static void plan_rows_are_rows(void **state) {
  (void)state;
  scw_plan_result plan = made_up_plan();
  plan.split = (scw_plan_split){FIGURE(21), FIGURE(62)};
  scw_context *context = made_up_context();
  written to = {0};
  read_back back = read_again(scwi_csv_plan(context, &plan, sink_of(&to)), &to);
  assert_int_equal(back.rows, 4);
  check_cell(&back, 2, "readings_per_side", "");
  check_value(&back, 2, "spots", 8);
  check_cell(&back, 1, "chosen", "false");
  check_cell(&back, 2, "chosen", "true");
  check_value(&back, 2, "assured", 13);
  check_cell(&back, 3, "assured", "");
  check_value(&back, 3, "power", 0.99999);
  check_value(&back, 2, "split_after", 62);
  check_cell(&back, 1, "split_after", "");
  let_go(&back);
  scw_context_free(context);
}

typedef scw_status (*report)(scw_context *context, scw_sink sink);

static scw_set_report two_sets[2];
static scw_change_report two_changes[2];

static scw_readings_result some_readings(void) {
  two_sets[0] = made_up_set();
  two_sets[1] = made_up_single();
  return (scw_readings_result){made_up_settings(), two_sets, 2, NULL, 0};
}

static scw_change_result some_changes(void) {
  two_changes[0] = two_changes[1] = made_up_change();
  return (scw_change_result){
      .settings = made_up_settings(), .changes = two_changes, .n_changes = 2};
}

static scw_status text_readings(scw_context *context, scw_sink sink) {
  scw_readings_result result = some_readings();
  scwi_inputs inputs = made_up_inputs();
  return scwi_text_readings(context, &result, &inputs, (scw_report_options){0},
                            sink);
}

static scw_status json_readings(scw_context *context, scw_sink sink) {
  scw_readings_result result = some_readings();
  scwi_inputs inputs = made_up_inputs();
  return scwi_json_readings(context, &result, &inputs, sink);
}

static scw_status csv_readings(scw_context *context, scw_sink sink) {
  scw_readings_result result = some_readings();
  return scwi_csv_readings(context, &result, sink);
}

static scw_status text_change(scw_context *context, scw_sink sink) {
  scw_change_result result = some_changes();
  scwi_inputs inputs = made_up_inputs();
  return scwi_text_change(context, &result, &inputs, (scw_report_options){0},
                          sink);
}

static scw_status json_change(scw_context *context, scw_sink sink) {
  scw_change_result result = some_changes();
  scwi_inputs inputs = made_up_inputs();
  return scwi_json_change(context, &result, &inputs, sink);
}

static scw_status csv_change(scw_context *context, scw_sink sink) {
  scw_change_result result = some_changes();
  return scwi_csv_change(context, &result, sink);
}

static scw_status json_plan(scw_context *context, scw_sink sink) {
  scw_plan_result plan = made_up_plan();
  scwi_inputs inputs = made_up_inputs();
  return scwi_json_plan(context, &plan, &inputs, sink);
}

static scw_status csv_plan(scw_context *context, scw_sink sink) {
  scw_plan_result plan = made_up_plan();
  return scwi_csv_plan(context, &plan, sink);
}

/* Refuses the k-th write for every k, until nothing was refused: the status
 * says so, a message is there, and what came before is a prefix of the whole
 * report. (Under the leak checker this also proves that nothing is lost.) */
static void check_refusals(report write) {
  scw_context *context = made_up_context();
  written whole = {0};
  assert_int_equal(write(context, sink_of(&whole)), SCW_OK);
  for (size_t k = 1; k <= whole.writes; k++) {
    written part = {.refuse = k};
    assert_int_equal(write(context, sink_of(&part)), SCW_NOT_WRITTEN);
    assert_int_equal(part.writes, k);
    assert_non_null(strstr(scw_context_message(context), "written"));
    assert_true(part.text.length < whole.text.length);
    if (part.text.length)
      assert_memory_equal(part.text.data, whole.text.data, part.text.length);
    scwi_text_free(&part.text);
  }
  scwi_text_free(&whole.text);
  scw_context_free(context);
}

static void a_refusing_sink_ends_the_report(void **state) {
  (void)state;
  const report reports[] = {text_readings, json_readings, csv_readings,
                            text_change,   json_change,   csv_change,
                            json_plan,     csv_plan};
  for (size_t i = 0; i < sizeof reports / sizeof *reports; i++)
    check_refusals(reports[i]);
}

static void an_unknown_format_is_refused(void **state) {
  (void)state;
  scw_context *context = made_up_context();
  scw_plan_result plan = made_up_plan();
  written to = {0};
  scw_report_options options = {.format = (scw_format)9};
  assert_int_equal(scw_report_plan(context, &plan, NULL, options, sink_of(&to)),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(to.writes, 0);
  options.format = SCW_CSV;
  assert_int_equal(scw_report_plan(context, &plan, NULL, options, sink_of(&to)),
                   SCW_OK);
  assert_true(to.writes > 0);
  scwi_text_free(&to.text);
  scw_context_free(context);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(sets_are_rows),
      cmocka_unit_test(brief_columns_are_fixed),
      cmocka_unit_test(changes_are_rows),
      cmocka_unit_test(views_are_columns),
      cmocka_unit_test(plan_rows_are_rows),
      cmocka_unit_test(a_refusing_sink_ends_the_report),
      cmocka_unit_test(an_unknown_format_is_refused)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
