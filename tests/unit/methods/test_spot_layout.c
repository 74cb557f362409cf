/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Spot lists: published packings, areas, uniformity, order. */
#include "check.h"

#include <math.h>
#include <stdlib.h>

#include "distributions.h"
#include "regular_spots.h"
#include "scatterwise/context.h"
#include "spot_layout.h"

enum { MOST = 400 };
static scw_context *context;

static int make_context(void **state) {
  (void)state;
  return scw_context_new(&context) != SCW_OK;
}

static int drop_context(void **state) {
  (void)state;
  scw_context_free(context);
  return 0;
}

/* Radius of the largest n equal discs in a unit square: 2 to 9 and 16 proven
 * (J. Schaer, Canad. Math. Bull. 8, 1965, 273-277, and others), 10 to 14 from
 * memory. Tolerance: what the search reaches, see docs/methods/spot-lists.md. */
static void discs_in_a_square(void **state) {
  static const struct {
    size_t n;
    double radius, tolerance;
  } known[] = {{2, 0.292893218813, 1e-5},  {3, 0.254333095030, 1e-5},
               {4, 0.25, 1e-5},            {5, 0.207106781187, 1e-5},
               {6, 0.187680601147, 1e-5},  {7, 0.174457630187, 1e-5},
               {8, 0.170540688701, 1e-5},  {9, 1.0 / 6, 1e-5},
               {10, 0.148204322565, 5e-4}, {12, 0.139958844038, 1e-5},
               {13, 0.133993513500, 5e-4}, {14, 0.129331793710, 1e-4},
               {16, 0.125, 1e-5}};
  double x[MOST], y[MOST];
  (void)state;
  for (size_t i = 0; i < sizeof known / sizeof *known; i++) {
    size_t n = known[i].n;
    assert_int_equal(scwi_spread_spots(context, (scwi_rectangle){1000, 1000},
                                       false, n, x, y),
                     SCW_OK);
    double edge = INFINITY;
    for (size_t k = 0; k < n; k++)
      edge = fmin(edge, fmin(fmin(x[k], 1000 - x[k]),
                             fmin(y[k], 1000 - y[k])));
    double radius = fmin(scwi_nearest(x, y, n) / 2, edge) / 1000;
    check_relative(radius, known[i].radius, known[i].tolerance);
    assert_true(radius <= known[i].radius * (1 + 1e-9));
    /* Up to the border: the same packing, its centres alone. */
    double apart = 2 * known[i].radius / (1 - 2 * known[i].radius);
    assert_int_equal(scwi_spread_spots(context, (scwi_rectangle){1000, 1000},
                                       true, n, x, y),
                     SCW_OK);
    check_relative(scwi_nearest(x, y, n) / 1000, apart, known[i].tolerance * 3);
  }
}

static void spread_beats_the_others(void **state) {
  double x[MOST], y[MOST];
  scwi_random *random;
  (void)state;
  assert_int_equal(scwi_random_new(context, 5, &random), SCW_OK);
  for (size_t n = 2; n <= 40; n += 3) {
    scwi_rectangle field = {3000, 2000 - 40 * (double)n};
    scwi_strata strata = scwi_strata_of(field, n);
    assert_int_equal(scwi_spread_spots(context, field, true, n, x, y), SCW_OK);
    double spread = scwi_nearest(x, y, n);
    for (size_t i = 0; i < n; i++)
      assert_true(x[i] >= 0 && x[i] <= field.width && y[i] >= 0 &&
                  y[i] <= field.height);
    assert_true(spread >= scwi_regular_spots(field, true, n, x, y) *
                              (1 - 1e-12));
    scwi_grid_spots(&strata, x, y);
    assert_true(spread > scwi_nearest(x, y, n));
    scwi_random_spots(&strata, random, x, y);
    assert_true(spread > scwi_nearest(x, y, n));
  }
  scwi_random_free(random);
}

static bool inside(scwi_area a, double x, double y) {
  return x >= a.left && x < a.right && y >= a.low && y < a.high;
}

/* Areas are equal, and each holds its own spot and no other's. */
static void every_area_its_spot(void **state) {
  double x[MOST], y[MOST];
  scwi_random *random;
  (void)state;
  assert_int_equal(scwi_random_new(context, 9, &random), SCW_OK);
  for (size_t n = 1; n <= 60; n++) {
    scwi_rectangle field = {n % 2 ? 2803 : 911, 1709};
    scwi_strata strata = scwi_strata_of(field, n);
    scwi_random_spots(&strata, random, x, y);
    for (size_t i = 0; i < n; i++) {
      scwi_area area = scwi_area_of(&strata, i);
      check_relative((area.right - area.left) * (area.high - area.low),
                     field.width * field.height / (double)n, 1e-12);
      for (size_t k = 0; k < n; k++)
        assert_true(inside(area, x[k], y[k]) == (i == k));
    }
  }
  scwi_random_free(random);
}

/* 7 spots from each of 20,000 draws over 8 x 6 cells of the field: chi-square
 * against uniform, smaller than independent draws would give. */
static void draws_are_uniform(void **state) {
  enum { N = 7, ACROSS = 8, UP = 6, DRAWS = 20000 };
  static size_t count[ACROSS * UP];
  scwi_rectangle field = {2400, 1800};
  scwi_strata strata = scwi_strata_of(field, N);
  double x[N], y[N], chi2 = 0, expected = (double)DRAWS * N / (ACROSS * UP);
  (void)state;
  for (unsigned seed = 1; seed <= DRAWS / 100; seed++) {
    scwi_random *random;
    assert_int_equal(scwi_random_new(context, seed, &random), SCW_OK);
    for (int draw = 0; draw < 100; draw++) {
      scwi_random_spots(&strata, random, x, y);
      for (int i = 0; i < N; i++)
        count[(size_t)(y[i] / 300) * ACROSS + (size_t)(x[i] / 300)]++;
    }
    scwi_random_free(random);
  }
  for (int i = 0; i < ACROSS * UP; i++)
    chi2 += ((double)count[i] - expected) * ((double)count[i] - expected) /
            expected;
  assert_true(scwi_chi2_upper(chi2, ACROSS * UP - 1) > 1e-4);
}

static int by_value(const void *a, const void *b) {
  const double *x = a, *y = b;
  return (*x > *y) - (*x < *y);
}

/* Numbering anew moves no spot, and goes to and fro. */
static void the_walk_is_a_walk(void **state) {
  double x[12], y[12], before[12], after[12];
  scwi_strata strata = scwi_strata_of((scwi_rectangle){400, 300}, 12);
  (void)state;
  scwi_grid_spots(&strata, x, y);
  for (int i = 0; i < 12; i++)
    before[i] = 1000 * y[i] + x[i];
  scwi_walk_spots(&strata, x, y);
  for (int i = 0; i < 12; i++) {
    after[i] = 1000 * y[i] + x[i];
    if (i > 0)
      check_relative(hypot(x[i] - x[i - 1], y[i] - y[i - 1]), 100, 1e-12);
  }
  qsort(before, 12, sizeof *before, by_value);
  qsort(after, 12, sizeof *after, by_value);
  assert_memory_equal(before, after, sizeof before);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(discs_in_a_square),
      cmocka_unit_test(spread_beats_the_others),
      cmocka_unit_test(every_area_its_spot),
      cmocka_unit_test(draws_are_uniform),
      cmocka_unit_test(the_walk_is_a_walk)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
