/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Published average run lengths, and runs played through. */
#include "check.h"

#include <math.h>
#include <string.h>

#include "one_set.h"
#include "run_length.h"

static double length_of(const char *chart, double first, double second,
                        double shift) {
  double out = 0;
  scw_status status =
      strcmp(chart, "sum") == 0
          ? scwi_run_length_sum(one_set_context(), first, second, shift, &out)
          : scwi_run_length_average(one_set_context(), first, second, shift,
                                    &out);
  assert_int_equal(status, SCW_OK);
  return out;
}

/* Half a unit of the last digit printed; "5.5" has one decimal. */
static double half_unit(const char *text) {
  const char *point = strchr(text, '.');
  return point ? 0.5 * pow(10, -(double)strlen(point + 1)) : 0.5;
}

static void published(void **state) {
  check_table table = check_table_read(REFERENCE_DATA "/drift/run-lengths.csv");
  (void)state;
  assert_true(table.rows > 30);
  for (size_t i = 0; i < table.rows; i++) {
    const char *text = check_table_text(&table, i, "published");
    /* Averages were printed from a chain of states, good to one unit. */
    double units = strcmp(check_table_text(&table, i, "chart"), "sum") ? 2 : 1;
    check_absolute(length_of(check_table_text(&table, i, "chart"),
                             check_table_number(&table, i, "first"),
                             check_table_number(&table, i, "second"),
                             check_table_number(&table, i, "shift")),
                   check_strtod(text), 1.001 * units * half_unit(text));
  }
  check_table_free(&table);
}

static void limits(void **state) {
  (void)state;
  check_relative(scwi_run_length_limits(3, 0), 370.398347345, 1e-11);
  /* 1/(P(z > 2) + P(z < -4)) */
  check_relative(scwi_run_length_limits(3, 1),
                 1 / (0.022750131948179207 + 3.167124183311992e-5), 1e-14);
  check_relative(scwi_run_length_limits(3, 1), scwi_run_length_limits(3, -1),
                 1e-15);
}

enum { RUNS = 20000 };

static size_t run_of_sum(unsigned long long *seed, double h, double shift) {
  double up = 0, down = 0;
  size_t n = 0;
  while (up <= h && down <= h) {
    double z = one_set_normal(seed) + shift;
    up = fmax(0, up + z - 0.5);
    down = fmax(0, down - z - 0.5);
    n++;
  }
  return n;
}

static size_t run_of_average(unsigned long long *seed, double width,
                             double shift) {
  double now = 0, limit = width * sqrt(0.2 / 1.8);
  size_t n = 0;
  while (fabs(now) <= limit) {
    now = 0.2 * (one_set_normal(seed) + shift) + 0.8 * now;
    n++;
  }
  return n;
}

/* The mean of many runs lies within 4 standard errors. */
static void played_through(void **state) {
  static const double shifts[] = {0.5, 1, 2};
  unsigned long long seed = 20260314;
  (void)state;
  for (size_t s = 0; s < 3; s++)
    for (int chart = 0; chart < 2; chart++) {
      double sum = 0, squares = 0;
      for (int r = 0; r < RUNS; r++) {
        double n = (double)(chart ? run_of_average(&seed, 3, shifts[s])
                                  : run_of_sum(&seed, 5, shifts[s]));
        sum += n;
        squares += n * n;
      }
      double mean = sum / RUNS;
      double error = sqrt((squares / RUNS - mean * mean) / RUNS);
      double wanted = chart ? length_of("average", 0.2, 3, shifts[s])
                            : length_of("sum", 0.5, 5, shifts[s]);
      check_absolute(mean, wanted, 4 * error);
    }
}

/* With all the weight on the newest value the average is the value. */
static void average_becomes_limits(void **state) {
  (void)state;
  check_relative(length_of("average", 1, 3, 0.5), scwi_run_length_limits(3, 0.5),
                 1e-9);
  check_relative(length_of("sum", 0.5, 5, 1), length_of("sum", 0.5, 5, -1),
                 1e-12);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(published), cmocka_unit_test(limits),
      cmocka_unit_test(played_through),
      cmocka_unit_test(average_becomes_limits)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
