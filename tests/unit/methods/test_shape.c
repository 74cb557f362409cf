/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shapiro-Wilk and Anderson-Darling against R's figures, the four pieces of
 * the p joining, and extreme sets. */
#include "check.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "one_set.h"

static double figure_of(const scw_shape *shape, const char *name) {
  if (!strcmp(name, "shapiro_w")) return shape->shapiro_w.value;
  if (!strcmp(name, "shapiro_p")) return shape->shapiro_p.value;
  if (!strcmp(name, "anderson_darling")) return shape->anderson_darling.value;
  if (!strcmp(name, "anderson_darling_p"))
    return shape->anderson_darling_p.value;
  return NAN;
}

static void sets_judged_by_r(void **state) {
  check_table table = check_table_read(REFERENCE_DATA "/one-set/figures.csv");
  unsigned compared = 0;
  (void)state;
  for (size_t row = 0; row < table.rows; row++) {
    const char *label = check_table_text(&table, row, "set");
    const char *figure = check_table_text(&table, row, "figure");
    if (isnan(figure_of(&(scw_shape){0}, figure))) continue;
    char name[128];
    bool strd = strchr("MLN", label[0]) != NULL;
    snprintf(name, sizeof name, "%s/%s.csv", strd ? "strd" : "one-set", label);
    one_set set = one_set_from_file(name, "reading");
    scw_shape shape = one_set_summary(one_set_sample(&set)).shape;
    check_relative(figure_of(&shape, figure),
                   check_table_number(&table, row, "value"), 2e-11);
    compared++;
    one_set_free(&set);
  }
  assert_int_equal(compared, 20);
  check_table_free(&table);
}

static scw_shape shape_of(const double *x, size_t n) {
  return one_set_summary((scwi_sample){.n = n, .x = x}).shape;
}

static void where_the_tests_begin_and_end(void **state) {
  static double x[5001];
  unsigned long long random = 53;
  (void)state;
  for (size_t i = 0; i < 5001; i++)
    x[i] = one_set_normal(&random);
  assert_int_equal(shape_of(x, 1).shapiro_w.state, SCW_ONE_READING);
  assert_int_equal(shape_of(x, 2).shapiro_w.state, SCW_TWO_READINGS);
  assert_int_equal(shape_of(x, 3).shapiro_w.state, SCW_PRESENT);
  assert_int_equal(shape_of(x, 7).anderson_darling_p.state, SCW_TOO_FEW);
  assert_int_equal(shape_of(x, 8).anderson_darling_p.state, SCW_PRESENT);
  assert_int_equal(shape_of(x, 5000).shapiro_p.state, SCW_PRESENT);
  assert_int_equal(shape_of(x, 5001).shapiro_p.state, SCW_TOO_MANY);
  assert_int_equal(shape_of(x, 5001).anderson_darling.state, SCW_TOO_MANY);
  const double same[9] = {0};
  assert_int_equal(shape_of(same, 9).shapiro_w.state, SCW_NO_SCATTER);
  assert_int_equal(shape_of(same, 9).anderson_darling.state, SCW_NO_SCATTER);
}

/* One reading so far out that its normal tail is no double any more. */
static void a_tail_beyond_doubles(void **state) {
  static double x[4000];
  unsigned long long random = 59;
  (void)state;
  for (size_t i = 0; i < 4000; i++)
    x[i] = one_set_normal(&random);
  x[17] = 1e9; /* (n-1)/sqrt(n) = 63 SD away */
  scw_shape shape = shape_of(x, 4000);
  assert_int_equal(shape.anderson_darling.state, SCW_PRESENT);
  /* As good as two values: A2 would be infinite with a tail of zero. */
  assert_true(shape.anderson_darling.value > 1000);
  check_relative(shape.anderson_darling_p.value, exp(1.2937 - 57.09 + 1.86),
                 1e-12);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(sets_judged_by_r),
      cmocka_unit_test(where_the_tests_begin_and_end),
      cmocka_unit_test(a_tail_beyond_doubles),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
