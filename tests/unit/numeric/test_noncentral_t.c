/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Noncentral t. Judges: mpmath (reference-data/distributions), a published-layout
 * table at 16 digits, tolerance factors by Odeh and Owen, identities. */
#include "check.h"

#include <math.h>
#include <string.h>

#include "distributions.h"
#include "noncentral_t.h"
#include "with_context.h"

#define DATA REFERENCE_DATA "/distributions/"
#define RELATIVE 2e-13 /* promised: 1e-9 */
#define ABSOLUTE 5e-14 /* promised: 1e-12 */

static void both_tails_and_signs(void **state) {
  check_table rows = check_table_read(DATA "noncentral_t.csv");
  (void)state;
  for (size_t i = 0; i < rows.rows; i++) {
    double df = check_table_number(&rows, i, "df");
    double ncp = check_table_number(&rows, i, "ncp");
    double t = check_table_number(&rows, i, "t");
    double lower = check_table_number(&rows, i, "lower");
    double upper = check_table_number(&rows, i, "upper");
    check_relative(scwi_noncentral_t_cdf(t, df, ncp), lower, RELATIVE);
    check_relative(scwi_noncentral_t_upper(t, df, ncp), upper, RELATIVE);
    check_absolute(scwi_noncentral_t_cdf(t, df, ncp), lower, ABSOLUTE);
    check_absolute(scwi_noncentral_t_upper(t, df, ncp), upper, ABSOLUTE);
    check_relative(scwi_noncentral_t_upper(-t, df, -ncp), lower, RELATIVE);
    check_relative(scwi_noncentral_t_cdf(-t, df, -ncp), upper, RELATIVE);
  }
  check_table_free(&rows);
}

static void carried_table(void **state) {
  check_table rows = check_table_read(REFERENCE_DATA "/noncentral-t/cdf.csv");
  (void)state;
  for (size_t i = 0; i < rows.rows; i++) {
    double got = scwi_noncentral_t_cdf(check_table_number(&rows, i, "t"),
                                       check_table_number(&rows, i, "df"),
                                       check_table_number(&rows, i, "ncp"));
    check_absolute(got, check_table_number(&rows, i, "p"), 4e-15);
  }
  check_table_free(&rows);
}

/* The one-sided tolerance factor is a noncentral t quantile over sqrt(n). */
static void one_sided_tolerance_factors(void **state) {
  check_table rows =
      check_table_read(REFERENCE_DATA "/noncentral-t/one_sided_factors.csv");
  size_t published = 0;
  (void)state;
  for (size_t i = 0; i < rows.rows; i++) {
    double n = check_table_number(&rows, i, "n"), z, t;
    double content = check_table_number(&rows, i, "content");
    double level = check_table_number(&rows, i, "level");
    assert_int_equal(scwi_normal_quantile(context, content, &z), SCW_OK);
    assert_int_equal(scwi_noncentral_t_quantile(context, level, n - 1,
                                                z * sqrt(n), &t), SCW_OK);
    check_absolute(t / sqrt(n), check_table_number(&rows, i, "exact"), 6e-10);
    const char *printed = check_table_text(&rows, i, "published");
    if (!*printed) continue;
    check_absolute(t / sqrt(n), check_table_number(&rows, i, "published"),
                   0.000501);
    published++;
  }
  assert_true(published > 10);
  check_table_free(&rows);
}

static void quantiles_find_the_point_back(void **state) {
  check_table rows = check_table_read(DATA "noncentral_t.csv");
  (void)state;
  for (size_t i = 0; i < rows.rows; i++) {
    double df = check_table_number(&rows, i, "df");
    double ncp = check_table_number(&rows, i, "ncp"), got;
    double t = check_table_number(&rows, i, "t");
    double lower = check_table_number(&rows, i, "lower");
    if (lower > 0.5) continue; /* p near 1 has lost the digits of t */
    assert_int_equal(scwi_noncentral_t_quantile(context, lower, df, ncp, &got),
                     SCW_OK);
    check_either(got, t, 1e-12, 1e-12);
    if (lower < 1e-3) continue; /* so has 1 - lower here */
    assert_int_equal(
        scwi_noncentral_t_quantile(context, 1 - lower, df, -ncp, &got), SCW_OK);
    check_either(got, -t, 1e-12, 1e-12);
  }
  check_table_free(&rows);
}

static void identities(void **state) {
  (void)state;
  for (double df = 1; df < 1e6; df *= 4.3) {
    check_relative(scwi_noncentral_t_upper(0, df, 2.385),
                   scwi_normal_cdf(2.385), 1e-15);
    check_relative(scwi_noncentral_t_cdf(1.7, df, 0), scwi_t_cdf(1.7, df),
                   1e-15);
    for (double ncp = -39; ncp < 40; ncp += 4.7)
      for (double t = -60; t < 60; t += 7.1) {
        double lower = scwi_noncentral_t_cdf(t, df, ncp);
        check_absolute(lower + scwi_noncentral_t_upper(t, df, ncp), 1,
                       ABSOLUTE);
        assert_true(lower <= scwi_noncentral_t_cdf(t + 0.3, df, ncp) + ABSOLUTE);
      }
  }
}

static void what_is_refused(void **state) {
  double got = 7;
  (void)state;
  assert_true(isnan(scwi_noncentral_t_cdf(NAN, 3, 1)));
  assert_true(isnan(scwi_noncentral_t_cdf(1, 0.9, 1)));
  assert_true(isnan(scwi_noncentral_t_cdf(1, INFINITY, 1)));
  assert_true(isnan(scwi_noncentral_t_upper(1, 3, 40.1)));
  assert_true(isnan(scwi_noncentral_t_upper(1, 3, NAN)));
  assert_true(scwi_noncentral_t_cdf(INFINITY, 3, 1) == 1);
  assert_true(scwi_noncentral_t_cdf(-INFINITY, 3, 1) == 0);
  assert_true(scwi_noncentral_t_upper(1e300, 50, 1) == 0);
  assert_int_equal(scwi_noncentral_t_quantile(context, 0.5, 3, 41, &got),
                   SCW_BAD_ARGUMENT);
  assert_true(got == 0);
  assert_int_equal(scwi_noncentral_t_quantile(context, 1.5, 3, 4, &got),
                   SCW_BAD_ARGUMENT);
  assert_non_null(strstr(scw_context_message(context), "probability"));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(both_tails_and_signs),
      cmocka_unit_test(carried_table),
      cmocka_unit_test(one_sided_tolerance_factors),
      cmocka_unit_test(quantiles_find_the_point_back),
      cmocka_unit_test(identities),
      cmocka_unit_test(what_is_refused),
  };
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
