/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Steps: the exact p against all orders, where steps are found and where a line
 * is, and what must not matter. */
#include "check.h"

#include <math.h>

#include "dated_steps.h"
#include "level_shift.h"
#include "one_set.h"

enum { MOST = 40 };

typedef struct found {
  scwi_dated_step step[MOST];
  scwi_dated_steps steps;
} found;

static void look(const int64_t *ticks, const double *day, size_t n,
                 found *out) {
  one_set set = one_set_from_ticks(ticks, n, 1);
  scwi_sample sample = one_set_sample(&set);
  double every[MOST];
  for (size_t i = 0; i < n; i++) every[i] = 7 * (double)i;
  out->steps = (scwi_dated_steps){.step = out->step};
  assert_int_equal(scwi_dated_steps_of(one_set_context(), day ? day : every,
                                       &sample, 0.05, 1, &out->steps),
                   SCW_OK);
  one_set_free(&set);
}

/* The largest (k S - n P_k)^2 / (k (n-k)), as a fraction of whole numbers. */
typedef struct fraction {
  int64_t top, bottom;
} fraction;

static fraction largest(const int64_t *x, size_t n, size_t *at) {
  fraction best = {0, 1};
  int64_t sum = 0, prefix = x[0];
  for (size_t i = 0; i < n; i++) sum += x[i];
  for (size_t k = 2; k + 2 <= n; k++) {
    prefix += x[k - 1];
    int64_t away = (int64_t)k * sum - (int64_t)n * prefix;
    fraction now = {away * away, (int64_t)(k * (n - k))};
    if (now.top * best.bottom <= best.top * now.bottom) continue;
    best = now;
    if (at) *at = k;
  }
  return best;
}

typedef struct orders {
  int64_t x[8];
  size_t n;
  fraction limit;
  unsigned reached, all;
} orders;

static void visit(orders *o, size_t k) {
  if (k <= 1) {
    fraction now = largest(o->x, o->n, NULL);
    o->all++;
    o->reached += now.top * o->limit.bottom >= o->limit.top * now.bottom;
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

static void all_orders(void **state) {
  unsigned long long seed = 11;
  (void)state;
  for (int trial = 0; trial < 30; trial++) {
    size_t n = 4 + (size_t)(one_set_random(&seed) % 5), at = 0;
    orders o = {.n = n};
    scw_level_shift shift;
    scwi_workings w;
    for (size_t i = 0; i < n; i++)
      o.x[i] = (int64_t)(one_set_random(&seed) % (trial % 2 ? 9 : 1000));
    o.x[0] = o.x[1] + 1;
    one_set set = one_set_from_ticks(o.x, n, 0);
    scwi_sample sample = one_set_sample(&set);
    o.limit = largest(o.x, n, &at);
    visit(&o, n);
    assert_int_equal(scwi_workings_of(one_set_context(), &sample, &w), SCW_OK);
    assert_int_equal(scwi_level_split(one_set_context(), &w, 1, &shift), SCW_OK);
    check_relative(shift.p.value, (double)o.reached / (double)o.all, 1e-13);
    assert_int_equal(shift.after_place, at);
    scwi_workings_free(&w);
    one_set_free(&set);
  }
}

static const int64_t one_step[] = {923, 924, 922, 923, 925, 923, 924, 922,
                                   918, 919, 917, 918, 919, 918, 917, 919};

static void one_step_is_found(void **state) {
  found f;
  (void)state;
  look(one_step, NULL, 16, &f);
  assert_int_equal(f.steps.n, 1);
  assert_int_equal(f.step[0].at, 8);
  assert_false(f.steps.line);
  assert_false(f.step[0].counted);
  /* Both groups wholly apart: 2 of C(16,8) orders of groups, or fewer splits
   * that reach as far. */
  check_relative(f.step[0].p, 2 / 12870.0, 1e-12);
}

static void two_steps_ascend(void **state) {
  int64_t x[30];
  found f;
  (void)state;
  for (int i = 0; i < 30; i++)
    x[i] = 920 + i % 3 + (i >= 10 ? 12 : 0) - (i >= 20 ? 30 : 0);
  look(x, NULL, 30, &f);
  assert_int_equal(f.steps.n, 2);
  assert_int_equal(f.step[0].at, 10);
  assert_int_equal(f.step[1].at, 20);
}

static void a_line_is_no_step(void **state) {
  int64_t x[24];
  found f;
  (void)state;
  for (int i = 0; i < 24; i++) x[i] = 900 + 3 * i + (i * 7) % 5;
  look(x, NULL, 24, &f);
  assert_int_equal(f.steps.n, 0);
  assert_true(f.steps.line);
}

static void too_few(void **state) {
  found f;
  (void)state;
  look(one_step, NULL, 3, &f);
  assert_int_equal(f.steps.n, 0);
  look(one_step + 6, NULL, 4, &f); /* 2 of 6 groupings: p is 1/3 at the least */
  assert_int_equal(f.steps.n, 0);
  static const int64_t same[] = {5, 5, 5, 5, 5, 5, 5, 5};
  look(same, NULL, 8, &f);
  assert_int_equal(f.steps.n, 0);
}

static void backwards(void **state) {
  int64_t x[16];
  found f;
  (void)state;
  for (int i = 0; i < 16; i++) x[i] = -one_step[15 - i];
  look(x, NULL, 16, &f);
  assert_int_equal(f.steps.n, 1);
  assert_int_equal(f.step[0].at, 8);
  check_relative(f.step[0].p, 2 / 12870.0, 1e-12);
}

/* With nothing but scatter at most 5 % of logs hold a step: 1000 logs of 9
 * different days, 3 standard errors of the share. */
static void false_alarms(void **state) {
  unsigned long long seed = 3;
  int alarms = 0;
  (void)state;
  for (int trial = 0; trial < 1000; trial++) {
    int64_t x[9];
    found f;
    for (int i = 0; i < 9; i++)
      x[i] = (int64_t)nearbyint(1000 * one_set_normal(&seed));
    look(x, NULL, 9, &f);
    alarms += f.steps.n > 0;
  }
  assert_true(alarms <= 50 + 3 * 7);
  assert_true(alarms > 5);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(all_orders),       cmocka_unit_test(one_step_is_found),
      cmocka_unit_test(two_steps_ascend), cmocka_unit_test(a_line_is_no_step),
      cmocka_unit_test(too_few),          cmocka_unit_test(backwards),
      cmocka_unit_test(false_alarms)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
