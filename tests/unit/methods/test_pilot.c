/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plans from a pilot whose SD is itself uncertain. SciPy judges the numbers
 * elsewhere; here what must hold whatever they are, and a worked top-up. */
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

typedef struct answer {
  scw_figure known, assured, expected, top_up;
} answer;

static answer ask(const scwi_comparison *c, scw_plan_goal goal, double target,
                  double assurance, size_t m) {
  answer a;
  assert_int_equal(scwi_plan_n(context, c, goal, target, 0.8, &a.known),
                   SCW_OK);
  assert_int_equal(
      scwi_plan_from_pilot(context, c, goal, target, 0.8, assurance, m,
                           &a.assured, &a.expected, &a.top_up),
      SCW_OK);
  return a;
}

/* A small pilot costs readings, a large one hardly any. */
static void a_small_pilot_costs(void **state) {
  static const size_t pilots[] = {3, 5, 10, 30, 1000};
  static const scw_plan_goal goals[] = {SCW_PLAN_DETECT, SCW_PLAN_WITHIN};
  (void)state;
  for (int g = 0; g < 2; g++) {
    scwi_comparison c = {g == 0, 1, 1.4, 0, 0.95, 0, {0, 0}};
    double assured = INFINITY, expected = INFINITY;
    for (size_t i = 0; i < 5; i++) {
      answer a = ask(&c, goals[g], 0.7, 0.8, pilots[i]);
      assert_true(a.expected.value >= a.known.value);
      assert_true(a.assured.value >= a.known.value);
      assert_true(a.assured.value < assured && a.expected.value <= expected);
      assert_int_equal(a.top_up.state, SCW_NOT_COMPUTED);
      assured = a.assured.value, expected = a.expected.value;
    }
    assert_true(expected <= ask(&c, goals[g], 0.7, 0.8, 0).known.value + 1);
  }
}

/* t(0.975, 5) = 2.570581835636314, SD 2, half-width 1.5: 11.75, so 12. */
static void stein_top_up(void **state) {
  scwi_comparison c = {true, 2, 0, 0, 0.95, 0, {0, 0}};
  (void)state;
  answer a = ask(&c, SCW_PLAN_HALF_WIDTH, 1.5, 0.8, 6);
  assert_true(a.top_up.value == 12);
  assert_true(a.assured.value > a.known.value);
  assert_int_equal(a.expected.state, SCW_NOT_COMPUTED);
  assert_true(ask(&c, SCW_PLAN_HALF_WIDTH, 50, 0.8, 6).top_up.value == 6);
  /* Exactly a whole number is not pushed up: half-width t s / 4 asks for 16. */
  assert_true(ask(&c, SCW_PLAN_HALF_WIDTH, 2.570581835636314 * 2 / 4, 0.8, 6)
                  .top_up.value == 16);
  assert_int_equal(ask(&c, SCW_PLAN_HALF_WIDTH, 1e-9, 0.8, 6).top_up.state,
                   SCW_TOO_MANY);
}

static void no_pilot_no_figures(void **state) {
  scwi_comparison c = {false, 2, 1, 0, 0.95, 0, {0, 0}};
  (void)state;
  answer a = ask(&c, SCW_PLAN_DETECT, 1, 0.8, 0);
  assert_int_equal(a.assured.state, SCW_NOT_COMPUTED);
  a = ask(&c, SCW_PLAN_DETECT, 1, 0.8, 1);
  assert_int_equal(a.assured.state, SCW_ONE_READING);
  assert_int_equal(a.expected.state, SCW_ONE_READING);
}

/* On a coarse display no number of readings is enough. */
static void the_display_step_forbids(void **state) {
  scwi_comparison c = {false, 0.05, 0.05, 1, 0.95, 0, {0, 0}};
  (void)state;
  answer a = ask(&c, SCW_PLAN_DETECT, 0.5, 0.8, 8);
  assert_int_equal(a.assured.state, SCW_NEVER);
  assert_int_equal(a.expected.state, SCW_NEVER);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_small_pilot_costs), cmocka_unit_test(stein_top_up),
      cmocka_unit_test(no_pilot_no_figures),
      cmocka_unit_test(the_display_step_forbids)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
