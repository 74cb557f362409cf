/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The anytime-valid interval: what must hold whatever the numbers (SciPy judges
 * those), and where there is none. */
#include "anytime.h"

#include "check.h"
#include "figure.h"
#include "top_up.h"

static scwi_moments of(size_t n, double mean, double sd) {
  return (scwi_moments){n, mean, sd};
}

/* g = 1 at 95 %: K < a is a^(n-1) > 400^1, first at n = 5: 6^4 = 1296, while
 * 5^3 = 125 at n = 4. */
static void first_bounded_at_five(void **state) {
  (void)state;
  assert_int_equal(scwi_anytime_factor(0, 0.95, 1).state, SCW_ONE_READING);
  assert_int_equal(scwi_anytime_factor(1, 0.95, 1).state, SCW_ONE_READING);
  for (size_t n = 2; n <= 4; n++)
    assert_int_equal(scwi_anytime_factor(n, 0.95, 1).state, SCW_UNBOUNDED);
  for (size_t n = 5; n <= 300; n++)
    assert_int_equal(scwi_anytime_factor(n, 0.95, 1).state, SCW_PRESENT);
  scw_interval none = scwi_anytime_interval(of(4, 1, 1), 0, 0.95, 1);
  assert_int_equal(none.state, SCW_UNBOUNDED);
  /* 1.7 times the t interval at ten readings, t(0.975, 9) = 2.2621571627. */
  check_absolute(scwi_anytime_factor(10, 0.95, 1).value / 2.2621571627, 1.7,
                 0.05);
}

/* n -> infinity: t^2 -> log(a/alpha^2). */
static void safe_for_many_readings(void **state) {
  (void)state;
  for (size_t n = 1000000; n < (size_t)1 << 60; n *= 1000) {
    double limit = sqrt(log1p((double)n) + 2 * log(20));
    check_relative(scwi_anytime_factor(n, 0.95, 1).value, limit, 1e-4);
  }
  scw_figure e = scwi_anytime_e_value(of(100000, 1e6, 1), 0, 0, 1);
  assert_int_equal(e.state, SCW_OUT_OF_RANGE);
  assert_int_equal(scwi_anytime_e_value(of(5, 1e300, 1e-300), 0, 0, 1).state,
                   SCW_PRESENT);
  /* So sure that fifty readings cannot bound it. */
  assert_int_equal(scwi_anytime_factor(50, 1, 1).state, SCW_UNBOUNDED);
}

static void scale_and_shift(void **state) {
  (void)state;
  scw_interval one = scwi_anytime_interval(of(9, 3, 2), 0.5, 0.95, 1);
  for (int power = -12; power <= 12; power += 4) {
    double scale = pow(10, power);
    scw_interval i = scwi_anytime_interval(of(9, 3 * scale, 2 * scale),
                                           0.5 * scale, 0.95, 1);
    check_relative(i.low, one.low * scale, 1e-14);
    check_relative(i.high, one.high * scale, 1e-14);
    check_relative(
        scwi_anytime_e_value(of(9, 3 * scale, 2 * scale), 0, 0, 1).value,
        scwi_anytime_e_value(of(9, -3, 2), 0, 0, 1).value, 1e-14);
  }
  assert_int_equal(scwi_anytime_interval(of(5, 1e300, 1e308), 0, 0.95, 1).state,
                   SCW_OUT_OF_RANGE);
}

/* All equal: nothing can be said yet, and nothing is spoilt. */
static void no_scatter(void **state) {
  (void)state;
  assert_int_equal(scwi_anytime_interval(of(9, 3, 0), 0.5, 0.95, 1).state,
                   SCW_NO_SCATTER);
  assert_int_equal(scwi_anytime_e_value(of(9, 3, 0), 0, 0, 1).state,
                   SCW_NO_SCATTER);
  assert_int_equal(scwi_anytime_e_value(of(1, 3, 0), 0, 0, 1).state,
                   SCW_ONE_READING);
  assert_int_equal(scwi_anytime_interval(of(1, 3, 0), 0, 0.95, 1).state,
                   SCW_ONE_READING);
}

/* A mean of exactly zero is evidence for it: E = a^(-1/2). */
static void evidence_for_nothing(void **state) {
  (void)state;
  check_relative(scwi_anytime_e_value(of(8, 0, 1), 0, 0, 1).value, 1.0 / 3,
                 1e-15);
  check_relative(scwi_anytime_e_value(of(8, 0.2, 1), 0, 0.25, 1).value, 1.0 / 3,
                 1e-15);
}

/* The first few were all the same, and the display leaves nothing either. */
static void top_up_without_scatter(void **state) {
  scw_context *context;
  scw_interval interval;
  scw_figure total;
  (void)state;
  assert_int_equal(scw_context_new(&context), SCW_OK);
  assert_int_equal(
      scwi_top_up_interval(context, 3, 9, 0, 5, 0, 0.95, &interval), SCW_OK);
  assert_int_equal(interval.state, SCW_NO_SCATTER);
  assert_int_equal(
      scwi_top_up_interval(context, 3, 9, 0, 5, 0.1, 0.95, &interval), SCW_OK);
  check_relative(interval.high, 3 + 1.959963984540054 * 0.1, 1e-14);
  assert_int_equal(scwi_top_up_total(context, 0, 5, 0.95, 1, &total), SCW_OK);
  check_absolute(total.value, 5, 0);
  assert_int_equal(scwi_top_up_total(context, 1e9, 5, 0.95, 1e-9, &total),
                   SCW_OK);
  assert_int_equal(total.state, SCW_TOO_MANY);
  scw_context_free(context);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(first_bounded_at_five),
      cmocka_unit_test(safe_for_many_readings),
      cmocka_unit_test(scale_and_shift),
      cmocka_unit_test(no_scatter),
      cmocka_unit_test(evidence_for_nothing),
      cmocka_unit_test(top_up_without_scatter)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
