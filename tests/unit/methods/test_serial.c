/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lag-1 autocorrelation is certified in test_moments; here the handbook's
 * figure, and the rank von Neumann ratio against all orders. */
#include "check.h"

#include <math.h>

#include "one_set.h"

static scw_serial serial_of(const int64_t *ticks, size_t n) {
  one_set set = one_set_from_ticks(ticks, n, 0);
  scw_serial serial = one_set_summary(one_set_sample(&set)).serial;
  one_set_free(&set);
  return serial;
}

/* e-Handbook 1.3.5.12 prints -0.31 for Lew; the other digits recomputed in
 * rational arithmetic. */
static void beam_deflections(void **state) {
  one_set set = one_set_from_file("strd/Lew.csv", "reading");
  scw_serial s = one_set_summary(one_set_sample(&set)).serial;
  (void)state;
  check_relative(s.lag1.value, -0.3073048006056795, 2e-15);
  assert_true(s.lag1_p.value < 1e-4);
  one_set_free(&set);
}

/* Twice the midranks, by counting. */
static void midranks(const int64_t *x, size_t n, long *out) {
  for (size_t i = 0; i < n; i++) {
    out[i] = 1;
    for (size_t k = 0; k < n; k++)
      out[i] += x[k] <= x[i], out[i] += x[k] < x[i];
  }
}

static long steps(const long *rank, size_t n) {
  long sum = 0;
  for (size_t i = 1; i < n; i++)
    sum += (rank[i] - rank[i - 1]) * (rank[i] - rank[i - 1]);
  return sum;
}

typedef struct orders {
  long rank[9];
  size_t n;
  long observed;
  unsigned at_most, at_least, all;
} orders;

static void visit(orders *o, size_t k) {
  if (k <= 1) {
    long now = steps(o->rank, o->n);
    o->all++;
    o->at_most += now <= o->observed;
    o->at_least += now >= o->observed;
    return;
  }
  for (size_t i = 0; i < k; i++) {
    visit(o, k - 1);
    size_t other = k % 2 ? 0 : i;
    long held = o->rank[other];
    o->rank[other] = o->rank[k - 1];
    o->rank[k - 1] = held;
  }
}

static void p_counts_all_orders(void **state) {
  unsigned long long random = 23;
  (void)state;
  for (unsigned c = 0; c < 61; c++) {
    size_t n = c == 60 ? 9 : 3 + c % 6;
    int64_t ticks[9];
    for (size_t i = 0; i < n; i++)
      ticks[i] = (int64_t)(one_set_random(&random) % (c % 2 ? 1000 : n));
    scw_serial s = serial_of(ticks, n);
    if (s.lag1_p.state != SCW_PRESENT) continue;
    orders o = {.n = n};
    midranks(ticks, n, o.rank);
    o.observed = steps(o.rank, n);
    double away = 0;
    for (size_t i = 0; i < n; i++)
      away += pow((double)o.rank[i] - (double)(n + 1), 2);
    check_relative(s.rank_von_neumann.value, (double)o.observed / away, 1e-14);
    visit(&o, n);
    double fewer = o.at_most < o.at_least ? o.at_most : o.at_least;
    check_relative(s.lag1_p.value, fmin(1, 2 * fewer / o.all), 1e-14);
  }
}

static void degenerate_sets(void **state) {
  (void)state;
  scw_serial s = serial_of((const int64_t[]){4}, 1);
  assert_int_equal(s.lag1.state, SCW_ONE_READING);
  s = serial_of((const int64_t[]){4, 5}, 2);
  assert_int_equal(s.lag1.state, SCW_TWO_READINGS);
  s = serial_of((const int64_t[]){4, 4, 4}, 3);
  assert_int_equal(s.lag1_p.state, SCW_NO_SCATTER);
  assert_int_equal(s.rank_von_neumann.state, SCW_NO_SCATTER);
}

static void alternating_and_climbing_readings_are_noticed(void **state) {
  int64_t climbing[12], alternating[12];
  (void)state;
  for (size_t i = 0; i < 12; i++) {
    climbing[i] = (int64_t)i;
    alternating[i] = (int64_t)(i % 2 ? 30 - i : i);
  }
  scw_serial up = serial_of(climbing, 12), mixed = serial_of(alternating, 12);
  assert_true(up.lag1.value > 0.5 && up.lag1_p.value < 0.001);
  assert_true(mixed.lag1.value < -0.5 && mixed.lag1_p.value < 0.05);
  assert_true(up.rank_von_neumann.value < 0.1);
  assert_true(mixed.rank_von_neumann.value > 3);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(beam_deflections),
      cmocka_unit_test(p_counts_all_orders),
      cmocka_unit_test(degenerate_sets),
      cmocka_unit_test(alternating_and_climbing_readings_are_noticed),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
