/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pooled scatter: the e-Handbook's gears, identities, and what a display step
 * must not break. R and SciPy judge the rest (judge_pooling). */
#include "check.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "distributions.h"
#include "figure.h"
#include "homogeneity.h"
#include "one_set.h"
#include "pooled_scatter.h"

enum { BATCHES = 10, EACH = 10 };

static scw_pool pool_of(const scwi_sample *set, size_t n) {
  scw_pool pool;
  assert_int_equal(
      scwi_pool(one_set_context(), set, n, 0.95, 0.05, &pool), SCW_OK);
  return pool;
}

/* Plain readings, shown in steps of `step`. */
static scwi_sample set_of(const double *x, size_t n, double step) {
  return (scwi_sample){.n = n, .x = x, .step = {step, SCW_STEP_GIVEN}};
}

static void take_gears(double x[BATCHES * EACH], double scale,
                       scwi_sample set[BATCHES]) {
  check_table gears = check_table_read(REFERENCE_DATA "/pooling/gear.csv");
  assert_int_equal(gears.rows, BATCHES * EACH);
  for (size_t i = 0; i < gears.rows; i++)
    x[i] = scale * check_table_number(&gears, i, "reading");
  for (size_t i = 0; i < BATCHES; i++)
    set[i] = set_of(x + i * EACH, EACH, 0);
  check_table_free(&gears);
}

static double figure(const char *name) {
  check_table figures =
      check_table_read(REFERENCE_DATA "/pooling/figures.csv");
  double value = NAN;
  for (size_t i = 0; i < figures.rows; i++)
    if (!strcmp(check_table_text(&figures, i, "figure"), name))
      value = check_table_number(&figures, i, "value");
  check_table_free(&figures);
  return value;
}

static void gears(void **state) {
  double x[BATCHES * EACH];
  scwi_sample set[BATCHES];
  (void)state;
  take_gears(x, 1, set);
  scw_pool pool = pool_of(set, BATCHES);
  /* published, single precision */
  check_absolute(pool.bartlett.statistic.value, 20.7858, 1e-4);
  check_absolute(pool.brown_forsythe.statistic.value, 1.7059, 5e-5);
  /* readings as doubles near 1 with deviations near 0.006 */
  check_relative(pool.sd.value, figure("pooled_sd"), 1e-13);
  check_relative(pool.bartlett.statistic.value, figure("bartlett"), 1e-12);
  check_relative(pool.bartlett.p.value, figure("bartlett_p"), 1e-12);
  check_relative(pool.brown_forsythe.statistic.value,
                 figure("brown_forsythe"), 1e-12);
  check_relative(pool.brown_forsythe.p.value, figure("brown_forsythe_p"),
                 1e-12);
  check_relative(pool.levene.statistic.value, figure("levene"), 1e-12);
  assert_true(pool.df.value == 90);
  assert_int_equal(pool.sets, BATCHES);
  assert_int_equal(pool.bartlett.df2.state, SCW_NOT_COMPUTED);
  scwi_pool_free(&pool);
}

/* Every p and ratio stays, the SD goes along, whatever the unit. */
static void any_unit(void **state) {
  static const double scales[] = {1e-12, 1e12, 1e-290, 1e290};
  double x[BATCHES * EACH], y[BATCHES * EACH];
  scwi_sample set[BATCHES], scaled[BATCHES];
  (void)state;
  take_gears(x, 1, set);
  scw_pool one = pool_of(set, BATCHES);
  for (size_t s = 0; s < 4; s++) {
    take_gears(y, scales[s], scaled);
    scw_pool other = pool_of(scaled, BATCHES);
    check_relative(other.sd.value, scales[s] * one.sd.value, 1e-12);
    check_relative(other.bartlett.p.value, one.bartlett.p.value, 1e-10);
    check_relative(other.levene.p.value, one.levene.p.value, 1e-10);
    check_relative(other.brown_forsythe.p.value, one.brown_forsythe.p.value,
                   1e-10);
    for (size_t i = 0; i < BATCHES; i++)
      check_relative(other.set[i].p.value, one.set[i].p.value, 1e-9);
    scwi_pool_free(&other);
  }
  scwi_pool_free(&one);
}

/* Two sets: the F test of one against the other, whichever is asked. */
static void two_sets(void **state) {
  static const double a[] = {1, 2, 4, 7}, b[] = {10, 10.5, 11};
  scwi_sample set[] = {set_of(a, 4, 0), set_of(b, 3, 0)};
  (void)state;
  scw_pool pool = pool_of(set, 2);
  check_relative(pool.set[0].ratio.value, 1 / pool.set[1].ratio.value, 1e-15);
  check_relative(pool.set[0].p.value, pool.set[1].p.value, 1e-13);
  check_relative(pool.sd.value, sqrt((21 + 0.5) / 5), 1e-15);
  scwi_pool_free(&pool);
}

static void a_wild_set_is_named(void **state) {
  static const double calm[] = {80.1, 80.4, 79.8, 80.2, 79.9};
  static const double wild[] = {80, 88, 71, 84, 77};
  scwi_sample set[9];
  (void)state;
  for (size_t i = 0; i < 9; i++)
    set[i] = set_of(i == 4 ? wild : calm, 5, 0.1);
  scw_pool pool = pool_of(set, 9);
  for (size_t i = 0; i < 9; i++)
    assert_int_equal(pool.set[i].apart, i == 4);
  assert_int_equal(pool.n_apart, 1);
  assert_int_equal(pool.sets, 9); /* named, not removed */
  assert_true(pool.df.value == 36);
  scwi_pool_free(&pool);
}

/* A set that shows one number all through counts with an SD of 0, and is not
 * apart where half a step explains it. */
static void a_step_hides_scatter(void **state) {
  static const double even[] = {80, 80, 80, 80, 80}, odd[] = {80, 80, 81, 80, 80};
  scwi_sample set[8];
  (void)state;
  for (size_t i = 0; i < 8; i++)
    set[i] = set_of(i < 6 ? even : odd, 5, 1);
  scw_pool pool = pool_of(set, 8);
  assert_int_equal(pool.alike, 6);
  assert_int_equal(pool.n_apart, 0);
  assert_true(pool.step_decides);
  check_relative(pool.sd.value, sqrt(2 * 0.8 / 32), 1e-15);
  assert_int_equal(pool.bartlett.p.state, SCW_NO_SCATTER);
  assert_int_equal(pool.brown_forsythe.p.state, SCW_PRESENT);
  scwi_pool_free(&pool);
}

/* A set of one number among wildly scattered ones does not belong, step or
 * not; nor does a wild one among sets that show none. */
static void even_among_wild(void **state) {
  static const double even[] = {80, 80, 80, 80, 80, 80, 80, 80};
  static const double wild[] = {80, 99, 61, 84, 77, 70, 93, 86};
  scwi_sample set[8];
  (void)state;
  for (size_t turn = 0; turn < 2; turn++) {
    for (size_t i = 0; i < 8; i++)
      set[i] = set_of((i == 2) == (turn == 0) ? even : wild, 8, 1);
    scw_pool pool = pool_of(set, 8);
    for (size_t i = 0; i < 8; i++)
      assert_int_equal(pool.set[i].apart, i == 2);
    assert_int_equal(pool.set[2].ratio.state,
                     turn ? SCW_NO_SCATTER : SCW_PRESENT);
    /* At its weakest: the even set may scatter by half a step, the wild one by
     * as much less, and even sets as rounding does; eight sets, two sides. */
    double half = 0.5 * sqrt(8.0 / 7), sd = pool.set[turn ? 2 : 0].sd.value;
    double f = turn ? (sd - half) * sqrt(12) : half / sd;
    double tail = turn ? scwi_f_upper(f * f, 7, 49) : scwi_f_cdf(f * f, 7, 49);
    check_relative(pool.set[2].p.value, 16 * tail, 1e-12);
    scwi_pool_free(&pool);
  }
}

static void little_to_pool(void **state) {
  static const double x[] = {1, 2, 4}, same[] = {5, 5, 5};
  scwi_sample one_each[] = {set_of(x, 1, 0), set_of(x + 1, 1, 0)};
  scwi_sample single[] = {set_of(x, 3, 0), set_of(x, 1, 0)};
  scwi_sample even[] = {set_of(same, 3, 0), set_of(same, 3, 0)};
  scwi_sample pairs[] = {set_of(x, 2, 0), set_of(x + 1, 2, 0)};
  (void)state;
  scw_pool pool = pool_of(one_each, 0);
  assert_int_equal(pool.sd.state, SCW_ONE_READING);
  scwi_pool_free(&pool);
  pool = pool_of(one_each, 2);
  assert_int_equal(pool.sd.state, SCW_ONE_READING);
  assert_int_equal(pool.set[0].p.state, SCW_ONE_READING);
  assert_int_equal(pool.bartlett.p.state, SCW_TOO_FEW);
  assert_int_equal(pool.levene.p.state, SCW_TOO_FEW);
  scwi_pool_free(&pool);
  pool = pool_of(single, 2);
  assert_true(pool.df.value == 2);
  assert_int_equal(pool.set[0].p.state, SCW_TOO_FEW);
  assert_int_equal(pool.set[1].sd.state, SCW_ONE_READING);
  scwi_pool_free(&pool);
  pool = pool_of(even, 2);
  assert_true(pool.sd.value == 0);
  assert_int_equal(pool.interval.state, SCW_NO_SCATTER);
  assert_int_equal(pool.set[0].p.state, SCW_NO_SCATTER);
  assert_int_equal(pool.brown_forsythe.p.state, SCW_NO_SCATTER);
  scwi_pool_free(&pool);
  pool = pool_of(pairs, 2); /* both distances of a pair are equal */
  assert_int_equal(pool.levene.p.state, SCW_NO_SCATTER);
  assert_int_equal(pool.bartlett.p.state, SCW_PRESENT);
  scwi_pool_free(&pool);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(gears),
      cmocka_unit_test(any_unit),
      cmocka_unit_test(two_sets),
      cmocka_unit_test(a_wild_set_is_named),
      cmocka_unit_test(a_step_hides_scatter),
      cmocka_unit_test(even_among_wild),
      cmocka_unit_test(little_to_pool)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
