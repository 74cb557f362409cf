/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What printed figures can be. Judge: all sets of whole numbers out to a bound,
 * counted here; random readings, whose figures must always pass; arithmetic by
 * hand. */
#include "check.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#include "attainable.h"
#include "recompute.h"

enum { MOST_N = 8, MOST_Q = 500, REACH = 23, SUMS = 121, ZERO = 60 };

/* reached[n][sum + ZERO][squares]: some n whole numbers have them. */
static bool reached[MOST_N + 1][SUMS][MOST_Q + 1];

static int count_all(void **state) {
  (void)state;
  memset(reached, 0, sizeof reached);
  reached[0][ZERO][0] = true;
  for (int n = 0; n < MOST_N; n++)
    for (int s = 0; s < SUMS; s++)
      for (int q = 0; q <= MOST_Q; q++)
        for (int j = -REACH; reached[n][s][q] && j <= REACH; j++)
          if (q + j * j <= MOST_Q && s + j >= 0 && s + j < SUMS)
            reached[n + 1][s + j][q + j * j] = true;
  return 0;
}

/* Printed so finely that one sum and one sum of squares are meant. */
static scwi_shown_number fine(double value) {
  return (scwi_shown_number){value, 11};
}

static void scatters_counted_out(void **state) {
  size_t impossible = 0, possible = 0;
  (void)state;
  for (int n = 2; n <= MOST_N; n++)
    for (int sum = 0; sum < n; sum++)
      for (int q = 0; q <= MOST_Q; q++) {
        double v = q - (double)sum * sum / n;
        if (v < 0) continue;
        double sd = sqrt(v / (n - 1)), sd_n = sqrt(v / n);
        bool wanted = !reached[n][sum + ZERO][q];
        scwi_shown_number mean = fine((double)sum / n);
        bool got = scwi_scatter_impossible(mean, fine(sd), SCWI_SAMPLE_SD,
                                           (size_t)n, 1);
        if (got != wanted) fail_msg("n %d sum %d squares %d", n, sum, q);
        assert_int_equal(scwi_scatter_impossible(mean, fine(sd_n),
                                                 SCWI_POPULATION_SD, (size_t)n,
                                                 1), wanted);
        assert_int_equal(scwi_scatter_impossible(mean, fine(sd / sqrt(n)),
                                                 SCWI_STANDARD_ERROR, (size_t)n,
                                                 1), wanted);
        /* the same around 80, in steps of 0.1 */
        assert_int_equal(
            scwi_scatter_impossible(fine(80 + 0.1 * sum / n), fine(0.1 * sd),
                                    SCWI_SAMPLE_SD, (size_t)n, 0.1),
            wanted);
        impossible += wanted;
        possible += !wanted;
      }
  assert_true(impossible > 5000 && possible > 5000);
}

static void means_by_hand(void **state) {
  (void)state;
  /* four readings of step 0.1: quarters of 0.1 */
  assert_true(scwi_mean_impossible((scwi_shown_number){83.26, 2}, 4, 0.1));
  assert_false(scwi_mean_impossible((scwi_shown_number){83.25, 2}, 4, 0.1));
  /* 83.275 is printed as 83.27 or 83.28 */
  assert_false(scwi_mean_impossible((scwi_shown_number){83.27, 2}, 4, 0.1));
  assert_false(scwi_mean_impossible((scwi_shown_number){83.28, 2}, 4, 0.1));
  assert_true(scwi_mean_impossible((scwi_shown_number){83.29, 2}, 4, 0.1));
  assert_false(scwi_mean_impossible((scwi_shown_number){-83.25, 2}, 4, 0.1));
  /* one decimal hides everything from n = 1 on */
  for (size_t n = 1; n < 20; n++)
    assert_false(scwi_mean_impossible((scwi_shown_number){83.3, 1}, n, 0.1));
  assert_true(scwi_mean_impossible((scwi_shown_number){410, 0}, 3, 25));
  assert_false(scwi_mean_impossible((scwi_shown_number){408, 0}, 3, 25));
}

/* Where looking would take long, nothing is said. */
static void too_large_to_say(void **state) {
  (void)state;
  /* 3 wholes of sum 0 have an even sum of squares: 2 SD^2 here is odd */
  double squares = 99999999, more = 1000000001;
  assert_true(scwi_scatter_impossible(fine(0), fine(sqrt(squares / 2)),
                                      SCWI_SAMPLE_SD, 3, 1));
  assert_false(scwi_scatter_impossible(fine(0), fine(sqrt(more / 2)),
                                       SCWI_SAMPLE_SD, 3, 1));
  /* every sum and every square fits a number printed as coarsely */
  assert_false(scwi_scatter_impossible((scwi_shown_number){0, -6},
                                       (scwi_shown_number){1, -6},
                                       SCWI_SAMPLE_SD, 3, 1));
}

static void cut_off_stands_for(void **state) {
  scw_interval range =
      scwi_shown_range(scwi_shown_cut_off((scwi_shown_number){83.28, 2}));
  (void)state;
  check_absolute(range.low, 83.28, 1e-12);
  check_absolute(range.high, 83.29, 1e-12);
  range = scwi_shown_range(scwi_shown_cut_off((scwi_shown_number){-2.1, 1}));
  check_absolute(range.low, -2.2, 1e-12);
  check_absolute(range.high, -2.1, 1e-12);
}

static double uniform(unsigned *seed) {
  *seed = *seed * 1664525U + 1013904223U;
  return (*seed >> 8) / 16777216.0;
}

static double rounded(double value, int digits) {
  double unit = pow(10, digits);
  return nearbyint(value * unit) / unit;
}

/* Figures of real readings are never impossible, however they were rounded. */
static void real_readings_pass(void **state) {
  static const double steps[] = {0.1, 0.01, 0.5, 1, 10};
  unsigned seed = 7;
  (void)state;
  for (int i = 0; i < 60000 * (int)check_multiplier(); i++) {
    size_t n = 2 + (size_t)(19 * uniform(&seed));
    double step = steps[i % 5], sum = 0, squares = 0;
    double spread = step * pow(10, 2 * uniform(&seed) - 0.5);
    double level = step * floor(900 * uniform(&seed)), x[20];
    for (size_t k = 0; k < n; k++) {
      x[k] = step * nearbyint((level + spread * (uniform(&seed) - 0.5)) / step);
      sum += x[k];
    }
    double mean = sum / (double)n;
    for (size_t k = 0; k < n; k++) squares += (x[k] - mean) * (x[k] - mean);
    int digits = (int)(4 * uniform(&seed));
    scwi_shown_number m = {rounded(mean, digits), digits};
    scwi_shown_number sd = {rounded(sqrt(squares / (double)(n - 1)), digits),
                            digits};
    assert_false(scwi_mean_impossible(m, n, step));
    assert_false(scwi_scatter_impossible(m, sd, SCWI_SAMPLE_SD, n, step));
  }
}

static scwi_shown_number two(double value) {
  return (scwi_shown_number){value, 2};
}

static void changes_follow(void **state) {
  scw_interval range = scwi_change_range(two(84.12), two(86.30));
  (void)state;
  check_absolute(range.low, 2.17, 1e-12);
  check_absolute(range.high, 2.19, 1e-12);
  assert_int_equal(scwi_shown_follows(two(2.18), range), SCWI_FOLLOWS);
  assert_int_equal(scwi_shown_follows(two(2.17), range), SCWI_FOLLOWS);
  assert_int_equal(scwi_shown_follows(two(2.19), range), SCWI_FOLLOWS);
  assert_int_equal(scwi_shown_follows(two(2.22), range), SCWI_DOES_NOT_FOLLOW);
  assert_int_equal(scwi_shown_follows(two(-2.18), range), SCWI_SIGN_REVERSED);
  assert_int_equal(scwi_shown_follows((scwi_shown_number){2.2, 1}, range),
                   SCWI_FOLLOWS);
  /* 2.18 and a bit cut off to 2.1 */
  assert_int_equal(scwi_shown_follows((scwi_shown_number){2.1, 1}, range),
                   SCWI_CUT_OFF);
  assert_int_equal(
      scwi_shown_follows((scwi_shown_number){-2.1, 1},
                         scwi_change_range(two(86.30), two(84.12))),
      SCWI_CUT_OFF);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(scatters_counted_out), cmocka_unit_test(means_by_hand),
      cmocka_unit_test(too_large_to_say), cmocka_unit_test(cut_off_stands_for),
      cmocka_unit_test(real_readings_pass), cmocka_unit_test(changes_follow)};
  return cmocka_run_group_tests(tests, count_all, NULL);
}
