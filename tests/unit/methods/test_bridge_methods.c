/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines with error in both and limits of agreement: published figures,
 * identities, and where there is nothing to compute. R and SciPy judge the
 * numbers elsewhere (judge_bridge). */
#include "check.h"

#include <math.h>

#include "agreement.h"
#include "errors_in_both.h"
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

static const double old_meter[] = {58.1, 63.4, 71.0, 78.4, 86.5, 90.2};
static const double new_meter[] = {59.2, 65.3, 71.6, 80.8, 88.1, 92.3};

static scwi_deming fit(const double *x, const double *y, size_t n,
                       double ratio, bool weighted) {
  scwi_pairs pairs = {n, x, y, ratio, weighted};
  scwi_deming line;
  assert_int_equal(scwi_deming_of(context, &pairs, &line), SCW_OK);
  return line;
}

static scw_interval slopes(const double *x, const double *y, size_t n,
                           double ratio) {
  scwi_pairs pairs = {n, x, y, ratio, false};
  scwi_deming line = fit(x, y, n, ratio, false);
  scw_interval ends;
  assert_int_equal(
      scwi_deming_slope_interval(context, &pairs, &line, 0.95, &ends), SCW_OK);
  return ends;
}

/* Old for new and new for old: the same line, the ratio the other way up. */
static void inverts(void **state) {
  (void)state;
  scwi_deming there = fit(old_meter, new_meter, 6, 4, false);
  scwi_deming back = fit(new_meter, old_meter, 6, 0.25, false);
  check_relative(back.slope, 1 / there.slope, 1e-13);
  check_relative(back.intercept, -there.intercept / there.slope, 1e-12);
  scw_interval one = slopes(old_meter, new_meter, 6, 4);
  scw_interval other = slopes(new_meter, old_meter, 6, 0.25);
  check_relative(other.low, 1 / one.high, 1e-12);
  check_relative(other.high, 1 / one.low, 1e-12);
}

/* Scaled, shifted, mirrored and in another order. */
static void follows_the_scale(void **state) {
  (void)state;
  double x[6], y[6];
  scwi_deming plain = fit(old_meter, new_meter, 6, 2, false);
  scw_interval ends = slopes(old_meter, new_meter, 6, 2);
  static const double scales[] = {1e-12, 1e-3, 8, 1e12};
  for (size_t s = 0; s < 4; s++) {
    for (size_t i = 0; i < 6; i++) {
      x[i] = old_meter[5 - i] * scales[s];
      y[i] = new_meter[5 - i] * -10 * scales[s];
    }
    scwi_deming line = fit(x, y, 6, 200, false);
    check_relative(line.slope, -10 * plain.slope, 1e-12);
    check_relative(line.intercept, -10 * plain.intercept * scales[s], 1e-10);
    check_relative(line.scatter, 10 * plain.scatter * scales[s], 1e-12);
    check_relative(line.slope_u, 10 * plain.slope_u, 1e-12);
    scw_interval other = slopes(x, y, 6, 200);
    check_relative(other.low, -10 * ends.high, 1e-12);
    check_relative(other.high, -10 * ends.low, 1e-12);
  }
  for (size_t i = 0; i < 6; i++) {
    x[i] = old_meter[i] + 1024;
    y[i] = new_meter[i] - 512;
  }
  check_relative(fit(x, y, 6, 2, false).slope, plain.slope, 1e-12);
}

/* Weights follow the level: the same factor for all changes nothing but the
 * intercept and the scatter. */
static void weights_follow_the_level(void **state) {
  (void)state;
  double x[6], y[6];
  scwi_deming plain = fit(old_meter, new_meter, 6, 1, true);
  assert_int_equal(plain.state, SCW_PRESENT);
  for (size_t i = 0; i < 6; i++) {
    x[i] = 1000 * old_meter[i];
    y[i] = 1000 * new_meter[i];
  }
  scwi_deming line = fit(x, y, 6, 1, true);
  check_relative(line.slope, plain.slope, 1e-11);
  check_relative(line.intercept, 1000 * plain.intercept, 1e-9);
  scwi_pairs pairs = {6, old_meter, new_meter, 1, true};
  /* in proportion to the level, halfway between x and the line's y */
  double low = scwi_deming_scatter_at(&plain, &pairs, 50);
  double high = scwi_deming_scatter_at(&plain, &pairs, 100);
  double level_low = (50 + plain.intercept + plain.slope * 50) / 2;
  double level_high = (100 + plain.intercept + plain.slope * 100) / 2;
  check_relative(high / low, level_high / level_low, 1e-12);
  x[2] = 0;
  assert_int_equal(fit(x, y, 6, 1, true).state, SCW_OUT_OF_RANGE);
}

static void nothing_to_fit(void **state) {
  (void)state;
  static const double same[] = {5, 5, 5, 5}, apart[] = {1, 2, 3, 4};
  static const double cross_x[] = {1, -1, 0, 0}, cross_y[] = {0, 0, 1, -1};
  static const double huge[] = {1e308, -1e308, 1e308, 0};
  assert_int_equal(fit(apart, apart, 0, 1, false).state, SCW_TOO_FEW);
  assert_int_equal(fit(apart, apart, 2, 1, false).state, SCW_TOO_FEW);
  assert_int_equal(fit(same, apart, 4, 1, false).state, SCW_NO_SCATTER);
  assert_int_equal(fit(apart, same, 4, 1, false).state, SCW_NO_SCATTER);
  assert_int_equal(fit(cross_x, cross_y, 4, 1, false).state, SCW_FLAT);
  assert_int_equal(fit(huge, apart, 4, 1, false).state, SCW_OUT_OF_RANGE);
  scwi_deming line = fit(apart, apart, 4, 1, false);
  check_relative(line.slope, 1, 1e-15);
  check_absolute(line.scatter, 0, 1e-15);
  assert_int_equal(slopes(apart, apart, 4, 1).state, SCW_NO_SCATTER);
  static const double wild[] = {3, 1, 2, 4};
  assert_int_equal(slopes(apart, wild, 4, 1).state, SCW_UNBOUNDED);
  scwi_pairs three = {3, old_meter, new_meter, 1, false};
  scwi_jackknife shaken;
  line = fit(old_meter, new_meter, 3, 1, false);
  assert_int_equal(scwi_deming_jackknife(context, &three, &line, &shaken),
                   SCW_OK);
  assert_int_equal(shaken.state, SCW_TOO_FEW);
}

/* Peak flow of 17 people by two meters, two readings each: Bland & Altman 1986.
 * The table is theirs; of its text, from memory: mean difference -2.1 and SD
 * 38.8 (large less mini, first readings), and SD 37.7 of single differences when
 * both readings are used. */
static void published(void **state) {
  (void)state;
  check_table t = check_table_read(REFERENCE_DATA "/agreement/peak-flow.csv");
  double mean = 0, squares = 0, means = 0, of_means = 0;
  double old_squares = 0, new_squares = 0, n = (double)t.rows;
  assert_int_equal(t.rows, 17);
  for (int pass = 0; pass < 2; pass++)
    for (size_t i = 0; i < t.rows; i++) {
      double a = check_table_number(&t, i, "old 1");
      double b = check_table_number(&t, i, "old 2");
      double c = check_table_number(&t, i, "new 1");
      double d = check_table_number(&t, i, "new 2");
      double first = c - a, both = (c + d - a - b) / 2;
      if (pass == 0) {
        mean += first / n;
        means += both / n;
        old_squares += (a - b) * (a - b) / 2;
        new_squares += (c - d) * (c - d) / 2;
      } else {
        squares += (first - mean) * (first - mean);
        of_means += (both - means) * (both - means);
      }
    }
  scwi_agreement_given given = {.n = 17, .bias = mean,
                                .sd = sqrt(squares / 16), .content = 0.95,
                                .level = 0.95};
  scwi_agreement found;
  assert_int_equal(scwi_agreement_of(context, &given, &found), SCW_OK);
  check_absolute(mean, 2.1, 0.05);
  check_absolute(found.sd.value, 38.8, 0.05);
  check_relative(found.df.value, 16, 1e-14);
  given.bias = means;
  given.sd = sqrt(of_means / 16);
  given.of_old = (scwi_repeats){sqrt(old_squares / 17), 17, 0.5};
  given.of_new = (scwi_repeats){sqrt(new_squares / 17), 17, 0.5};
  assert_int_equal(scwi_agreement_of(context, &given, &found), SCW_OK);
  check_absolute(found.sd.value, 37.7, 0.05);
  check_table_free(&t);
}

static void limits_without_scatter(void **state) {
  (void)state;
  scwi_agreement_given given = {.n = 5, .bias = 1, .content = 0.95,
                                .level = 0.95};
  scwi_agreement found;
  assert_int_equal(scwi_agreement_of(context, &given, &found), SCW_OK);
  assert_int_equal(found.low.state, SCW_NO_SCATTER);
  assert_int_equal(found.high_interval.state, SCW_NO_SCATTER);
  scw_figure n;
  /* the limits alone reach the margin */
  assert_int_equal(
      scwi_agreement_items(context, 0, 1, 0.95, 0.95, 1.9599, &n), SCW_OK);
  assert_int_equal(n.state, SCW_NEVER);
  assert_int_equal(scwi_agreement_items(context, 0, 1, 0.95, 0.95, 1.97, &n),
                   SCW_OK);
  assert_int_equal(n.state, SCW_TOO_MANY);
  assert_int_equal(scwi_agreement_items(context, 0, 1, 0.95, 0.95, 1e6, &n),
                   SCW_OK);
  check_relative(n.value, 3, 0);
}

static void trend_without_scatter(void **state) {
  (void)state;
  static const double m[] = {1, 2, 3, 4}, d[] = {2, 4, 6, 8}, same[] = {1, 1, 1, 1};
  scw_estimate found;
  double off[4];
  scwi_difference_trend(context, m, d, 2, 0.95, &found, off);
  assert_int_equal(found.interval.state, SCW_TOO_FEW);
  scwi_difference_trend(context, m, d, 4, 0.95, &found, off);
  assert_int_equal(found.interval.state, SCW_NO_SCATTER);
  scwi_difference_trend(context, same, d, 4, 0.95, &found, off);
  assert_int_equal(found.interval.state, SCW_NO_SCATTER);
  scwi_difference_trend(context, m, same, 4, 0.95, &found, off);
  assert_int_equal(found.interval.state, SCW_NO_SCATTER);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(inverts),
      cmocka_unit_test(follows_the_scale),
      cmocka_unit_test(weights_follow_the_level),
      cmocka_unit_test(nothing_to_fit),
      cmocka_unit_test(published),
      cmocka_unit_test(limits_without_scatter),
      cmocka_unit_test(trend_without_scatter),
  };
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
