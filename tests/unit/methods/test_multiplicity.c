/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Families of claims. R's p.adjust is the live judge elsewhere; here a worked
 * case by hand, and what a missing p does. */
#include "check.h"

#include <math.h>

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

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(bonferroni),
                                     cmocka_unit_test(holm_by_hand),
                                     cmocka_unit_test(holm_counts_a_missing_p)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
