/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The line against a set worked by hand and exact lines. R's lm compares many
 * more in judge_one_set.R. */
#include "check.h"

#include <math.h>

#include "one_set.h"

static scw_creep creep_of(const int64_t *ticks, size_t n, int digits) {
  one_set set = one_set_from_ticks(ticks, n, digits);
  scw_creep creep = one_set_summary(one_set_sample(&set)).creep;
  one_set_free(&set);
  return creep;
}

/* 1, 3, 2, 5, 4 over 1 to 5: slope 8/10, residual squares 10 - 6.4 = 3.6,
 * SD sqrt(3.6/3), its error sqrt(1.2/10), t(0.975, 3) = 3.1824463052837078
 * (root of the closed form 1/2 + (atan(u) + u/(1+u^2))/pi = 0.975, u =
 * t/sqrt(3)). */
static void a_line_by_hand(void **state) {
  scw_creep c = creep_of((const int64_t[]){1, 3, 2, 5, 4}, 5, 0);
  double half = 3.1824463052837078 * sqrt(0.12);
  (void)state;
  check_relative(c.slope.value, 0.8, 1e-15);
  check_relative(c.sd_about_line.value, sqrt(1.2), 1e-14);
  check_relative(c.slope_interval.low, 0.8 - half, 1e-13);
  check_relative(c.slope_interval.high, 0.8 + half, 1e-13);
  assert_false(c.creeping);
  assert_true(c.kendall_s.value == 6);
  check_relative(c.kendall_p.value, 28.0 / 120, 1e-14); /* 2 (1+4+9) of 5! */
}

static void creeping_both_ways(void **state) {
  const int64_t up[] = {10, 12, 11, 14, 15, 17, 16, 19};
  int64_t down[8];
  (void)state;
  for (size_t i = 0; i < 8; i++)
    down[i] = up[7 - i];
  scw_creep rising = creep_of(up, 8, 1), falling = creep_of(down, 8, 1);
  assert_true(rising.creeping && falling.creeping);
  assert_true(rising.slope.value == -falling.slope.value);
  assert_true(rising.slope_interval.low == -falling.slope_interval.high);
  assert_true(rising.p.value == falling.p.value && rising.p.value < 0.05);
  assert_true(rising.kendall_s.value == -falling.kendall_s.value);
}

static void exact_lines_have_no_interval(void **state) {
  (void)state;
  scw_creep c = creep_of((const int64_t[]){874, 875, 876, 877}, 4, 1);
  check_relative(c.slope.value, 0.1, 1e-15);
  assert_int_equal(c.slope_interval.state, SCW_NO_SCATTER);
  assert_int_equal(c.p.state, SCW_NO_SCATTER);
  assert_int_equal(c.sd_about_line.state, SCW_NO_SCATTER);
  assert_false(c.creeping);
  check_relative(c.kendall_p.value, 2.0 / 24, 1e-14);
  c = creep_of((const int64_t[]){5, 5, 5, 5}, 4, 1);
  assert_true(c.slope.value == 0);
  assert_int_equal(c.p.state, SCW_NO_SCATTER);
  assert_int_equal(c.kendall_s.state, SCW_NO_SCATTER);
  c = creep_of((const int64_t[]){5, 7}, 2, 0);
  assert_true(c.slope.value == 2 && c.kendall_p.value == 1);
  assert_int_equal(c.slope_interval.state, SCW_TWO_READINGS);
  c = creep_of((const int64_t[]){5}, 1, 0);
  assert_int_equal(c.slope.state, SCW_ONE_READING);
  assert_int_equal(c.kendall_s.state, SCW_ONE_READING);
}

/* The scatter about a line keeps its digits on top of a large offset. */
static void offset_costs_nothing(void **state) {
  int64_t ticks[] = {3, 1, 4, 1, 5, 9, 2, 6};
  scw_creep here = creep_of(ticks, 8, 1);
  (void)state;
  for (size_t i = 0; i < 8; i++)
    ticks[i] += 4000000000000000000;
  scw_creep there = creep_of(ticks, 8, 1);
  assert_true(here.slope.value == there.slope.value);
  assert_true(here.p.value == there.p.value);
  assert_true(here.sd_about_line.value == there.sd_about_line.value);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_line_by_hand),
      cmocka_unit_test(creeping_both_ways),
      cmocka_unit_test(exact_lines_have_no_interval),
      cmocka_unit_test(offset_costs_nothing),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
