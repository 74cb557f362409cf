/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Distribution functions and their quantiles. Judges: mpmath at 40 digits
 * (reference-data/distributions), JCGM 100 Table G.2, closed forms, identities
 * and what must be refused. */
#include "check.h"

#include <float.h>
#include <math.h>
#include <string.h>

#include "distributions.h"
#include "with_context.h"

#define DATA REFERENCE_DATA "/distributions/"
#define CDF_TOLERANCE 4e-13
/* Where both df are 1e4 and more, F by its own conditioning: a last digit of x
 * moves the far tail by sqrt(1400 df) last digits. */
#define STEEP_F_TOLERANCE 1e-11
#define QUANTILE_TOLERANCE 1e-13

static void normal_and_t_tails(void **state) {
  check_table z = check_table_read(DATA "normal.csv");
  check_table t = check_table_read(DATA "t.csv");
  (void)state;
  for (size_t i = 0; i < z.rows; i++) {
    double x = check_table_number(&z, i, "z");
    double upper = check_table_number(&z, i, "upper");
    check_relative(scwi_normal_upper(x), upper, CDF_TOLERANCE);
    check_relative(scwi_normal_cdf(-x), upper, CDF_TOLERANCE);
    check_relative(scwi_normal_cdf(x), 1 - upper, CDF_TOLERANCE);
    check_relative(scwi_t_upper(x, INFINITY), upper, CDF_TOLERANCE);
  }
  for (size_t i = 0; i < t.rows; i++) {
    double x = check_table_number(&t, i, "t");
    double df = check_table_number(&t, i, "df");
    double upper = check_table_number(&t, i, "upper");
    check_relative(scwi_t_upper(x, df), upper, CDF_TOLERANCE);
    check_relative(scwi_t_cdf(-x, df), upper, CDF_TOLERANCE);
    check_relative(scwi_t_cdf(x, df), 1 - upper, CDF_TOLERANCE);
  }
  check_table_free(&z);
  check_table_free(&t);
}

static void chi_square_tails(void **state) {
  check_table rows = check_table_read(DATA "chi_square.csv");
  (void)state;
  for (size_t i = 0; i < rows.rows; i++) {
    double x = check_table_number(&rows, i, "x");
    double df = check_table_number(&rows, i, "df");
    check_relative(scwi_chi2_cdf(x, df), check_table_number(&rows, i, "lower"),
                   CDF_TOLERANCE);
    check_relative(scwi_chi2_upper(x, df),
                   check_table_number(&rows, i, "upper"), CDF_TOLERANCE);
  }
  check_table_free(&rows);
}

static void f_and_beta_tails(void **state) {
  check_table f = check_table_read(DATA "f.csv");
  check_table beta = check_table_read(DATA "beta.csv");
  (void)state;
  for (size_t i = 0; i < f.rows; i++) {
    double x = check_table_number(&f, i, "x");
    double df1 = check_table_number(&f, i, "df1");
    double df2 = check_table_number(&f, i, "df2");
    double tolerance =
        fmin(df1, df2) >= 1e4 ? STEEP_F_TOLERANCE : CDF_TOLERANCE;
    check_relative(scwi_f_cdf(x, df1, df2),
                   check_table_number(&f, i, "lower"), tolerance);
    check_relative(scwi_f_upper(x, df1, df2),
                   check_table_number(&f, i, "upper"), tolerance);
  }
  for (size_t i = 0; i < beta.rows; i++) {
    double x = check_table_number(&beta, i, "x");
    double a = check_table_number(&beta, i, "a");
    double b = check_table_number(&beta, i, "b");
    double tolerance = fmin(a, b) >= 5e3 ? STEEP_F_TOLERANCE : CDF_TOLERANCE;
    check_relative(scwi_beta_cdf(x, a, b),
                   check_table_number(&beta, i, "lower"), tolerance);
    check_relative(scwi_beta_upper(x, a, b),
                   check_table_number(&beta, i, "upper"), tolerance);
  }
  check_table_free(&f);
  check_table_free(&beta);
}

static scw_status quantile(const char *name, double p, double first,
                           double second, double *out) {
  if (!strcmp(name, "normal")) return scwi_normal_quantile(context, p, out);
  if (!strcmp(name, "t")) return scwi_t_quantile(context, p, first, out);
  if (!strcmp(name, "chi_square"))
    return scwi_chi2_quantile(context, p, first, out);
  if (!strcmp(name, "f"))
    return scwi_f_quantile(context, p, first, second, out);
  assert_string_equal(name, "beta");
  return scwi_beta_quantile(context, p, first, second, out);
}

static void quantiles(void **state) {
  check_table rows = check_table_read(DATA "quantiles.csv");
  (void)state;
  for (size_t i = 0; i < rows.rows; i++) {
    double got, p = check_table_number(&rows, i, "p");
    double first = check_table_number(&rows, i, "first");
    double second = check_table_number(&rows, i, "second");
    double wanted = check_table_number(&rows, i, "quantile");
    const char *name = check_table_text(&rows, i, "distribution");
    assert_int_equal(quantile(name, p, first, second, &got), SCW_OK);
    check_relative(got, wanted, QUANTILE_TOLERANCE);
    if (!strcmp(name, "f")) { /* upper(q; a, b) = 1 / lower(q; b, a) */
      assert_int_equal(scwi_f_upper_quantile(context, p, second, first, &got),
                       SCW_OK);
      check_relative(got, 1 / wanted, QUANTILE_TOLERANCE);
    }
  }
  check_table_free(&rows);
}

/* The published column is printed to two decimals. One cell is a known misprint:
 * 35 degrees of freedom at 0.90 is 1.69, printed 1.70. */
static void gum_table_g2(void **state) {
  check_table rows = check_table_read(DATA "gum_table_g2.csv");
  size_t rounded = 0;
  (void)state;
  for (size_t i = 0; i < rows.rows; i++) {
    double t, df = check_table_number(&rows, i, "df");
    double p = check_table_number(&rows, i, "p");
    assert_int_equal(scwi_t_quantile(context, 0.5 + 0.5 * p, df, &t), SCW_OK);
    check_relative(t, check_table_number(&rows, i, "exact"), 1e-13);
    double sigma = check_table_number(&rows, i, "exact_sigma");
    rounded += fabs(sigma - check_table_number(&rows, i, "published")) < 0.00501;
  }
  assert_int_equal(rounded, rows.rows - 1);
  check_table_free(&rows);
}

/* t with 1 and 2, chi-square with 2, F with 2 in the numerator. */
static void closed_forms(void **state) {
  const double pi = acos(-1);
  (void)state;
  for (double p = 1e-290; p < 0.4; p = p * 7.3 + p * p) {
    double got;
    assert_int_equal(scwi_t_quantile(context, p, 1, &got), SCW_OK);
    check_relative(got, -1 / tan(pi * p), 1e-13);
    assert_int_equal(scwi_t_quantile(context, p, 2, &got), SCW_OK);
    check_relative(got, -(1 - 2 * p) / sqrt(2 * p * (1 - p)), 1e-13);
    assert_int_equal(scwi_chi2_quantile(context, p, 2, &got), SCW_OK);
    check_relative(got, -2 * log1p(-p), 1e-13);
    assert_int_equal(scwi_chi2_upper_quantile(context, p, 2, &got), SCW_OK);
    check_relative(got, -2 * log(p), 1e-13);
    assert_int_equal(scwi_f_quantile(context, p, 2, 9.5, &got), SCW_OK);
    check_relative(got, 4.75 * expm1(-log1p(-p) / 4.75), 1e-13);
  }
}

/* Upper quantiles invert the upper tail, at degrees of freedom from 0.5 to
 * 1e6 and through both tails. */
static void upper_quantiles_invert(void **state) {
  (void)state;
  for (double df = 0.5; df < 1e6; df *= 3.7)
    for (double q = 1e-60; q < 0.999; q = q * 41 + q * q) {
      double x;
      assert_int_equal(scwi_chi2_upper_quantile(context, q, df, &x), SCW_OK);
      /* a last digit of x moves the tail by up to 17 sqrt(df) of its own */
      check_relative(scwi_chi2_upper(x, df), q, 1e-14 * (40 + sqrt(df)));
      assert_int_equal(scwi_f_upper_quantile(context, q, 6.5, df, &x), SCW_OK);
      check_relative(scwi_f_upper(x, 6.5, df), q, 1e-12);
    }
}

static double log_between(unsigned long long *random, double low, double high) {
  *random ^= *random << 13;
  *random ^= *random >> 7;
  *random ^= *random << 17;
  return low * pow(high / low, (double)(*random >> 11) * 0x1p-53);
}

/* Wherever the quantile is a number that can be held, it is found. */
static void found_over_the_whole_range(void **state) {
  unsigned long long random = 88172645463325252ULL;
  (void)state;
  for (unsigned i = 0; i < 4000 * check_multiplier(); i++) {
    double p = log_between(&random, 1e-300, i % 2 ? 0.9 : 1e-3), x;
    double a = log_between(&random, 2.1, 1e6);
    double b = log_between(&random, 2.1, 1e6);
    /* a last digit of x moves a tail by up to 37 sqrt(df) of its own */
    double tolerance = 1e-12 + 1e-14 * sqrt(fmin(a, b));
    assert_int_equal(scwi_t_quantile(context, p, a, &x), SCW_OK);
    check_relative(scwi_t_cdf(x, a), p, 1e-12);
    assert_int_equal(scwi_chi2_quantile(context, p, a, &x), SCW_OK);
    check_relative(scwi_chi2_cdf(x, a), p, 1e-12 + 1e-14 * sqrt(a));
    assert_int_equal(scwi_chi2_upper_quantile(context, p, a, &x), SCW_OK);
    check_relative(scwi_chi2_upper(x, a), p, 1e-12 + 1e-14 * sqrt(a));
    assert_int_equal(scwi_f_quantile(context, p, a, b, &x), SCW_OK);
    check_relative(scwi_f_cdf(x, a, b), p, tolerance);
    assert_int_equal(scwi_f_upper_quantile(context, p, a, b, &x), SCW_OK);
    check_relative(scwi_f_upper(x, a, b), p, tolerance);
  }
}

static void near_one_half(void **state) {
  double got;
  (void)state;
  assert_int_equal(scwi_t_quantile(context, 0.5, 4.5, &got), SCW_OK);
  assert_true(got == 0);
  assert_int_equal(scwi_normal_quantile(context, 0.5, &got), SCW_OK);
  assert_true(got == 0);
  assert_int_equal(scwi_t_quantile(context, 0.5 + DBL_EPSILON, 1, &got),
                   SCW_OK);
  check_relative(got, DBL_EPSILON * acos(-1), 1e-14);
}

static void what_is_refused(void **state) {
  static const double bad_p[] = {0, 1, -0.5, 2, 1e-301, NAN, INFINITY};
  static const double bad_df[] = {0.49, 0, -3, NAN, -INFINITY};
  double got = 7;
  (void)state;
  for (size_t i = 0; i < sizeof bad_p / sizeof *bad_p; i++) {
    assert_int_equal(scwi_normal_quantile(context, bad_p[i], &got),
                     SCW_BAD_ARGUMENT);
    assert_int_equal(scwi_t_quantile(context, bad_p[i], 3, &got),
                     SCW_BAD_ARGUMENT);
    assert_int_equal(scwi_chi2_quantile(context, bad_p[i], 3, &got),
                     SCW_BAD_ARGUMENT);
    assert_int_equal(scwi_f_upper_quantile(context, bad_p[i], 3, 4, &got),
                     SCW_BAD_ARGUMENT);
    assert_int_equal(scwi_beta_quantile(context, bad_p[i], 3, 4, &got),
                     SCW_BAD_ARGUMENT);
    assert_true(got == 0);
    assert_non_null(strstr(scw_context_message(context), "probability"));
  }
  for (size_t i = 0; i < sizeof bad_df / sizeof *bad_df; i++) {
    assert_int_equal(scwi_t_quantile(context, 0.2, bad_df[i], &got),
                     SCW_BAD_ARGUMENT);
    assert_int_equal(scwi_f_quantile(context, 0.2, 4, bad_df[i], &got),
                     SCW_BAD_ARGUMENT);
    assert_non_null(strstr(scw_context_message(context), "freedom"));
    assert_true(isnan(scwi_t_cdf(1, bad_df[i])));
    assert_true(isnan(scwi_chi2_cdf(1, bad_df[i])));
    assert_true(isnan(scwi_f_upper(1, bad_df[i], 5)));
    assert_true(isnan(scwi_beta_cdf(0.5, bad_df[i] / 2, 5)));
  }
}

/* A quantile no double can hold is said to be one. */
static void out_of_range_of_numbers(void **state) {
  double got;
  (void)state;
  assert_int_equal(scwi_chi2_quantile(context, 1e-300, 0.5, &got),
                   SCW_NOT_REACHED);
  assert_int_equal(scwi_t_quantile(context, 1e-300, 0.5, &got),
                   SCW_NOT_REACHED);
  assert_true(got == 0);
}

static void ends_of_the_line(void **state) {
  (void)state;
  assert_true(scwi_t_cdf(INFINITY, 3) == 1 && scwi_t_upper(INFINITY, 3) == 0);
  assert_true(scwi_chi2_cdf(-1, 3) == 0 && scwi_chi2_upper(0, 3) == 1);
  assert_true(scwi_chi2_cdf(INFINITY, 3) == 1);
  assert_true(scwi_f_cdf(INFINITY, 3, 4) == 1 && scwi_f_cdf(-2, 3, 4) == 0);
  assert_true(scwi_beta_cdf(0, 3, 4) == 0 && scwi_beta_upper(1, 3, 4) == 0);
  assert_true(isnan(scwi_t_cdf(NAN, 3)) && isnan(scwi_beta_cdf(NAN, 3, 4)));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(normal_and_t_tails),
      cmocka_unit_test(chi_square_tails),
      cmocka_unit_test(f_and_beta_tails),
      cmocka_unit_test(quantiles),
      cmocka_unit_test(gum_table_g2),
      cmocka_unit_test(closed_forms),
      cmocka_unit_test(upper_quantiles_invert),
      cmocka_unit_test(found_over_the_whole_range),
      cmocka_unit_test(near_one_half),
      cmocka_unit_test(what_is_refused),
      cmocka_unit_test(out_of_range_of_numbers),
      cmocka_unit_test(ends_of_the_line),
  };
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
