/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Welch and paired changes: published examples, identities, and what is said
 * where nothing scatters. R and SciPy judge generated cases elsewhere. */
#include "check.h"

#include <float.h>
#include <math.h>
#include <stdlib.h>

#include "figure.h"
#include "two_sample.h"

enum { MOST = 300 };

typedef struct data {
  size_t n;
  double x[MOST];
} data;

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

static scwi_moments moments(const data *d) {
  scwi_sample sample = {.n = d->n, .x = d->x};
  return scwi_moments_of(&sample);
}

static scw_estimate welch(scwi_moments before, scwi_moments after,
                          double step) {
  scw_estimate out;
  assert_int_equal(scwi_welch(context, before, after, step, step, 0.95, &out),
                   SCW_OK);
  return out;
}

static scw_estimate paired(const data *d, double step) {
  scwi_sample sample = {.n = d->n, .x = d->x};
  scw_estimate out;
  assert_int_equal(scwi_paired(context, &sample, (scwi_display){step, 0}, 0.95,
                               &out), SCW_OK);
  return out;
}

static void sleep_of_ten_patients(void **state) {
  check_table t = check_table_read(REFERENCE_DATA "/change/sleep.csv");
  data d = {.n = t.rows};
  (void)state;
  for (size_t i = 0; i < t.rows; i++)
    d.x[i] = check_table_number(&t, i, "after") -
             check_table_number(&t, i, "before");
  check_table_free(&t);
  scw_estimate e = paired(&d, 0);
  check_relative(e.estimate.value, 1.58, 1e-15);
  check_relative(e.estimate.value / e.standard_uncertainty.value,
                 4.062127683382036, 1e-14);
  check_relative(e.p.value, 0.002832890197384273, 1e-13);
  check_relative(e.interval.low, 0.7001142367230172, 1e-13);
  check_relative(e.interval.high, 2.459885763276983, 1e-13);
  check_relative(e.df.value, 9, 1e-15);
}

static void cars_of_two_groups(void **state) {
  check_table t = check_table_read(REFERENCE_DATA "/change/auto83b.csv");
  data side[2] = {{0}, {0}};
  (void)state;
  for (size_t i = 0; i < t.rows; i++) {
    data *d = &side[check_table_number(&t, i, "group") > 1.5];
    d->x[d->n++] = check_table_number(&t, i, "reading");
  }
  check_table_free(&t);
  scw_estimate e = welch(moments(&side[0]), moments(&side[1]), 0);
  check_relative(e.estimate.value / e.standard_uncertainty.value,
                 12.94627327493200, 1e-14);
  check_relative(e.df.value, 136.8749766725833, 1e-14);
  check_relative(e.p.value, 1.570854784295468e-25, 1e-12);
}

/* Swapping the sides flips every sign; a common factor scales everything. */
static void sign_and_scale(void **state) {
  scwi_moments a = {5, 80.3, 1.25}, b = {9, 82.1, 0.4};
  (void)state;
  scw_estimate e = welch(a, b, 0.1), back = welch(b, a, 0.1);
  assert_true(back.interval.low == -e.interval.high);
  assert_true(back.estimate.value == -e.estimate.value);
  assert_true(back.p.value == e.p.value && back.df.value == e.df.value);
  for (int power = -40; power <= 40; power += 8) {
    double k = ldexp(1, power);
    scw_estimate s = welch((scwi_moments){5, k * 80.3, k * 1.25},
                           (scwi_moments){9, k * 82.1, k * 0.4}, k * 0.1);
    assert_true(s.p.value == e.p.value && s.df.value == e.df.value);
    assert_true(s.interval.low == k * e.interval.low);
  }
}

/* JCGM 100 F.2.2.1: without scatter a displayed value has u = q/sqrt(12), and
 * a difference of two has sqrt(2) times that. */
static void only_the_display_step_speaks(void **state) {
  data d = {4, {0.1, 0.1, 0.1, 0.1}};
  scwi_moments a = {4, 80, 0}, b = {6, 80.1, 0};
  (void)state;
  scw_estimate e = welch(a, b, 0.1), pair = paired(&d, 0.1);
  check_relative(e.standard_uncertainty.value, 0.1 / sqrt(6), 1e-15);
  check_relative(pair.standard_uncertainty.value, 0.1 / sqrt(6), 1e-15);
  assert_int_equal(e.df.state, SCW_UNBOUNDED);
  /* z = sqrt(6) at a change of one step */
  check_relative(e.p.value, erfc(sqrt(3)), 1e-10);
  check_relative(e.interval.high - e.interval.low,
                 2 * 1.959963984540054 * 0.1 / sqrt(6), 1e-12);
  b.mean = 90;
  e = welch(a, b, 0.1);
  assert_int_equal(e.p.state, SCW_NO_SCATTER);
  assert_int_equal(e.interval.state, SCW_PRESENT);
}

/* Each side brings its own step: u^2 = (q1^2 + q2^2)/12. */
static void sides_of_different_steps(void **state) {
  scw_estimate e;
  (void)state;
  assert_int_equal(scwi_welch(context, (scwi_moments){4, 80, 0},
                              (scwi_moments){4, 85, 0}, 0.1, 1, 0.95, &e),
                   SCW_OK);
  check_relative(e.standard_uncertainty.value, sqrt(1.01 / 12), 1e-14);
}

static void nothing_scatters_at_all(void **state) {
  scwi_moments a = {4, 80, 0}, b = {6, 81, 0};
  data d = {3, {2, 2, 2}};
  (void)state;
  scw_estimate e = welch(a, b, 0);
  assert_true(e.estimate.value == 1 && e.estimate.state == SCW_PRESENT);
  assert_int_equal(e.p.state, SCW_NO_SCATTER);
  assert_int_equal(e.interval.state, SCW_NO_SCATTER);
  assert_int_equal(e.standard_uncertainty.state, SCW_NO_SCATTER);
  assert_int_equal(paired(&d, 0).interval.state, SCW_NO_SCATTER);
  /* One side that scatters is enough, and its df are the design's. */
  b.sd = 0.5;
  check_relative(welch(a, b, 0).df.value, 5, 1e-15);
}

static void one_reading_and_far_ends(void **state) {
  scwi_moments one = {1, 80, 0}, b = {6, 81, 0.3};
  data d = {1, {2}};
  (void)state;
  assert_int_equal(welch(one, b, 0.1).interval.state, SCW_ONE_READING);
  assert_int_equal(welch(b, one, 0.1).p.state, SCW_ONE_READING);
  assert_true(welch(one, b, 0.1).estimate.value == 1);
  assert_int_equal(paired(&d, 0.1).df.state, SCW_ONE_READING);
  scwi_moments low = {3, -DBL_MAX, 1}, high = {3, DBL_MAX, 1};
  scw_estimate e = welch(low, high, 0);
  assert_int_equal(e.estimate.state, SCW_OUT_OF_RANGE);
  assert_int_equal(e.interval.state, SCW_OUT_OF_RANGE);
  assert_int_equal(e.p.state, SCW_OUT_OF_RANGE);
  low = (scwi_moments){40, 0, 1e-300}, high = (scwi_moments){40, 1e300, 1e-300};
  assert_int_equal(welch(low, high, 0).p.state, SCW_OUT_OF_RANGE);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(sleep_of_ten_patients),
      cmocka_unit_test(cars_of_two_groups),
      cmocka_unit_test(sign_and_scale),
      cmocka_unit_test(only_the_display_step_speaks),
      cmocka_unit_test(sides_of_different_steps),
      cmocka_unit_test(nothing_scatters_at_all),
      cmocka_unit_test(one_reading_and_far_ends)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
