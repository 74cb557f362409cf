/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tables of summaries and grids: what is refused, in which words and at which
 * line and column. */
#include "from_text.h"

#include <stdio.h>

typedef struct refusal {
  const char *text;
  size_t line, column;
  const char *word;
} refusal;

static void refused_with(const refusal *r, const scw_table_options *options,
                         const scw_given_side *before, scw_status expected) {
  scw_context *context = a_context();
  text_place place = {r->text};
  scw_given_changes given;
  scw_status status = scw_given_changes_read(
      context, options, source_of_text(&place), before, &given);
  if (status != expected) print_error("%s", r->text);
  assert_int_equal(status, expected);
  assert_null(given.change);
  assert_null(given.account);
  message_names(context, r->word, NULL);
  if (scw_context_line(context) != r->line ||
      scw_context_column(context) != r->column)
    print_error("%s%s\n", r->text, scw_context_message(context));
  assert_int_equal(scw_context_line(context), r->line);
  assert_int_equal(scw_context_column(context), r->column);
  scw_context_free(context);
}

static void all_refused(const refusal *cases, size_t n) {
  for (size_t i = 0; i < n; i++)
    refused_with(&cases[i], NULL, NULL, SCW_BAD_INPUT);
}

#define ALL(cases) all_refused(cases, sizeof cases / sizeof *cases)
#define LONG       "product,state,n,mean,sd\n"
#define WIDE                                                                   \
  "product,before n,before mean,before sd,after n,after mean,after sd\n"

static void bad_cells(void **state) {
  static const refusal cases[] = {
      {LONG "K1,before,10,abc,0.6\n", 2, 14, "'abc'"},
      {LONG "K1,before,10,>83,0.6\n", 2, 14, "'>83'"},
      {LONG "K1,before,10,inf,0.6\n", 2, 14, "'inf'"},
      {LONG "K1,before,10,1e999,0.6\n", 2, 14, "1e999"},
      {LONG "K1,before,10,87.4 GU,0.6\n", 2, 14, "'87.4 GU'"},
      {LONG "K1,before,10,83 ± 2,0.6\n", 2, 14, "83"},
      {LONG "K1,before,10,83.5,<1\n", 2, 19, "'<1'"},
      {LONG "K1,before,10,83.5,1 %\n", 2, 19, "'1 %'"},
      {LONG "K1,before,10,83.5,-0.6\n", 2, 19, "below zero"},
      {LONG "K1,before,10,,0.6\n", 2, 14, "mean is missing"},
      {LONG "K1,before,10,n/a,0.6\n", 2, 14, "mean is missing"},
      {LONG "K1,before\n", 2, 0, "mean is missing"},
      {LONG "K1,before,ten,83.5,0.6\n", 2, 11, "'ten'"},
      {LONG "K1,before,0,83.5,0.6\n", 2, 11, "whole number"},
      {LONG "K1,before,-3,83.5,0.6\n", 2, 11, "whole number"},
      {LONG "K1,before,1.5,83.5,0.6\n", 2, 11, "whole number"},
      {LONG "K1,before,1e300,83.5,0.6\n", 2, 11, "whole number"},
      {LONG "K1,before,1,83.5,0.6\n", 2, 18, "one reading"},
      {LONG "K1,before,,83.5,0.6\n", 2, 17, "without n"},
      {LONG "K1,before,10,83.5,0.6,7\n", 2, 23, "beyond the last heading"},
      {LONG "K1,before,10,83,5,0.6\n", 2, 19, "beyond the last heading"},
      {"product,state,n,mean,se\nK1,before,9,83,1e308\n", 2, 16, "larger"},
      {"product,before,after,step\nK1,83,84,-0.1\n", 2, 10, "step"},
      {WIDE "K1,10,83,0.6,,84,0.6\n", 2, 18, "without n"},
      {WIDE "K1,10,83,0.6,9,,0.6\n", 2, 16, "mean is missing"},
      {WIDE "K1,1,83,0.6,9,84,0.6\n", 2, 9, "one reading"}};
  (void)state;
  /* "83,5" of an unquoted comma table lands in two columns */
  ALL(cases);
}

static void bad_rows(void **state) {
  static const refusal cases[] = {
      {LONG "K1,before,10,83.5,0.6\n", 0, 0, "no after row"},
      {LONG "K1,after,10,83.5,0.6\n", 0, 0, "no before row"},
      {LONG "K1,before,10,83.5,0.6\nK1,before,9,83.5,0.6\n", 3, 1,
       "second row"},
      {WIDE "K1,10,83,1,10,84,1\nK1,10,83,1,10,84,1\n", 3, 1, "second row"},
      {LONG "K1,polished,3,83.5,0.6\n", 2, 4, "neither"},
      {LONG "K1,,3,83.5,0.6\n", 2, 4, "neither"},
      {LONG "K1,before 2,3,83.5,0.6\n", 2, 4, "neither"},
      {"product,state,n,mean,sd,se\nK1,before,3,83.5,0.6,1\n", 2, 22,
       "give one"},
      {LONG, 0, 0, "no rows"},
      {LONG "\n# nothing\n", 0, 0, "no rows"},
      {"", 0, 0, "empty"},
      {"\n\n# only a remark\n", 0, 0, "empty"},
      {"product,before,after,geometry\nK1,80,81,60\nK2,80,81,20\n", 3, 10,
       "never compared"},
      {"product,before (GU),after,unit\nK1,80,81,g\n", 2, 10,
       "never compared"}};
  (void)state;
  ALL(cases);
}

/* Scatters that say too little, or something else than an SD. */
static void bad_scatters(void **state) {
  static const char *const unsaid[] = {
      "±",       "+-",        "+/-",         "± (GU)",
      "error",   "spread",    "Scatter",     "deviation",
      "sigma",   "σ",         "uncertainty", "sd of the mean",
      "mean SD", "error bar", "STDEV.P"};
  static const char *const relative[] = {
      "cv",     "CV (%)", "rsd",         "%RSD",
      "sd%",    "% SD",   "relative SD", "coefficient of variation",
      "sd (%)", "SD %",   "stdev [%]",   "se (%)"};
  char text[200];
  (void)state;
  for (size_t i = 0; i < sizeof unsaid / sizeof *unsaid; i++) {
    snprintf(text, sizeof text,
             "product,state,n,mean (GU),%s\nK1,before,3,8,1\n", unsaid[i]);
    refused_with(&(refusal){text, 1, 27, "which scatter it is"}, NULL, NULL,
                 SCW_BAD_INPUT);
  }
  for (size_t i = 0; i < sizeof relative / sizeof *relative; i++) {
    snprintf(text, sizeof text,
             "product,state,n,mean (GU),%s\nK1,before,3,8,1\n", relative[i]);
    refused_with(&(refusal){text, 1, 27, "share of the mean"}, NULL, NULL,
                 SCW_BAD_INPUT);
  }
  static const refusal cases[] = {
      {"product,state,n,mean,variance\nK1,before,3,8,1\n", 1, 22,
       "square root"},
      {"product,state,n,mean,sd (%)\nK1,before,3,8,1\n", 1, 22,
       "share of the mean"},
      {"product,before,after,n,before ±,after ±\nK1,8,9,3,1,1\n", 1, 24,
       "which scatter it is"},
      {"product,before,after,n,sd\nK1,80,81,5,1\n", 1, 24, "which side"}};
  ALL(cases);
}

static void bad_headers(void **state) {
  static const refusal cases[] = {
      {"product,n,mean,sd\nK1,10,85.0,0.1\n", 1, 0, "no state column"},
      {"product,n,mean,sd,mean\nK1,10,85.0,0.1,3\n", 1, 19, "same thing"},
      {"product,n,mean,sd,std dev\nK1,10,85.0,0.1,3\n", 1, 19, "same thing"},
      {"product,wax,before,after\nK1,K1,80,81\n", 1, 9, "same thing"},
      {"product,n,centre,sd\nK1,10,85.0,0.1\n", 1, 0, "product, n, centre, sd"},
      {"K1,before,10,83.5\nK1,after,10,84\n", 1, 11, "'10' is a number"},
      {"product,before 1,before 2,after 1\nK1,1,2,3\n", 1, 0, "'mean'"},
      {"product,before,after mean,mean\nK1,80,81,80\n", 1, 27,
       "without a side"},
      {"product,state,before,after\nK1,x,80,81\n", 1, 9, "leave one out"},
      {"product,before,n\nK1,80,5\n", 1, 9, "before without after"},
      {"product,after,n\nK1,80,5\n", 1, 9, "after without before"},
      {"product,before,after n,after sd\nK1,80,5,1\n", 1, 16, "after mean"},
      {"product,state,n,mean,before sd\nK1,before,3,80,1\n", 1, 22,
       "before mean"},
      {"product,before (GU),after (g)\nK1,80,81\n", 1, 21, "different units"},
      {"product,state,n,mean (GU),sd (g)\nK1,before,3,8,1\n", 1, 27,
       "different units"},
      {"product,state,n,mean,sd (g),step (GU)\nK1,before,3,8,1,1\n", 1, 29,
       "different units"},
      {"product,before 20°,after 60°\nK1,80,81\n", 1, 20, "geometries"},
      {"product,before gloss,after haze\nK1,80,81\n", 1, 22, "quantities"}};
  (void)state;
  ALL(cases);
}

/* As in reading tables: two readings of a number, and the run stops. */
static void two_readings_of_a_number(void **state) {
  static const refusal cases[] = {
      {"product;before;after\nK1;987;1,234\n", 2, 8, "1.234"},
      {"product,before,after\nK1,987,\"1,234\"\n", 2, 8, "1.234"},
      {"product;before;after\nK1;987;1.234\n", 2, 8, "1.234"},
      {"product;before;after\nK1;98,7;1.234\n", 2, 9, "1.234"},
      {"product;before;after\nK1;98,7;98.7\n", 2, 9, "change places"},
      {"product;before;after;n\nK1;98,7;98;1.200\n", 2, 12, "1200"}};
  scw_table_options point = {.decimal_mark = '.'};
  (void)state;
  ALL(cases);
  refused_with(&(refusal){"product;before;after\nK1;98,7;98\n", 2, 4,
                          "the mark that was given"},
               &point, NULL, SCW_BAD_INPUT);
}

/* A before side for all, and another one in the file. */
static void two_before_sides(void **state) {
  static const refusal cases[] = {
      {LONG "K1,after,3,84,1\nK1,before,3,83,1\n", 3, 4, "use one of them"},
      {"product,before,after\nK1,80,81\n", 1, 9, "use one of them"}};
  scw_given_side common = {.mean = 83, .n = 9};
  (void)state;
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
    refused_with(&cases[i], NULL, &common, SCW_BAD_INPUT);
}

static void columns_cannot_be_chosen(void **state) {
  scw_table_options options = {.column = {[SCW_ROLE_PRODUCT] = "wax"}};
  (void)state;
  refused_with(&(refusal){"wax,before,after\nK1,80,81\n", 0, 0, "'wax'"},
               &options, NULL, SCW_BAD_ARGUMENT);
}

static void bad_grids(void **state) {
  static const refusal cases[] = {
      {"effect,sd\n1,0\n", 2, 3, "positive"},
      {"effect,sd\n1,-1\n", 2, 3, "positive"},
      {"effect,sd\n0,1\n", 2, 1, "positive"},
      {"effect,sd\n,1\n", 2, 1, "positive"},
      {"effect,sd\n1\n", 2, 0, "positive"},
      {"effect,sd\nabc,1\n", 2, 1, "'abc'"},
      {"effect,sd\n1,>2\n", 2, 3, "'>2'"},
      {"effect,sd\n1,2,3\n", 2, 5, "beyond the last heading"},
      {"effect;sd\n987;1,234\n", 2, 5, "1.234"},
      {"effect,scattering\n1,1\n", 1, 0, "'sd'"},
      {"effect,before sd\n1,1\n", 1, 0, "'sd'"},
      {"effect,se\n1,1\n", 1, 0, "'sd'"},
      {"effect,±\n1,1\n", 1, 8, "which scatter it is"},
      {"effect,cv\n1,1\n", 1, 8, "share of the mean"},
      {"effect (GU),sd (%)\n1,1\n", 1, 13, "share of the mean"},
      {"effect (GU),sd (g)\n1,1\n", 1, 13, "different units"},
      {"effect,sd,stdev\n1,1,1\n", 1, 11, "same thing"},
      {"effect,sd\n", 0, 0, "no rows"}};
  (void)state;
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    scw_context *context = a_context();
    text_place place = {cases[i].text};
    scw_plan_grid_result grid;
    assert_int_equal(
        scw_plan_grid(context, NULL, source_of_text(&place), NULL, &grid),
        SCW_BAD_INPUT);
    assert_null(grid.row);
    assert_null(grid.account);
    message_names(context, cases[i].word, NULL);
    assert_int_equal(scw_context_line(context), cases[i].line);
    assert_int_equal(scw_context_column(context), cases[i].column);
    scw_context_free(context);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(bad_cells),
      cmocka_unit_test(bad_rows),
      cmocka_unit_test(bad_scatters),
      cmocka_unit_test(bad_headers),
      cmocka_unit_test(two_readings_of_a_number),
      cmocka_unit_test(two_before_sides),
      cmocka_unit_test(columns_cannot_be_chosen),
      cmocka_unit_test(bad_grids),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
