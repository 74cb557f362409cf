/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tolerance factors and the limits of stand-out tests. Judges: mpmath, the
 * published tables of ISO 16269-6, ISO 5725-2 and Grubbs & Beck 1972, the
 * e-Handbook's example of Rosner's procedure. */
#include "check.h"

#include <math.h>
#include <string.h>

#include "distributions.h"
#include "outlier_limits.h"
#include "tolerance_factor.h"
#include "with_context.h"

#define DATA REFERENCE_DATA "/distributions/"

static double factor(double n, double content, double level) {
  double k;
  assert_int_equal(
      scwi_tolerance_factor(context, (size_t)n, content, level, &k), SCW_OK);
  return k;
}

static void tolerance_judged_by_mpmath(void **state) {
  check_table rows = check_table_read(DATA "tolerance.csv");
  (void)state;
  for (size_t i = 0; i < rows.rows; i++)
    check_relative(factor(check_table_number(&rows, i, "n"),
                          check_table_number(&rows, i, "content"),
                          check_table_number(&rows, i, "level")),
                   check_table_number(&rows, i, "k"), 1e-11);
  check_table_free(&rows);
}

static void published_tolerance_factors(void **state) {
  check_table rows = check_table_read(REFERENCE_DATA
                                      "/noncentral-t/two_sided_factors.csv");
  size_t published = 0;
  (void)state;
  for (size_t i = 0; i < rows.rows; i++) {
    double k = factor(check_table_number(&rows, i, "n"),
                      check_table_number(&rows, i, "content"),
                      check_table_number(&rows, i, "level"));
    check_absolute(k, check_table_number(&rows, i, "exact"), 6e-9);
    const char *printed = check_table_text(&rows, i, "published");
    if (!*printed) continue;
    size_t decimals = strlen(strchr(printed, '.') + 1);
    check_absolute(k, check_table_number(&rows, i, "published"),
                   0.501 * pow(10, -(double)decimals));
    published++;
  }
  assert_int_equal(published, 2);
  check_absolute(factor(2, 0.95, 0.95), 36.519, 0.0005); /* same table */
  check_table_free(&rows);
}

/* Many readings: the factor falls to the normal point. */
static void tolerance_limit_and_order(void **state) {
  double z, last = INFINITY;
  (void)state;
  assert_int_equal(scwi_normal_quantile(context, 0.975, &z), SCW_OK);
  for (double n = 2; n < 1e5; n = ceil(n * 1.3)) {
    double k = factor(n, 0.95, 0.95);
    assert_true(k < last && k > z);
    assert_true(factor(n, 0.96, 0.95) > k && factor(n, 0.95, 0.96) > k);
    last = k;
  }
  check_relative(factor(100000000, 0.95, 0.95), z, 2e-4);
}

static void limits_judged_by_mpmath(void **state) {
  check_table rows = check_table_read(DATA "limits.csv");
  (void)state;
  for (size_t row = 0; row < rows.rows; row++) {
    double got, alpha = check_table_number(&rows, row, "alpha");
    double wanted = check_table_number(&rows, row, "limit");
    size_t n = (size_t)check_table_number(&rows, row, "n");
    size_t i = (size_t)check_table_number(&rows, row, "i");
    assert_int_equal(scwi_esd_limit(context, n, i, alpha, &got), SCW_OK);
    check_relative(got, wanted, 2e-14);
    if (i > 1) continue;
    assert_int_equal(scwi_grubbs_limit(context, n, alpha, &got), SCW_OK);
    check_relative(got, wanted, 2e-14);
  }
  check_table_free(&rows);
}

/* The 1972 tables were printed to three decimals and their own last digits are
 * off: by one below n = 60, by up to 2.5 from there on, where the formula is an
 * upper bound that simulation confirms to be that much too high. */
static void published_grubbs_limits(void **state) {
  check_table rows =
      check_table_read(REFERENCE_DATA "/stand-out/grubbs_limits.csv");
  (void)state;
  for (size_t i = 0; i < rows.rows; i++) {
    double got, n = check_table_number(&rows, i, "n");
    assert_int_equal(
        scwi_grubbs_limit(context, (size_t)n,
                          check_table_number(&rows, i, "alpha_two_sided"),
                          &got), SCW_OK);
    check_absolute(got, check_table_number(&rows, i, "published"),
                   n >= 60 ? 0.0026 : 0.00151);
    check_relative(got, check_table_number(&rows, i, "exact"), 5e-12);
  }
  check_table_free(&rows);
}

static void grubbs_p_inverts_its_limit(void **state) {
  unsigned compared = 0;
  (void)state;
  for (size_t n = 3; n <= 100000; n = n * 3 / 2 + 1)
    for (double alpha = 1e-9; alpha < 0.5; alpha *= 7) {
      double limit, p;
      assert_int_equal(scwi_grubbs_limit(context, n, alpha, &limit), SCW_OK);
      /* near the largest possible distance its last digit decides about p */
      double room = 1 - limit * sqrt((double)n) / ((double)n - 1);
      if (room < 1e-6) continue;
      assert_int_equal(scwi_grubbs_p(context, n, limit, &p), SCW_OK);
      check_relative(p, alpha, 1e-13 + 1e-15 / room);
      compared++;
    }
  assert_true(compared > 200);
}

static void ends_of_grubbs(void **state) {
  double p = 7;
  (void)state;
  assert_int_equal(scwi_grubbs_p(context, 9, 8.0 / 3, &p), SCW_OK);
  assert_true(p == 0);
  assert_int_equal(scwi_grubbs_p(context, 9, 1.0, &p), SCW_OK);
  assert_true(p == 1);
  assert_int_equal(scwi_grubbs_p(context, 9, 2.7, &p), SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_grubbs_p(context, 9, NAN, &p), SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_grubbs_p(context, 2, 0.5, &p), SCW_BAD_ARGUMENT);
}

static void what_is_refused(void **state) {
  double got = 7;
  (void)state;
  assert_int_equal(scwi_esd_limit(context, 2, 1, 0.05, &got),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_esd_limit(context, 9, 8, 0.05, &got),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_esd_limit(context, 9, 0, 0.05, &got),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_grubbs_limit(context, 9, 0, &got), SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_tolerance_factor(context, 1, 0.9, 0.9, &got),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_tolerance_factor(context, 5, 1, 0.9, &got),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_tolerance_factor(context, 5, 0.9, NAN, &got),
                   SCW_BAD_ARGUMENT);
  assert_non_null(strstr(scw_context_message(context), "level"));
  assert_true(got == 0);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(tolerance_judged_by_mpmath),
      cmocka_unit_test(published_tolerance_factors),
      cmocka_unit_test(tolerance_limit_and_order),
      cmocka_unit_test(limits_judged_by_mpmath),
      cmocka_unit_test(published_grubbs_limits),
      cmocka_unit_test(grubbs_p_inverts_its_limit),
      cmocka_unit_test(ends_of_grubbs),
      cmocka_unit_test(what_is_refused),
  };
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
