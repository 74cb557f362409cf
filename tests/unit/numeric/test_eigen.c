/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Eigenvalues of symmetric matrices: closed forms, and A = V diag V'. NumPy
 * judges those of correlation matrices elsewhere. */
#include "check.h"

#include <float.h>
#include <math.h>
#include <string.h>

#include "eigen.h"
#include "with_context.h"

enum { MOST = 12 };

static const double pi = 3.141592653589793116;

/* 2 on the diagonal and -1 beside it: 2 - 2 cos(k pi / (n + 1)). Symmetric QR is
 * backward stable: n eps times the norm, which is below 4. */
static void tridiagonal_by_closed_form(void **state) {
  (void)state;
  for (size_t n = 1; n <= MOST; n++) {
    double a[MOST * MOST] = {0}, values[MOST], vectors[MOST * MOST];
    for (size_t i = 0; i < n; i++) {
      a[i * n + i] = 2;
      if (i + 1 < n) a[i * n + i + 1] = a[(i + 1) * n + i] = -1;
    }
    assert_int_equal(scwi_symmetric_eigen(context, a, n, values, vectors),
                     SCW_OK);
    for (size_t k = 0; k < n; k++)
      check_absolute(values[k],
                     2 - 2 * cos(((double)k + 1) * pi / ((double)n + 1)),
                     (double)n * DBL_EPSILON * 4);
  }
}

static void put_together_again(void **state) {
  (void)state;
  for (size_t n = 1; n <= MOST; n++) {
    double a[MOST * MOST], copy[MOST * MOST], values[MOST];
    double vectors[MOST * MOST];
    for (size_t i = 0; i < n; i++)
      for (size_t j = 0; j <= i; j++)
        a[i * n + j] = a[j * n + i] = sin((double)(7 * i + 3 * j + n));
    memcpy(copy, a, sizeof copy);
    assert_int_equal(scwi_symmetric_eigen(context, copy, n, values, vectors),
                     SCW_OK);
    for (size_t i = 0; i < n; i++) {
      assert_true(i == 0 || values[i - 1] <= values[i]);
      for (size_t j = 0; j < n; j++) {
        double sum = 0;
        for (size_t k = 0; k < n; k++)
          sum += vectors[i * n + k] * values[k] * vectors[j * n + k];
        check_absolute(sum, a[i * n + j], 2e-14);
      }
    }
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(tridiagonal_by_closed_form),
      cmocka_unit_test(put_together_again)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
