/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Points by a rule. Arithmetic by hand; rounding of decimals as written against
 * Python's decimal module is in judge_rounding.py. */
#include "check.h"

#include <math.h>

#include "rule_points.h"

static const scw_rule gain = {.kind = SCW_RULE_DIFFERENCE, .points = 2, .per = 1,
                              .low = 0, .high = 20,
                              .rounding = {0.1, 0.1, 0.5, SCW_TIES_AWAY}};

static void halves(void **state) {
  (void)state;
  assert_true(scwi_round_to(0.15, 0.1, SCW_TIES_AWAY) == 0.2);
  assert_true(scwi_round_to(0.25, 0.1, SCW_TIES_AWAY) == 0.3);
  assert_true(scwi_round_to(0.25, 0.1, SCW_TIES_EVEN) == 0.2);
  assert_true(scwi_round_to(-0.25, 0.1, SCW_TIES_AWAY) == -0.3);
  assert_true(scwi_round_to(-0.25, 0.1, SCW_TIES_EVEN) == -0.2);
  assert_true(scwi_round_to(1.005, 0.01, SCW_TIES_AWAY) == 1.01);
  assert_true(scwi_round_to(2.75, 0.5, SCW_TIES_AWAY) == 3);
  assert_true(scwi_round_to(2.75, 0.5, SCW_TIES_EVEN) == 3);
  assert_true(scwi_round_to(2.25, 0.5, SCW_TIES_EVEN) == 2);
  assert_true(scwi_round_to(7.5, 5, SCW_TIES_EVEN) == 10);
  assert_true(scwi_round_to(2.5, 5, SCW_TIES_EVEN) == 0);
  assert_true(scwi_round_to(84.2333333333333, 0.1, SCW_TIES_AWAY) == 84.2);
  assert_true(scwi_round_to(3.14, 0, SCW_TIES_AWAY) == 3.14);
  assert_true(scwi_round_to(1e300, 0.1, SCW_TIES_AWAY) == 1e300);
  assert_true(scwi_round_to(-1e12, 1e-300, SCW_TIES_EVEN) == -1e12);
  assert_true(isnan(scwi_round_to(NAN, 0.1, SCW_TIES_AWAY)));
}

static void points_of_decimals(void **state) {
  scw_rule per = {.kind = SCW_RULE_DIFFERENCE, .points = 1, .per = 0.01,
                  .low = -INFINITY, .high = INFINITY};
  scw_rule three = {.kind = SCW_RULE_DIFFERENCE, .points = 3, .per = 1,
                    .offset = 0.1, .low = -INFINITY, .high = INFINITY};
  (void)state;
  assert_true(scwi_rule_points(&per, 0.07) == 7);
  assert_true(scwi_rule_points(&per, -0.29) == -29);
  assert_true(scwi_rule_points(&three, 0.15) == 0.55);
  assert_true(scwi_rule_points(&gain, 1.1) == 2.2);
  assert_true(scwi_rule_points(&gain, -3) == 0);
  assert_true(scwi_rule_points(&gain, 11) == 20);
}

static void ladders(void **state) {
  static const scw_rung rungs[] = {{25, 5}, {50, 10}, {100, 15}};
  scw_rule ladder = {.kind = SCW_RULE_LADDER, .rung = rungs, .n_rungs = 3,
                     .offset = 1, .low = -INFINITY, .high = 12};
  (void)state;
  assert_true(scwi_rule_points(&ladder, 0) == 1);
  assert_true(scwi_rule_points(&ladder, 24.9) == 1);
  assert_true(scwi_rule_points(&ladder, 25) == 5);
  assert_true(scwi_rule_points(&ladder, 99) == 10);
  assert_true(scwi_rule_points(&ladder, 100) == 12);
  scw_interval image = scwi_rule_image(
      &ladder, (scw_interval){30, 60, 0.95, SCW_PRESENT});
  assert_true(image.low == 5 && image.high == 10);
}

static void images(void **state) {
  scw_rule falling = {.kind = SCW_RULE_MEAN, .points = -50, .per = 1,
                      .offset = 30, .low = 0, .high = 30};
  scw_interval x = {0.1, 0.3, 0.95, SCW_PRESENT};
  scw_interval image = scwi_rule_image(&falling, x);
  (void)state;
  assert_true(image.low == 15 && image.high == 25 && image.level == 0.95);
  x.high = 0.9;
  assert_true(scwi_rule_image(&falling, x).low == 0);
  x.state = SCW_ONE_READING;
  assert_int_equal(scwi_rule_image(&falling, x).state, SCW_ONE_READING);
}

static void publishers_order(void **state) {
  scwi_published p = scwi_rule_published(&gain, 84.149, 85.351);
  (void)state;
  /* 84.1, 85.4, 1.3, 2.6, 2.5; unrounded 1.202, 2.404, 2.5 */
  assert_true(p.before == 84.1 && p.after == 85.4);
  assert_true(p.quantity.value == 1.3 && p.points.value == 2.5);
  scw_interval all = scwi_rule_published_image(&gain, 1.1, 1.4);
  assert_true(all.low == 2 && all.high == 3);
  scw_rule percent = {.kind = SCW_RULE_PERCENT, .points = 1, .per = 1,
                      .low = -INFINITY, .high = INFINITY};
  assert_int_equal(scwi_rule_quantity(&percent, 0, 3).state, SCW_ZERO_BEFORE);
  assert_true(scwi_rule_quantity(&percent, 80, 60).value == 75);
}

static void sums(void **state) {
  static const scw_score_part parts[] = {{0, 1}, {1, 0.5}, {2, -1}};
  scw_score_rule score = {.part = parts, .n_parts = 3, .low = 0, .high = 10};
  static const double points[] = {2.2, 7.4, 0.1}, many[] = {9, 9, 0};
  static const double few[] = {0, 0, 1};
  (void)state;
  assert_true(scwi_score_sum(&score, points) == 5.8);
  assert_true(scwi_score_sum(&score, many) == 10);
  assert_true(scwi_score_sum(&score, few) == 0);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(halves),           cmocka_unit_test(points_of_decimals),
      cmocka_unit_test(ladders),          cmocka_unit_test(images),
      cmocka_unit_test(publishers_order), cmocka_unit_test(sums)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
