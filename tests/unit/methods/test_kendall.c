/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Kendall's S against counting pairs, its exact p with ties against going
 * through all orders. */
#include "check.h"

#include <math.h>
#include <stdlib.h>

#include "one_set.h"

static long count_s(const int64_t *x, size_t n) {
  long s = 0;
  for (size_t i = 0; i < n; i++)
    for (size_t k = i + 1; k < n; k++)
      s += (x[k] > x[i]) - (x[k] < x[i]);
  return s;
}

static void s_is_a_count_of_pairs(void **state) {
  unsigned long long random = 5;
  (void)state;
  for (size_t n = 2; n < 300; n += 1 + n / 8) {
    int64_t ticks[300];
    for (size_t i = 0; i < n; i++)
      ticks[i] = (int64_t)(one_set_random(&random) % (n + 1));
    one_set set = one_set_from_ticks(ticks, n, 0);
    scw_creep creep = one_set_summary(one_set_sample(&set)).creep;
    if (creep.kendall_s.state == SCW_PRESENT)
      assert_true(creep.kendall_s.value == (double)count_s(ticks, n));
    one_set_free(&set);
  }
}

/* Heap's way through all orders. */
typedef struct orders {
  int64_t x[9];
  size_t n;
  long observed;
  unsigned reached, all;
} orders;

static void visit(orders *o, size_t k) {
  if (k <= 1) {
    o->all++;
    o->reached += labs(count_s(o->x, o->n)) >= o->observed;
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

static void p_with_ties_counts_all_orders(void **state) {
  unsigned long long random = 17;
  (void)state;
  for (unsigned c = 0; c < 60; c++) {
    size_t n = 3 + c % 6; /* to 8 */
    orders o = {.n = n};
    for (size_t i = 0; i < n; i++)
      o.x[i] = (int64_t)(one_set_random(&random) % (n / 2 + 1));
    one_set set = one_set_from_ticks(o.x, n, 0);
    scw_creep creep = one_set_summary(one_set_sample(&set)).creep;
    if (creep.kendall_p.state == SCW_PRESENT) {
      o.observed = labs(count_s(o.x, n));
      visit(&o, n);
      check_relative(creep.kendall_p.value, (double)o.reached / (double)o.all,
                     1e-14);
    }
    one_set_free(&set);
  }
}

/* n = 9, two pairs of ties and a triple: multiset orders, counted by walking
 * them once each. */
static void p_with_ties_at_nine(void **state) {
  orders o = {.x = {1, 2, 2, 3, 4, 4, 4, 5, 6}, .n = 9};
  one_set set = one_set_from_ticks(o.x, 9, 0);
  scw_creep creep = one_set_summary(one_set_sample(&set)).creep;
  (void)state;
  assert_true(creep.kendall_s.value == 32); /* all untied pairs rise */
  o.observed = 32;
  visit(&o, 9);
  check_relative(creep.kendall_p.value, (double)o.reached / (double)o.all,
                 1e-14);
  one_set_free(&set);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(s_is_a_count_of_pairs),
      cmocka_unit_test(p_with_ties_counts_all_orders),
      cmocka_unit_test(p_with_ties_at_nine),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
