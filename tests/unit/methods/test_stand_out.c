/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings that stand out: published examples, and the rules that keep a
 * display, equal readings or hidden company from being mistaken for them. */
#include "check.h"

#include <math.h>
#include <string.h>

#include "one_set.h"
#include "stand_out.h"

#define TICKS(name, digits, ...)                                               \
  const int64_t name##_ticks[] = {__VA_ARGS__};                                \
  one_set name = one_set_from_ticks(                                           \
      name##_ticks, sizeof name##_ticks / sizeof *name##_ticks, (digits))

static scw_stand_out judge(const one_set *set, size_t candidates) {
  scwi_summary_settings settings = one_set_defaults;
  settings.candidates = candidates;
  return one_set_summary_with(one_set_sample(set), &settings).stand_out;
}

static void grubbs_of_the_handbook(void **state) {
  check_table table = check_table_read(REFERENCE_DATA "/one-set/figures.csv");
  one_set set = one_set_from_file("one-set/mass.csv", "reading");
  scw_stand_out got = judge(&set, 0);
  size_t compared = 0;
  (void)state;
  for (size_t row = 0; row < table.rows; row++) {
    if (strcmp(check_table_text(&table, row, "set"), "mass")) continue;
    const char *figure = check_table_text(&table, row, "figure");
    double value = check_table_number(&table, row, "value");
    compared++;
    if (!strcmp(figure, "grubbs_statistic"))
      check_relative(got.grubbs_statistic.value, value, 1e-15);
    else if (!strcmp(figure, "grubbs_limit"))
      check_relative(got.grubbs_limit.value, value, 1e-13);
    else if (!strcmp(figure, "grubbs_p"))
      check_relative(got.grubbs_p.value, value, 1e-11);
    else
      compared--;
  }
  assert_int_equal(compared, 3);
  assert_int_equal(got.candidates, 1);
  assert_int_equal(got.n_steps, 0);
  assert_int_equal(got.n_flags, 1);
  assert_int_equal(got.flags[0].place, 8);
  assert_int_equal(got.flags[0].test, SCW_GRUBBS);
  assert_true(got.flags[0].reading == 245.57);
  check_table_free(&table);
  one_set_free(&set);
}

static void esd_of_rosner(void **state) {
  check_table table =
      check_table_read(REFERENCE_DATA "/one-set/rosner_steps.csv");
  one_set set = one_set_from_file("one-set/rosner.csv", "reading");
  scw_stand_out got = judge(&set, 10);
  const double taken[] = {6.01, 5.42, 5.34};
  (void)state;
  assert_int_equal(got.n_steps, 10);
  for (size_t i = 0; i < 10; i++) {
    check_relative(got.steps[i].statistic,
                   check_table_number(&table, i, "statistic"), 1e-15);
    check_relative(got.steps[i].limit, check_table_number(&table, i, "limit"),
                   1e-13);
    /* the handbook prints three decimals, some cut off */
    check_absolute(got.steps[i].statistic,
                   check_table_number(&table, i, "statistic_published"), 1e-3);
  }
  assert_int_equal(got.n_flags, 3);
  for (size_t i = 0; i < 3; i++) {
    assert_true(got.flags[i].reading == taken[i]);
    assert_int_equal(got.flags[i].test, SCW_ESD);
    assert_true(got.flags[i].statistic.value == got.steps[i].statistic);
  }
  assert_false(got.limits_approximate);
  /* The first step alone stays silent: the three hide each other. */
  assert_true(got.grubbs_statistic.value < got.grubbs_limit.value);
  got = judge(&set, 1);
  assert_int_equal(got.n_flags, 0);
  check_table_free(&table);
  one_set_free(&set);
}

static void number_of_candidates(void **state) {
  unsigned long long random = 7;
  int64_t ticks[200];
  (void)state;
  for (size_t i = 0; i < 200; i++)
    ticks[i] = (int64_t)(1000 * one_set_normal(&random));
  const struct {
    size_t n, asked, wanted;
  } cases[] = {{3, 0, 1},  {14, 0, 1},  {15, 0, 3},   {24, 0, 4},
               {25, 0, 5}, {50, 0, 10}, {200, 0, 20}, {10, 2, 2},
               {10, 9, 4}, {5, 3, 2},   {3, 3, 1},    {200, 50, 20}};
  for (size_t c = 0; c < sizeof cases / sizeof *cases; c++) {
    one_set set = one_set_from_ticks(ticks, cases[c].n, 2);
    scw_stand_out got = judge(&set, cases[c].asked);
    bool esd = cases[c].asked || cases[c].n >= 15;
    assert_int_equal(got.candidates, cases[c].wanted);
    assert_int_equal(got.n_steps, esd ? cases[c].wanted : 0);
    assert_int_equal(got.limits_approximate, esd && cases[c].n < 25);
    one_set_free(&set);
  }
}

static void the_display_explains_two_steps(void **state) {
  (void)state;
  /* 2 steps of 0.1 from the median 87.4: no flag; 3 steps: flagged */
  TICKS(near, 1, 874, 874, 874, 874, 875, 874, 874, 874, 874, 876);
  TICKS(far, 1, 874, 874, 874, 874, 875, 874, 874, 874, 874, 877);
  scw_stand_out got = judge(&near, 0);
  (void)state;
  assert_true(got.grubbs_statistic.value > got.grubbs_limit.value);
  assert_int_equal(got.n_flags, 0);
  got = judge(&far, 0);
  assert_int_equal(got.n_flags, 1);
  assert_int_equal(got.flags[0].place, 10);
  assert_int_equal(got.flags[0].modified_z.state, SCW_MAD_ZERO);
  /* The rule is about the display, not the last digit written: the same
   * readings with a display of 0.5. */
  scwi_sample sample = one_set_sample(&far);
  sample.step = (scw_step){0.5, SCW_STEP_GIVEN};
  assert_int_equal(one_set_summary(sample).stand_out.n_flags, 0);
  sample.step = (scw_step){0, SCW_STEP_GIVEN};
  assert_int_equal(one_set_summary(sample).stand_out.n_flags, 1);
  one_set_free(&near);
  one_set_free(&far);
  /* Two steps of 0.3 are six ticks of 0.1, though 4 * 0.3 / 0.1 is not 12. */
  TICKS(third, 1, 874, 874, 875, 874, 873, 874, 874, 874, 874, 880);
  sample = one_set_sample(&third);
  sample.step = (scw_step){0.3, SCW_STEP_GIVEN};
  assert_int_equal(one_set_summary(sample).stand_out.n_flags, 0);
  third.ticks[9] = 881;
  assert_int_equal(one_set_summary(sample).stand_out.n_flags, 1);
  one_set_free(&third);
}

static void all_equal_but_one(void **state) {
  (void)state;
  for (size_t n = 3; n <= 40; n++) {
    int64_t ticks[40];
    for (size_t i = 0; i < n; i++)
      ticks[i] = 874;
    ticks[n / 2] = 877;
    one_set set = one_set_from_ticks(ticks, n, 1);
    scw_stand_out got = judge(&set, 0);
    assert_int_equal(got.n_flags, 1);
    assert_int_equal(got.flags[0].place, n / 2 + 1);
    assert_int_equal(got.flags[0].test, SCW_ALL_EQUAL_BUT_ONE);
    assert_int_equal(got.flags[0].p.state, SCW_NO_SCATTER);
    assert_int_equal(got.grubbs_p.state, SCW_NO_SCATTER);
    /* the largest a Grubbs statistic can be */
    check_relative(got.grubbs_statistic.value,
                   ((double)n - 1) / sqrt((double)n), 1e-15);
    assert_true(got.n_steps <= 1);
    set.ticks[n / 2] = 876; /* two steps: the display explains it */
    assert_int_equal(judge(&set, 0).n_flags, 0);
    one_set_free(&set);
  }
}

static void too_few_and_no_scatter(void **state) {
  (void)state;
  TICKS(one, 1, 874);
  TICKS(two, 1, 874, 990);
  TICKS(same, 1, 874, 874, 874, 874);
  scw_stand_out got = judge(&one, 0);
  assert_int_equal(got.grubbs_statistic.state, SCW_ONE_READING);
  got = judge(&two, 0);
  assert_int_equal(got.grubbs_p.state, SCW_TWO_READINGS);
  got = judge(&same, 2);
  assert_int_equal(got.grubbs_limit.state, SCW_NO_SCATTER);
  assert_int_equal(got.candidates + got.n_flags + got.n_steps, 0);
  one_set_free(&one);
  one_set_free(&two);
  one_set_free(&same);
}

static void two_may_hide_each_other(void **state) {
  (void)state;
  TICKS(pair, 1, 874, 875, 873, 876, 874, 872, 875, 874, 930, 931);
  scw_stand_out got = judge(&pair, 0);
  assert_int_equal(got.n_flags, 0);
  assert_int_equal(got.beyond_3_5, 2);
  assert_true(got.may_hide_each_other);
  got = judge(&pair, 2); /* asked for two, both are found */
  assert_int_equal(got.n_flags, 2);
  assert_false(got.may_hide_each_other);
  /* median 87.45; of its ten distances 0.05 and 0.15 are the middle ones */
  check_relative(got.flags[0].modified_z.value, 0.6745 * 5.65 / 0.1, 1e-14);
  one_set_free(&pair);
}

/* A reading of 10^17 among tenths must not cost the others their digits. */
static void a_wild_reading_leaves_the_rest_alone(void **state) {
  (void)state;
  TICKS(wild, 1, 874, 875, 873, 876, 874, 872, 875, 874, 900,
        1000000000000000000);
  scw_stand_out got = judge(&wild, 2);
  assert_int_equal(got.n_flags, 2);
  assert_int_equal(got.flags[0].place, 10);
  assert_int_equal(got.flags[1].place, 9);
  TICKS(rest, 1, 874, 875, 873, 876, 874, 872, 875, 874, 900);
  scw_stand_out plain = judge(&rest, 0);
  check_relative(got.steps[1].statistic, plain.grubbs_statistic.value, 1e-14);
  one_set_free(&wild);
  one_set_free(&rest);
}

/* p and limit say the same, at any significance. */
static void p_below_significance_means_beyond_limit(void **state) {
  unsigned long long random = 99;
  (void)state;
  for (unsigned s = 0; s < 400; s++) {
    size_t n = 4 + one_set_random(&random) % 20;
    int64_t ticks[24];
    for (size_t i = 0; i < n; i++)
      ticks[i] = (int64_t)(1e6 * one_set_normal(&random) *
                           (i == 0 ? 1 + (double)(s % 7) : 1));
    one_set set = one_set_from_ticks(ticks, n, 3);
    scwi_summary_settings settings = one_set_defaults;
    settings.stand_out = s % 2 ? 0.01 : 0.1;
    scw_stand_out got =
        one_set_summary_with(one_set_sample(&set), &settings).stand_out;
    assert_int_equal(
        got.grubbs_p.value<settings.stand_out, got.grubbs_statistic.value> got
            .grubbs_limit.value);
    one_set_free(&set);
  }
}

/* The published false rate, drawn again from other random numbers. */
static void false_rate_as_published(void **state) {
  enum { N = 15, SETS = 40000 };
  unsigned long long random = 101;
  unsigned flagged = 0;
  (void)state;
  for (unsigned s = 0; s < SETS; s++) {
    double x[N];
    scwi_workings w;
    scw_stand_out found;
    scwi_sample sample = {.n = N, .x = x};
    for (size_t i = 0; i < N; i++)
      x[i] = one_set_normal(&random);
    assert_int_equal(scwi_workings_of(one_set_context(), &sample, &w), SCW_OK);
    assert_int_equal(scwi_stand_out(one_set_context(), &w, 0.05, 0, &found),
                     SCW_OK);
    flagged += found.n_flags > 0;
    scwi_workings_free(&w);
  }
  double rate = scwi_esd_false_rate(N).value;
  check_absolute((double)flagged / SETS, rate,
                 4 * sqrt(rate * (1 - rate) / SETS));
  assert_int_equal(scwi_esd_false_rate(14).state, SCW_NOT_COMPUTED);
  assert_int_equal(scwi_esd_false_rate(25).state, SCW_NOT_COMPUTED);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(grubbs_of_the_handbook),
      cmocka_unit_test(esd_of_rosner),
      cmocka_unit_test(number_of_candidates),
      cmocka_unit_test(the_display_explains_two_steps),
      cmocka_unit_test(all_equal_but_one),
      cmocka_unit_test(too_few_and_no_scatter),
      cmocka_unit_test(two_may_hide_each_other),
      cmocka_unit_test(a_wild_reading_leaves_the_rest_alone),
      cmocka_unit_test(p_below_significance_means_beyond_limit),
      cmocka_unit_test(false_rate_as_published),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
