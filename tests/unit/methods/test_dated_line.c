/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines over dates: exact figures, the creep of equal distances, and what a
 * shift, a scale or an order must not change. */
#include "check.h"

#include <math.h>

#include "dated_line.h"
#include "one_set.h"

enum { N = 9 };
static const double days[N] = {739255, 739270, 739283, 739299, 739314,
                               739328, 739342, 739360, 739374};
static const double values[N] = {92.40, 92.36, 92.28, 92.27, 92.18,
                                 92.16, 92.10, 92.02, 92.00};

static scwi_dated_line line_of(const double *day, const double *x, size_t n,
                               double step) {
  scwi_sample sample = {.n = n, .x = x, .step = {step, SCW_STEP_GIVEN}};
  scwi_dated_line line;
  assert_int_equal(
      scwi_dated_line_of(one_set_context(), day, &sample, 0.95, &line), SCW_OK);
  return line;
}

/* Rational arithmetic and the t quantile of mpmath at 40 digits, per month of
 * 30.4375 days. SciPy's linregress agrees to 3e-11: its residuals are taken from
 * dates counted from the year 1. */
static void irregular_dates(void **state) {
  scwi_dated_line line = line_of(days, values, N, 0.01);
  const scw_estimate *slope = &line.slope;
  (void)state;
  check_relative(slope->estimate.value * 30.4375, -0.105311868159411814, 1e-12);
  check_relative(slope->standard_uncertainty.value * 30.4375,
                 0.0044576907878295734, 1e-12);
  check_relative(slope->interval.low * 30.4375, -0.115852631902415373, 1e-12);
  check_relative(slope->interval.high * 30.4375, -0.0947711044164082552, 1e-12);
  check_relative(slope->p.value, 6.18530308228403484e-8, 1e-12);
  check_relative(line.sd_about_line.value, 0.0168891829486911873, 1e-12);
  check_relative(slope->df.value, N - 2, 0);
}

static void equal_distances_are_creep(void **state) {
  static const int64_t ticks[] = {924, 921, 925, 920, 922, 918, 919};
  one_set set = one_set_from_ticks(ticks, 7, 1);
  scwi_sample sample = one_set_sample(&set);
  double day[7];
  scwi_dated_line line;
  (void)state;
  for (size_t i = 0; i < 7; i++) day[i] = 20000 + 7 * (double)i;
  sample.step.size = 0; /* creep takes no part of the display */
  assert_int_equal(
      scwi_dated_line_of(one_set_context(), day, &sample, 0.95, &line), SCW_OK);
  scw_creep creep = one_set_summary(sample).creep;
  check_relative(line.slope.estimate.value, creep.slope.value / 7, 1e-14);
  check_relative(line.slope.interval.low, creep.slope_interval.low / 7, 1e-13);
  check_relative(line.slope.interval.high, creep.slope_interval.high / 7, 1e-13);
  check_relative(line.slope.p.value, creep.p.value, 1e-13);
  check_relative(line.sd_about_line.value, creep.sd_about_line.value, 1e-14);
  one_set_free(&set);
}

static void scales(void **state) {
  scwi_dated_line plain = line_of(days, values, N, 0);
  (void)state;
  for (int e = -300; e <= 300; e += 50) {
    double factor = pow(10, e), x[N];
    for (size_t i = 0; i < N; i++) x[i] = values[i] * factor;
    scwi_dated_line line = line_of(days, x, N, 0);
    check_relative(line.slope.estimate.value,
                   plain.slope.estimate.value * factor, 1e-12);
    check_relative(line.slope.interval.low, plain.slope.interval.low * factor,
                   1e-12);
    check_relative(line.slope.p.value, plain.slope.p.value, 1e-10);
  }
}

/* A display of step q knows no better than q/sqrt(12) about the line. */
static void display_floor(void **state) {
  static const double day[] = {0, 1, 2, 3}, flat[] = {5, 5, 5, 5};
  (void)state;
  scwi_dated_line line = line_of(day, flat, 4, 0.1);
  assert_true(line.slope.estimate.value == 0);
  check_relative(line.slope.standard_uncertainty.value,
                 0.1 / sqrt(12) / sqrt(5), 1e-15);
  assert_true(line.sd_about_line.value == 0);
  scwi_dated_line above = line_of(days, values, N, 0.0001);
  scwi_dated_line none = line_of(days, values, N, 0);
  check_relative(above.slope.standard_uncertainty.value,
                 none.slope.standard_uncertainty.value, 1e-15);
}

static void missing(void **state) {
  static const double same_day[] = {3, 3, 3}, day[] = {0, 7, 9};
  static const double x[] = {1, 2, 4}, exact[] = {0.1, 0.8, 1.0};
  (void)state;
  assert_int_equal(line_of(day, x, 1, 0).slope.estimate.state, SCW_ONE_READING);
  scwi_dated_line two = line_of(day, x, 2, 0);
  check_relative(two.slope.estimate.value, 1 / 7.0, 1e-15);
  assert_int_equal(two.slope.interval.state, SCW_TWO_READINGS);
  assert_int_equal(line_of(same_day, x, 3, 0).slope.estimate.state,
                   SCW_NO_SCATTER);
  scwi_dated_line on_line = line_of(day, exact, 3, 0);
  check_relative(on_line.slope.estimate.value, 0.1, 1e-14);
  assert_int_equal(on_line.slope.interval.state, SCW_NO_SCATTER);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(irregular_dates),
      cmocka_unit_test(equal_distances_are_creep), cmocka_unit_test(scales),
      cmocka_unit_test(display_floor), cmocka_unit_test(missing)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
