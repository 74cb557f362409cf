/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tails in order and values by rank, beside the C library's own sorting. */
#include "check.h"

#include <stdlib.h>
#include <string.h>

#include "tails.h"

enum { MOST = 300 };

static int by_size(const void *a, const void *b) {
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

static uint64_t next(uint64_t *state) { /* xorshift64 (Marsaglia 2003) */
  *state ^= *state << 13;
  *state ^= *state >> 7;
  return *state ^= *state << 17;
}

/* From all different to all the same. */
static size_t values(uint64_t *state, double *x) {
  size_t n = 1 + next(state) % MOST;
  uint64_t different = 1 + next(state) % (2 * n);
  for (size_t i = 0; i < n; i++)
    x[i] = (double)(next(state) % different) - (double)different / 2;
  return n;
}

static void tails(void **state) {
  uint64_t random = 1;
  double x[MOST], sorted[MOST];
  (void)state;
  for (unsigned run = 0; run < 2000 * check_multiplier(); run++) {
    size_t n = values(&random, x), k = next(&random) % (n / 2 + 1);
    memcpy(sorted, x, n * sizeof *x);
    qsort(sorted, n, sizeof *sorted, by_size);
    scwi_tails_apart(x, n, k);
    assert_memory_equal(x, sorted, k * sizeof *x);
    assert_memory_equal(x + n - k, sorted + n - k, k * sizeof *x);
    qsort(x, n, sizeof *x, by_size);
    assert_memory_equal(x, sorted, n * sizeof *x);
  }
}

static void ranks(void **state) {
  uint64_t random = 2;
  double x[MOST], sorted[MOST];
  (void)state;
  for (unsigned run = 0; run < 2000 * check_multiplier(); run++) {
    size_t n = values(&random, x), rank = next(&random) % n;
    memcpy(sorted, x, n * sizeof *x);
    qsort(sorted, n, sizeof *sorted, by_size);
    assert_true(scwi_value_of_rank(x, n, rank) == sorted[rank]);
    for (size_t i = 0; i < rank; i++) assert_true(x[i] <= x[rank]);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(tails),
                                     cmocka_unit_test(ranks)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
