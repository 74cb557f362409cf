/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The studentised range and the largest of correlated t. Judges: quadruple
 * precision (reference-data/several), the tables of Pearson and Hartley and of
 * Dunnett, and identities with t, normal and independent statistics. */
#include "check.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "distributions.h"
#include "max_t.h"
#include "studentised_range.h"
#include "with_context.h"

#define DATA REFERENCE_DATA "/several/"
#define ABSOLUTE 1e-11 /* promised: 1e-10; what interpolation leaves */
#define RELATIVE 1e-11

static double df_of(const check_table *rows, size_t i) {
  return strcmp(check_table_text(rows, i, "df"), "inf")
             ? check_table_number(rows, i, "df")
             : INFINITY;
}

static scwi_studentised_range *range_of(size_t groups) {
  static scwi_studentised_range range;
  assert_int_equal(scwi_studentised_range_of(context, groups, &range), SCW_OK);
  return &range;
}

static double upper(scwi_studentised *of, double x, double df) {
  double p;
  assert_int_equal(scwi_studentised_upper(context, of, x, df, &p), SCW_OK);
  return p;
}

static double quantile(scwi_studentised *of, double p, double df) {
  double x;
  assert_int_equal(scwi_studentised_quantile_upper(context, of, p, df, &x),
                   SCW_OK);
  return x;
}

static void range_by_quadruple_precision(void **state) {
  check_table rows = check_table_read(DATA "studentised_range.csv");
  (void)state;
  for (size_t i = 0; i < rows.rows; i++) {
    scwi_studentised_range *range =
        range_of((size_t)check_table_number(&rows, i, "groups"));
    double p = upper(&range->of, check_table_number(&rows, i, "q"),
                     df_of(&rows, i));
    /* tails of 1e-20 and below keep ten digits */
    check_either(p, check_table_number(&rows, i, "upper"), 1e-30, RELATIVE);
    check_absolute(p, check_table_number(&rows, i, "upper"), ABSOLUTE);
  }
  check_table_free(&rows);
}

/* "0.5x3 0.9": three of 0.5 and one of 0.9. */
static scwi_max_t *max_t_of(const char *text) {
  static scwi_max_t max_t;
  double lambda[SCWI_MAX_T_SIZE];
  size_t n = 0;
  while (*text) {
    size_t length = strcspn(text, "x "), many = 1;
    char number[32] = {0};
    memcpy(number, text, length);
    if (text[length] == 'x') {
      many = (size_t)atoi(text + length + 1);
      length += strcspn(text + length, " ");
    }
    while (many-- > 0) lambda[n++] = check_strtod(number);
    text += length + strspn(text + length, " ");
  }
  assert_int_equal(scwi_max_t_of(context, lambda, n, &max_t), SCW_OK);
  return &max_t;
}

static void largest_t_by_quadruple_precision(void **state) {
  check_table rows = check_table_read(DATA "max_t.csv");
  (void)state;
  for (size_t i = 0; i < rows.rows; i++) {
    scwi_max_t *max_t = max_t_of(check_table_text(&rows, i, "lambda"));
    double p = upper(&max_t->of, check_table_number(&rows, i, "x"),
                     df_of(&rows, i));
    check_relative(p, check_table_number(&rows, i, "upper"), RELATIVE);
    check_absolute(p, check_table_number(&rows, i, "upper"), ABSOLUTE);
  }
  check_table_free(&rows);
}

/* A control far less sure than its products, and a large t: what is left lies
 * far out in the common factor. Judge: quadruple precision, as the table's. */
static void far_out(void **state) {
  static const char *const sets[] = {"0.99x3", "0.999x3", "0.9999x3"};
  static const double some[] = {1.5, 4, 20, 61}, xs[] = {10, 30, 100};
  (void)state;
  check_relative(upper(&max_t_of("0.999x3")->of, 30, 4), 7.9517111202624881974e-06, 1e-10);
  for (size_t s = 0; s < 3; s++)
    for (size_t d = 0; d < 4; d++)
      for (size_t x = 0; x < 3; x++) {
        double p = upper(&max_t_of(sets[s])->of, xs[x], some[d]);
        double one = 2 * scwi_t_upper(xs[x], some[d]);
        assert_true(p >= one * (1 - 1e-9) && p <= 3 * one * (1 + 1e-9));
      }
}

/* Half a unit of the last printed digit. */
static double half_unit(const char *text) {
  const char *point = strchr(text, '.');
  return point ? 0.5 * pow(10, -(double)strlen(point + 1)) : 0.5;
}

static void published_range(void **state) {
  check_table rows = check_table_read(DATA "studentised_range_table.csv");
  size_t published = 0;
  (void)state;
  for (size_t i = 0; i < rows.rows; i++) {
    const char *printed = check_table_text(&rows, i, "published");
    scwi_studentised_range *range =
        range_of((size_t)check_table_number(&rows, i, "k"));
    double q = quantile(&range->of, check_table_number(&rows, i, "alpha"),
                        df_of(&rows, i));
    /* of the points carried over as exact those of 2 and 3 df are off by up to
     * 1.6e-6 in probability, as quadruple precision shows (SOURCE.md) */
    double exact = upper(&range->of, check_table_number(&rows, i, "exact"),
                         df_of(&rows, i));
    if (df_of(&rows, i) >= 4)
      check_absolute(exact, check_table_number(&rows, i, "alpha"), 1e-9);
    if (!*printed) continue;
    published++;
    check_absolute(q, check_strtod(printed), half_unit(printed) * (1 + 1e-9));
  }
  assert_int_equal(published, 64);
  check_table_free(&rows);
}

static void published_dunnett(void **state) {
  check_table rows = check_table_read(DATA "dunnett_table.csv");
  size_t published = 0;
  (void)state;
  for (size_t i = 0; i < rows.rows; i++) {
    const char *printed = check_table_text(&rows, i, "published");
    char set[64];
    if (strcmp(check_table_text(&rows, i, "sides"), "two")) continue;
    check_snprintf(set, sizeof set, "0.70710678118654752x%s",
                   check_table_text(&rows, i, "p"));
    double x = quantile(&max_t_of(set)->of,
                        check_table_number(&rows, i, "alpha"), df_of(&rows, i));
    check_absolute(x, check_table_number(&rows, i, "exact"), 2e-8);
    if (!*printed) continue;
    published++;
    check_absolute(x, check_strtod(printed), half_unit(printed) * (1 + 1e-9));
  }
  assert_true(published >= 40);
  check_table_free(&rows);
}

static const double dfs[] = {1, 1.3, 2.7, 9, 61.5, 1e5, INFINITY};
enum { DFS = sizeof dfs / sizeof *dfs };

static double two_sided(double t, double df) {
  return isinf(df) ? 2 * scwi_normal_upper(t) : 2 * scwi_t_upper(t, df);
}

/* Two groups, one comparison, and comparisons that are all the same one. */
static void one_question_is_student(void **state) {
  (void)state;
  for (size_t d = 0; d < DFS; d++)
    for (double t = 0.1; t < 9; t *= 1.7) {
      double wanted = two_sided(t, dfs[d]);
      check_relative(upper(&range_of(2)->of, t * sqrt(2), dfs[d]), wanted,
                     RELATIVE);
      check_relative(upper(&max_t_of("0.3")->of, t, dfs[d]), wanted, RELATIVE);
      check_relative(upper(&max_t_of("1x4")->of, t, dfs[d]), wanted, RELATIVE);
    }
}

/* Without correlation and with a known SD each passes on its own. */
static void independent(void **state) {
  (void)state;
  for (double x = 0.5; x < 7; x += 0.7) {
    double one = 2 * scwi_normal_upper(x);
    check_relative(upper(&max_t_of("0x12")->of, x, INFINITY),
                   -expm1(12 * log1p(-one)), 1e-12);
  }
}

/* More questions, or less alike, pass more often, and never more often than
 * all of them one by one (Bonferroni). */
static void ordered(void **state) {
  (void)state;
  for (size_t d = 0; d < DFS; d++) {
    double alike = upper(&max_t_of("0.9x5")->of, 2.5, dfs[d]);
    double less = upper(&max_t_of("0.5x5")->of, 2.5, dfs[d]);
    double more = upper(&max_t_of("0.5x6")->of, 2.5, dfs[d]);
    assert_true(two_sided(2.5, dfs[d]) < alike && alike < less && less < more);
    assert_true(more < 6 * two_sided(2.5, dfs[d]));
    double before = 0;
    for (size_t k = 2; k <= 100; k += 14) {
      double p = upper(&range_of(k)->of, 3.7, dfs[d]);
      assert_true(p > before && p < 1);
      before = p;
    }
  }
}

static void quantiles_invert(void **state) {
  static const double ps[] = {0.9, 0.5, 0.05, 1e-3, 1e-8};
  (void)state;
  for (size_t d = 0; d < DFS; d++)
    for (size_t i = 0; i < sizeof ps / sizeof *ps; i++) {
      scwi_studentised_range *range = range_of(7);
      check_relative(upper(&range->of, quantile(&range->of, ps[i], dfs[d]),
                           dfs[d]), ps[i], RELATIVE);
      scwi_max_t *max_t = max_t_of("0.2 0.7x3 0.95");
      check_relative(upper(&max_t->of, quantile(&max_t->of, ps[i], dfs[d]),
                           dfs[d]), ps[i], RELATIVE);
    }
}

static void ends(void **state) {
  double p;
  (void)state;
  assert_true(upper(&range_of(3)->of, 0, 4) == 1);
  assert_true(upper(&range_of(3)->of, 1e300, 4) == 0 ||
              upper(&range_of(3)->of, 1e300, 4) < 1e-300);
  assert_true(upper(&max_t_of("0.5x3")->of, 60, INFINITY) == 0);
  assert_int_equal(scwi_studentised_upper(context, &range_of(3)->of, -1, 4, &p),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(
      scwi_studentised_upper(context, &range_of(3)->of, NAN, 4, &p),
      SCW_BAD_ARGUMENT);
  assert_int_equal(
      scwi_studentised_upper(context, &range_of(3)->of, 1, 0.9, &p),
      SCW_BAD_ARGUMENT);
  assert_int_equal(
      scwi_studentised_quantile_upper(context, &range_of(3)->of, 0, 4, &p),
      SCW_BAD_ARGUMENT);
  assert_int_equal(
      scwi_studentised_quantile_upper(context, &range_of(3)->of, 1, 4, &p),
      SCW_BAD_ARGUMENT);
}

static void sizes(void **state) {
  scwi_studentised_range range;
  scwi_max_t max_t;
  static double lambda[SCWI_MAX_T_SIZE + 1];
  (void)state;
  assert_int_equal(scwi_studentised_range_of(context, 1, &range),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_studentised_range_of(context, 101, &range),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_max_t_of(context, lambda, 0, &max_t), SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_max_t_of(context, lambda, 101, &max_t),
                   SCW_BAD_ARGUMENT);
  lambda[0] = 1.01;
  assert_int_equal(scwi_max_t_of(context, lambda, 2, &max_t), SCW_BAD_ARGUMENT);
  lambda[0] = NAN;
  assert_int_equal(scwi_max_t_of(context, lambda, 2, &max_t), SCW_BAD_ARGUMENT);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(range_by_quadruple_precision),
      cmocka_unit_test(largest_t_by_quadruple_precision),
      cmocka_unit_test(far_out),
      cmocka_unit_test(published_range),
      cmocka_unit_test(published_dunnett),
      cmocka_unit_test(one_question_is_student),
      cmocka_unit_test(independent),
      cmocka_unit_test(ordered),
      cmocka_unit_test(quantiles_invert),
      cmocka_unit_test(ends),
      cmocka_unit_test(sizes),
  };
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
