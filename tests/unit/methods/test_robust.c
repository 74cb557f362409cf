/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Algorithm A: a published example, and that the result is the fixed point it
 * claims to be. SciPy's process compares many more in judge_one_set.py. */
#include "check.h"

#include <math.h>

#include "one_set.h"

static void copper_in_flour(void **state) {
  one_set set = one_set_from_file("one-set/chem.csv", "reading");
  scw_summary s = one_set_summary(one_set_sample(&set));
  (void)state;
  check_relative(s.robust_mean.value, 3.205565922731105, 5e-15);
  check_relative(s.robust_sd.value, 0.6741501000281046, 5e-15);
  one_set_free(&set);
}

/* One more round, written out, moves nothing. */
static void another_round_moves_nothing(void **state) {
  unsigned long long random = 11;
  (void)state;
  for (unsigned c = 0; c < 300; c++) {
    size_t n = 3 + one_set_random(&random) % 28;
    int64_t ticks[30];
    for (size_t i = 0; i < n; i++) {
      double wild = one_set_random(&random) % 5 == 0 ? 40 : 4;
      ticks[i] = 874 + (int64_t)(wild * one_set_normal(&random));
    }
    one_set set = one_set_from_ticks(ticks, n, 1);
    scw_summary s = one_set_summary(one_set_sample(&set));
    if (s.robust_sd.state == SCW_PRESENT) {
      double m = s.robust_mean.value, limit = 1.5 * s.robust_sd.value;
      double drawn[30], mean = 0, squares = 0;
      for (size_t i = 0; i < n; i++) {
        drawn[i] = fmin(fmax(set.x[i], m - limit), m + limit);
        mean += drawn[i] / (double)n;
      }
      for (size_t i = 0; i < n; i++)
        squares += pow(drawn[i] - mean, 2);
      check_relative(mean, m, 1e-14);
      check_relative(1.134 * sqrt(squares / (double)(n - 1)), s.robust_sd.value,
                     2e-13);
    } else {
      assert_true(s.mad.value == 0);
    }
    one_set_free(&set);
  }
}

static void far_readings_cost_no_digits(void **state) {
  int64_t ticks[] = {29, 31, 34, 34, 37, 37, 28, 25, 24, 24, 27, 60};
  one_set set = one_set_from_ticks(ticks, 12, 1);
  scw_summary near = one_set_summary(one_set_sample(&set));
  (void)state;
  set.ticks[11] = 1000000000000000000;
  set.x[11] = 1e17;
  scw_summary far = one_set_summary(one_set_sample(&set));
  /* 6.0 and 1e17 are both drawn in to the same limit */
  check_relative(far.robust_mean.value, near.robust_mean.value, 5e-15);
  check_relative(far.robust_sd.value, near.robust_sd.value, 5e-14);
  one_set_free(&set);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(copper_in_flour),
      cmocka_unit_test(another_round_moves_nothing),
      cmocka_unit_test(far_readings_cost_no_digits),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
