/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Several products as a whole: what is compared with what, what stands aside,
 * what is refused. The figures of every method are judged in tests/cli. */
#include "from_text.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct run {
  scw_context *context;
  scw_table *table;
  scw_compare_result result;
} run;

static const char two[] =
    "product,spot,before,after\nK1,1,80.1,82.3\nK1,2,81.4,83.0\n"
    "K1,3,79.8,82.4\nK1,4,80.6,82.1\nK0,1,81.0,81.2\nK0,2,80.3,80.9\n"
    "K0,3,80.8,80.5\n";

static const char three[] =
    "product,spot,gloss\nK1,1,80.1\nK1,2,81.4\nK1,3,79.8\nK1,4,80.6\n"
    "K2,1,81.2\nK2,2,82.3\nK2,3,80.7\nK2,4,81.9\nK3,1,85.1\nK3,2,86.0\n"
    "K3,3,84.9\nK3,4,85.5\n";

static run compare_with(const char *text, const scw_settings *settings,
                        const scw_compare_options *options) {
  run r = {.context = a_context()};
  r.table = table_from(r.context, text, NULL);
  went_well(r.context, scw_compare(r.context, r.table, settings, options,
                                   &r.result));
  return r;
}

static run compare(const char *text, const scw_compare_options *options) {
  return compare_with(text, NULL, options);
}

static void done(run *r) {
  scw_compare_result_free(&r->result);
  scw_compare_result_free(&r->result); /* twice is allowed */
  scw_table_free(r->table);
  scw_context_free(r->context);
}

static const char *note_of(const run *r, const char *code) {
  return note_text(r->result.notes, r->result.n_notes, code);
}

static void refused_with(const char *text, const scw_settings *settings,
                         const scw_compare_options *options, scw_status status,
                         const char *word, const char *other) {
  run r = {.context = a_context()};
  r.table = table_from(r.context, text, NULL);
  assert_int_equal(
      scw_compare(r.context, r.table, settings, options, &r.result), status);
  message_names(r.context, word, other, NULL);
  assert_null(r.result.product);
  assert_null(r.result.comparison);
  assert_null(r.result.sentence);
  assert_int_equal(r.result.n_notes, 0);
  done(&r);
}

static void refused(const char *text, const scw_compare_options *options,
                    scw_status status, const char *word, const char *other) {
  refused_with(text, NULL, options, status, word, other);
}

static void same_estimate(const scw_estimate *a, const scw_estimate *b) {
  check_relative(a->estimate.value, b->estimate.value, 1e-12);
  check_relative(a->standard_uncertainty.value, b->standard_uncertainty.value,
                 1e-14);
  check_relative(a->df.value, b->df.value, 1e-13);
  check_relative(a->p.value, b->p.value, 1e-12);
  check_relative(a->interval.low, b->interval.low, 1e-12);
  check_relative(a->interval.high, b->interval.high, 1e-12);
}

/* A family of one is no family: what `change` says of a product less its
 * control, however it is asked for. */
static void two_are_a_change_less_its_control(void **state) {
  static const scw_compare_options ways[] = {
      {.margin = 2}, {.margin = 2, .control = "K0"}};
  static const scw_change_options as_change = {.margin = 2, .control = "K0"};
  (void)state;
  for (size_t i = 0; i < sizeof ways / sizeof *ways; i++) {
    run r = compare(two, &ways[i]);
    const scw_product_comparison *one = &r.result.comparison[0];
    scw_change_result change;
    went_well(r.context, scw_change(r.context, r.table, NULL, &as_change,
                                    &change));
    const scw_change_report *judge = &change.changes[0];
    assert_int_equal(r.result.n_comparisons, 1);
    same_estimate(&one->alone, &judge->change);
    check_relative(one->p_adjusted.value, judge->change.p.value, 1e-9);
    check_relative(one->interval.low, judge->change.interval.low, 1e-9);
    check_relative(one->interval.high, judge->change.interval.high, 1e-9);
    assert_int_equal(one->verdict, judge->verdict);
    assert_null(note_of(&r, "family"));
    scw_change_result_free(&change);
    done(&r);
  }
}

/* Where one comparison is open, what settles it is what `change` asks for. */
static void settles_like_a_change(void **state) {
  static const char open[] =
      "product,spot,before,after\nK1,1,80.1,81.3\nK1,2,81.4,81.0\n"
      "K1,3,79.8,81.4\nK1,4,80.6,81.1\nK0,1,81.0,81.2\nK0,2,80.3,80.9\n"
      "K0,3,80.8,80.5\nK0,4,80.8,80.6\n";
  static const scw_change_options as_change = {.control = "K0"};
  (void)state;
  run r = compare(open, NULL);
  const scw_settle *found = &r.result.comparison[0].settle;
  scw_change_result change;
  went_well(r.context,
            scw_change(r.context, r.table, NULL, &as_change, &change));
  assert_int_equal(r.result.comparison[0].verdict, SCW_CANNOT_TELL);
  assert_int_equal(found->more.state, SCW_PRESENT);
  check_relative(found->more.value, change.changes[0].settle.more.value, 0);
  check_relative(found->total.value, change.changes[0].settle.total.value, 0);
  assert_true(found->per_spot);
  scw_change_result_free(&change);
  done(&r);
}

/* Means of two products are the two sides of one change. */
static void two_means_are_welch(void **state) {
  (void)state;
  run r = compare("K1,K2\n80.1,82.0\n81.4,83.3\n79.8,82.2\n80.6,83.9\n,82.8\n",
                  NULL);
  scw_context *context = a_context();
  scw_table *table = table_from(
      context, "state,gloss\nbefore,82.0\nbefore,83.3\nbefore,82.2\n"
               "before,83.9\nbefore,82.8\nafter,80.1\nafter,81.4\nafter,79.8\n"
               "after,80.6\n",
      NULL);
  scw_change_result change;
  went_well(context, scw_change(context, table, NULL, NULL, &change));
  assert_int_equal(r.result.compared, SCW_COMPARED_MEANS);
  same_estimate(&r.result.comparison[0].alone, &change.changes[0].change);
  assert_int_equal(r.result.product[1].n[1], 5);
  scw_change_result_free(&change);
  scw_table_free(table);
  scw_context_free(context);
  done(&r);
}

/* Wide, long and in any order: the same. Another unit: the same p. */
static void same_in_any_shape_and_unit(void **state) {
  static const char rows[] =
      "product,state,spot,gloss\nK1,after,4,82.1\nK0,before,3,80.8\n"
      "K1,before,1,80.1\nK1,before,2,81.4\nK1,after,1,82.3\nK0,after,1,81.2\n"
      "K1,after,2,83.0\nK1,before,4,80.6\nK1,before,3,79.8\nK1,after,3,82.4\n"
      "K0,before,2,80.3\nK0,after,2,80.9\nK0,after,3,80.5\nK0,before,1,81.0\n";
  static const char mixed[] =
      "product,spot,before,after\nK1,1,801,823\nK1,2,814,830\n"
      "K1,3,798,824\nK1,4,806,821\nK0,1,810,812\nK0,2,803,809\n"
      "K0,3,808,805\n";
  (void)state;
  run wide = compare(two, NULL), longs = compare(rows, NULL);
  run tens = compare(mixed, NULL);
  same_estimate(&wide.result.comparison[0].alone,
                &longs.result.comparison[0].alone);
  check_relative(tens.result.comparison[0].p_adjusted.value,
                 wide.result.comparison[0].p_adjusted.value, 1e-11);
  check_relative(tens.result.comparison[0].interval.high,
                 10 * wide.result.comparison[0].interval.high, 1e-11);
  done(&wide);
  done(&longs);
  done(&tens);
}

/* One hair on either side of the margin. */
static void verdict_at_the_margin(void **state) {
  (void)state;
  run r = compare(three, NULL);
  scw_interval far = r.result.comparison[1].interval; /* K1 - K3, below 0 */
  assert_int_equal(r.result.comparison[1].verdict, SCW_CHANGED);
  assert_true(far.high < 0);
  done(&r);
  const struct {
    double margin;
    scw_verdict verdict;
  } cases[] = {{-far.high * 0.999, SCW_CHANGED},
               {-far.high * 1.001, SCW_CHANGED_SIZE_UNCLEAR},
               {-far.low * 0.999, SCW_CHANGED_SIZE_UNCLEAR},
               {-far.low * 1.001, SCW_CHANGED_BUT_SMALL}};
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    const scw_compare_options options = {.margin = cases[i].margin};
    r = compare(three, &options);
    assert_int_equal(r.result.comparison[1].verdict, cases[i].verdict);
    done(&r);
  }
}

static void ties_and_the_best(void **state) {
  static const scw_compare_options small = {.smaller_is_better = true};
  (void)state;
  run r = compare(three, NULL);
  assert_int_equal(r.result.best.product, 2);
  assert_int_equal(r.result.best.second, 1);
  assert_int_equal(r.result.best.of, 3);
  check_relative(r.result.best.over_second.value, 85.375 - 81.525, 1e-12);
  assert_int_equal(r.result.product[0].n_tied, 1);
  assert_int_equal(r.result.product[0].tied[0], 1);
  assert_int_equal(r.result.product[2].n_tied, 0);
  assert_non_null(strstr(r.result.sentence, "K3 has the largest mean"));
  assert_non_null(note_of(&r, "best_of_several"));
  done(&r);
  r = compare(three, &small);
  assert_int_equal(r.result.best.product, 0);
  check_relative(r.result.best.over_second.value, 81.525 - 80.475, 1e-11);
  assert_non_null(strstr(r.result.sentence, "K1 has the smallest mean"));
  done(&r);
}

/* Several panels of each product: the panels are the readings. */
static void panels_are_the_unit(void **state) {
  (void)state;
  run r = compare("product,panel,spot,gloss\nK1,A,1,80.0\nK1,A,2,82.0\n"
                  "K1,B,1,83.0\nK1,B,2,83.5\nK1,C,1,80.5\nK1,C,2,81.5\n"
                  "K2,D,1,85.0\nK2,D,2,86.0\nK2,E,1,87.0\nK2,E,2,85.0\n"
                  "K2,F,1,88.0\nK2,F,2,87.0\n",
                  NULL);
  run means = compare("product,gloss\nK1,81.00\nK1,83.25\nK1,81.00\nK2,85.50\n"
                      "K2,86.00\nK2,87.50\n",
                      NULL);
  same_estimate(&r.result.comparison[0].alone,
                &means.result.comparison[0].alone);
  assert_int_equal(r.result.product[0].n[1], 3);
  assert_non_null(note_of(&r, "panel_means"));
  assert_null(note_of(&r, "one_panel_each"));
  assert_non_null(note_of(&means, "one_panel_each"));
  done(&r);
  done(&means);
}

/* Spots that not all share take no part; the level of the spots cancels. */
static void shared_spots(void **state) {
  static const scw_compare_options shared = {.shared_spots = true};
  static const char uneven[] =
      "spot,K1,K2\n1,60.0,61.1\n2,70.0,70.9\n3,80.0,81.0\n4,90.0,91.2\n5,99.0,\n";
  static const char long_form[] =
      "product,spot,gloss\nK1,1,60.0\nK1,2,70.0\nK1,3,80.0\nK1,4,90.0\n"
      "K1,5,99.0\nK2,4,91.2\nK2,3,81.0\nK2,2,70.9\nK2,1,61.1\n";
  (void)state;
  const char *const texts[] = {uneven, long_form};
  for (size_t i = 0; i < 2; i++) {
    run r = compare(texts[i], &shared);
    const scw_product_comparison *one = &r.result.comparison[0];
    check_relative(one->alone.estimate.value, -1.05, 1e-12);
    check_relative(one->alone.df.value, 3, 0);
    /* SD of 1.1, 0.9, 1.0, 1.2 over the root of 4 */
    check_relative(one->alone.standard_uncertainty.value,
                   sqrt(0.05 / 3) / 2, 1e-11);
    assert_int_equal(one->verdict, SCW_CHANGED);
    check_relative(r.result.best.over_second.value, 1.05, 1e-12);
    assert_non_null(note_of(&r, "spots_not_shared"));
    assert_non_null(note_of(&r, "shared_spots"));
    done(&r);
  }
  run apart = compare(long_form, NULL);
  assert_int_equal(apart.result.comparison[0].verdict, SCW_CANNOT_TELL);
  done(&apart);
}

/* Named, and not dropped in silence. */
static void what_stands_aside_is_named(void **state) {
  (void)state;
  run r = compare("product,spot,before,after\nK1,1,80.1,82.3\nK1,2,81.4,83.0\n"
                  "K1,3,79.8,\nK1,4,80.6,82.1\nK2,1,80.1,80.3\nK2,2,81.4,81.9\n"
                  "K2,3,79.8,80.1\nK2,4,79.8,80.0\nK2,5,80.2,80.6\n"
                  "K2,6,80.2,80.5\nK2,7,80.2,84.9\nK3,1,80.1,\nK3,2,80.7,\n"
                  "K4,1,80.7,81.0\n",
                  NULL);
  assert_int_equal(r.result.n_products, 3);
  assert_non_null(strstr(note_of(&r, "unmatched"), "K1: spot 3 was read before "
                                                   "(line 4) but not after"));
  assert_non_null(strstr(note_of(&r, "stands_out"), "K2: the change of line 12"));
  assert_non_null(strstr(note_of(&r, "one_side_only"), "K3 has no after"));
  assert_non_null(strstr(note_of(&r, "not_judged"), "K4"));
  assert_int_equal(r.result.comparison[0].verdict, SCW_CANNOT_TELL);
  assert_int_equal(r.result.comparison[1].verdict, SCW_NO_VERDICT);
  assert_int_equal(r.result.comparison[1].interval.state, SCW_ONE_SPOT);
  done(&r);
}

static void degenerate(void **state) {
  scw_settings continuous;
  (void)state;
  scw_settings_init(&continuous);
  continuous.step = (scw_step){.size = 0, .origin = SCW_STEP_GIVEN};
  run r = compare_with("K1,K2\n1,2\n1,2\n1,2\n", &continuous, NULL);
  assert_int_equal(r.result.comparison[0].verdict, SCW_NO_VERDICT);
  assert_int_equal(r.result.comparison[0].p_adjusted.state, SCW_NO_SCATTER);
  assert_int_equal(r.result.one_way.f.state, SCW_NO_SCATTER);
  done(&r);
  r = compare("product,gloss\nK1,1.0\nK2,2.0\nK2,2.5\nK3,2.5\nK3,2.9\n", NULL);
  assert_int_equal(r.result.comparison[0].interval.state, SCW_ONE_READING);
  assert_int_equal(r.result.comparison[2].interval.state, SCW_PRESENT);
  done(&r);
  r = compare("K1,K2\n1e300,3e300\n2e300,4e300\n1.5e300,3.5e300\n", NULL);
  assert_true(isfinite(r.result.comparison[0].interval.low));
  check_relative(r.result.comparison[0].alone.estimate.value, -2e300, 1e-12);
  done(&r);
}

/* Changes of two sides with SDs taken as equal: one SD of all sides. */
static void equal_sds_of_sides(void **state) {
  static const scw_compare_options equal = {.equal_sd = true};
  (void)state;
  run r = compare("product,state,gloss\nK1,before,10\nK1,before,12\n"
                  "K1,after,20\nK1,after,22\nK1,after,24\nK2,before,11\n"
                  "K2,before,15\nK2,after,19\nK2,after,20\n",
                  &equal);
  const scw_estimate *found = &r.result.comparison[0].alone;
  double variance = (2 + 8 + 8 + 0.5) / 5; /* squares over 1 + 2 + 1 + 1 df */
  double weight = 1. / 2 + 1. / 3 + 1. / 2 + 1. / 2;
  check_relative(found->estimate.value, (22 - 11) - (19.5 - 13), 1e-14);
  check_relative(found->standard_uncertainty.value, sqrt(variance * weight),
                 1e-14);
  check_relative(found->df.value, 5, 0);
  assert_int_equal(r.result.one_way.f.state, SCW_NOT_COMPUTED);
  done(&r);
}

/* Repeats of one spot say nothing of a panel, before and after or not. */
static void one_spot(void **state) {
  (void)state;
  run r = compare("product,spot,gloss\nK1,1,80.1\nK1,1,80.4\nK1,1,80.2\n"
                  "K2,1,82.1\nK2,2,82.4\nK2,3,82.2\n",
                  NULL);
  assert_int_equal(r.result.comparison[0].interval.state, SCW_ONE_SPOT);
  assert_int_equal(r.result.product[0].figure.interval.state, SCW_ONE_SPOT);
  assert_int_equal(r.result.product[1].figure.interval.state, SCW_PRESENT);
  done(&r);
}

static void pulls_become_coefficients(void **state) {
  static const scw_compare_options block = {
      .has_block = true, .block = 500, .block_unit = "g"};
  (void)state;
  run r = compare("K1 (g),K2 (g)\n150,200\n160,210\n155,220\n", &block);
  check_relative(r.result.comparison[0].alone.estimate.value, -0.11, 1e-12);
  assert_string_equal(r.result.unit, "");
  assert_non_null(note_of(&r, "friction_caution"));
  done(&r);
}

static void bad_options(void **state) {
  static const scw_compare_options unknown = {.control = "K9"},
      twice = {.control = "K1", .untreated = "K1"},
      no_panel = {.untreated = "K9"}, untreated = {.untreated = "K1"},
      below = {.margin = -1}, no_number = {.margin = NAN},
      no_block = {.has_block = true, .block = 0};
  scw_settings settings;
  (void)state;
  scw_settings_init(&settings);
  settings.level = 1.5;
  refused(two, &unknown, SCW_BAD_ARGUMENT, "K9", "control");
  refused(two, &twice, SCW_BAD_ARGUMENT, "K1", "once");
  refused(two, &no_panel, SCW_BAD_ARGUMENT, "K9", "untreated");
  refused(three, &untreated, SCW_BAD_ARGUMENT, "untreated", "before");
  refused(two, &below, SCW_BAD_ARGUMENT, "margin", NULL);
  refused(two, &no_number, SCW_BAD_ARGUMENT, "margin", NULL);
  refused(two, &no_block, SCW_BAD_ARGUMENT, "block", NULL);
  refused_with(two, &settings, NULL, SCW_BAD_ARGUMENT, "level", NULL);
}

static void bad_tables(void **state) {
  static const scw_compare_options shared = {.shared_spots = true},
                                   bare = {.untreated = "K0"};
  (void)state;
  refused("spot,before,after\n1,80,81\n2,80,82\n", NULL, SCW_BAD_INPUT,
          "only one product", "--product panel");
  refused("product,state,gloss\nK1,before,80\nK2,before,81\n", NULL,
          SCW_BAD_INPUT, "no product to compare", NULL);
  refused("product,gloss 20,gloss 60\nK1,80,81\nK2,80,82\n", NULL,
          SCW_BAD_INPUT, "never", "angle");
  refused("product,state,gloss\nK0,after,80\nK1,before,80\nK1,after,81\n"
          "K2,before,80\nK2,after,82\n",
          &bare, SCW_BAD_INPUT, "K0", "before and after");
  refused("K1,K2\n1,2\n2,3\n", &shared, SCW_BAD_INPUT, "spot column", NULL);
  refused("product,spot,gloss\nK1,1,80\nK1,2,81\nK2,3,82\nK2,4,83\n", &shared,
          SCW_BAD_INPUT, "fewer than two spots", NULL);
  refused("product,panel,spot,gloss\nK1,A,1,80\nK1,A,2,81\nK2,B,1,82\n"
          "K2,B,2,83\n",
          &shared, SCW_BAD_INPUT, "different panels", "--shared-spots");
}

/* A hundred products are 4950 pairs; one more is refused. */
static void how_many_at_most(void **state) {
  static const scw_compare_options control = {.control = "P0"};
  enum { MOST = 101, ROOM = MOST * 3 * 16 + 20 };
  char *text = malloc(ROOM);
  (void)state;
  assert_non_null(text);
  int at = snprintf(text, ROOM, "product,gloss\n");
  for (int i = 0; i < 100; i++)
    for (int k = 0; k < 3; k++)
      at += snprintf(text + at, (size_t)(ROOM - at), "P%d,%d.%d\n", i,
                     80 + i % 7, (i * 3 + k * 5) % 10);
  run r = compare(text, &control);
  assert_int_equal(r.result.n_comparisons, 99);
  done(&r);
  for (int k = 0; k < 2; k++)
    at += snprintf(text + at, (size_t)(ROOM - at), "P100,8%d\n", k);
  refused(text, NULL, SCW_BAD_INPUT, "101 products", "100");
  free(text);
}

/* Which method is approximate from how many readings on, and that it says by
 * how much. */
static void few_readings_are_told(void **state) {
  static const struct {
    const char *control;
    size_t products, each;
    bool equal;
    const char *rate; /* NULL: no note */
  } cases[] = {{"P0", 3, 4, false, "7.3 %"},  {"P0", 3, 5, false, NULL},
               {"P0", 7, 5, false, NULL},     {NULL, 3, 4, false, "6.9 %"},
               {NULL, 5, 5, false, NULL},     {NULL, 6, 5, false, "8.1 %"},
               {NULL, 6, 4, false, "11.6 %"}, {NULL, 6, 10, false, NULL},
               {NULL, 3, 3, true, NULL},      {"P0", 3, 3, true, NULL},
               {NULL, 2, 3, false, NULL}};
  (void)state;
  for (size_t c = 0; c < sizeof cases / sizeof *cases; c++) {
    const scw_compare_options options = {.control = cases[c].control,
                                         .equal_sd = cases[c].equal};
    char text[2000] = "product,gloss\n";
    size_t at = strlen(text);
    for (size_t i = 0; i < cases[c].products * cases[c].each; i++)
      at += (size_t)snprintf(text + at, sizeof text - at, "P%zu,8%zu.%zu\n",
                             i / cases[c].each, i * i % 7, i * 3 % 10);
    run r = compare(text, &options);
    const char *note = note_of(&r, "few_per_group");
    if (cases[c].rate) {
      assert_non_null(note);
      assert_non_null(strstr(note, cases[c].rate));
    } else {
      assert_null(note);
    }
    done(&r);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(two_are_a_change_less_its_control),
      cmocka_unit_test(settles_like_a_change),
      cmocka_unit_test(two_means_are_welch),
      cmocka_unit_test(same_in_any_shape_and_unit),
      cmocka_unit_test(verdict_at_the_margin),
      cmocka_unit_test(ties_and_the_best),
      cmocka_unit_test(panels_are_the_unit),
      cmocka_unit_test(shared_spots),
      cmocka_unit_test(what_stands_aside_is_named),
      cmocka_unit_test(few_readings_are_told),
      cmocka_unit_test(degenerate),
      cmocka_unit_test(equal_sds_of_sides),
      cmocka_unit_test(one_spot),
      cmocka_unit_test(pulls_become_coefficients),
      cmocka_unit_test(bad_options),
      cmocka_unit_test(bad_tables),
      cmocka_unit_test(how_many_at_most)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
