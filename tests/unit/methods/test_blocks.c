/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Products at the same spots: identities, and what is said where nothing
 * scatters. R judges generated cases elsewhere. */
#include "check.h"

#include <math.h>

#include "all_pairs.h"
#include "blocks.h"
#include "two_sample.h"

enum { PRODUCTS = 3, SPOTS = 5, PAIRS = 3 };

/* Product by product; invented. */
static const double readings[PRODUCTS * SPOTS] = {
    80.1, 82.4, 79.6, 84.0, 81.3, /* */
    81.0, 83.9, 80.2, 84.9, 82.8, /* */
    80.4, 82.1, 79.9, 84.6, 81.2};

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

static void compare(const double *value, size_t products, double step,
                    double sides, size_t control, bool equal,
                    scwi_adjusted *out) {
  const scwi_blocks blocks = {value, products, SPOTS, step, sides};
  assert_int_equal(
      scwi_blocks_compare(context, &blocks, control, equal, 0.95, out), SCW_OK);
}

static scw_estimate paired(size_t i, size_t j, double step, double level) {
  double d[SPOTS];
  scw_estimate out;
  for (size_t s = 0; s < SPOTS; s++)
    d[s] = readings[i * SPOTS + s] - readings[j * SPOTS + s];
  assert_int_equal(scwi_paired(context, &(scwi_sample){.n = SPOTS, .x = d},
                               (scwi_display){step, 0}, level, &out),
                   SCW_OK);
  return out;
}

static void same(const scwi_adjusted *got, const scw_estimate *wanted,
                 double times) {
  check_relative(got->interval.low, wanted->interval.low, 1e-9);
  check_relative(got->interval.high, wanted->interval.high, 1e-9);
  check_relative(got->p.value, fmin(1, times * wanted->p.value), 1e-9);
}

/* Two products are one paired comparison, whichever way. */
static void two_products(void **state) {
  scwi_adjusted out[2];
  (void)state;
  for (int equal = 0; equal < 2; equal++) {
    scw_estimate wanted = paired(0, 1, 0, 0.95);
    compare(readings, 2, 0, 1, 2, equal, out);
    same(&out[0], &wanted, 1);
    wanted = paired(1, 0, 0, 0.95);
    compare(readings, 2, 0, 1, 0, equal, out);
    same(&out[1], &wanted, 1);
  }
}

/* Each interval at its share of the level; the smallest p three times. */
static void three_products(void **state) {
  scwi_adjusted out[PAIRS];
  size_t least = 0;
  (void)state;
  compare(readings, PRODUCTS, 0.1, 1, PRODUCTS, false, out);
  for (size_t i = 0; i < PRODUCTS; i++)
    for (size_t j = i + 1; j < PRODUCTS; j++) {
      const scwi_adjusted *pair = &out[scwi_pair_place(i, j, PRODUCTS)];
      scw_estimate wide = paired(i, j, 0.1, 1 - 0.05 / 3);
      scw_estimate own = paired(i, j, 0.1, 0.95);
      check_relative(pair->interval.low, wide.interval.low, 1e-12);
      check_relative(pair->interval.level, 0.95, 0);
      check_relative(pair->own.p.value, own.p.value, 1e-12);
      assert_true(pair->p.value >= own.p.value);
      if (pair->own.p.value < out[least].own.p.value)
        least = scwi_pair_place(i, j, PRODUCTS);
    }
  check_relative(out[least].p.value, 3 * out[least].own.p.value, 1e-12);
}

/* The level of a spot cancels, however large. */
static void levels_cancel(void **state) {
  double moved[PRODUCTS * SPOTS];
  scwi_adjusted wanted[PAIRS], got[PAIRS];
  (void)state;
  for (size_t i = 0; i < PRODUCTS * SPOTS; i++)
    moved[i] = readings[i] + 1024.0 * (double)(i % SPOTS);
  for (size_t control = 1; control <= PRODUCTS; control += 2)
    for (int equal = 0; equal < 2; equal++) {
      compare(readings, PRODUCTS, 0, 1, control, equal, wanted);
      compare(moved, PRODUCTS, 0, 1, control, equal, got);
      for (size_t i = 0; i < PAIRS; i++) {
        if (i == control) continue;
        check_relative(got[i].p.value, wanted[i].p.value, 1e-9);
        check_relative(got[i].interval.low, wanted[i].interval.low, 1e-9);
      }
    }
}

/* Read on a step too coarse for the scatter: the step alone. Two displayed
 * values in each, or four, add up. */
static void only_the_step(void **state) {
  double flat[PRODUCTS * SPOTS];
  scwi_adjusted out[PAIRS];
  (void)state;
  for (size_t i = 0; i < PRODUCTS * SPOTS; i++)
    flat[i] = 80 + (double)(i / SPOTS) + 2 * (double)(i % SPOTS);
  for (int equal = 0; equal < 2; equal++)
    for (double sides = 1; sides < 3; sides++) {
      compare(flat, PRODUCTS, 1, sides, PRODUCTS, equal, out);
      check_relative(out[0].own.standard_uncertainty.value, sqrt(sides / 6),
                     1e-12);
      assert_int_equal(out[0].own.df.state, SCW_UNBOUNDED);
      assert_int_equal(out[0].interval.state, SCW_PRESENT);
      compare(flat, PRODUCTS, 0, sides, PRODUCTS, equal, out);
      assert_int_equal(out[0].interval.state, SCW_NO_SCATTER);
      assert_int_equal(out[0].p.state, SCW_NO_SCATTER);
    }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(two_products), cmocka_unit_test(three_products),
      cmocka_unit_test(levels_cancel), cmocka_unit_test(only_the_step)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
