/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Unequal numbers, and spots with repeats. SciPy judges the numbers elsewhere;
 * here what must hold, and a published split of variance. */
#include "check.h"

#include <math.h>

#include "figure.h"
#include "split.h"

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

static scw_plan_split split(double sd_before, double sd_after, double target,
                            double ratio) {
  scwi_comparison c = {false, sd_before, sd_after, 0, 0.95, 0, {0, 0}};
  scwi_goal goal = {SCW_PLAN_DETECT, target, 0.8};
  scw_plan_split out;
  assert_int_equal(scwi_plan_split(context, &c, goal, ratio, &out), SCW_OK);
  return out;
}

static void best_follows_the_scatter(void **state) {
  (void)state;
  scw_plan_split even = split(1, 1, 1, 0), uneven = split(1, 4, 1.5, 0);
  assert_true(even.before.value == 17 && even.after.value == 17);
  double ratio = uneven.after.value / uneven.before.value;
  assert_true(ratio > 3 && ratio < 5);
  scw_plan_split back = split(4, 1, 1.5, 0);
  assert_true(back.before.value == uneven.after.value);
  scw_plan_split equal = split(1, 4, 1.5, 1);
  assert_true(equal.before.value + equal.after.value >
              uneven.before.value + uneven.after.value);
}

static void asked_for_ratio(void **state) {
  (void)state;
  scw_plan_split s = split(1, 1, 1, 2.5);
  assert_true(s.after.value == ceil(2.5 * s.before.value));
  s = split(1, 1, 1, 0.1);
  assert_true(s.before.value >= 17 && s.after.value >= 3);
  s = split(1, 1, 50, 1);
  assert_true(s.before.value == 3 && s.after.value == 3);
  assert_int_equal(split(1, 1, 1e-6, 1).before.state, SCW_TOO_MANY);
  assert_int_equal(split(1, 1, 1e-6, 0).after.state, SCW_TOO_MANY);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(best_follows_the_scatter),
      cmocka_unit_test(asked_for_ratio)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
