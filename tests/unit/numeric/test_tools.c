/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Roots, integrals and the random stream. Judges: closed forms, and the
 * published first outputs of MT19937. */
#include "check.h"

#include <math.h>

#include "quadrature.h"
#include "random.h"
#include "roots.h"
#include "with_context.h"

static double cubic(double x, void *shift) {
  return x * x * x - *(const double *)shift;
}

static double bell(double x, void *scale) {
  return exp(-0.5 * x * x) * *(const double *)scale;
}

static double wall(double x, void *unused) {
  (void)unused;
  return 1 / x;
}

static void roots_by_closed_form(void **state) {
  (void)state;
  for (double target = 1e-12; target < 1e12; target *= 37.3) {
    double got;
    assert_int_equal(scwi_root(context, cubic, &target, 0, 1e5, 1e-15, &got),
                     SCW_OK);
    check_relative(got, cbrt(target), 2e-15);
  }
  double zero = 0, got = 7;
  assert_int_equal(scwi_root(context, cubic, &zero, 0, 3, 1e-12, &got),
                   SCW_OK);
  assert_true(got == 0); /* an end may be the root */
}

static void roots_that_are_refused(void **state) {
  double target = 8, got = 7;
  (void)state;
  assert_int_equal(scwi_root(context, cubic, &target, 3, 5, 1e-12, &got),
                   SCW_BAD_ARGUMENT);
  assert_true(got == 0);
  assert_int_equal(scwi_root(context, cubic, &target, 5, 1, 1e-12, &got),
                   SCW_BAD_ARGUMENT);
  target = NAN;
  assert_int_equal(scwi_root(context, cubic, &target, 1, 5, 1e-12, &got),
                   SCW_BAD_ARGUMENT);
}

static void integrals_by_closed_form(void **state) {
  double got, scale = 0.398942280401432678;
  (void)state;
  for (double end = 0.1; end < 40; end *= 1.7) {
    assert_int_equal(scwi_integral(context, bell, &scale, -end, 0.3 * end, 0,
                                   1e-12, &got), SCW_OK);
    check_relative(got, 0.5 * (erf(end * sqrt(0.5)) +
                               erf(0.3 * end * sqrt(0.5))), 2e-12);
  }
  assert_int_equal(scwi_integral(context, bell, &scale, 2, 2, 0, 1e-9, &got),
                   SCW_OK);
  assert_true(got == 0);
}

static void integrals_that_are_refused(void **state) {
  double got = 7, scale = 1;
  (void)state;
  assert_int_equal(scwi_integral(context, bell, &scale, 0, INFINITY, 0, 1e-9,
                                 &got), SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_integral(context, wall, NULL, -1e-3, 1, 0, 1e-9, &got),
                   SCW_NOT_REACHED);
  scale = NAN;
  assert_int_equal(scwi_integral(context, bell, &scale, 0, 1, 0, 1e-9, &got),
                   SCW_NOT_REACHED);
  assert_true(got == 0);
}

static scwi_random *stream_of(unsigned long long seed) {
  scwi_random *random;
  assert_int_equal(scwi_random_new(context, seed, &random), SCW_OK);
  return random;
}

/* Known outputs of the generator seeded with 5489: 3499211612, 581869302,
 * 3890346734, 3586334585, 545404204 (Matsumoto & Nishimura's own code; also the
 * default stream of C++11, whose 10000th output the standard prints:
 * 4123659995). */
static void published_outputs(void **state) {
  static const size_t first[] = {3499211612U, 581869302U, 3890346734U,
                                 3586334585U, 545404204U};
  scwi_random *random = stream_of(5489);
  size_t got = 0;
  (void)state;
  for (size_t i = 0; i < 10000; i++) {
    got = scwi_random_below(random, 4294967296U);
    if (i < 5) assert_true(got == first[i]);
  }
  assert_true(got == 4123659995U);
  scwi_random_free(random);
}

static void seeds_and_ends(void **state) {
  scwi_random *a = stream_of(11), *b = stream_of(11);
  scwi_random *c = stream_of(11 + (1ULL << 32));
  unsigned apart = 0;
  (void)state;
  for (int i = 0; i < 100; i++) {
    size_t value = scwi_random_below(a, 1000000007);
    assert_true(value == scwi_random_below(b, 1000000007));
    apart += value != scwi_random_below(c, 1000000007);
    assert_true(scwi_random_below(a, 1) == 0);
  }
  assert_true(apart > 95); /* the upper half of a seed counts */
  scwi_random_free(a);
  scwi_random_free(b);
  scwi_random_free(c);
  scwi_random_free(NULL);
}

/* Frequencies by chi-square at 1e-9, for limits that a plain remainder would
 * favour: 3 * 2^30 would give its lower third twice as often. */
static void every_number_alike(void **state) {
  static const size_t limits[] = {3, 10, 3221225472U, 6917529027641081856U};
  (void)state;
  for (size_t k = 0; k < sizeof limits / sizeof *limits; k++) {
    enum { CELLS = 3, DRAWS = 60000 };
    scwi_random *random = stream_of(20 + k);
    double seen[CELLS] = {0}, statistic = 0;
    for (int i = 0; i < DRAWS; i++) {
      size_t value = scwi_random_below(random, limits[k]);
      assert_true(value < limits[k]);
      if (limits[k] == 10 && value == 9) { i--; continue; }
      size_t cell = limits[k] <= 10 ? value % CELLS
                                    : value / (limits[k] / CELLS);
      seen[cell < CELLS ? cell : CELLS - 1]++;
    }
    for (size_t c = 0; c < CELLS; c++)
      statistic += (seen[c] - DRAWS / 3.0) * (seen[c] - DRAWS / 3.0) /
                   (DRAWS / 3.0);
    assert_true(statistic < 41.4); /* chi-square, 2 df, 1e-9 */
    scwi_random_free(random);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(roots_by_closed_form),
      cmocka_unit_test(roots_that_are_refused),
      cmocka_unit_test(integrals_by_closed_form),
      cmocka_unit_test(integrals_that_are_refused),
      cmocka_unit_test(published_outputs),
      cmocka_unit_test(seeds_and_ends),
      cmocka_unit_test(every_number_alike),
  };
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
