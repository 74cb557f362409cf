/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tables of summaries and grids: what is read, what is refused and where. The
 * figures are judged where numbers become changes and plans. */
#include "from_text.h"

#include <math.h>
#include <string.h>

static scw_given_changes changes_of(const char *text,
                                    const scw_given_side *before) {
  scw_context *context = a_context();
  text_place place = {text};
  scw_given_changes given;
  went_well(context, scw_given_changes_read(context, source_of_text(&place),
                                            before, &given));
  scw_context_free(context);
  return given;
}

static void refused(const char *text, const char *word, size_t line) {
  scw_context *context = a_context();
  text_place place = {text};
  scw_given_changes given;
  assert_int_equal(
      scw_given_changes_read(context, source_of_text(&place), NULL, &given),
      SCW_BAD_INPUT);
  assert_null(given.change);
  assert_null(given.account);
  message_names(context, "shed.csv", word, NULL);
  assert_int_equal(scw_context_line(context), line);
  scw_context_free(context);
}

static void sides_by_state(void **state) {
  scw_given_changes given = changes_of(
      "dressing;state;n;mean (GU);sd;step\nK1;before;10;83,5;0,6;0,1\n"
      "K2;before;9;80;0,5;\nK1;after;8;85,0;0,7;\nK2;after;7;81;;\n",
      NULL);
  (void)state;
  assert_int_equal(given.n, 2);
  assert_string_equal(given.change[1].product, "K2");
  assert_true(given.change[0].before.mean == 83.5);
  assert_true(given.change[0].before.sd == 0.6);
  assert_true(given.change[0].before.step == 0.1);
  assert_int_equal(given.change[0].after.n, 8);
  assert_true(given.change[1].before.has_sd);
  assert_false(given.change[1].after.has_sd);
  assert_int_equal(scw_table_input(given.account, 0)->rows, 4);
  assert_int_equal(strlen(scw_table_input(given.account, 0)->sha256), 64);
  scw_given_changes_free(&given);
}

/* SE * sqrt(n) is the SD: 0.2 * 3 = 0.6. */
static void a_standard_error_becomes_an_sd(void **state) {
  scw_given_side common = {.mean = 83, .has_sd = true, .sd = 0.5, .n = 9};
  scw_given_changes given =
      changes_of("product,n,mean,se\nK1,9,85.0,0.2\n", &common);
  (void)state;
  assert_true(given.change[0].before.mean == 83);
  check_relative(given.change[0].after.sd, 0.6, 1e-15);
  scw_given_changes_free(&given);
}

static void published_means_are_bare(void **state) {
  scw_given_changes given = changes_of(
      "product,before,after,n,points\nK1,83.5,85.0,10,3\n", NULL);
  (void)state;
  assert_false(given.change[0].before.has_sd || given.change[0].after.has_sd);
  assert_int_equal(given.change[0].after.n, 10);
  scw_given_changes_free(&given);
}

static void what_is_refused(void **state) {
  (void)state;
  refused("product,state,n,mean,sd\nK1,before,10,83.5,0.6\n", "no after row",
          0);
  refused("product,state,n,mean,sd\nK1,before,10,83.5,0.6\n"
          "K1,before,10,83.5,0.6\n",
          "second row", 3);
  refused("product,state,n,mean,sd\nK1,before,10,abc,0.6\n", "'abc'", 2);
  refused("product,state,n,mean,sd\nK1,before,,83.5,0.6\n", "without n", 2);
  refused("product,state,n,mean,sd\nK1,before,2.5,83.5,0.6\n", "whole", 2);
  refused("product,state,n,mean,sd\nK1,polished,3,83.5,0.6\n", "neither", 2);
  refused("product,state,n,mean,sd,se\nK1,before,3,83.5,0.6,1\n", "give one",
          2);
  refused("product,n,mean,+-\nK1,10,85.0,0.1\n", "does not say", 2);
  refused("product,n,mean,sd\nK1,10,85.0,0.1\n", "no state column", 2);
  refused("product,n,mean,sd,mean\nK1,10,85.0,0.1,3\n", "second column", 1);
  refused("product,n,mean,sd\n", "no rows", 0);
}

static void a_grid(void **state) {
  scw_context *context = a_context();
  text_place good = {"effect,sd\n0.2,1\n1,1\n"}, bad = {"effect,sd\n1,0\n"},
             none = {"effect,scattering\n1,1\n"};
  scw_plan_grid_result grid;
  scw_settings settings;
  (void)state;
  scw_settings_init(&settings);
  went_well(context,
            scw_plan_grid(context, source_of_text(&good), &settings, &grid));
  /* one sample, effect 0.2 SD, level 0.05, power 0.8: 199 (table of
     reference-data/planning); two samples 1 SD: 17 a side (Cohen's tables) */
  assert_int_equal(grid.n, 2);
  assert_true(grid.row[0].spots.value == 199);
  assert_true(grid.row[1].readings_per_side.value == 17);
  scw_plan_grid_result_free(&grid);
  assert_int_equal(scw_plan_grid(context, source_of_text(&bad), NULL, &grid),
                   SCW_BAD_INPUT);
  message_names(context, "line 2", "positive", NULL);
  assert_int_equal(scw_plan_grid(context, source_of_text(&none), NULL, &grid),
                   SCW_BAD_INPUT);
  message_names(context, "'sd'", "scattering", NULL);
  scw_context_free(context);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(sides_by_state),
      cmocka_unit_test(a_standard_error_becomes_an_sd),
      cmocka_unit_test(published_means_are_bare),
      cmocka_unit_test(what_is_refused),
      cmocka_unit_test(a_grid),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
