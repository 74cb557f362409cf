/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exact permutation p: a published example, ties, what is too fine, and counts
 * far beyond 64 bits. Listing in Python judges generated cases elsewhere. */
#include "check.h"

#include <math.h>

#include "exact_count.h"
#include "figure.h"
#include "permutation.h"

static scw_context *context;

static int make_context(void **state) {
  (void)state;
  return (int)scw_context_new(&context);
}

static int drop_context(void **state) {
  (void)state;
  scw_context_free(context);
  return 0;
}

static scwi_sample ticks(const int64_t *t, size_t n) {
  return (scwi_sample){.n = n, .ticks = t, .tick_size = 0.1};
}

static scw_permutation sides(const int64_t *before, size_t n_before,
                             const int64_t *after, size_t n_after) {
  scwi_sample b = ticks(before, n_before), a = ticks(after, n_after);
  scw_permutation out;
  assert_int_equal(scwi_permutation_unpaired(context, &b, &a, &out), SCW_OK);
  return out;
}

static scw_permutation signs(const int64_t *d, size_t n) {
  scwi_sample sample = ticks(d, n);
  scw_permutation out;
  assert_int_equal(scwi_permutation_paired(context, &sample, &out), SCW_OK);
  return out;
}

/* Darwin's maize, eighths of an inch: 1726 of 32768 signs are as extreme
 * (R. A. Fisher, The Design of Experiments, 1935, section 21). */
static void fishers_maize(void **state) {
  static const int64_t d[] = {49, -67, 8,  16, 6,  23, 28, 41,
                              14, 29,  56, 24, 75, 60, -48};
  (void)state;
  scw_permutation p = signs(d, 15);
  check_relative(p.p.value, 1726.0 / 32768, 1e-15);
  check_relative(p.smallest_p.value, 2.0 / 32768, 1e-15);
  check_relative(p.smallest_p_design.value, 2.0 / 32768, 1e-15);
}

/* 87.4 87.4 87.5 | 87.9 88.0 88.0: of 20 splits only the two most unequal are
 * as far apart; by hand. */
static void three_against_three(void **state) {
  static const int64_t b[] = {874, 874, 875}, a[] = {879, 880, 880};
  (void)state;
  scw_permutation p = sides(b, 3, a, 3);
  check_relative(p.p.value, 2.0 / 20, 1e-15);
  check_relative(p.smallest_p.value, 2.0 / 20, 1e-15);
  check_relative(p.smallest_p_design.value, 2.0 / 20, 1e-15);
}

/* Tied at the edge, no split is rarer than one in C(5,2)/2; zeros kept: two
 * of four signs do nothing. By hand. */
static void ties_limit_what_is_possible(void **state) {
  static const int64_t b[] = {1, 1}, a[] = {1, 2, 2}, d[] = {0, 3, 3, 0};
  (void)state;
  scw_permutation p = sides(b, 2, a, 3);
  check_relative(p.p.value, 0.4, 1e-15);          /* 3 + 1 of 10 */
  check_relative(p.smallest_p.value, 0.1, 1e-15); /* both 2s together */
  check_relative(p.smallest_p_design.value, 0.1, 1e-15);
  p = signs(d, 4);
  check_relative(p.p.value, 0.5, 1e-15);
  check_relative(p.smallest_p.value, 0.5, 1e-15);
  check_relative(p.smallest_p_design.value, 0.125, 1e-15);
}

static void nothing_differs(void **state) {
  static const int64_t same[] = {5, 5, 5, 5}, zero[] = {0, 0, 0};
  (void)state;
  assert_true(sides(same, 2, same + 2, 2).p.value == 1);
  assert_true(sides(same, 1, same + 1, 1).p.value == 1);
  assert_true(signs(zero, 3).p.value == 1);
  assert_true(signs(zero, 3).smallest_p.value == 1);
  assert_int_equal(sides(same, 0, same, 4).p.state, SCW_TOO_FEW);
  assert_int_equal(signs(zero, 0).p.state, SCW_TOO_FEW);
}

/* Without ticks, or too fine for a table and too many to list. */
static void too_fine(void **state) {
  enum { N = 14 };
  int64_t b[N], a[N], huge[N];
  (void)state;
  for (int i = 0; i < N; i++) {
    b[i] = (int64_t)1000003 * (i * i + 1);
    a[i] = (int64_t)999983 * (i * i * i + 2);
    huge[i] = i % 2 ? INT64_MAX : INT64_MIN;
  }
  scw_permutation p = sides(b, N, a, N);
  assert_int_equal(p.p.state, SCW_TOO_FINE);
  assert_int_equal(p.smallest_p.state, SCW_TOO_FINE);
  check_relative(p.smallest_p_design.value, 2.0 / 40116600, 1e-14);
  assert_int_equal(sides(b, 8, a, 8).p.state, SCW_PRESENT);
  assert_int_equal(sides(huge, 2, huge + 2, 2).p.state, SCW_TOO_FINE);
  assert_int_equal(signs(huge, 3).p.state, SCW_TOO_FINE);
  scwi_sample plain = {.n = 3, .tick_size = 0.1}, odd = ticks(a, 3);
  assert_int_equal(scwi_permutation_unpaired(context, &plain, &odd, &p),
                   SCW_OK);
  assert_int_equal(p.p.state, SCW_TOO_FINE);
  scwi_sample other = ticks(b, 3);
  other.tick_size = 0.1 * sqrt(2); /* no common unit */
  assert_int_equal(scwi_permutation_unpaired(context, &other, &odd, &p),
                   SCW_OK);
  assert_int_equal(p.p.state, SCW_TOO_FINE);
}

/* Zeros and ones: the p of the hypergeometric distribution, here 2/C(2n, n)
 * when all ones are on one side; for n = 150 that is 2 in 2^296. */
static void counts_beyond_any_word(void **state) {
  enum { N = 150 };
  int64_t zero[N] = {0}, one[N];
  double wanted = 2;
  (void)state;
  for (int i = 0; i < N; i++) {
    one[i] = 1;
    wanted *= (double)(i + 1) / (double)(N + i + 1);
  }
  scw_permutation p = sides(zero, N, one, N);
  check_relative(p.p.value, wanted, 1e-14);
  check_relative(p.smallest_p.value, wanted, 1e-14);
}

/* All ones flipped: 2 in 2^600, ten primes. */
static void very_long_pairs(void **state) {
  enum { N = 600 };
  int64_t one[N];
  (void)state;
  for (int i = 0; i < N; i++)
    one[i] = 7;
  check_relative(signs(one, N).p.value, ldexp(1, 1 - N), 1e-14);
}

static uint64_t power(uint64_t a, uint64_t e, uint64_t m) {
  __extension__ typedef unsigned __int128 wide;
  uint64_t result = 1;
  for (; e; e >>= 1, a = (uint64_t)((wide)a * a % m))
    if (e & 1) result = (uint64_t)((wide)result * a % m);
  return result;
}

/* Miller-Rabin with the twelve bases that decide every 64-bit number. */
static bool is_prime(uint64_t n) {
  static const uint64_t bases[] = {2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37};
  uint64_t odd = n - 1;
  int twos = 0;
  for (; odd % 2 == 0; odd /= 2)
    twos++;
  for (size_t i = 0; i < 12; i++) {
    uint64_t x = power(bases[i], odd, n);
    bool passes = x == 1 || x == n - 1;
    for (int k = 1; k < twos && !passes; k++)
      passes = (x = power(x, 2, n)) == n - 1;
    if (!passes) return false;
  }
  return true;
}

static void the_primes_are_prime(void **state) {
  (void)state;
  for (size_t i = 0; i < SCWI_COUNT_PRIMES; i++) {
    assert_true(is_prime(scwi_count_prime(i)));
    assert_true(i == 0 || scwi_count_prime(i) < scwi_count_prime(i - 1));
  }
  assert_false(is_prime(scwi_count_prime(0) - 2));
  assert_int_equal(scwi_count_primes_for(62), 1);
  assert_int_equal(scwi_count_primes_for(64), 2);
  assert_int_equal(scwi_count_primes_for(5000), SCWI_COUNT_PRIMES + 1);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(fishers_maize),
      cmocka_unit_test(three_against_three),
      cmocka_unit_test(ties_limit_what_is_possible),
      cmocka_unit_test(nothing_differs),
      cmocka_unit_test(too_fine),
      cmocka_unit_test(counts_beyond_any_word),
      cmocka_unit_test(very_long_pairs),
      cmocka_unit_test(the_primes_are_prime)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
