/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Averages over sd/sigma against moments of the chi distribution. */
#include "check.h"

#include <math.h>

#include "chi_average.h"

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

static double raised(double s, void *parameters) {
  return pow(s, *(const double *)parameters);
}

static double gives_up(double s, void *parameters) {
  (void)s, (void)parameters;
  return NAN;
}

static double average(double power, double df, double low, double high) {
  double out;
  assert_int_equal(
      scwi_chi_average(context, raised, &power, df, low, high, 1e-13, &out),
      SCW_OK);
  return out;
}

/* E s^k = (2/df)^(k/2) Gamma((df+k)/2)/Gamma(df/2): 1 for k = 0 and 2,
 * 1 + 2/df for k = 4, sqrt(2/pi) for k = 1 at df = 1. */
static void moments_of_chi(void **state) {
  static const double dfs[] = {1,    1.5, 2,   3.7, 9,   29.9,
                               30.1, 47,  200, 5e3, 1e6, 9e8};
  (void)state;
  for (size_t i = 0; i < sizeof dfs / sizeof *dfs; i++) {
    check_relative(average(0, dfs[i], 0, INFINITY), 1, 1e-12);
    check_relative(average(2, dfs[i], 0, INFINITY), 1, 1e-12);
    check_relative(average(4, dfs[i], 0, INFINITY), 1 + 2 / dfs[i], 1e-12);
  }
  check_relative(average(1, 1, 0, INFINITY), sqrt(2 / acos(-1)), 1e-12);
}

/* One df: |Z|; two df: P(s <= x) = 1 - exp(-x^2). */
static void parts_of_the_range(void **state) {
  (void)state;
  check_relative(average(0, 1, 0, 1.3), erf(1.3 / sqrt(2)), 1e-12);
  check_relative(average(0, 2, 0.4, 1.1), exp(-0.16) - exp(-1.21), 1e-12);
  assert_true(average(0, 2, 1.1, 0.4) == 0);
  assert_true(average(0, 5, 40, INFINITY) == 0);
}

static void without_scatter_s_is_one(void **state) {
  double out;
  (void)state;
  assert_true(average(3, INFINITY, 0, INFINITY) == 1);
  assert_true(average(3, INFINITY, 1.1, INFINITY) == 0);
  assert_int_equal(
      scwi_chi_average(context, gives_up, NULL, INFINITY, 0, 2, 1e-9, &out),
      SCW_NOT_REACHED);
  assert_int_equal(
      scwi_chi_average(context, gives_up, NULL, 4, 0, 2, 1e-9, &out),
      SCW_NOT_REACHED);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(moments_of_chi), cmocka_unit_test(parts_of_the_range),
      cmocka_unit_test(without_scatter_s_is_one)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
