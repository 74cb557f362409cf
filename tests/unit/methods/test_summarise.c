/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The summary as a whole: published examples, a reason for every figure that
 * is missing, nothing that is not finite, and identities. */
#include "check.h"

#include <float.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "one_set.h"

static void published_examples(void **state) {
  check_table table = check_table_read(REFERENCE_DATA "/one-set/figures.csv");
  const char *const sets[] = {"temperature", "zarr13", "chem", "mass"};
  unsigned compared = 0;
  (void)state;
  for (size_t k = 0; k < sizeof sets / sizeof *sets; k++) {
    char name[64];
    snprintf(name, sizeof name, "one-set/%s.csv", sets[k]);
    one_set set = one_set_from_file(name, "reading");
    scw_summary s = one_set_summary(one_set_sample(&set));
    for (size_t row = 0; row < table.rows; row++) {
      if (strcmp(check_table_text(&table, row, "set"), sets[k])) continue;
      scw_figure got =
          one_set_find(&s, check_table_text(&table, row, "figure"));
      assert_int_equal(got.state, SCW_PRESENT);
      check_relative(got.value, check_table_number(&table, row, "value"),
                     1e-11);
      compared++;
    }
    one_set_free(&set);
  }
  assert_int_equal(compared, 19);
  check_table_free(&table);
}

/* Two-sided factors for 95 % of the spots at 95 % confidence: 36.519 for two
 * readings (ISO 16269-6, from memory). With level 0.999999 there is no k. */
static void tolerance_factor(void **state) {
  const double x[] = {1, 2};
  scwi_sample sample = {.n = 2, .x = x, .step = {0, SCW_STEP_GIVEN}};
  scw_summary s = one_set_summary(sample);
  (void)state;
  check_absolute(s.tolerance.k.value, 36.519, 5e-4);
  check_relative(s.tolerance.interval.high,
                 1.5 + s.tolerance.k.value * s.sd.value, 1e-15);
  scwi_summary_settings settings = one_set_defaults;
  settings.level = 0.999999;
  s = one_set_summary_with(sample, &settings);
  assert_int_equal(s.tolerance.k.state, SCW_NOT_AT_THIS_LEVEL);
  assert_int_equal(s.interval.state, SCW_PRESENT);
}

static scw_summary of(size_t n, const double *x, scw_step step) {
  return one_set_summary((scwi_sample){.n = n, .x = x, .step = step});
}

static void equal_readings_and_the_step(void **state) {
  const double x[] = {87.4, 87.4, 87.4, 87.4};
  (void)state;
  scw_summary s = of(4, x, (scw_step){0.1, SCW_STEP_ASSUMED});
  assert_true(s.sd.value == 0 && s.sd.state == SCW_PRESENT);
  check_relative(s.standard_uncertainty.value, 0.1 / sqrt(12), 4 * DBL_EPSILON);
  assert_int_equal(s.df.state, SCW_UNBOUNDED);
  check_relative(s.interval.high - 87.4, 1.959963984540054 * 0.1 / sqrt(12),
                 1e-12);
  assert_int_equal(s.prediction.state, SCW_NO_SCATTER);
  assert_int_equal(s.sd_interval.state, SCW_NO_SCATTER);
  assert_int_equal(s.tolerance.k.state, SCW_NO_SCATTER);
  assert_int_equal(s.standard_uncertainty_scatter.state, SCW_NO_SCATTER);
  s = of(4, x, (scw_step){0, SCW_STEP_GIVEN});
  assert_int_equal(s.interval.state, SCW_NO_SCATTER);
  assert_int_equal(s.standard_uncertainty.state, SCW_NO_SCATTER);
  s = of(4, x, (scw_step){0, SCW_STEP_NOT_KNOWN});
  assert_int_equal(s.interval.state, SCW_STEP_UNKNOWN);
  assert_int_equal(s.df.state, SCW_STEP_UNKNOWN);
  s = of(1, x, (scw_step){0.1, SCW_STEP_ASSUMED});
  assert_int_equal(s.interval.state, SCW_ONE_READING);
  assert_int_equal(s.sd.state, SCW_ONE_READING);
  assert_true(s.mean.value == 87.4 && s.q1.value == 87.4);
}

/* A present figure is finite, and a missing one says why; no uncertainty, no
 * p is ever zero for want of scatter. */
static void check_sound(const scw_summary *s, const char *what) {
  one_set_named all[ONE_SET_FIGURES];
  one_set_list(s, all);
  for (size_t i = 0; i < ONE_SET_FIGURES; i++) {
    scw_figure f = all[i].figure;
    if (f.state == SCW_NOT_COMPUTED || f.state >= SCW_PRESENCE_END)
      fail_msg("%s: %s has no reason", what, all[i].name);
    if (f.state == SCW_PRESENT && !isfinite(f.value))
      fail_msg("%s: %s is not finite", what, all[i].name);
  }
  if (s->standard_uncertainty.state == SCW_PRESENT)
    assert_true(s->standard_uncertainty.value > 0);
  const scw_figure p[] = {s->stand_out.grubbs_p, s->creep.p,
                          s->creep.kendall_p,    s->serial.lag1_p,
                          s->level_shift.p,      s->shape.shapiro_p};
  for (size_t i = 0; i < sizeof p / sizeof *p; i++)
    if (p[i].state == SCW_PRESENT && !(p[i].value >= 0 && p[i].value <= 1))
      fail_msg("%s: p %zu is %g", what, i, p[i].value);
}

static void hostile_sets_are_answered(void **state) {
  const double max = DBL_MAX, tiny = 5e-324;
  const double sets[][6] = {{1, 1, 1, 1, 1, 1},
                            {1, 1, 1, 1, 1, 2},
                            {0, 0, 0, 0, 0, tiny},
                            {tiny, 2 * tiny, 3 * tiny, 0, tiny, 5 * tiny},
                            {max, max, max, max, max, max},
                            {max, -max, max, -max, max, -max},
                            {max, 1, 2, 3, 4, 5},
                            {1e300, 1e-300, 1, -1, 0, 1e300},
                            {1, 1 + DBL_EPSILON, 1, 1, 1 + DBL_EPSILON, 1},
                            {-1e308, 1e308, 0, 1, 2, 3},
                            {1, 2, 3, 4, 5, 6},
                            {1, 2, 1, 2, 1, 2}};
  const scw_step steps[] = {{0, SCW_STEP_GIVEN},
                            {1, SCW_STEP_GIVEN},
                            {0, SCW_STEP_NOT_KNOWN},
                            {1e-320, SCW_STEP_GIVEN},
                            {1e308, SCW_STEP_GIVEN}};
  (void)state;
  for (size_t k = 0; k < sizeof sets / sizeof *sets; k++) {
    for (size_t n = 1; n <= 6; n++) {
      for (size_t q = 0; q < sizeof steps / sizeof *steps; q++) {
        char what[64];
        snprintf(what, sizeof what, "set %zu, n %zu, step %zu", k, n, q);
        scw_summary s = of(n, sets[k], steps[q]);
        check_sound(&s, what);
      }
    }
  }
}

static void fill(int64_t *ticks, size_t n, double spread,
                 unsigned long long *random) {
  for (size_t i = 0; i < n; i++)
    ticks[i] = (int64_t)rint(spread * one_set_normal(random));
}

/* Adding a constant moves places and leaves the rest to the last bit; ten
 * times the unit scales everything. Whole ticks make both exact. */
static void shift_and_scale(void **state) {
  unsigned long long random = 61;
  const char *const moved[] = {"mean", "median", "q1", "q3"};
  const char *const kept[] = {"sd",        "mad",      "robust_sd", "grubbs_p",
                              "slope_p",   "lag1",     "shift_p",   "shapiro_w",
                              "shapiro_p", "kendall_p"};
  (void)state;
  for (size_t n = 3; n <= 30; n++) {
    int64_t ticks[30];
    fill(ticks, n, 20, &random);
    one_set set = one_set_from_ticks(ticks, n, 1);
    scw_summary here = one_set_summary(one_set_sample(&set));
    one_set_free(&set);
    for (size_t i = 0; i < n; i++)
      ticks[i] += 1000000000;
    set = one_set_from_ticks(ticks, n, 1);
    scw_summary there = one_set_summary(one_set_sample(&set));
    one_set_free(&set);
    for (size_t m = 0; m < sizeof moved / sizeof *moved; m++)
      check_relative(one_set_find(&there, moved[m]).value,
                     one_set_find(&here, moved[m]).value + 1e8, DBL_EPSILON);
    for (size_t k = 0; k < sizeof kept / sizeof *kept; k++) {
      scw_figure f = one_set_find(&here, kept[k]),
                 g = one_set_find(&there, kept[k]);
      assert_int_equal(f.state, g.state);
      assert_true(f.state != SCW_PRESENT || f.value == g.value);
    }
    /* the same ticks in a unit 10^12 times smaller */
    set = one_set_from_ticks(ticks, n, -11);
    scw_summary scaled = one_set_summary(one_set_sample(&set));
    one_set_free(&set);
    check_relative(scaled.sd.value, here.sd.value * 1e12, 2 * DBL_EPSILON);
    check_relative(scaled.standard_uncertainty.value,
                   here.standard_uncertainty.value * 1e12, 4 * DBL_EPSILON);
    assert_true(scaled.creep.p.value == here.creep.p.value);
    assert_true(scaled.shape.shapiro_p.value == here.shape.shapiro_p.value);
  }
}

/* Read backwards, places and slopes turn round and nothing else changes. */
static void order_turned_round(void **state) {
  unsigned long long random = 67;
  (void)state;
  for (size_t n = 3; n <= 30; n++) {
    int64_t ticks[30], back[30];
    fill(ticks, n, 5, &random);
    for (size_t i = 0; i < n; i++)
      back[i] = ticks[n - 1 - i];
    one_set set = one_set_from_ticks(ticks, n, 1);
    one_set turned = one_set_from_ticks(back, n, 1);
    scw_summary a = one_set_summary(one_set_sample(&set));
    scw_summary b = one_set_summary(one_set_sample(&turned));
    assert_true(a.sd.value == b.sd.value && a.mean.value == b.mean.value);
    if (a.creep.slope.state == SCW_PRESENT && a.creep.slope.value != 0)
      check_relative(b.creep.slope.value, -a.creep.slope.value, 1e-13);
    if (a.creep.kendall_s.state == SCW_PRESENT) {
      assert_true(a.creep.kendall_s.value == -b.creep.kendall_s.value);
      assert_true(a.creep.kendall_p.value == b.creep.kendall_p.value);
    }
    if (a.serial.lag1_p.state == SCW_PRESENT)
      assert_true(a.serial.rank_von_neumann.value ==
                  b.serial.rank_von_neumann.value);
    if (a.level_shift.p.state == SCW_PRESENT && !a.level_shift.counted)
      check_relative(b.level_shift.p.value, a.level_shift.p.value, 1e-13);
    if (a.stand_out.n_flags == 1 && b.stand_out.n_flags == 1)
      assert_true(a.stand_out.flags[0].reading == b.stand_out.flags[0].reading);
    one_set_free(&set);
    one_set_free(&turned);
  }
}

/* Any other order leaves the figures that do not look at order. */
static void order_mixed(void **state) {
  unsigned long long random = 71;
  (void)state;
  for (size_t n = 3; n <= 30; n++) {
    int64_t ticks[30];
    fill(ticks, n, 5, &random);
    one_set set = one_set_from_ticks(ticks, n, 1);
    scw_summary a = one_set_summary(one_set_sample(&set));
    one_set_free(&set);
    for (size_t i = n - 1; i > 0; i--) {
      size_t other = one_set_random(&random) % (i + 1);
      int64_t held = ticks[i];
      ticks[i] = ticks[other];
      ticks[other] = held;
    }
    set = one_set_from_ticks(ticks, n, 1);
    scw_summary b = one_set_summary(one_set_sample(&set));
    one_set_free(&set);
    one_set_named first[ONE_SET_FIGURES], second[ONE_SET_FIGURES];
    one_set_list(&a, first);
    one_set_list(&b, second);
    for (size_t i = 0; i < ONE_SET_FIGURES; i++) {
      const char *name = first[i].name;
      if (strstr(name, "slope") || strstr(name, "kendall") ||
          strstr(name, "lag1") || strstr(name, "shift") ||
          strstr(name, "line") || strstr(name, "rank"))
        continue;
      assert_int_equal(first[i].figure.state, second[i].figure.state);
      if (first[i].figure.state == SCW_PRESENT)
        check_relative(first[i].figure.value, second[i].figure.value, 1e-14);
    }
  }
}

/* Large sets: what is not worked out says so, the rest is there. */
static void a_hundred_thousand_and_one_readings(void **state) {
  enum { N = 100001 };
  static int64_t ticks[N];
  unsigned long long random = 73;
  (void)state;
  fill(ticks, N, 30, &random);
  one_set set = one_set_from_ticks(ticks, N, 1);
  scw_summary s = one_set_summary(one_set_sample(&set));
  check_sound(&s, "many");
  assert_int_equal(s.shape.shapiro_w.state, SCW_TOO_MANY);
  assert_int_equal(s.stand_out.grubbs_p.state, SCW_TOO_MANY);
  assert_int_equal(s.level_shift.p.state, SCW_TOO_MANY);
  assert_int_equal(s.tolerance.k.state, SCW_TOO_MANY);
  check_relative(s.sd.value, 3, 0.02);
  assert_int_equal(s.creep.kendall_p.state, SCW_PRESENT);
  one_set_free(&set);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(published_examples),
      cmocka_unit_test(tolerance_factor),
      cmocka_unit_test(equal_readings_and_the_step),
      cmocka_unit_test(hostile_sets_are_answered),
      cmocka_unit_test(shift_and_scale),
      cmocka_unit_test(order_turned_round),
      cmocka_unit_test(order_mixed),
      cmocka_unit_test(a_hundred_thousand_and_one_readings),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
