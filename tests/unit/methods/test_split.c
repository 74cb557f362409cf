/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Unequal numbers, and spots with repeats. SciPy judges the numbers elsewhere;
 * here what must hold, and a published split of variance. */
#include "check.h"

#include <math.h>

#include "figure.h"
#include "split.h"
#include "spot_components.h"
#include "spots_plan.h"

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
  scwi_comparison c = {false, sd_before, sd_after, 0, 0.95, 0};
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

/* Six batches of dyestuff, five samples each: mean squares 11271.5 and
 * 2451.25, between batches 1764.05 (Box & Tiao, Bayesian Inference in
 * Statistical Analysis, 1973, table 5.1.1, after Davies 1947). */
static void dyestuff(void **state) {
  static const double x[] = {1545, 1440, 1440, 1520, 1580, 1540, 1555, 1490,
                             1560, 1495, 1595, 1550, 1605, 1510, 1560, 1445,
                             1440, 1595, 1465, 1545, 1595, 1630, 1515, 1635,
                             1625, 1520, 1455, 1450, 1480, 1445};
  scw_spot_components c;
  (void)state;
  assert_int_equal(scwi_spot_components(context, x, 6, 5, 0.8, &c), SCW_OK);
  check_relative(c.repeat.value, 2451.25, 1e-13);
  check_relative(c.spot.value, 1764.05, 1e-13);
  assert_true(c.spot_upper.value > c.spot.value);
  assert_true(c.repeat_upper.value > c.repeat.value);
  assert_int_equal(scwi_spot_components(context, x, 6, 1, 0.8, &c), SCW_OK);
  assert_int_equal(c.spot.state, SCW_TOO_FEW);
}

/* Spots that differ less than repeats alone would make them: raw below zero,
 * and still an upper limit above it. */
static void no_spots_to_see(void **state) {
  static const double x[] = {1, 2, 3, 1, 2, 3, 1.1, 2, 3, 1, 2.1, 3};
  scw_spot_components c;
  (void)state;
  assert_int_equal(scwi_spot_components(context, x, 4, 3, 0.95, &c), SCW_OK);
  assert_true(c.spot.value < 0 && c.spot_upper.value >= 0);
}

static scw_spots_plan spots(double spot_variance, double repeat_variance,
                            double cost_spot, double cost_repeat,
                            double target) {
  scwi_comparison c = {.level = 0.95};
  scwi_goal goal = {SCW_PLAN_HALF_WIDTH, target, 0.8};
  scwi_spot_costs costs = {spot_variance, repeat_variance, cost_spot,
                           cost_repeat};
  scw_spots_plan out;
  assert_int_equal(scwi_plan_spots(context, &c, &costs, goal, &out), SCW_OK);
  return out;
}

static void dear_spots_get_more_repeats(void **state) {
  (void)state;
  scw_spots_plan cheap = spots(1, 1, 0, 1, 0.5), dear = spots(1, 1, 20, 1, 0.5);
  assert_true(cheap.repeats.value == 1);
  assert_true(dear.repeats.value > 2 && dear.spots.value < cheap.spots.value);
  check_relative(dear.cost.value, dear.spots.value * (20 + dear.repeats.value),
                 1e-14);
  assert_true(dear.readings.value == dear.spots.value * dear.repeats.value);
  /* Nothing between spots: three spots, repeats do the rest. */
  assert_true(spots(0, 1, 1, 1, 0.1).spots.value >= 3);
  assert_true(spots(1, 0, 1, 1, 0.5).repeats.value == 1);
  assert_int_equal(spots(1, 1, 1, 1, 1e-9).spots.state, SCW_TOO_MANY);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(best_follows_the_scatter),
      cmocka_unit_test(asked_for_ratio), cmocka_unit_test(dyestuff),
      cmocka_unit_test(no_spots_to_see),
      cmocka_unit_test(dear_spots_get_more_repeats)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
