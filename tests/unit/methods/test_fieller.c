/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ratio of two means: identities, the display step, and what is said where
 * there is no ratio or no scatter. SciPy and R judge generated cases. */
#include "check.h"

#include <math.h>
#include <string.h>

#include "fieller.h"
#include "figure.h"
#include "two_sample.h"

enum { N = 6 };
static const double before[N] = {84.1, 83.6, 84.0, 84.4, 83.1, 83.7};
static const double after[N] = {79.3, 78.8, 79.9, 79.1, 78.6, 79.0};

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

static scwi_moments moments(const double *x, size_t n) {
  scwi_sample sample = {.n = n, .x = x};
  return scwi_moments_of(&sample);
}

static scw_ratio solved(scwi_two_means means) {
  scw_ratio out;
  assert_int_equal(scwi_ratio_of_means(context, &means, 0.95, &out), SCW_OK);
  return out;
}

static scw_ratio apart(const double *b, size_t n_b, const double *a, size_t n_a,
                       double step) {
  return solved(
      scwi_means_apart(moments(b, n_b), step, moments(a, n_a), step));
}

static scw_ratio pairs(const double *b, const double *a, size_t m,
                       scwi_display display) {
  return solved(scwi_means_paired(b, a, m, display));
}

static const scwi_display fine = {0, 0};

/* The ratio turned over has the ends turned over: the same test. */
static void upside_down(void **state) {
  (void)state;
  scw_ratio r = pairs(before, after, N, fine), s = pairs(after, before, N, fine);
  assert_int_equal(r.set, SCW_RATIO_BETWEEN);
  check_relative(r.estimate.value * s.estimate.value, 1, 1e-15);
  check_relative(r.low.value * s.high.value, 1, 1e-14);
  check_relative(r.high.value * s.low.value, 1, 1e-14);
  check_relative(r.delta.low * s.delta.high, 1, 1e-14);
  scw_ratio p = apart(before, N, after, N, 0.1),
            q = apart(after, N, before, N, 0.1);
  check_relative(p.df.value, q.df.value, 1e-14);
  check_relative(p.low.value * q.high.value, 1, 1e-14);
}

/* Another unit changes nothing, from 1e-300 to 1e300. */
static void any_unit(void **state) {
  static const double units[] = {1e-300, 1e-12, 1e12, 1e300};
  scw_ratio r = pairs(before, after, N, (scwi_display){0.5, 0.1});
  scw_ratio s = apart(before, N, after, N - 1, 0.5);
  (void)state;
  for (size_t u = 0; u < 4; u++) {
    double b[N], a[N];
    for (size_t i = 0; i < N; i++) {
      b[i] = before[i] * units[u];
      a[i] = after[i] * units[u];
    }
    scwi_display display = {0.5 * units[u], 0.1 * units[u]};
    scw_ratio p = pairs(b, a, N, display);
    scw_ratio q = apart(b, N, a, N - 1, display.step);
    check_relative(p.low.value, r.low.value, 1e-13);
    check_relative(p.high.value, r.high.value, 1e-13);
    check_relative(p.df.value, r.df.value, 1e-11);
    check_relative(q.low.value, s.low.value, 1e-13);
    check_relative(q.delta.high, s.delta.high, 1e-13);
  }
}

/* A ratio of 1 is inside exactly when a change of 0 is, for pairs: moved until
 * an end of the change is 0, an end of the ratio is 1. Step and all. */
static void one_is_no_change(void **state) {
  static const scwi_display displays[] = {{0, 0}, {0.1, 0.02}, {2, 0}, {0.1, 1}};
  (void)state;
  for (size_t k = 0; k < 4; k++) {
    double d[N], moved[N];
    scw_estimate change;
    for (size_t i = 0; i < N; i++)
      d[i] = after[i] - before[i];
    scwi_sample sample = {.n = N, .x = d};
    assert_int_equal(scwi_paired(context, &sample, displays[k], 0.95, &change),
                     SCW_OK);
    for (size_t i = 0; i < N; i++)
      moved[i] = after[i] - change.interval.high;
    scw_ratio r = pairs(before, moved, N, displays[k]);
    /* df are those at the ratio found, so the end is close where they are
     * fractional, exact where they are n - 1 */
    double tolerance = displays[k].step > 0 ? 2e-3 : 1e-13;
    check_relative(r.high.value, 1, tolerance);
  }
}

/* Readings that hardly differ: only the display speaks. */
static void display_alone(void **state) {
  static const double b[] = {80, 80, 80}, a[] = {60, 60, 60};
  (void)state;
  scw_ratio r = pairs(b, a, 3, (scwi_display){1, hypot(1, 1) / sqrt(12)});
  /* each mean has u = 1/root 12; the ratio 0.75 */
  double u2 = 1 / 12.0, z = 1.959963984540054;
  double A = 80 * 80 - z * z * u2, C = 60 * 60 - z * z * u2, B = 4800;
  double root = sqrt(B * B - A * C);
  assert_int_equal(r.df.state, SCW_UNBOUNDED);
  check_relative(r.low.value, (B - root) / A, 1e-12);
  check_relative(r.high.value, (B + root) / A, 1e-12);
  scw_ratio s = apart(b, 3, a, 3, 1);
  check_relative(s.low.value, r.low.value, 1e-13);
  check_relative(s.delta.high, 0.75 * exp(z * sqrt(u2 * (1 / 3600.0 +
                                                         1 / 6400.0))), 1e-13);
}

/* Another error of both sides widens; nothing added changes nothing. */
static void added(void **state) {
  (void)state;
  scwi_two_means means =
      scwi_means_apart(moments(before, N), 0, moments(after, N), 0);
  scw_ratio r = solved(means);
  scwi_means_add(&means, 0, 0, 0, INFINITY);
  scw_ratio same = solved(means);
  check_relative(same.low.value, r.low.value, 1e-15);
  scwi_means_add(&means, means.before_variance, means.rest_variance,
                 means.covariance, INFINITY);
  scw_ratio wide = solved(means);
  assert_true(wide.low.value < r.low.value && wide.high.value > r.high.value);
  check_relative(wide.df.value, 4 * r.df.value, 1e-13);
}

static void no_uncertainty(void **state) {
  static const double b[] = {8, 9, 7}, half[] = {4, 4.5, 3.5},
                      tenth[] = {0.8, 0.9, 0.7}, zero[] = {0, 0, 0},
                      balanced[] = {-1, 0, 1};
  (void)state;
  assert_int_equal(apart(b, 1, b, 3, 0).state, SCW_ONE_READING);
  assert_int_equal(apart(b, 3, b, 1, 0).state, SCW_ONE_READING);
  check_relative(apart(b, 1, half, 1, 0).estimate.value, 0.5, 1e-15);
  assert_int_equal(pairs(b, half, 1, fine).state, SCW_ONE_READING);
  assert_int_equal(pairs(b, half, 0, fine).state, SCW_TOO_FEW);
  /* all in proportion: nothing scatters about the ratio */
  assert_int_equal(pairs(b, half, 3, fine).state, SCW_NO_SCATTER);
  scw_ratio r = pairs(b, tenth, 3, fine);
  assert_int_equal(r.state, SCW_NO_SCATTER);
  assert_int_equal(r.low.state, SCW_NO_SCATTER);
  assert_int_equal(r.delta.state, SCW_NO_SCATTER);
  check_relative(r.estimate.value, 0.1, 1e-15);
  assert_int_equal(pairs(zero, b, 3, fine).state, SCW_ZERO_BEFORE);
  assert_int_equal(apart(zero, 3, zero, 3, 0).state, SCW_ZERO_BEFORE);
  r = pairs(balanced, b, 3, fine);
  assert_int_equal(r.state, SCW_ZERO_BEFORE);
  assert_int_equal(r.estimate.state, SCW_ZERO_BEFORE);
  assert_int_equal(apart(balanced, 3, b, 3, 0).estimate.state, SCW_ZERO_BEFORE);
}

static void sets_without_an_end(void **state) {
  static const double wild[] = {-9, 10, 2}, small[] = {0.1, 0.2, -0.2},
                      large[] = {100, 101, 99}, minus[] = {-4, -5, -6};
  (void)state;
  scw_ratio r = apart(wild, 3, large, 3, 0);
  assert_int_equal(r.set, SCW_RATIO_OUTSIDE);
  assert_true(r.low.value < 0 && r.high.value > 0 &&
              r.high.value < r.estimate.value);
  r = apart(wild, 3, small, 3, 0);
  assert_int_equal(r.set, SCW_RATIO_EVERYTHING);
  assert_int_equal(r.low.state, SCW_UNBOUNDED);
  r = apart(large, 3, minus, 3, 0);
  assert_int_equal(r.set, SCW_RATIO_BETWEEN);
  assert_int_equal(r.delta.state, SCW_NOT_POSITIVE);
  assert_string_equal(scw_ratio_set_code(SCW_RATIO_OUTSIDE), "outside");
  assert_string_equal(scw_ratio_set_code((scw_ratio_set)99), "unknown");
}

/* One end runs away where the mean before lies just t of its u from 0. */
static void half_a_line(void **state) {
  scwi_two_means means = {.state = SCW_PRESENT, .before = 1, .after = 1,
                          .rest_variance = 1, .covariance = -1,
                          .before_variance = 1, .df = INFINITY};
  (void)state;
  double t = 1.9599639845400539;
  means.before = means.after = t;
  scw_ratio r = solved(means);
  double low = r.low.value, high = r.high.value;
  if (r.set == SCW_RATIO_BETWEEN) /* by rounding either side of the edge */
    assert_true(r.high.state == SCW_UNBOUNDED || high > 1e12);
  else
    assert_true(r.low.state == SCW_UNBOUNDED || low < -1e12);
  double end = r.set == SCW_RATIO_BETWEEN ? low : high;
  check_relative(end, 0.5, 1e-9);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(upside_down),      cmocka_unit_test(any_unit),
      cmocka_unit_test(one_is_no_change), cmocka_unit_test(display_alone),
      cmocka_unit_test(added),            cmocka_unit_test(no_uncertainty),
      cmocka_unit_test(sets_without_an_end), cmocka_unit_test(half_a_line),
  };
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
