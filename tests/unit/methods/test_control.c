/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Control and bare baselines: identities and what is said where there is
 * nothing to compute. SciPy judges the numbers elsewhere. */
#include "check.h"

#include <math.h>

#include "baseline.h"
#include "control.h"
#include "figure.h"

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

static scw_estimate change_of(size_t n, double change, double sd) {
  scw_estimate e;
  assert_int_equal(
      scwi_welch(context, (scwi_moments){n, 80, sd},
                 (scwi_moments){n, 80 + change, sd}, 0, 0, 0.95, &e),
      SCW_OK);
  return e;
}

static scw_estimate less(scw_estimate treated, scw_estimate control) {
  scw_estimate e;
  assert_int_equal(scwi_control(context, &treated, &control, 0.95, &e), SCW_OK);
  return e;
}

/* Two equal changes of 2n - 2 df each: twice the variance and twice the df. */
static void variances_add(void **state) {
  (void)state;
  scw_estimate a = change_of(6, 2, 0.5), e = less(a, change_of(6, 0.5, 0.5));
  check_relative(e.estimate.value, 1.5, 1e-14);
  check_relative(e.standard_uncertainty.value,
                 a.standard_uncertainty.value * sqrt(2), 1e-14);
  check_relative(e.df.value, 20, 1e-14);
}

static void a_still_control_adds_nothing(void **state) {
  (void)state;
  scw_estimate a = change_of(6, 2, 0.5), still = change_of(4, 0.25, 0);
  scw_estimate e = less(a, still);
  assert_true(e.standard_uncertainty.value == a.standard_uncertainty.value);
  check_relative(e.df.value, a.df.value, 1e-14);
  check_relative(e.estimate.value, 1.75, 1e-14);
  assert_int_equal(less(still, still).interval.state, SCW_NO_SCATTER);
  scw_estimate one = scwi_bare_estimate(1, SCW_ONE_READING, 0.95);
  assert_int_equal(less(a, one).interval.state, SCW_ONE_READING);
  assert_int_equal(less(one, a).p.state, SCW_ONE_READING);
}

static scw_estimate halves(const double *d, size_t n, double step) {
  scwi_sample sample = {.n = n, .x = d};
  scw_estimate e;
  assert_int_equal(scwi_control_paired(context, &sample,
                                       (scwi_display){step, 0}, 0.95, &e),
                   SCW_OK);
  return e;
}

/* Four displayed values without scatter have u = q sqrt(1/2); with scatter
 * beyond 1.23 steps it is the plain paired interval. */
static void paired_halves(void **state) {
  static const double same[] = {1, 1, 1}, apart[] = {1.5, 0.2, 3.1, 2.2};
  (void)state;
  scw_estimate e = halves(same, 3, 0.1), plain;
  check_relative(e.standard_uncertainty.value, 0.1 / sqrt(2), 1e-14);
  assert_int_equal(e.df.state, SCW_UNBOUNDED);
  assert_int_equal(halves(same, 3, 0).interval.state, SCW_NO_SCATTER);
  assert_int_equal(halves(same, 1, 0.1).interval.state, SCW_ONE_READING);
  scwi_sample sample = {.n = 4, .x = apart};
  e = halves(apart, 4, 0.1);
  assert_int_equal(scwi_paired(context, &sample, (scwi_display){0}, 0.95,
                               &plain), SCW_OK);
  assert_true(e.interval.low == plain.interval.low);
  assert_true(e.p.value == plain.p.value);
  /* u^2 = sd^2/m + q^2/2 - sd^2/3, written out */
  scwi_moments m = scwi_moments_of(&sample);
  e = halves(apart, 4, 5);
  check_relative(e.standard_uncertainty.value,
                 sqrt(m.sd * m.sd / 4 + 25.0 / 2 - m.sd * m.sd / 3), 1e-14);
}

static scw_against_number against(scwi_moments readings, double number,
                                  double number_step) {
  scw_against_number a;
  assert_int_equal(
      scwi_against_number(context, readings, 0, number, number_step, 0.95, &a),
      SCW_OK);
  return a;
}

static void bare_baseline(void **state) {
  scwi_moments m = {8, 85, 0.6};
  (void)state;
  scw_against_number a = against(m, 83, 0.1);
  assert_int_equal(a.verdict, SCW_CONDITIONAL);
  assert_true(a.break_even_u.value > 0 && a.break_even_u.value < 2 / 1.96);
  /* The number's side does not matter, its rounding does. */
  check_relative(against(m, 87, 0.1).break_even_u.value, a.break_even_u.value,
                 1e-13);
  assert_true(against(m, 83, 0).break_even_u.value > a.break_even_u.value);
  /* Within the readings' own scatter: cannot tell. */
  a = against(m, 84.9, 0);
  assert_int_equal(a.verdict, SCW_CANNOT_TELL);
  assert_int_equal(a.break_even_u.state, SCW_NOT_COMPUTED);
  /* Beyond it, but not beyond the number's own rounding. */
  a = against(m, 84, 2);
  assert_int_equal(a.verdict, SCW_CANNOT_TELL);
  assert_int_equal(a.break_even_u.state, SCW_WITHIN_STEP);
  a = against((scwi_moments){1, 85, 0}, 83, 0);
  assert_int_equal(a.verdict, SCW_NO_VERDICT);
  assert_int_equal(a.break_even_u.state, SCW_ONE_READING);
  a = against((scwi_moments){4, 85, 0}, 83, 0);
  assert_int_equal(a.verdict, SCW_NO_VERDICT);
  assert_int_equal(a.break_even_u.state, SCW_NO_SCATTER);
}

/* Two readings: t falls from 12.7 as the number brings df along, and the
 * crossing beyond that fall is found. */
static void two_readings_and_a_number(void **state) {
  scwi_moments m = {2, 85, 0.1};
  (void)state;
  scw_against_number a = against(m, 84, 0);
  assert_int_equal(a.verdict, SCW_CONDITIONAL);
  assert_true(a.break_even_u.value > 0.4 && a.break_even_u.value < 1 / 1.95);
}

static scw_figure break_even_sd(double change, size_t n1, size_t n2) {
  scw_figure f;
  assert_int_equal(
      scwi_break_even_sd(context, change, n1, n2, 0.1, 0.3, 0.95, &f), SCW_OK);
  return f;
}

/* A pooled t interval with that SD ends at zero: t(0.975, 8) = 2.306004. */
static void both_sides_bare(void **state) {
  (void)state;
  check_relative(break_even_sd(-1.2, 5, 5).value,
                 1.0 / (2.306004135204166 * sqrt(0.4)), 1e-13);
  assert_int_equal(break_even_sd(0.2, 5, 5).state, SCW_WITHIN_STEP);
  assert_int_equal(break_even_sd(1.2, 1, 1).state, SCW_TOO_FEW);
  assert_int_equal(break_even_sd(1.2, 1, 2).state, SCW_PRESENT);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(variances_add),
      cmocka_unit_test(a_still_control_adds_nothing),
      cmocka_unit_test(paired_halves),
      cmocka_unit_test(bare_baseline),
      cmocka_unit_test(two_readings_and_a_number),
      cmocka_unit_test(both_sides_bare)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
