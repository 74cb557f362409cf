/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Type 7 by its definition on small sets worked by hand; the median distance
 * against sorting the distances. R compares many more in judge_one_set.R. */
#include "check.h"

#include <float.h>
#include <math.h>
#include <stdlib.h>

#include "one_set.h"
#include "quantiles.h"

static int ascending(const void *left, const void *right) {
  double a = *(const double *)left, b = *(const double *)right;
  return (a > b) - (a < b);
}

static void type_7_by_hand(void **state) {
  /* h = (n-1) p: of 10, 20, 40, 80 the quartiles lie at 0.75, 1.5, 2.25 */
  const char *const texts[] = {"40", "10", "80", "20"};
  one_set set = one_set_from_texts(texts, 4);
  (void)state;
  for (int doubles = 0; doubles < 2; doubles++) {
    scw_summary s =
        one_set_summary(doubles ? one_set_doubles(&set) : one_set_sample(&set));
    assert_true(s.q1.value == 17.5 && s.median.value == 30);
    assert_true(s.q3.value == 50);
    assert_true(s.mad.value == 15); /* distances 10, 20, 50, 10 */
    check_relative(s.mad_sd.value, 15 / 0.6744897501960817, DBL_EPSILON);
    assert_true(s.smallest.value == 10 && s.largest.value == 80);
  }
  one_set_free(&set);
}

static void quartiles_are_the_nearest_doubles(void **state) {
  const char *const texts[] = {"87.4", "87.5", "87.7"};
  one_set set = one_set_from_texts(texts, 3);
  scw_summary s = one_set_summary(one_set_sample(&set));
  (void)state;
  assert_true(s.q1.value == 87.45 && s.median.value == 87.5);
  assert_true(s.q3.value == 87.6 && s.mad.value == 0.1);
  one_set_free(&set);
}

static void no_overflow_between_far_readings(void **state) {
  const double x[] = {-1.5e308, 1.5e308};
  scw_summary s = one_set_summary((scwi_sample){.n = 2, .x = x});
  (void)state;
  assert_true(s.median.value == 0);
  check_relative(s.q1.value, -7.5e307, DBL_EPSILON);
  check_relative(s.mad.value, 1.5e308, DBL_EPSILON);
}

static void middle_distance_is_the_median_of_distances(void **state) {
  unsigned long long random = 3;
  (void)state;
  for (unsigned s = 0; s < 2000; s++) {
    double a[12], distance[12];
    size_t n = 1 + one_set_random(&random) % 12;
    for (size_t i = 0; i < n; i++)
      a[i] = (double)(one_set_random(&random) % (s % 9 + 1));
    qsort(a, n, sizeof *a, ascending);
    double middle = scwi_middle(a, n);
    for (size_t i = 0; i < n; i++)
      distance[i] = fabs(a[i] - middle);
    qsort(distance, n, sizeof *distance, ascending);
    assert_true(scwi_middle_distance(a, n, middle) ==
                (distance[(n - 1) / 2] + distance[n / 2]) / 2);
  }
}

static void half_of_the_readings_equal(void **state) {
  const char *const texts[] = {"5", "5", "5", "5", "9", "12"};
  one_set set = one_set_from_texts(texts, 6);
  scw_summary s = one_set_summary(one_set_sample(&set));
  (void)state;
  assert_int_equal(s.mad.state, SCW_PRESENT);
  assert_true(s.mad.value == 0);
  assert_int_equal(s.mad_sd.state, SCW_MAD_ZERO);
  assert_int_equal(s.robust_mean.state, SCW_MAD_ZERO);
  assert_int_equal(s.robust_sd.state, SCW_MAD_ZERO);
  one_set_free(&set);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(type_7_by_hand),
      cmocka_unit_test(quartiles_are_the_nearest_doubles),
      cmocka_unit_test(no_overflow_between_far_readings),
      cmocka_unit_test(middle_distance_is_the_median_of_distances),
      cmocka_unit_test(half_of_the_readings_equal),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
