/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Families of claims. R's p.adjust is the live judge elsewhere; here a worked
 * case by hand, and what a missing p does. */
#include "check.h"

#include <math.h>
#include <stdlib.h>

#include "multiplicity.h"

static void bonferroni(void **state) {
  (void)state;
  check_relative(scwi_bonferroni_level(0.95, 1), 0.95, 1e-16);
  check_relative(scwi_bonferroni_level(0.95, 5), 0.99, 1e-15);
  check_relative(scwi_bonferroni_level(0.95, 0), 0.95, 1e-16);
}

static void holm(double *p, size_t k) {
  scw_context *context;
  assert_int_equal(scw_context_new(&context), SCW_OK);
  assert_int_equal(scwi_holm(context, p, k), SCW_OK);
  scw_context_free(context);
}

static void hochberg(double *p, size_t k) {
  scw_context *context;
  assert_int_equal(scw_context_new(&context), SCW_OK);
  assert_int_equal(scwi_benjamini_hochberg(context, p, k), SCW_OK);
  scw_context_free(context);
}

/* 4 x 0.01; 3 x 0.02; then 2 x 0.03 is as large; 1 x 0.04 is held up. */
static void holm_by_hand(void **state) {
  double p[] = {0.04, 0.01, 0.03, 0.02};
  static const double wanted[] = {0.06, 0.04, 0.06, 0.06};
  (void)state;
  holm(p, 4);
  for (size_t i = 0; i < 4; i++)
    check_relative(p[i], wanted[i], 1e-15);
}

static void holm_counts_a_missing_p(void **state) {
  double p[] = {NAN, 0.01, 0.5, 0.01}, none[1];
  (void)state;
  holm(p, 4);
  assert_true(isnan(p[0]));
  check_relative(p[1], 0.04, 1e-15);
  check_relative(p[3], 0.04, 1e-15);
  check_relative(p[2], 1, 1e-15);
  holm(none, 0);
}

/* By rank: 4/1, 4/2, 4/3, 4/4 times p, then no larger than what follows. */
static void hochberg_by_hand(void **state) {
  double p[] = {0.04, 0.005, 0.03, 0.02};
  static const double wanted[] = {0.04, 0.02, 0.04, 0.04};
  (void)state;
  hochberg(p, 4);
  for (size_t i = 0; i < 4; i++)
    check_relative(p[i], wanted[i], 1e-15);
}

/* Ties share; a missing p stays so and counts as the largest; 1 is the most. */
static void hochberg_counts_a_missing_p(void **state) {
  double p[] = {NAN, 0.01, 0.5, 0.01, 0.9}, none[1];
  (void)state;
  hochberg(p, 5);
  assert_true(isnan(p[0]));
  check_relative(p[1], 0.025, 1e-15);
  check_relative(p[3], 0.025, 1e-15);
  check_relative(p[2], 0.5 * 5 / 3, 1e-15);
  check_relative(p[4], 1, 1e-15);
  hochberg(none, 0);
}

/* A million p in even steps i/k: every q is the largest p, and from where
 * (k - i + 1) i is largest on, so is Holm's p. */
static void a_million(void **state) {
  enum { MANY = 1000000 };
  double *p = malloc(MANY * sizeof *p), *q = malloc(MANY * sizeof *q);
  scw_context *context;
  (void)state;
  assert_non_null(p);
  assert_non_null(q);
  for (size_t i = 0; i < MANY; i++)
    p[i * 7919 % MANY] = (double)(i + 1) / MANY * 1e-6;
  assert_int_equal(scw_context_new(&context), SCW_OK);
  assert_int_equal(scwi_adjust_p(context, p, MANY, NULL, q), SCW_OK);
  for (size_t i = 0; i < MANY; i++)
    if (fabs(q[i] - 1e-6) > 1e-20) fail_msg("q[%zu] is %g", i, q[i]);
  assert_int_equal(scwi_adjust_p(context, p, MANY, q, NULL), SCW_OK);
  check_relative(q[(size_t)(MANY - 1) * 7919 % MANY], 500000.0 * 500001.0 * 1e-12,
                 1e-12);
  scw_context_free(context);
  free(p);
  free(q);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(bonferroni),
      cmocka_unit_test(holm_by_hand),
      cmocka_unit_test(holm_counts_a_missing_p),
      cmocka_unit_test(hochberg_by_hand),
      cmocka_unit_test(hochberg_counts_a_missing_p),
      cmocka_unit_test(a_million)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
