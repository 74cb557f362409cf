/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Moments against certified values; the uncertainty of a mean against the
 * written formula and its limits. */
#include "check.h"

#include <float.h>
#include <math.h>
#include <stdio.h>

#include "moments.h"
#include "one_set.h"

/* -log10 of the relative error, at most 15: certified values have 15 digits. */
static double digits(double got, double certified) {
  double error = fabs(got - certified) / fabs(certified);
  return error > 0 ? fmin(15, -log10(error)) : 15;
}

static void strd_to_at_least_14_digits(void **state) {
  check_table table = check_table_read(REFERENCE_DATA "/strd/certified.csv");
  (void)state;
  print_message("correct digits  ticks: mean   sd lag1  doubles: mean   sd\n");
  for (size_t row = 0; row < table.rows; row++) {
    char name[64];
    const char *label = check_table_text(&table, row, "set");
    snprintf(name, sizeof name, "strd/%s.csv", label);
    one_set set = one_set_from_file(name, "reading");
    scw_summary exact = one_set_summary(one_set_sample(&set));
    scwi_sample doubles = one_set_doubles(&set);
    scwi_moments plain = scwi_moments_of(&doubles);
    double mean = check_table_number(&table, row, "mean");
    double sd = check_table_number(&table, row, "sd");
    double lag1 = check_table_number(&table, row, "lag1");
    print_message("%-14s %12.1f %4.1f %4.1f %14.1f %4.1f\n", label,
                  digits(exact.mean.value, mean), digits(exact.sd.value, sd),
                  digits(exact.serial.lag1.value, lag1),
                  digits(plain.mean, mean), digits(plain.sd, sd));
    assert_int_equal(exact.n, check_table_number(&table, row, "n"));
    check_relative(exact.mean.value, mean, 1e-14);
    check_relative(exact.sd.value, sd, 1e-14);
    check_relative(exact.serial.lag1.value, lag1, 2e-14);
    check_relative(plain.mean, mean, 1e-14);
    /* Doubles hold the readings to one part in 2^53 of their size. */
    check_relative(plain.sd, sd, 1e-14 + DBL_EPSILON * fabs(mean) / sd);
    one_set_free(&set);
  }
  check_table_free(&table);
}

static scwi_moments of(size_t n, const double *x) {
  return scwi_moments_of(&(scwi_sample){.n = n, .x = x});
}

static void sizes_at_the_edge_of_doubles(void **state) {
  (void)state;
  scwi_moments m = of(3, (double[]){1e308, 1.1e308, 1.2e308});
  check_relative(m.mean, 1.1e308, 1e-15);
  check_relative(m.sd, 1e307, 1e-14);
  m = of(4, (double[]){DBL_MAX, DBL_MAX, DBL_MAX, DBL_MAX});
  assert_true(m.mean == DBL_MAX && m.sd == 0);
  m = of(3, (double[]){5e-324, 1e-323, 0});
  assert_true(m.mean == 5e-324 && m.sd == 5e-324);
  m = of(2, (double[]){-DBL_MAX, DBL_MAX});
  assert_true(m.mean == 0 && isinf(m.sd));
  m = of(3, (double[]){1e16, 1, -1e16});
  check_relative(m.mean, 1.0 / 3, 1e-15);
}

static void equal_readings_have_no_scatter_at_all(void **state) {
  const double values[] = {0.1, 87.4, 1e-300, -3.3e17, 0};
  (void)state;
  for (size_t v = 0; v < sizeof values / sizeof *values; v++) {
    double x[1000];
    for (size_t i = 0; i < 1000; i++)
      x[i] = values[v];
    for (size_t n = 1; n <= 1000; n += 37) {
      scwi_moments m = of(n, x);
      assert_true(m.mean == values[v] && m.sd == 0);
    }
  }
}

static void ticks_give_the_nearest_double(void **state) {
  /* 8 readings of mean 87.4125 and squared deviations 0.00875 in all */
  const int64_t ticks[] = {874, 874, 875, 874, 874, 874, 874, 874};
  one_set set = one_set_from_ticks(ticks, 8, 1);
  scwi_sample sample = one_set_sample(&set);
  scwi_moments m = scwi_moments_of(&sample);
  (void)state;
  assert_true(m.mean == 87.4125);
  check_relative(m.sd, 0.035355339059327378, 4 * DBL_EPSILON); /* 0.1/sqrt(8) */
  one_set_free(&set);
  /* At the edge of 62 bits, sums go beyond 64. */
  const int64_t far[] = {4611686018427387903, 4611686018427387901,
                         4611686018427387902};
  set = one_set_from_ticks(far, 3, 0);
  sample = one_set_sample(&set);
  m = scwi_moments_of(&sample);
  assert_true(m.sd == 1);
  one_set_free(&set);
}

static void uncertainty_has_a_floor(void **state) {
  (void)state;
  scwi_uncertainty u = scwi_mean_uncertainty(0, 7, 0.1);
  check_relative(u.u, 0.1 / sqrt(12), 4 * DBL_EPSILON);
  assert_true(isinf(u.df));
  /* gone from q/2 on, continuous there */
  u = scwi_mean_uncertainty(0.05, 7, 0.1);
  check_relative(u.u, 0.05 / sqrt(7), 4 * DBL_EPSILON);
  assert_true(u.df == 6);
  check_relative(scwi_mean_uncertainty(0.05 * (1 - 1e-12), 7, 0.1).u, u.u,
                 1e-11);
  for (double sd = 0.001; sd < 0.05; sd += 0.007) {
    double scatter = sd * sd / 5, term = 0.01 / 12 - sd * sd / 3;
    u = scwi_mean_uncertainty(sd, 5, 0.1);
    check_relative(u.u, sqrt(scatter + term), 4 * DBL_EPSILON);
    check_relative(u.df, 4 * pow((scatter + term) / scatter, 2), 1e-13);
    u = scwi_difference_uncertainty(sd, 5, (scwi_display){0.1, 0});
    check_relative(u.u, sqrt(scatter + 2 * term), 4 * DBL_EPSILON);
    check_relative(u.df, 4 * pow((scatter + 2 * term) / scatter, 2), 1e-13);
    /* sides that rounding leaves more undecided speak instead */
    u = scwi_difference_uncertainty(sd, 5, (scwi_display){0.1, 0.06});
    check_relative(u.u, sqrt(scatter + 0.0036), 4 * DBL_EPSILON);
    u = scwi_difference_uncertainty(sd, 5, (scwi_display){0.1, 0.001});
    check_relative(u.u, sqrt(scatter + fmax(2 * term, 1e-6)),
                   4 * DBL_EPSILON);
  }
  u = scwi_mean_uncertainty(0, 3, 1e-200);
  check_relative(u.u, 1e-200 / sqrt(12), 4 * DBL_EPSILON);
}

/* JCGM 100 G.4 in words: u^4/df adds up. */
static void sums_by_welch_and_satterthwaite(void **state) {
  (void)state;
  scwi_uncertainty a = {3, 4}, b = {4, 9}, exact = {4, INFINITY};
  scwi_uncertainty sum = scwi_uncertainty_sum(a, b);
  check_relative(sum.u, 5, DBL_EPSILON);
  check_relative(sum.df, 625 / (81.0 / 4 + 256.0 / 9), 4 * DBL_EPSILON);
  check_relative(scwi_uncertainty_sum(a, exact).df, 625 / (81.0 / 4),
                 4 * DBL_EPSILON);
  assert_true(isinf(scwi_uncertainty_sum(exact, exact).df));
  scwi_uncertainty none = {0, 3};
  assert_true(scwi_uncertainty_sum(none, a).df == 4);
  assert_true(scwi_uncertainty_sum(none, none).u == 0);
}

static void interval_of_few_and_of_infinite_df(void **state) {
  scw_interval interval;
  scw_context *context = one_set_context();
  (void)state;
  /* t(0.975, 1) = tan(0.475 pi) */
  assert_int_equal(
      scwi_t_interval(context, 10, (scwi_uncertainty){2, 1}, 0.95, &interval),
      SCW_OK);
  check_relative(interval.high - 10, 2 * tan(0.475 * acos(-1)), 1e-13);
  /* z(0.975), DLMF or any table: 1.959963984540054 */
  assert_int_equal(scwi_t_interval(context, 0, (scwi_uncertainty){1, INFINITY},
                                   0.95, &interval),
                   SCW_OK);
  check_relative(interval.high, 1.959963984540054, 1e-14);
  check_relative(interval.low, -1.959963984540054, 1e-14);
  assert_int_equal(scwi_t_interval(context, 1e308, (scwi_uncertainty){1e308, 1},
                                   0.95, &interval),
                   SCW_OK);
  assert_int_equal(interval.state, SCW_OUT_OF_RANGE);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(strd_to_at_least_14_digits),
      cmocka_unit_test(sizes_at_the_edge_of_doubles),
      cmocka_unit_test(equal_readings_have_no_scatter_at_all),
      cmocka_unit_test(ticks_give_the_nearest_double),
      cmocka_unit_test(uncertainty_has_a_floor),
      cmocka_unit_test(sums_by_welch_and_satterthwaite),
      cmocka_unit_test(interval_of_few_and_of_infinite_df),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
