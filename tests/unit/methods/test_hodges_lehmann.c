/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rank intervals: a published example, the edges of the exact tables. R judges
 * generated cases elsewhere. */
#include "check.h"

#include <math.h>

#include "figure.h"
#include "hodges_lehmann.h"
#include "rank_limits.h"

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

/* Hollander & Wolfe, Nonparametric Statistical Methods, 1973, depression
 * scale of nine patients (from memory; R 4.2.2 agrees): -0.46, -0.786 to
 * -0.010, and 1 - 10/256 of coverage. */
static void depression_scale(void **state) {
  static const double first[] = {1.83, 0.50, 1.62, 2.48, 1.68,
                                 1.88, 1.55, 3.06, 1.30};
  static const double second[] = {0.878, 0.647, 0.598, 2.05, 1.06,
                                  1.29,  1.06,  3.14,  1.29};
  double d[9];
  scw_hodges_lehmann h;
  (void)state;
  for (int i = 0; i < 9; i++)
    d[i] = second[i] - first[i];
  scwi_sample sample = {.n = 9, .x = d};
  assert_int_equal(scwi_hodges_lehmann_paired(context, &sample, 0.95, &h),
                   SCW_OK);
  check_absolute(h.estimate.value, -0.46, 1e-14);
  check_absolute(h.interval.low, -0.786, 1e-14);
  check_absolute(h.interval.high, -0.010, 1e-14);
  check_relative(h.coverage.value, 1 - 10.0 / 256, 1e-14);
}

static scw_hodges_lehmann sides(size_t m, size_t n, double level) {
  static double before[1200], after[1200];
  scw_hodges_lehmann h;
  for (size_t i = 0; i < m; i++)
    before[i] = (double)(i * i % 97);
  for (size_t i = 0; i < n; i++)
    after[i] = (double)(i * i % 89) + 0.5;
  scwi_sample b = {.n = m, .x = before}, a = {.n = n, .x = after};
  assert_int_equal(scwi_hodges_lehmann_unpaired(context, &b, &a, level, &h),
                   SCW_OK);
  return h;
}

/* P(U = 0) for 3 v 3 is 1/20: out of reach at 95 %, just reached at 90 %. */
static void levels_out_of_reach(void **state) {
  (void)state;
  scw_hodges_lehmann h = sides(3, 3, 0.95);
  assert_int_equal(h.interval.state, SCW_LEVEL_UNREACHABLE);
  assert_int_equal(h.coverage.state, SCW_LEVEL_UNREACHABLE);
  assert_int_equal(h.estimate.state, SCW_PRESENT);
  h = sides(3, 3, 0.90);
  check_relative(h.coverage.value, 0.9, 1e-14);
  /* Five pairs: 2/32 at the ends. */
  scwi_rank_limit limit;
  assert_int_equal(scwi_signed_rank_limit(context, 5, 0.025, &limit), SCW_OK);
  assert_true(limit.from_end == 0 && !limit.too_many);
  assert_int_equal(scwi_signed_rank_limit(context, 6, 0.025, &limit), SCW_OK);
  assert_int_equal(limit.from_end, 1);
  check_relative(limit.beyond, 1.0 / 64, 1e-14);
}

static void too_few_and_too_many(void **state) {
  (void)state;
  assert_int_equal(sides(0, 3, 0.95).estimate.state, SCW_TOO_FEW);
  scw_hodges_lehmann h = sides(200, 200, 0.95);
  assert_int_equal(h.estimate.state, SCW_PRESENT);
  assert_int_equal(h.interval.state, SCW_TOO_MANY);
  assert_int_equal(sides(1200, 1200, 0.95).estimate.state, SCW_TOO_MANY);
}

/* Swapping the sides flips the interval; the tables do not mind the order. */
static void swapping_sides(void **state) {
  static const double x[] = {3.1, 4.7, 2.2, 5.9, 4.4, 3.3, 2.8};
  scwi_sample b = {.n = 3, .x = x}, a = {.n = 4, .x = x + 3};
  scw_hodges_lehmann h, back;
  (void)state;
  assert_int_equal(scwi_hodges_lehmann_unpaired(context, &b, &a, 0.9, &h),
                   SCW_OK);
  assert_int_equal(scwi_hodges_lehmann_unpaired(context, &a, &b, 0.9, &back),
                   SCW_OK);
  assert_true(h.interval.low == -back.interval.high);
  assert_true(h.estimate.value == -back.estimate.value);
  assert_true(h.coverage.value == back.coverage.value);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(depression_scale), cmocka_unit_test(levels_out_of_reach),
      cmocka_unit_test(too_few_and_too_many), cmocka_unit_test(swapping_sides)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
