/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Least squares, tridiagonal form and the search for a minimum, by identities. */
#include "with_context.h"

#include <math.h>
#include <string.h>

#include "dense.h"
#include "minimum.h"

enum { N = 23 };

/* Numbers without a pattern, -1 to 1. */
static double noise(size_t i) {
  double wide = sin(78.233 * (double)(i + 1)) * 43758.5453;
  return 2 * (wide - floor(wide)) - 1;
}

/* A polynomial's coefficients come back, residuals are orthogonal to the
 * columns, and the covariance is the inverse of X'X. */
static void least_squares(void **state) {
  static const double wanted[4] = {3, -0.5, 0.25, 2};
  (void)state;
  double x[N * 4], y[N], residual[N];
  scwi_least_squares fit;
  for (size_t i = 0; i < N; i++) {
    double t = (double)i / N - 0.4, power = 1;
    y[i] = 0;
    for (size_t k = 0; k < 4; k++, power *= t) {
      x[4 * i + k] = power;
      y[i] += wanted[k] * power;
    }
  }
  assert_int_equal(
      scwi_least_squares_of(context, x, y, N, 4, &fit, residual), SCW_OK);
  for (size_t k = 0; k < 4; k++)
    check_relative(fit.coefficient[k], wanted[k], 1e-12);
  check_absolute(fit.sum_of_squares, 0, 1e-28);
  double sum = 0;
  for (size_t i = 0; i < N; i++) y[i] += noise(i);
  assert_int_equal(
      scwi_least_squares_of(context, x, y, N, 4, &fit, residual), SCW_OK);
  for (size_t k = 0; k < 4; k++) {
    double shared = 0;
    for (size_t i = 0; i < N; i++) shared += x[4 * i + k] * residual[i];
    check_absolute(shared, 0, 1e-13);
  }
  for (size_t i = 0; i < N; i++) sum += residual[i] * residual[i];
  check_relative(fit.sum_of_squares, sum, 1e-14);
  for (size_t a = 0; a < 4; a++)
    for (size_t b = 0; b < 4; b++) {
      double entry = 0;
      for (size_t c = 0; c < 4; c++)
        for (size_t i = 0; i < N; i++)
          entry += fit.covariance[a][c] * x[4 * i + c] * x[4 * i + b];
      check_absolute(entry, a == b, 1e-11);
    }
}

static void what_is_refused(void **state) {
  (void)state;
  double x[8] = {1, 2, 1, 2, 1, 2, 1, 2}, y[4] = {1, 2, 3, NAN};
  scwi_least_squares fit;
  assert_int_equal(scwi_least_squares_of(context, x, y, 4, 2, &fit, NULL),
                   SCW_BAD_ARGUMENT);
  y[3] = 4;
  assert_int_equal(scwi_least_squares_of(context, x, y, 1, 2, &fit, NULL),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_least_squares_of(context, x, y, 4, 0, &fit, NULL),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_least_squares_of(context, x, y, 4, 2, &fit, NULL),
                   SCW_OK);
  assert_true(fit.rank_ratio < 1e-12); /* the second column is the first */
  double a[4] = {1, INFINITY, INFINITY, 1}, d[2], e[1], b[2] = {1, 1};
  assert_int_equal(scwi_tridiagonal(context, a, 2, d, e, b, 1),
                   SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_tridiagonal(context, a, 1, d, e, b, 1),
                   SCW_BAD_ARGUMENT);
  assert_true(strlen(scw_context_message(context)) > 20);
}

/* Q is orthogonal, so b'b and b'Ab are the same in both forms, for any b. */
static void tridiagonal(void **state) {
  (void)state;
  double a[N * N], kept[N * N], b[3 * N], kept_b[3 * N], d[N], e[N - 1];
  for (size_t i = 0; i < N; i++)
    for (size_t j = 0; j <= i; j++)
      a[i * N + j] = a[j * N + i] = noise(i * N + j) + (i == j ? 3 : 0);
  for (size_t i = 0; i < 3 * N; i++) b[i] = noise(1000 + i);
  memcpy(kept, a, sizeof a);
  memcpy(kept_b, b, sizeof b);
  assert_int_equal(scwi_tridiagonal(context, a, N, d, e, b, 3), SCW_OK);
  for (size_t k = 0; k < 3; k++)
    for (size_t l = 0; l < 3; l++) {
      const double *p = kept_b + k * N, *q = kept_b + l * N;
      const double *u = b + k * N, *v = b + l * N;
      double plain = 0, full = 0, turned = 0, banded = 0;
      for (size_t i = 0; i < N; i++) {
        plain += p[i] * q[i];
        turned += u[i] * v[i];
        banded += d[i] * u[i] * v[i];
        if (i > 0) banded += e[i - 1] * (u[i - 1] * v[i] + u[i] * v[i - 1]);
        for (size_t j = 0; j < N; j++) full += p[i] * kept[i * N + j] * q[j];
      }
      check_absolute(turned, plain, 1e-13);
      check_absolute(banded, full, 1e-13 * N);
    }
  double two[4] = {2, 1, 1, 5}; /* nothing to do */
  assert_int_equal(scwi_tridiagonal(context, two, 2, d, e, NULL, 0), SCW_OK);
  check_absolute(d[0] + d[1], 7, 1e-15);
  check_absolute(fabs(e[0]), 1, 1e-15);
}

static double parabola(double x, void *parameters) {
  (void)parameters;
  return 7 + (x - 0.3) * (x - 0.3);
}

static double cosine(double x, void *parameters) {
  (void)parameters;
  return cos(x);
}

static double hole(double x, void *parameters) {
  (void)parameters;
  return x > 0.2 && x < 0.28 ? NAN : fabs(x - 0.3);
}

static double level(double x, void *parameters) {
  (void)x;
  (void)parameters;
  return 1;
}

static void minimum(void **state) {
  (void)state;
  double at, value;
  assert_int_equal(scwi_minimum(context, parabola, NULL, -1, 0, 2, 1e-7, &at,
                                &value), SCW_OK);
  check_absolute(at, 0.3, 1e-6); /* rounding of 7 hides what is nearer */
  check_absolute(value, 7, 1e-13);
  assert_int_equal(scwi_minimum(context, cosine, NULL, 2, 3, 5, 1e-7, &at,
                                &value), SCW_OK);
  check_absolute(at, 3.141592653589793, 1e-6);
  assert_int_equal(scwi_minimum(context, cosine, NULL, 2, 2.2, 3, 1e-7, &at,
                                &value), SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_minimum(context, level, NULL, 0, 1, 2, 1e-7, &at,
                                &value), SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_minimum(context, hole, NULL, -1, 0.1, 1, 1e-7, &at,
                                &value), SCW_NOT_REACHED);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(least_squares), cmocka_unit_test(what_is_refused),
      cmocka_unit_test(tridiagonal), cmocka_unit_test(minimum)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
