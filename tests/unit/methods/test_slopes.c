/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exact derivatives of expressions: against mpmath at 60 digits over random
 * expressions, closed forms at hard places, and what is said where a slope does
 * not exist. A judge in Python tries other expressions live. */
#include "budget_case.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MOST = 4 };

typedef struct point {
  size_t n;
  double x[MOST], q[MOST], w[MOST], gradient[MOST], hessian[MOST][MOST];
  double value, third;
} point;

static double number_at(const check_table *t, size_t row, const char *kind,
                        size_t i) {
  char column[24];
  snprintf(column, sizeof column, "%s%zu", kind, i);
  return check_table_number(t, row, column);
}

static point read_row(const check_table *t, size_t row) {
  static const char *const curvatures[] = {"h0", "h1", "h2", "h3"};
  point p = {.n = (size_t)check_table_number(t, row, "n"),
             .value = check_table_number(t, row, "value"),
             .third = check_table_number(t, row, "third")};
  for (size_t i = 0; i < p.n; i++) {
    p.x[i] = number_at(t, row, "x", i);
    p.q[i] = number_at(t, row, "q", i);
    p.w[i] = number_at(t, row, "w", i);
    p.gradient[i] = number_at(t, row, "g", i);
    for (size_t j = 0; j <= i; j++)
      p.hessian[i][j] = p.hessian[j][i] = number_at(t, row, curvatures[i], j);
  }
  return p;
}

static double largest(const double *values, size_t n) {
  double most = 0;
  for (size_t i = 0; i < n; i++)
    most = fmax(most, fabs(values[i]));
  return most;
}

/* Slopes that cancel are held to the size of the largest of their kind (and,
 * where curvature cancels altogether, of the slopes). */
static void compare(const scwi_expression *e, const point *p) {
  double x[MOST], q[MOST], w[MOST], value, third;
  double gradient[MOST], hessian[MOST * MOST];
  size_t at[MOST];
  for (size_t k = 0; k < p->n; k++) {
    at[k] = (size_t)(e->input[k][1] - '0');
    x[k] = p->x[at[k]];
    q[k] = p->q[at[k]];
    w[k] = p->w[at[k]];
  }
  assert_int_equal(
      scwi_expression_derivatives(context, e, x, &value, gradient, hessian),
      SCW_OK);
  assert_int_equal(scwi_expression_third(context, e, x, q, w, &third), SCW_OK);
  double steep = largest(p->gradient, MOST);
  double curved = steep + largest(&p->hessian[0][0], MOST * MOST);
  check_relative(value, p->value, 1e-13);
  for (size_t i = 0; i < p->n; i++) {
    check_absolute(gradient[i], p->gradient[at[i]], 1e-13 * steep);
    for (size_t j = 0; j < p->n; j++)
      check_absolute(hessian[i * p->n + j], p->hessian[at[i]][at[j]],
                     2e-13 * curved);
  }
  check_either(third, p->third, 1e-13 * curved, 2e-12);
}

static void mpmath_agrees(void **state) {
  check_table t = check_table_read(REFERENCE_DATA "/budgets/derivatives.csv");
  (void)state;
  assert_int_equal(t.rows, 200);
  for (size_t row = 0; row < t.rows; row++) {
    point p = read_row(&t, row);
    scwi_expression e = parsed(check_table_text(&t, row, "text"));
    assert_int_equal(e.n_inputs, p.n);
    compare(&e, &p);
    scwi_expression_free(&e);
  }
  check_table_free(&t);
}

/* One input: value, slope, curvature, third slope. */
static void check_four(const char *text, double x, const double wanted[4]) {
  scwi_expression e = parsed(text);
  const double one = 1;
  double got[4];
  if (scwi_expression_derivatives(context, &e, &x, &got[0], &got[1], &got[2]) ||
      scwi_expression_third(context, &e, &x, &one, &one, &got[3]))
    fail_msg("%s: %s", text, scw_context_message(context));
  for (int i = 0; i < 4; i++)
    check_relative(got[i], wanted[i], 1e-15);
  scwi_expression_free(&e);
}

static void hard_places_by_closed_form(void **state) {
  (void)state;
  check_four("x ^ 2", 0, (double[]){0, 0, 2, 0});
  check_four("x ^ 3", 0, (double[]){0, 0, 0, 6});
  check_four("x ^ 1", 0, (double[]){0, 1, 0, 0});
  check_four("x ^ 0", 0, (double[]){1, 0, 0, 0});
  check_four("x ^ 3.5", 0, (double[]){0, 0, 0, 0});
  check_four("x ^ 3", -2, (double[]){-8, 12, -12, 6});
  check_four("x ^ -1", -2, (double[]){-0.5, -0.25, -0.25, -0.375});
  check_four("abs(x)", -2, (double[]){2, -1, 0, 0});
  check_four("1 / x", 1e100, (double[]){1e-100, -1e-200, 2e-300, 0});
  check_four("atan(x)", 1e200, (double[]){1.5707963267948966, 0, 0, 0});
  check_four("sqrt(x)", 1e-100, (double[]){1e-50, 5e49, -2.5e149, 3.75e249});
  check_four("log(x)", 4,
             (double[]){1.3862943611198906, 0.25, -0.0625, 0.03125});
}

/* What is said at the first order at which there is no slope. */
static void refused_from(const char *text, double x, int first,
                         const char *words) {
  scwi_expression e = parsed(text);
  const double one = 1;
  for (int order = 1; order < 4; order++) {
    double value, slope, curvature, third;
    scw_status got =
        order == 3
            ? scwi_expression_third(context, &e, &x, &one, &one, &third)
            : scwi_expression_derivatives(context, &e, &x, &value, &slope,
                                          order == 2 ? &curvature : NULL);
    assert_int_equal(got, order < first ? SCW_OK : SCW_NO_FIGURE);
    if (order == first && !strstr(scw_context_message(context), words))
      fail_msg("%s: %s", text, scw_context_message(context));
  }
  scwi_expression_free(&e);
}

static void no_slope_in_words(void **state) {
  (void)state;
  refused_from("sqrt(x)", 0, 1, "a square root has no usable slope at 0");
  refused_from("2 * abs(x)", 0, 1, "abs has no slope at 0");
  refused_from("asin(x)", 1, 1, "asin and acos have no usable slope at 1");
  refused_from("acos(x)", -1, 1, "no usable slope at -1");
  refused_from("x ^ 0.5", 0, 1, "no usable slope where its base is 0");
  refused_from("x ^ 1.5", 0, 2, "no usable slope where its base is 0");
  refused_from("x ^ 2.5", 0, 3, "no usable slope where its base is 0");
  refused_from("1 / x", 1e-200, 1, "too steep to work with");
  refused_from("1 / x", 1e-120, 2, "too steep to work with");
  refused_from("1 / x", 1e-90, 3, "too curved to work with");
}

/* Exactly 0, not nearly, where an input cancels; a slope that does not cancel
 * stays, however small. */
static void what_cancels_is_zero(void **state) {
  const double x[] = {3.7, 1.1, 0.3};
  double value, gradient[3], hessian[9];
  (void)state;
  static const char *const cancels[] = {
      "(a / b) * abs(b) + c",    "(b * a) / (b * c)",
      "log(a * b) - log(b) + c", "(a + b) - (c + b)",
      "exp(a + b) / exp(b) + c", "(a * b + c) / b - c / b + c"};
  for (size_t i = 0; i < sizeof cancels / sizeof *cancels; i++) {
    scwi_expression e = parsed(cancels[i]);
    size_t b = scwi_expression_find(&e, "b");
    assert_int_equal(
        scwi_expression_derivatives(context, &e, x, &value, gradient, hessian),
        SCW_OK);
    assert_true(gradient[b] == 0);
    for (size_t k = 0; k < 3; k++)
      assert_true(k == b || gradient[k] != 0);
    scwi_expression_free(&e);
  }
  scwi_expression e = parsed("a + 1e-25 * b");
  assert_int_equal(
      scwi_expression_derivatives(context, &e, x, &value, gradient, NULL),
      SCW_OK);
  check_relative(gradient[1], 1e-25, 1e-15);
  scwi_expression_free(&e);
}

static void numbers_and_names_alone(void **state) {
  const double x = 3, one = 1;
  double value, gradient = 7, hessian = 7, third = 7;
  scwi_expression number = parsed("2 * 3"), name = parsed("(x)");
  (void)state;
  assert_int_equal(
      scwi_expression_derivatives(context, &number, NULL, &value, NULL, NULL),
      SCW_OK);
  check_relative(value, 6, 0);
  assert_int_equal(scwi_expression_derivatives(context, &name, &x, &value,
                                               &gradient, &hessian),
                   SCW_OK);
  assert_int_equal(
      scwi_expression_third(context, &name, &x, &one, &one, &third), SCW_OK);
  assert_true(value == 3 && gradient == 1 && hessian == 0 && third == 0);
  scwi_expression_free(&number);
  scwi_expression_free(&name);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(mpmath_agrees),
      cmocka_unit_test(hard_places_by_closed_form),
      cmocka_unit_test(no_slope_in_words),
      cmocka_unit_test(what_cancels_is_zero),
      cmocka_unit_test(numbers_and_names_alone)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
