/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tables of summaries and grids: what is read. The figures are judged where
 * numbers become changes and plans; refusals are in test_given_refusals.c. */
#include "from_text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static scw_given_changes changes_with(const char *text,
                                      const scw_table_options *options,
                                      const scw_given_side *before) {
  scw_context *context = a_context();
  text_place place = {text};
  scw_given_changes given;
  went_well(context,
            scw_given_changes_read(context, options, source_of_text(&place),
                                   before, &given));
  scw_context_free(context);
  return given;
}

static scw_given_changes changes_of(const char *text,
                                    const scw_given_side *before) {
  return changes_with(text, NULL, before);
}

static void sides_by_state(void **state) {
  scw_given_changes given = changes_of(
      "dressing;state;n;mean (GU);sd;step\nK1;before;10;83,5;0,6;0,1\n"
      "K2;before;9;80;0,5;\nK1;after;8;85,0;0,7;\nK2;after;7;81;;\n",
      NULL);
  (void)state;
  const scw_input *input = scw_table_input(given.account, 0);
  assert_int_equal(given.n, 2);
  assert_string_equal(given.change[1].product, "K2");
  assert_true(given.change[0].before.mean == 83.5);
  assert_true(given.change[0].before.sd == 0.6);
  assert_true(given.change[0].before.step == 0.1);
  assert_int_equal(given.change[0].after.n, 8);
  assert_true(given.change[1].before.has_sd);
  assert_false(given.change[1].after.has_sd);
  assert_int_equal(input->rows, 4);
  assert_int_equal(strlen(input->sha256), 64);
  assert_string_equal(input->unit, "GU");
  assert_int_equal(input->decimal_mark, ',');
  scw_given_changes_free(&given);
}

/* SE * sqrt(n) is the SD: 0.2 * 3 = 0.6. */
static void a_standard_error_becomes_an_sd(void **state) {
  static const char *const words[] = {"se",
                                      "SEM",
                                      "s.e.m.",
                                      "standard error",
                                      "Std. Error",
                                      "stderr",
                                      "standard error of the mean",
                                      "± SE"};
  scw_given_side common = {.mean = 83, .has_sd = true, .sd = 0.5, .n = 9};
  (void)state;
  for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
    char text[120];
    snprintf(text, sizeof text, "product,n,mean,%s\nK1,9,85.0,0.2\n", words[i]);
    scw_given_changes given = changes_of(text, &common);
    assert_true(given.change[0].before.mean == 83);
    check_relative(given.change[0].after.sd, 0.6, 1e-15);
    scw_given_changes_free(&given);
  }
}

static void every_word_for_an_sd(void **state) {
  static const char *const words[] = {"sd",
                                      "S",
                                      "stdev",
                                      "Std. Dev.",
                                      "std_dev",
                                      "std",
                                      "st dev",
                                      "STDEV.S",
                                      "s.d.",
                                      "standard deviation",
                                      "std deviation",
                                      "sd (n-1)",
                                      "SD gloss",
                                      "sample SD",
                                      "+/- SD",
                                      "± sd"};
  scw_given_side common = {.mean = 83, .n = 9};
  (void)state;
  for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
    char text[120];
    snprintf(text, sizeof text, "product,n,mean,%s\nK1,9,85.0,0.2\n", words[i]);
    scw_given_changes given = changes_of(text, &common);
    assert_true(given.change[0].after.has_sd);
    assert_true(given.change[0].after.sd == 0.2);
    assert_string_equal(scw_table_input(given.account, 0)->unit, "");
    scw_given_changes_free(&given);
  }
}

static void published_means_are_bare(void **state) {
  scw_given_changes given =
      changes_of("product,before,after,n,points\nK1,83.5,85.0,10,3\n", NULL);
  (void)state;
  assert_false(given.change[0].before.has_sd || given.change[0].after.has_sd);
  assert_int_equal(given.change[0].before.n, 10);
  assert_int_equal(given.change[0].after.n, 10);
  scw_given_changes_free(&given);
}

/* Both sides in one row, in every order of the words. */
static void sides_in_columns(void **state) {
  static const char *const headers[] = {
      "product,before n,before mean,before sd,after n,after mean,after se",
      "Product,n before,mean before,sd before,n after,mean after,se after",
      "product,before_n,before_mean,before_sd,after_n,after_mean,after_se",
      "product,N before,average (before),initial SD,after N,final mean,SEM "
      "after",
      "product,readings before,gloss before,before std dev,count after,"
      "gloss after,after standard error",
      ",before,,,after,,\nproduct,n,mean,sd,n,mean,se"};
  (void)state;
  for (size_t i = 0; i < sizeof headers / sizeof *headers; i++) {
    char text[200];
    snprintf(text, sizeof text,
             "%s\nK1,10,83.5,0.6,9,85.0,0.2\nK2,5,80,,6,81,\n", headers[i]);
    scw_given_changes given = changes_of(text, NULL);
    const scw_given_change *k1 = &given.change[0], *k2 = &given.change[1];
    assert_int_equal(given.n, 2);
    assert_true(k1->before.mean == 83.5 && k1->after.mean == 85);
    assert_true(k1->before.n == 10 && k1->after.n == 9);
    assert_true(k1->before.sd == 0.6);
    check_relative(k1->after.sd, 0.6, 1e-15);
    assert_true(!k2->before.has_sd && k2->after.mean == 81);
    scw_given_changes_free(&given);
  }
}

/* A side of its own n or step beats the shared one. */
static void shared_and_own_columns(void **state) {
  scw_given_side common = {.mean = 83, .n = 9};
  scw_given_changes given = changes_of(
      "product,before,after,n,after n,step,before step\n"
      "K1,83.5,85.0,10,8,0.1,0.5\n",
      NULL);
  (void)state;
  assert_int_equal(given.change[0].before.n, 10);
  assert_int_equal(given.change[0].after.n, 8);
  assert_true(given.change[0].before.step == 0.5);
  assert_true(given.change[0].after.step == 0.1);
  scw_given_changes_free(&given);
  given = changes_of("product,after mean,after n\nK1,85,8\n", &common);
  assert_true(given.change[0].before.mean == 83);
  assert_int_equal(given.change[0].after.n, 8);
  scw_given_changes_free(&given);
}

static void the_state_in_other_words(void **state) {
  scw_table_options options = {.before_label = "bare", .after_label = "wax*"};
  scw_given_changes given = changes_with(
      "product,state,n,mean\nK1,waxed,8,85\nK1,Bare,9,83\n", &options, NULL);
  (void)state;
  assert_true(given.change[0].before.mean == 83);
  assert_int_equal(given.change[0].after.n, 8);
  scw_given_changes_free(&given);
}

static void units_of_headings(void **state) {
  static const struct {
    const char *text, *unit;
  } cases[] = {
      {"product,before (GU),after (GU)\nK1,80,81\n", "GU"},
      {"product,before,after [GU],n\nK1,80,81,4\n", "GU"},
      {"product,before gloss (GU 60°),after gloss (GU)\nK1,80,81\n", "GU"},
      {"product,before,after,unit\nK1,80,81,GU\nK2,80,81,gu\n", "GU"},
      {"product,state,n,mean (%),sd (%)\nK1,before,4,8,1\nK1,after,4,9,1\n",
       "%"},
      {"product,before,after\n,(GU),(GU)\nK1,80,81\n", "GU"}};
  (void)state;
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    scw_given_changes given = changes_of(cases[i].text, NULL);
    assert_string_equal(scw_table_input(given.account, 0)->unit, cases[i].unit);
    assert_true(given.change[0].before.mean < given.change[0].after.mean);
    scw_given_changes_free(&given);
  }
}

/* Unit and quantity go into the sentence; the column nobody understood is
 * named, the one that is known to be none of ours is not. */
static void the_headings_reach_the_result(void **state) {
  scw_context *context = a_context();
  scw_change_result result;
  scw_given_changes given = changes_of(
      "# from the shed\nproduct,state,n,mean gloss (GU),sd,stdev_x,remark,"
      "points\nK1,before,10,83.5,0.6,0.1,wet,3\nK1,after,10,86,0.6,0.2,,4\n",
      NULL);
  const scw_input *input = scw_table_input(given.account, 0);
  (void)state;
  went_well(context,
            scw_change_from_given(context, &given, NULL, NULL, &result));
  assert_non_null(strstr(result.changes[0].sentence, "gloss rose by 2.50 GU"));
  const char *note =
      note_text(result.notes, result.n_notes, "column_not_understood");
  assert_non_null(note);
  assert_non_null(strstr(note, "'stdev_x'"));
  assert_int_equal(result.n_notes, 1);
  assert_int_equal(input->n_not_used, 4); /* comment and three columns */
  assert_int_equal(input->not_used[0].line, 1);
  assert_int_equal(input->not_used[1].line, 2);
  assert_int_equal(input->not_used[1].column, 36);
  assert_string_equal(input->not_used[1].reason, "column not understood");
  assert_string_equal(input->not_used[3].reason, "column not read");
  scw_change_result_free(&result);
  scw_given_changes_free(&given);
  scw_context_free(context);
}

/* 120 readings do not make 1.234 doubtful; 987 in its own column does (see
 * the refusals), and an option settles it. */
static void the_decimal_mark(void **state) {
  scw_table_options comma = {.decimal_mark = ','};
  scw_given_changes given =
      changes_of("product,before,after,n\nK1,1.234,1.236,120\n", NULL);
  (void)state;
  assert_true(given.change[0].before.mean == 1.234);
  assert_int_equal(given.change[0].before.n, 120);
  scw_given_changes_free(&given);
  given = changes_with("product;before;after\nK1;1,234;987\n", &comma, NULL);
  assert_true(given.change[0].before.mean == 1.234);
  scw_given_changes_free(&given);
  given = changes_of("product,before,after\nK1,\"1,234.5\",987\n", NULL);
  assert_true(given.change[0].before.mean == 1234.5);
  scw_given_changes_free(&given);
}

/* Many products, and rows behind the first 64 KiB; each keeps its own. */
static void many_products(void **state) {
  enum { MANY = 5000 };
  size_t size = MANY * 40 + 100, at;
  char *text = malloc(size);
  (void)state;
  assert_non_null(text);
  at = (size_t)snprintf(text, size, "product,state,n,mean\n");
  for (int i = 0; i < MANY; i++)
    at += (size_t)snprintf(text + at, size - at, "K%d,before,3,%d\n", i, i);
  for (int i = MANY; i-- > 0;)
    at += (size_t)snprintf(text + at, size - at, "K%d,after,3,%d\n", i, 2 * i);
  scw_given_changes given = changes_of(text, NULL);
  assert_int_equal(given.n, MANY);
  for (int i = 0; i < MANY; i++)
    assert_true(given.change[i].before.mean == i &&
                given.change[i].after.mean == 2 * i);
  scw_given_changes_free(&given);
  free(text);
}

static void a_grid(void **state) {
  scw_context *context = a_context();
  text_place good = {"effect (GU);SD (GU);remark\n0,2;1;\n1;1;wet\n"};
  scw_plan_grid_result grid;
  scw_settings settings;
  (void)state;
  scw_settings_init(&settings);
  went_well(context, scw_plan_grid(context, NULL, source_of_text(&good),
                                   &settings, &grid));
  /* one sample, effect 0.2 SD, level 0.05, power 0.8: 199 (table of
     reference-data/planning); two samples 1 SD: 17 a side (Cohen's tables) */
  assert_int_equal(grid.n, 2);
  assert_true(grid.row[0].spots.value == 199);
  assert_true(grid.row[1].readings_per_side.value == 17);
  scw_plan_grid_result_free(&grid);
  scw_context_free(context);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(sides_by_state),
      cmocka_unit_test(a_standard_error_becomes_an_sd),
      cmocka_unit_test(every_word_for_an_sd),
      cmocka_unit_test(published_means_are_bare),
      cmocka_unit_test(sides_in_columns),
      cmocka_unit_test(shared_and_own_columns),
      cmocka_unit_test(the_state_in_other_words),
      cmocka_unit_test(units_of_headings),
      cmocka_unit_test(the_headings_reach_the_result),
      cmocka_unit_test(the_decimal_mark),
      cmocka_unit_test(many_products),
      cmocka_unit_test(a_grid),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
