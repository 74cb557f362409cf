/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The e-Handbook's worked charts, and what its limits and sums obey. */
#include "check.h"

#include <math.h>

#include "control_charts.h"
#include "one_set.h"

enum { N = 20 };

static void handbook_average(void **state) {
  check_table table = check_table_read(REFERENCE_DATA "/drift/ewma.csv");
  double x[N], average[N];
  (void)state;
  assert_int_equal(table.rows, N);
  for (size_t i = 0; i < N; i++) x[i] = check_table_number(&table, i, "reading");
  scwi_weighted_average(x, N, 50, 0.3, average);
  for (size_t i = 0; i < N; i++) {
    check_relative(average[i], check_table_number(&table, i, "value"), 1e-14);
    check_absolute(average[i], check_table_number(&table, i, "published"),
                   0.005);
  }
  /* The final limits; the handbook's own are off by 1 in the last digit. */
  double half = scwi_weighted_half_width(1000, 2.0539, 0.3, 3);
  check_absolute(50 + half, 52.58843173812662, 1e-13);
  check_absolute(50 + half, 52.5884, 0.0001);
  check_absolute(50 - half, 47.4115, 0.0001);
  check_table_free(&table);
}

/* The variance of the average after i values, by its own sum of weights. */
static void average_limits(void **state) {
  (void)state;
  for (size_t i = 1; i <= 40; i++) {
    double variance = 0, weight = 0.2;
    for (size_t k = 0; k < i; k++) {
      variance += weight * weight;
      weight *= 0.8;
    }
    check_relative(scwi_weighted_half_width(i, 2, 0.2, 3), 6 * sqrt(variance),
                   1e-14);
  }
}

static void handbook_sums(void **state) {
  check_table table = check_table_read(REFERENCE_DATA "/drift/sums.csv");
  double x[N], up[N], down[N], sd = 0.635;
  (void)state;
  for (size_t i = 0; i < N; i++) x[i] = check_table_number(&table, i, "mean");
  scwi_cumulative_sums(x, N, 325, sd, 0.5, up, down);
  for (size_t i = 0; i < N; i++) { /* 512 SD away from 0: 1e-13 of an SD */
    check_absolute(up[i] * sd, check_table_number(&table, i, "up"), 1e-11);
    check_absolute(down[i] * sd, check_table_number(&table, i, "down"), 1e-11);
  }
  static const double printed[] = {3.01, 4.94, 7.45, 10.63};
  for (size_t i = 0; i < 4; i++) check_absolute(up[12 + i] * sd, printed[i], 0.005);
  check_table_free(&table);
}

static void mirrored(void **state) {
  unsigned long long seed = 5;
  double x[N], y[N], up[N], down[N], up_y[N], down_y[N];
  (void)state;
  for (size_t i = 0; i < N; i++) {
    x[i] = one_set_normal(&seed);
    y[i] = -x[i];
  }
  scwi_cumulative_sums(x, N, 0, 1, 0.5, up, down);
  scwi_cumulative_sums(y, N, 0, 1, 0.5, up_y, down_y);
  for (size_t i = 0; i < N; i++) {
    assert_true(up[i] == down_y[i] && down[i] == up_y[i]);
    assert_true(up[i] >= 0 && down[i] >= 0);
  }
  check_relative(scwi_moving_range_sd(x, N), scwi_moving_range_sd(y, N), 1e-15);
}

/* d2 of two normal values, 1.128 in every table of control charts. */
static void moving_range(void **state) {
  static const double x[] = {1, 3, 2, 2, 6};
  static const double huge[] = {-4e307, 4e307};
  (void)state;
  check_relative(scwi_moving_range_sd(x, 5), 7 / 4.0 / 1.1283791670955126,
                 1e-15);
  check_absolute(1.75 / scwi_moving_range_sd(x, 5), 1.128, 0.0005);
  check_relative(scwi_moving_range_sd(x, 2), sqrt(acos(-1.0)), 1e-15);
  check_relative(scwi_moving_range_sd(huge, 2), 8e307 / 1.1283791670955126,
                 1e-15);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(handbook_average), cmocka_unit_test(average_limits),
      cmocka_unit_test(handbook_sums), cmocka_unit_test(mirrored),
      cmocka_unit_test(moving_range)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
