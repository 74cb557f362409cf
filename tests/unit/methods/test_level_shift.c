/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The exact p against going through all orders; the counted p against the
 * exact one where both can be had. */
#include "check.h"

#include <math.h>

#include "level_shift.h"
#include "one_set.h"

static scw_level_shift shift_of(const one_set *set) {
  return one_set_summary(one_set_sample(set)).level_shift;
}

/* |k S - n P_k| / (k (n-k)) as a fraction; true when it reaches a / b. */
static bool reaches(const int64_t *x, size_t n, int64_t a, int64_t b,
                    bool beyond) {
  int64_t sum = 0, prefix = 0;
  for (size_t i = 0; i < n; i++)
    sum += x[i];
  for (size_t k = 1; k + 2 <= n; k++) {
    prefix += x[k - 1];
    if (k < 2) continue;
    int64_t top = (int64_t)k * sum - (int64_t)n * prefix;
    if (top < 0) top = -top;
    int64_t left = top * b, right = a * (int64_t)(k * (n - k));
    if (beyond ? left > right : left >= right) return true;
  }
  return false;
}

typedef struct orders {
  int64_t x[8];
  size_t n;
  int64_t top, bottom;
  unsigned reached, all;
} orders;

static void visit(orders *o, size_t k) {
  if (k <= 1) {
    o->all++;
    o->reached += reaches(o->x, o->n, o->top, o->bottom, false);
    return;
  }
  for (size_t i = 0; i < k; i++) {
    visit(o, k - 1);
    size_t other = k % 2 ? 0 : i;
    int64_t held = o->x[other];
    o->x[other] = o->x[k - 1];
    o->x[k - 1] = held;
  }
}

static void p_counts_all_orders(void **state) {
  unsigned long long random = 31;
  (void)state;
  for (unsigned c = 0; c < 80; c++) {
    size_t n = 4 + c % 5;
    orders o = {.n = n};
    for (size_t i = 0; i < n; i++)
      o.x[i] = (int64_t)(one_set_random(&random) % (c % 2 ? 1000 : 4)) +
               (c % 3 ? 0 : 100000000);
    one_set set = one_set_from_ticks(o.x, n, 2);
    scw_level_shift got = shift_of(&set);
    if (got.p.state == SCW_PRESENT) {
      int64_t sum = 0, prefix = 0;
      size_t k = got.after_place;
      for (size_t i = 0; i < n; i++)
        sum += o.x[i];
      for (size_t i = 0; i < k; i++)
        prefix += o.x[i];
      int64_t top = (int64_t)k * sum - (int64_t)n * prefix;
      o.bottom = (int64_t)(k * (n - k));
      check_relative(got.size.value, (double)top / (double)o.bottom / 100,
                     1e-14);
      o.top = top < 0 ? -top : top;
      assert_false(reaches(o.x, n, o.top, o.bottom, true)); /* the largest */
      visit(&o, n);
      check_relative(got.p.value, (double)o.reached / (double)o.all, 1e-15);
      assert_false(got.counted);
      /* doubles of the same readings agree */
      scwi_sample doubles = one_set_doubles(&set);
      scw_level_shift plain = one_set_summary(doubles).level_shift;
      assert_true(plain.p.value == got.p.value);
      check_relative(fabs(plain.size.value), fabs(got.size.value), 1e-6);
    }
    one_set_free(&set);
  }
}

/* The p of n readings by its definition, from the test's own 20,000 orders. */
static double drawn_p(const int64_t *ticks, size_t n, scw_level_shift got,
                      unsigned long long *random) {
  enum { DRAWN = 20000 };
  int64_t x[64], bottom = (int64_t)(got.after_place * (n - got.after_place));
  int64_t top = llround(fabs(got.size.value) * (double)bottom * 100);
  unsigned reached = 0;
  for (size_t i = 0; i < n; i++)
    x[i] = ticks[i];
  for (unsigned o = 0; o < DRAWN; o++) {
    for (size_t i = n - 1; i > 0; i--) {
      size_t other = one_set_random(random) % (i + 1);
      int64_t held = x[i];
      x[i] = x[other];
      x[other] = held;
    }
    reached += reaches(x, n, top, bottom, false);
  }
  return (double)reached / DRAWN;
}

/* Too many orders to go through, still exact: 18 different readings; 40 with
 * ties, whose orders no 64-bit number counts. */
static void exact_far_beyond_enumeration(void **state) {
  unsigned long long random = 41;
  int64_t ticks[40];
  (void)state;
  for (size_t n = 18; n <= 40; n += 22) {
    for (size_t i = 0; i < n; i++)
      ticks[i] = (int64_t)((n == 18 ? 100 : 1.2) * one_set_normal(&random)) +
                 (n == 18 && i > 7 ? 70 : 0);
    one_set set = one_set_from_ticks(ticks, n, 2);
    scw_level_shift exact = shift_of(&set);
    double p = exact.p.value, error = sqrt(p * (1 - p) / 20000);
    assert_false(exact.counted);
    assert_true(p > 0.001 && p < 0.999);
    check_absolute(drawn_p(ticks, n, exact, &random), p, 4 * error);
    one_set_free(&set);
  }
}

/* Two levels and nothing else: of the C(n, k) places for the k high readings
 * only the two ends reach the difference. Far below what could be drawn. */
static void small_p_keeps_its_digits(void **state) {
  int64_t ticks[60];
  (void)state;
  for (size_t i = 0; i < 60; i++)
    ticks[i] = i < 30 ? 874 : 875;
  one_set set = one_set_from_ticks(ticks, 60, 1);
  scw_level_shift got = shift_of(&set);
  assert_int_equal(got.after_place, 30);
  assert_false(got.counted);
  /* C(60, 30) = 118264581564861424 */
  check_relative(got.p.value, 2 / 118264581564861424.0, 1e-14);
  one_set_free(&set);
}

static void counted_p_follows_the_seed(void **state) {
  unsigned long long random = 43;
  int64_t ticks[60];
  (void)state;
  for (size_t i = 0; i < 60; i++)
    ticks[i] = (int64_t)(100 * one_set_normal(&random)) + (i < 25 ? 0 : 60);
  one_set set = one_set_from_ticks(ticks, 60, 2);
  scwi_summary_settings settings = one_set_defaults;
  scw_level_shift first = shift_of(&set), again = shift_of(&set);
  assert_true(first.counted && first.orders == 9999 && first.seed == 1);
  assert_true(first.p.value == again.p.value);
  assert_true(first.p.value >= 1e-4);
  settings.seed = 2;
  scw_level_shift other =
      one_set_summary_with(one_set_sample(&set), &settings).level_shift;
  double p = first.p.value, error = sqrt(2 * p * (1 - p) / 9999);
  check_absolute(other.p.value, p, 4 * error + 1e-4);
  assert_int_equal(other.seed, 2);
  assert_int_equal(other.after_place, first.after_place);
  one_set_free(&set);
}

/* The limit is a rounded quotient: 62 / 15 * 15 is more than 62 in doubles, and
 * the observed order must reach its own difference all the same. */
static void a_rounded_limit_is_still_reached(void **state) {
  orders o = {
      .x = {3, 3, 4, -1, -1, -1, -1, 0}, .n = 8, .top = 62, .bottom = 15};
  one_set set = one_set_from_ticks(o.x, 8, 0);
  scw_level_shift got = shift_of(&set);
  (void)state;
  assert_int_equal(got.after_place, 3);
  check_relative(got.size.value, -62.0 / 15, 1e-15);
  visit(&o, 8);
  check_relative(got.p.value, (double)o.reached / (double)o.all, 1e-15);
  one_set_free(&set);
}

/* No random order repeats two clear levels of 40 different readings: the
 * observed order is counted, and p is as small as 9999 others allow. */
static void counted_p_is_never_zero(void **state) {
  int64_t ticks[40];
  (void)state;
  for (size_t i = 0; i < 40; i++)
    ticks[i] = (int64_t)(i * i % 41 + i) + (i < 20 ? 0 : 5000);
  one_set set = one_set_from_ticks(ticks, 40, 1);
  scw_level_shift got = shift_of(&set);
  assert_true(got.counted && got.after_place == 20);
  assert_true(got.p.value == 1e-4);
  one_set_free(&set);
}

static void degenerate_sets(void **state) {
  const int64_t ticks[] = {4, 4, 4, 4, 4};
  const scw_presence wanted[] = {SCW_ONE_READING, SCW_TWO_READINGS, SCW_TOO_FEW,
                                 SCW_NO_SCATTER, SCW_NO_SCATTER};
  (void)state;
  for (size_t n = 1; n <= 5; n++) {
    one_set set = one_set_from_ticks(ticks, n, 0);
    scw_level_shift got = shift_of(&set);
    assert_int_equal(got.size.state, wanted[n - 1]);
    assert_int_equal(got.p.state, wanted[n - 1]);
    assert_int_equal(got.after_place, 0);
    one_set_free(&set);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(p_counts_all_orders),
      cmocka_unit_test(exact_far_beyond_enumeration),
      cmocka_unit_test(small_p_keeps_its_digits),
      cmocka_unit_test(counted_p_follows_the_seed),
      cmocka_unit_test(a_rounded_limit_is_still_reached),
      cmocka_unit_test(counted_p_is_never_zero),
      cmocka_unit_test(degenerate_sets),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
