/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Power, detectable change and plans: published tables, the boundary between
 * n and n-1, what the display step forbids. */
#include "check.h"

#include <math.h>
#include <string.h>

#include "figure.h"
#include "planning.h"

/* Half of the last digit the table prints. */
#define PRINTED 5.1e-14

static scw_context *context;

static int make_context(void **state) {
  (void)state;
  return (int)scw_context_new(&context);
}

static int drop_context(void **state) {
  (void)state;
  scw_context_free(context);
  return 0;
}

static scwi_comparison design(bool paired, double sd, double level) {
  return (scwi_comparison){paired, sd, sd, 0, level, 0, {0, 0}};
}

static double power_of(const scwi_comparison *c, size_t n, double effect) {
  double power;
  assert_int_equal(scwi_power(context, c, n, n, effect, &power), SCW_OK);
  return power;
}

static scw_figure plan(const scwi_comparison *c, scw_plan_goal goal,
                       double target, double power) {
  scw_figure n;
  assert_int_equal(scwi_plan_n(context, c, goal, target, power, &n), SCW_OK);
  return n;
}

static double plan_number(const scwi_comparison *c, scw_plan_goal goal,
                          double target, double power) {
  scw_figure n = plan(c, goal, target, power);
  assert_int_equal(n.state, SCW_PRESENT);
  return n.value;
}

static void power_table(void **state) {
  check_table t = check_table_read(REFERENCE_DATA "/planning/power.csv");
  (void)state;
  for (size_t i = 0; i < t.rows; i++) {
    bool paired = !strcmp(check_table_text(&t, i, "design"), "one_sample");
    double effect = check_table_number(&t, i, "effect");
    scwi_comparison c =
        design(paired, 2.385, 1 - check_table_number(&t, i, "alpha"));
    size_t n = (size_t)check_table_number(&t, i, "n");
    check_absolute(power_of(&c, n, 2.385 * effect),
                   check_table_number(&t, i, "power"), PRINTED);
  }
  check_table_free(&t);
}

static void sample_size_table(void **state) {
  check_table t = check_table_read(REFERENCE_DATA "/planning/sample_size.csv");
  (void)state;
  for (size_t i = 0; i < t.rows; i++) {
    bool paired = !strcmp(check_table_text(&t, i, "design"), "one_sample");
    scwi_comparison c =
        design(paired, 0.37, 1 - check_table_number(&t, i, "alpha"));
    double n = plan_number(&c, SCW_PLAN_DETECT,
                           0.37 * check_table_number(&t, i, "effect"),
                           check_table_number(&t, i, "power"));
    double wanted = fmax(3, check_table_number(&t, i, "n"));
    if (n != wanted) fail_msg("row %zu: %g, wanted %g", i, n, wanted);
  }
  check_table_free(&t);
}

/* e-Handbook 7.2.2.2, one-sided 0.05 as two-sided level 0.90: 11 readings. */
static void handbook_shift_of_one_sd(void **state) {
  scwi_comparison c = design(true, 1, 0.90);
  (void)state;
  assert_true(plan_number(&c, SCW_PLAN_DETECT, 1, 0.90) == 11);
  check_absolute(power_of(&c, 11, 1), 0.9244890652753140, 3e-6);
  check_absolute(power_of(&c, 10, 1), 0.8975169943396827, 3e-6);
}

/* The detectable change is the effect that has the power asked for. */
static void detectable_inverts_power(void **state) {
  (void)state;
  for (size_t n = 2; n <= 60; n += n < 8 ? 1 : 13)
    for (int k = 0; k < 6; k++) {
      scwi_comparison c = {k % 2, 0.4 + k, 1.3, 0.3 * (k / 2), 0.95, 0, {0, 0}};
      scw_figure change;
      assert_int_equal(scwi_detectable(context, &c, n, n + 3, 0.8, &change),
                       SCW_OK);
      double power;
      assert_int_equal(scwi_power(context, &c, n, n + 3, -change.value, &power),
                       SCW_OK);
      check_absolute(power, 0.8, 1e-10);
    }
}

static void detectable_says_why_not(void **state) {
  scwi_comparison c = design(false, 1, 0.95);
  scw_figure change;
  (void)state;
  assert_int_equal(scwi_detectable(context, &c, 5, 1, 0.8, &change), SCW_OK);
  assert_int_equal(change.state, SCW_ONE_READING);
  assert_int_equal(scwi_detectable(context, &c, 5, 5, 0.04, &change), SCW_OK);
  assert_true(change.value == 0);
  c.sd_before = c.sd_after = 0;
  assert_int_equal(scwi_detectable(context, &c, 5, 5, 0.8, &change), SCW_OK);
  assert_int_equal(change.state, SCW_NO_SCATTER);
  /* The normal: z = 2.80158... has power 0.8 (SciPy 1.10.1, brentq). */
  c.step = 0.1;
  assert_int_equal(scwi_detectable(context, &c, 5, 5, 0.8, &change), SCW_OK);
  check_relative(change.value, 2.8015817870135793 * 0.1 / sqrt(6), 1e-13);
}

/* Each goal is reached at n and missed at n - 1. */
static void smallest_means_smallest(void **state) {
  static const scw_plan_goal goals[] = {SCW_PLAN_HALF_WIDTH, SCW_PLAN_DETECT,
                                        SCW_PLAN_WITHIN};
  (void)state;
  for (int k = 0; k < 24; k++) {
    scwi_comparison c = {k % 2, 0.5 + 0.4 * k, 1.1, k % 3 ? 0 : 0.8, 0.95, 0, {0, 0}};
    scw_plan_goal goal = goals[k % 3 + 0];
    double n = plan_number(&c, goal, 2.1, 0.8);
    for (int less = 0; less <= (n > 3); less++) {
      scw_plan_row row;
      assert_int_equal(scwi_plan_row(context, &c, goal, 2.1, 0.8,
                                     (size_t)n - (size_t)less, &row),
                       SCW_OK);
      bool reached = goal == SCW_PLAN_HALF_WIDTH ? row.half_width.value <= 2.1
                                                 : row.power.value >= 0.8;
      assert_true(reached == !less);
      assert_int_equal((c.paired ? row.spots : row.readings_per_side).state,
                       SCW_PRESENT);
      assert_int_equal((c.paired ? row.readings_per_side : row.spots).state,
                       SCW_NOT_COMPUTED);
    }
  }
}

/* t(0.975, 4) = 2.776445105197793 (t table; R 4.2.2): SD 1 and 5 readings. */
static void half_width_of_a_mean(void **state) {
  scwi_comparison c = design(false, 1, 0.95);
  double width = 2.776445105197793 / sqrt(5);
  (void)state;
  assert_true(plan_number(&c, SCW_PLAN_HALF_WIDTH, width * 1.000001, 0.8) == 5);
  assert_true(plan_number(&c, SCW_PLAN_HALF_WIDTH, width * 0.999999, 0.8) == 6);
  assert_true(plan_number(&c, SCW_PLAN_HALF_WIDTH, 100, 0.8) == 3);
}

static void what_cannot_be(void **state) {
  scwi_comparison c = design(false, 1, 0.95);
  scw_figure n;
  (void)state;
  assert_int_equal(plan(&c, SCW_PLAN_DETECT, 1e-4, 0.8).state, SCW_TOO_MANY);
  assert_int_equal(plan(&c, SCW_PLAN_WITHIN, 1e-4, 0.8).state, SCW_TOO_MANY);
  assert_int_equal(plan(&c, SCW_PLAN_HALF_WIDTH, 1e-300, 0.8).state,
                   SCW_TOO_MANY);
  /* A fine panel on a coarse display: two values shown in whole units leave
   * u near 0.4, whatever the number of readings. */
  c.step = 1, c.sd_before = c.sd_after = 0.05;
  assert_int_equal(plan(&c, SCW_PLAN_DETECT, 0.5, 0.8).state, SCW_NEVER);
  assert_int_equal(plan(&c, SCW_PLAN_WITHIN, 0.5, 0.8).state, SCW_NEVER);
  assert_int_equal(plan(&c, SCW_PLAN_HALF_WIDTH, 0.5, 0.8).state, SCW_NEVER);
  assert_true(plan_number(&c, SCW_PLAN_DETECT, 1.5, 0.8) == 3);
  assert_int_equal(scwi_plan_n(context, &c, SCW_PLAN_READINGS, 1, 0.8, &n),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(n.state, SCW_NOT_COMPUTED);
}

/* Units do not matter. */
static void scales(void **state) {
  (void)state;
  for (int power = -40; power <= 40; power += 10) {
    double k = ldexp(1, power);
    for (int goal = SCW_PLAN_HALF_WIDTH; goal <= SCW_PLAN_WITHIN; goal++) {
      scwi_comparison c = {false, 1.7, 0.6, 0.1, 0.95, 0, {0, 0}},
                      scaled = {false, k * 1.7, k * 0.6, k * 0.1, 0.95, 0, {0, 0}};
      assert_true(plan_number(&c, (scw_plan_goal)goal, 0.9, 0.9) ==
                  plan_number(&scaled, (scw_plan_goal)goal, k * 0.9, 0.9));
    }
  }
}

static void row_of_one_reading(void **state) {
  scwi_comparison c = design(true, 1, 0.95);
  scw_plan_row row;
  (void)state;
  assert_int_equal(
      scwi_plan_row(context, &c, SCW_PLAN_READINGS, 0, 0.8, 1, &row), SCW_OK);
  assert_int_equal(row.detectable.state, SCW_ONE_READING);
  assert_int_equal(
      scwi_plan_row(context, &c, SCW_PLAN_READINGS, 0, 0.8, 8, &row), SCW_OK);
  assert_int_equal(row.power.state, SCW_NOT_COMPUTED);
  assert_int_equal(row.detectable.state, SCW_PRESENT);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(power_table),
                                     cmocka_unit_test(sample_size_table),
                                     cmocka_unit_test(handbook_shift_of_one_sd),
                                     cmocka_unit_test(detectable_inverts_power),
                                     cmocka_unit_test(detectable_says_why_not),
                                     cmocka_unit_test(smallest_means_smallest),
                                     cmocka_unit_test(half_width_of_a_mean),
                                     cmocka_unit_test(what_cannot_be),
                                     cmocka_unit_test(scales),
                                     cmocka_unit_test(row_of_one_reading)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
