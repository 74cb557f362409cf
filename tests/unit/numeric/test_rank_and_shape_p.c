/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Kendall's exact p and Shapiro-Wilk. Judges: whole-number counts (Python),
 * counting by hand, R's figures for certified data sets; R and SciPy judge
 * generated cases live (judge_numeric.R, judge_numeric.py). */
#include "check.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "kendall_exact.h"
#include "shapiro_wilk.h"
#include "with_context.h"

static double kendall(size_t n, long s) {
  double p;
  assert_int_equal(scwi_kendall_exact_p(context, n, s, &p), SCW_OK);
  return p;
}

static void kendall_judged_by_whole_numbers(void **state) {
  check_table rows = check_table_read(REFERENCE_DATA
                                      "/distributions/kendall.csv");
  (void)state;
  for (size_t i = 0; i < rows.rows; i++) {
    size_t n = (size_t)check_table_number(&rows, i, "n");
    long s = (long)check_table_number(&rows, i, "s");
    double wanted = check_table_number(&rows, i, "p");
    check_relative(kendall(n, s), wanted, 3e-15);
    check_relative(kendall(n, -s), wanted, 3e-15);
  }
  check_table_free(&rows);
}

static void kendall_by_hand(void **state) {
  double p = 7;
  (void)state;
  assert_true(kendall(2, 1) == 1 && kendall(2, 0) == 1);
  check_relative(kendall(3, 3), 1.0 / 3, 1e-15); /* 2 of 6 orders */
  check_relative(kendall(4, 4), 8.0 / 24, 1e-15); /* 1 + 3 each way */
  assert_int_equal(scwi_kendall_exact_p(context, 1, 0, &p), SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_kendall_exact_p(context, 51, 0, &p), SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_kendall_exact_p(context, 4, 7, &p), SCW_BAD_ARGUMENT);
  assert_true(p == 0);
}

static int by_size(const void *a, const void *b) {
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

static void shapiro_of_file(const char *name, double w_wanted,
                            double p_wanted) {
  check_table rows = check_table_read(name);
  double *x = calloc(rows.rows, sizeof *x), w, p;
  assert_non_null(x);
  for (size_t i = 0; i < rows.rows; i++)
    x[i] = check_table_number(&rows, i, "reading");
  qsort(x, rows.rows, sizeof *x, by_size);
  assert_int_equal(scwi_shapiro_wilk(context, x, rows.rows, &w, &p), SCW_OK);
  check_relative(w, w_wanted, 1e-13);
  check_relative(p, p_wanted, 2e-11);
  free(x);
  check_table_free(&rows);
}

/* R 4.2.2, shapiro.test, 15 digits. */
static void shapiro_of_certified_sets(void **state) {
  (void)state;
  shapiro_of_file(REFERENCE_DATA "/strd/Michelso.csv", 0.98807432991318,
                  0.513703926146695);
  shapiro_of_file(REFERENCE_DATA "/strd/Lew.csv", 0.903835053731414,
                  4.44053122011967e-10);
  shapiro_of_file(REFERENCE_DATA "/strd/Mavro.csv", 0.900797394254873,
                  0.000510565553966775);
}

/* Four and five readings have one outer weight of their own, six have two. R
 * 4.2.2 again. */
static void shapiro_of_few(void **state) {
  static const double four[] = {1, 2, 4, 4.5}, five[] = {2, 3, 5, 9, 10};
  double w, p;
  (void)state;
  assert_int_equal(scwi_shapiro_wilk(context, four, 4, &w, &p), SCW_OK);
  check_relative(w, 0.9156860673427650, 1e-14);
  check_relative(p, 0.5130400866377002, 1e-13);
  assert_int_equal(scwi_shapiro_wilk(context, five, 5, &w, &p), SCW_OK);
  check_relative(w, 0.9009632693347276, 1e-14);
  check_relative(p, 0.4152324298655027, 1e-13);
}

/* Shift and scale change nothing, however far. */
static void shapiro_shift_and_scale(void **state) {
  static const double scales[] = {1e-12, 1, 3e7, 1e12, 1e300};
  double x[] = {0, 1, 3, 4, 4, 7, 12, 13, 20}, y[9], w, p, w0, p0;
  (void)state;
  assert_int_equal(scwi_shapiro_wilk(context, x, 9, &w0, &p0), SCW_OK);
  for (size_t k = 0; k < sizeof scales / sizeof *scales; k++) {
    for (size_t i = 0; i < 9; i++) y[i] = (x[i] + 4096) * scales[k];
    assert_int_equal(scwi_shapiro_wilk(context, y, 9, &w, &p), SCW_OK);
    check_relative(w, w0, 4e-13);
    check_relative(p, p0, 4e-12);
  }
}

static void shapiro_ends(void **state) {
  double equal[] = {2, 2, 2, 2}, three[] = {0, 0, 1}, even[] = {1, 2, 3};
  double wrong[] = {1, 3, 2, 4}, bad[] = {1, 2, NAN}, far[12] = {0}, w, p;
  (void)state;
  assert_int_equal(scwi_shapiro_wilk(context, equal, 4, &w, &p),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_shapiro_wilk(context, wrong, 4, &w, &p),
                   SCW_BAD_ARGUMENT);
  assert_non_null(strstr(scw_context_message(context), "number 3"));
  assert_int_equal(scwi_shapiro_wilk(context, bad, 3, &w, &p),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_shapiro_wilk(context, even, 2, &w, &p),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_shapiro_wilk(context, three, 3, &w, &p), SCW_OK);
  check_relative(w, 0.75, 1e-15); /* the least W of three readings */
  check_absolute(p, 0, 1e-8);
  assert_int_equal(scwi_shapiro_wilk(context, even, 3, &w, &p), SCW_OK);
  check_relative(w, 1, 1e-15);
  check_relative(p, 1, 2e-8);
  for (size_t n = 4; n <= 11; n++) { /* all but one equal: the least W */
    double low[11] = {0};
    low[n - 1] = 1;
    assert_int_equal(scwi_shapiro_wilk(context, low, n, &w, &p), SCW_OK);
    assert_true(w > 0.3 && p > 0 && p < 0.0013);
  }
  far[11] = 1;
  assert_int_equal(scwi_shapiro_wilk(context, far, 12, &w, &p), SCW_OK);
  check_relative(w, 0.326927536275284, 1e-13); /* R 4.2.2 */
  check_relative(p, 1.2072845591109e-06, 1e-12);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(kendall_judged_by_whole_numbers),
      cmocka_unit_test(kendall_by_hand),
      cmocka_unit_test(shapiro_of_certified_sets),
      cmocka_unit_test(shapiro_of_few),
      cmocka_unit_test(shapiro_shift_and_scale),
      cmocka_unit_test(shapiro_ends),
  };
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
