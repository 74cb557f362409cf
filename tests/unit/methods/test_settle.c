/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What would settle it. Quadrature in SciPy judges the numbers elsewhere; here
 * the reasons why there is none, and the limits. */
#include "check.h"

#include <math.h>

#include "figure.h"
#include "planning.h"

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

static scw_settle settle(const scwi_comparison *c, double change, double margin,
                         size_t n_before, size_t n_after) {
  scw_settle out;
  scw_figure m = margin > 0 ? scwi_figure(margin) : scwi_missing(SCW_NO_MARGIN);
  assert_int_equal(
      scwi_settle(context, c, change, m, n_before, n_after, 0.8, &out), SCW_OK);
  return out;
}

/* Without a margin the answer is the plan to detect the change found. */
static void without_margin_it_is_the_plan(void **state) {
  scwi_comparison c = {false, 1.2, 0.7, 0.1, 0.95, 0, {0, 0}};
  scw_figure n;
  (void)state;
  assert_int_equal(scwi_plan_n(context, &c, SCW_PLAN_DETECT, 0.8, 0.8, &n),
                   SCW_OK);
  scw_settle s = settle(&c, -0.8, 0, 5, 7);
  assert_true(s.total.value == n.value && n.value > 5);
  assert_true(s.more.value == n.value - 5);
  assert_true(s.chance == 0.8 && !s.per_spot);
}

/* A margin far off cannot hinder; zero change needs one. */
static void zero_change_needs_a_margin(void **state) {
  scwi_comparison c = {true, 1, 0, 0, 0.95, 0, {0, 0}};
  scw_figure n;
  (void)state;
  assert_int_equal(settle(&c, 0, 0, 8, 8).total.state, SCW_ZERO_CHANGE);
  assert_int_equal(settle(&c, 0, 0, 8, 8).more.state, SCW_ZERO_CHANGE);
  scw_settle s = settle(&c, 0, 0.5, 8, 8);
  assert_true(s.per_spot && s.total.state == SCW_PRESENT);
  /* Excluding zero by chance also tells, so no more than showing it within. */
  assert_int_equal(scwi_plan_n(context, &c, SCW_PLAN_WITHIN, 0.5, 0.8, &n),
                   SCW_OK);
  assert_true(s.total.value <= n.value && s.total.value >= 0.7 * n.value);
}

static void reasons(void **state) {
  scwi_comparison c = {true, 1, 0, 0, 0.95, 0, {0, 0}};
  (void)state;
  assert_int_equal(settle(&c, 0.5, 0.5, 8, 8).total.state, SCW_NEVER);
  assert_int_equal(settle(&c, 87.9 - 87.4, 0.5, 8, 8).total.state, SCW_NEVER);
  assert_int_equal(settle(&c, 0.01, 0, 8, 8).total.state, SCW_TOO_MANY);
  assert_int_equal(settle(&c, 0.5, 0, 1, 1).total.state, SCW_ONE_READING);
  c.sd_before = 0;
  assert_int_equal(settle(&c, 0.5, 0, 8, 8).total.state, SCW_NO_SCATTER);
  c.step = 1, c.sd_before = 0.1; /* u never under 0.4 */
  assert_int_equal(settle(&c, 0.5, 0, 8, 8).total.state, SCW_NEVER);
  assert_int_equal(settle(&c, 0.5, 0.6, 8, 8).total.state, SCW_NEVER);
}

/* 200, or ten times the larger side. A change of 0.17 SD needs about 274
 * spots. */
static void more_than_is_practical(void **state) {
  scwi_comparison c = {true, 1, 0, 0, 0.95, 0, {0, 0}};
  (void)state;
  assert_int_equal(settle(&c, 0.17, 0, 20, 20).total.state, SCW_TOO_MANY);
  scw_settle s = settle(&c, 0.17, 0, 30, 30);
  assert_true(s.total.state == SCW_PRESENT && s.total.value > 200);
  assert_int_equal(settle(&c, 0.17, 0, 27, 27).total.state, SCW_TOO_MANY);
}

/* Never fewer than are there, though chance may have it. */
static void always_more(void **state) {
  scwi_comparison c = {true, 1, 0, 0, 0.95, 0, {0, 0}};
  (void)state;
  assert_true(settle(&c, 5, 0, 8, 8).more.value == 1);
  assert_true(settle(&c, 50, 0, 2, 2).total.value == 3);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(without_margin_it_is_the_plan),
      cmocka_unit_test(zero_change_needs_a_margin), cmocka_unit_test(reasons),
      cmocka_unit_test(more_than_is_practical), cmocka_unit_test(always_more)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
