/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two results compared: the variance is that of the law of propagation on
 * twice the inputs, what both sides share standing there once. */
#include "budget_case.h"

#include <math.h>
#include <string.h>

#include "two_sides.h"

enum { N = 3 };

static const double u[N] = {0.3, 2, 0.05};
static const double correlation[N * N] = {1,   0.4, 0, /* a with b */
                                          0.4, 1,   0, 0, 0, 1};

/* The same by one budget: the inputs of the second side have names of their
 * own, but for what is shared. */
static double by_one_budget(const double *a, const double *b,
                            const bool *shared, bool correlated) {
  double slopes[2 * N], us[2 * N], r[4 * N * N] = {0};
  for (size_t i = 0; i < N; i++) {
    slopes[i] = shared[i] ? a[i] + b[i] : a[i];
    slopes[N + i] = shared[i] ? 0 : b[i];
    us[i] = us[N + i] = u[i];
  }
  for (size_t i = 0; i < 2 * N; i++)
    for (size_t j = 0; j < 2 * N; j++)
      if (i / N == j / N)
        r[i * 2 * N + j] =
            correlated ? correlation[i % N * N + j % N] : (double)(i == j);
  return scwi_result_covariance(slopes, slopes, us, r, 2 * N);
}

static void as_one_budget(void **state) {
  static const double slopes[][2][N] = {
      {{-1, -2, 5}, {1, 2.2, -5}}, {{0.5, 1e-8, 3}, {2, 4, 1e8}},
      {{-1e9, 0, 1}, {1e9, 0, 1}}};
  static const bool sharings[][N] = {{false, false, false},
                                     {true, true, false},
                                     {false, false, true},
                                     {true, true, true}};
  (void)state;
  for (size_t s = 0; s < 3; s++)
    for (size_t h = 0; h < 4; h++)
      for (int correlated = 0; correlated < 2; correlated++) {
        const double *a = slopes[s][0], *b = slopes[s][1];
        double got = scwi_two_sides_variance(
            a, b, sharings[h], u, correlated ? correlation : NULL, N);
        check_relative(got, by_one_budget(a, b, sharings[h], correlated),
                       1e-14);
      }
}

/* Only what cancels, cancels: to nothing, not to rounding. */
static void what_cancels(void **state) {
  static const double a[N] = {-0.1, -3, 7}, b[N] = {0.1, 3, -7};
  static const bool all[N] = {true, true, true}, none[N] = {false};
  (void)state;
  assert_true(scwi_two_sides_variance(a, b, all, u, NULL, N) == 0);
  check_relative(scwi_two_sides_variance(a, b, none, u, NULL, N),
                 2 * (0.01 * 0.09 + 9 * 4 + 49 * 0.0025), 1e-15);
  assert_true(scwi_two_sides_cancels(0.1 + 0.2, -0.3));
  assert_true(scwi_two_sides_cancels(0, 0));
  assert_false(scwi_two_sides_cancels(1, -1.000001));
  assert_false(scwi_two_sides_cancels(1e-300, 1e-300));
}

/* An input correlated with one that is not shared is not shared either. */
static void sharing_goes_by_groups(void **state) {
  bool some[N] = {true, false, true}, both[N] = {true, true, false},
       alone[N] = {true, false, true};
  (void)state;
  assert_int_equal(scwi_two_sides_shared(context, correlation, N, some),
                   SCW_OK);
  assert_false(some[0]);
  assert_false(some[1]);
  assert_true(some[2]);
  assert_int_equal(scwi_two_sides_shared(context, correlation, N, both),
                   SCW_OK);
  assert_true(both[0] && both[1] && !both[2]);
  assert_int_equal(scwi_two_sides_shared(context, NULL, N, alone), SCW_OK);
  assert_true(alone[0] && !alone[1] && alone[2]);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(as_one_budget), cmocka_unit_test(what_cancels),
      cmocka_unit_test(sharing_goes_by_groups)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
