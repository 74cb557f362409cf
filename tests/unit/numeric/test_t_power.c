/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Power of the t test and its inverses. Judges: mpmath, the carried tables of
 * power and sample size, noncentral t tails, the normal limit. */
#include "check.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

#include "distributions.h"
#include "noncentral_t.h"
#include "t_power.h"
#include "with_context.h"

static double power_of(double ncp, double df, double alpha) {
  double power;
  assert_int_equal(scwi_t_power(context, ncp, df, alpha, &power), SCW_OK);
  return power;
}

static void judged_by_mpmath(void **state) {
  check_table rows = check_table_read(REFERENCE_DATA
                                      "/distributions/power.csv");
  (void)state;
  for (size_t i = 0; i < rows.rows; i++) {
    double df = check_table_number(&rows, i, "df");
    double ncp = check_table_number(&rows, i, "ncp");
    double alpha = check_table_number(&rows, i, "alpha");
    double wanted = check_table_number(&rows, i, "power");
    check_relative(power_of(ncp, df, alpha), wanted, 1e-12);
    check_relative(power_of(-ncp, df, alpha), wanted, 1e-12);
  }
  check_table_free(&rows);
}

static bool one_sample(const check_table *rows, size_t i) {
  return !strcmp(check_table_text(rows, i, "design"), "one_sample");
}

static void carried_power_table(void **state) {
  check_table rows = check_table_read(REFERENCE_DATA "/planning/power.csv");
  (void)state;
  for (size_t i = 0; i < rows.rows; i++) {
    double n = check_table_number(&rows, i, "n");
    double effect = check_table_number(&rows, i, "effect");
    bool one = one_sample(&rows, i);
    double got = power_of(effect * sqrt(one ? n : n / 2),
                          one ? n - 1 : 2 * n - 2,
                          check_table_number(&rows, i, "alpha"));
    check_absolute(got, check_table_number(&rows, i, "power"), 6e-14);
  }
  check_table_free(&rows);
}

static void carried_sample_sizes(void **state) {
  check_table rows =
      check_table_read(REFERENCE_DATA "/planning/sample_size.csv");
  (void)state;
  for (size_t i = 0; i < rows.rows; i++) {
    size_t n;
    scwi_t_design design =
        one_sample(&rows, i) ? SCWI_ONE_SAMPLE : SCWI_TWO_SAMPLE;
    assert_int_equal(
        scwi_t_power_n(context, design, check_table_number(&rows, i, "effect"),
                       check_table_number(&rows, i, "alpha"),
                       check_table_number(&rows, i, "power"), 100000, &n),
        SCW_OK);
    assert_int_equal(n, (size_t)check_table_number(&rows, i, "n"));
  }
  check_table_free(&rows);
}

/* Both tails of noncentral t, and the case without effect. */
static void identities(void **state) {
  (void)state;
  for (double df = 1; df < 1e6; df *= 5.3)
    for (double alpha = 1e-7; alpha < 0.9; alpha *= 19) {
      double t;
      assert_int_equal(scwi_t_quantile(context, alpha / 2, df, &t), SCW_OK);
      check_relative(power_of(0, df, alpha), alpha, 1e-14);
      for (double ncp = 0.3; ncp < 40; ncp *= 2.1)
        check_relative(power_of(ncp, df, alpha),
                       scwi_noncentral_t_upper(-t, df, ncp) +
                           scwi_noncentral_t_cdf(t, df, ncp),
                       2e-13);
    }
}

static void normal_limit_and_far_out(void **state) {
  (void)state;
  check_relative(power_of(2.8, INFINITY, 0.05),
                 scwi_normal_cdf(2.8 - 1.959963984540054) +
                     scwi_normal_cdf(-2.8 - 1.959963984540054), 1e-14);
  check_relative(power_of(2.8, 1e13, 0.05), power_of(2.8, INFINITY, 0.05),
                 1e-12);
  assert_true(power_of(1e6, 5, 0.05) == 1);
  assert_true(power_of(1e300, 1e6, 1e-200) == 1);
  /* the two ways of computing meet at a noncentrality of 100 */
  check_relative(power_of(100.0000001, 1, 1e-3), power_of(100, 1, 1e-3), 1e-8);
}

static void ncp_inverts_power(void **state) {
  (void)state;
  for (double df = 1; df < 1e6; df *= 5.3)
    for (double alpha = 1e-6; alpha < 0.4; alpha *= 11)
      for (double power = alpha + 0.01; power < 0.9999; power += 0.123) {
        double ncp;
        assert_int_equal(scwi_t_power_ncp(context, power, df, alpha, &ncp),
                         SCW_OK);
        check_relative(power_of(ncp, df, alpha), power, 2e-13);
      }
  double ncp;
  assert_int_equal(scwi_t_power_ncp(context, 0.8, INFINITY, 0.05, &ncp),
                   SCW_OK);
  check_relative(power_of(ncp, INFINITY, 0.05), 0.8, 1e-13);
}

/* The n found is enough and one less is not, over a fine grid of effects. */
static void n_is_the_smallest(void **state) {
  (void)state;
  for (unsigned i = 0; i < 400; i++) {
    double effect = 0.013 * pow(1.02, i), alpha = i % 3 ? 0.05 : 0.001;
    scwi_t_design design = i % 2 ? SCWI_ONE_SAMPLE : SCWI_TWO_SAMPLE;
    double target = 0.6 + 0.399 * (i % 7) / 6;
    size_t n;
    assert_int_equal(scwi_t_power_n(context, design, i % 5 ? effect : -effect,
                                    alpha, target, 10000000, &n), SCW_OK);
    for (int less = 0; less < 2 && n - (size_t)less >= 2; less++) {
      double count = (double)n - less;
      double power = design == SCWI_ONE_SAMPLE
                         ? power_of(effect * sqrt(count), count - 1, alpha)
                         : power_of(effect * sqrt(count / 2), 2 * count - 2,
                                    alpha);
      assert_true(less ? power < target : power >= target);
    }
  }
}

static void plans_without_an_answer(void **state) {
  size_t n = 7;
  (void)state;
  assert_int_equal(scwi_t_power_n(context, SCWI_ONE_SAMPLE, 0, 0.05, 0.8, 1000,
                                  &n), SCW_NO_FIGURE);
  assert_int_equal(n, 0);
  assert_int_equal(scwi_t_power_n(context, SCWI_TWO_SAMPLE, 0.01, 0.05, 0.8,
                                  1000, &n), SCW_NO_FIGURE);
  assert_non_null(strstr(scw_context_message(context), "1000"));
  assert_int_equal(scwi_t_power_n(context, SCWI_TWO_SAMPLE, 50, 0.05, 0.8,
                                  1000, &n), SCW_OK);
  assert_int_equal(n, 2);
  /* the limit itself may be the answer */
  assert_int_equal(scwi_t_power_n(context, SCWI_ONE_SAMPLE, 0.2, 0.05, 0.8,
                                  199, &n), SCW_OK);
  assert_int_equal(n, 199);
  assert_int_equal(scwi_t_power_n(context, SCWI_ONE_SAMPLE, 0.2, 0.05, 0.8,
                                  198, &n), SCW_NO_FIGURE);
}

static void what_is_refused(void **state) {
  double got = 7;
  size_t n;
  (void)state;
  assert_int_equal(scwi_t_power(context, NAN, 3, 0.05, &got),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_t_power(context, 1, 0.5, 0.05, &got),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_t_power(context, 1, 3, 1, &got), SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_t_power_ncp(context, 0.04, 3, 0.05, &got),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_t_power_ncp(context, 1, 3, 0.05, &got),
                   SCW_BAD_ARGUMENT);
  assert_true(got == 0);
  assert_int_equal(scwi_t_power_n(context, SCWI_ONE_SAMPLE, INFINITY, 0.05,
                                  0.8, 100, &n), SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_t_power_n(context, SCWI_ONE_SAMPLE, 1, 0.05, 1, 100,
                                  &n), SCW_BAD_ARGUMENT);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(judged_by_mpmath),
      cmocka_unit_test(carried_power_table),
      cmocka_unit_test(carried_sample_sizes),
      cmocka_unit_test(identities),
      cmocka_unit_test(normal_limit_and_far_out),
      cmocka_unit_test(ncp_inverts_power),
      cmocka_unit_test(n_is_the_smallest),
      cmocka_unit_test(plans_without_an_answer),
      cmocka_unit_test(what_is_refused),
  };
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
