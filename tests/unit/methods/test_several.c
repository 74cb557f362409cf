/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Several products: published examples, identities, and what is said where
 * something is missing. R judges generated cases elsewhere. */
#include "check.h"

#include <math.h>
#include <string.h>

#include "all_pairs.h"
#include "analysis_of_variance.h"
#include "best_of.h"
#include "figure.h"
#include "many_to_one.h"
#include "two_sample.h"

enum { MOST = 10, GROUPS = 101 };

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

static scwi_moments moments_of(const double *x, size_t n) {
  return scwi_moments_of(&(scwi_sample){.n = n, .x = x});
}

static scwi_entry entry_of(scwi_moments m, double step) {
  return (scwi_entry){.estimate = m.mean,
                      .u = scwi_mean_uncertainty(m.sd, m.n, step),
                      .state = m.n > 1 ? SCW_PRESENT : SCW_ONE_READING,
                      .sd = m.sd,
                      .sd_df = (double)m.n - 1,
                      .weight = 1 / (double)m.n,
                      .step = step,
                      .sides = 1};
}

static size_t example(const char *name, double step, scwi_entry *entries,
                      scwi_moments *moments) {
  check_table t = check_table_read(REFERENCE_DATA "/several/examples.csv");
  double x[MOST][MOST];
  size_t n[MOST] = {0}, groups = 0;
  for (size_t i = 0; i < t.rows; i++) {
    if (strcmp(check_table_text(&t, i, "example"), name) != 0) continue;
    size_t g = (size_t)check_table_number(&t, i, "group");
    x[g][n[g]++] = check_table_number(&t, i, "reading");
    if (g + 1 > groups) groups = g + 1;
  }
  check_table_free(&t);
  for (size_t g = 0; g < groups; g++) {
    moments[g] = moments_of(x[g], n[g]);
    entries[g] = entry_of(moments[g], step);
  }
  return groups;
}

static void against(const scwi_entry *entries, size_t n, size_t control,
                    bool equal, scwi_adjusted *out) {
  assert_int_equal(
      scwi_many_to_one(context, entries, n, control, equal, 0.95, out), SCW_OK);
}

static void pairs(const scwi_entry *entries, size_t n, bool equal,
                  scwi_adjusted *out) {
  assert_int_equal(scwi_all_pairs(context, entries, n, equal, 0.95, out),
                   SCW_OK);
}

static void same(const scwi_adjusted *got, const scw_estimate *wanted) {
  check_relative(got->p.value, wanted->p.value, 1e-9);
  check_relative(got->interval.low, wanted->interval.low, 1e-9);
  check_relative(got->interval.high, wanted->interval.high, 1e-9);
}

/* Dunnett 1955: two drugs beside a control. By quadrature with SciPy; the
 * intervals of R's multcomp, drawn at random, differ by 1.5e-4. */
static void blood_counts(void **state) {
  scwi_entry entries[MOST];
  scwi_moments moments[MOST];
  scwi_adjusted out[MOST];
  (void)state;
  size_t n = example("blood counts", 0, entries, moments);
  assert_int_equal(n, 3);
  against(entries, n, 0, true, out);
  check_relative(out[1].own.estimate.value /
                     out[1].own.standard_uncertainty.value,
                 0.8570321259343823, 1e-13);
  check_relative(out[2].own.df.value, 12, 1e-15);
  check_absolute(out[1].p.value, 0.6201019800, 6e-11);
  check_absolute(out[2].p.value, 0.0058253608, 6e-11);
  check_absolute(out[1].interval.low, -1.2563041371481905, 1e-11);
  check_absolute(out[1].interval.high, 2.5563041371481905, 1e-11);
  check_absolute(out[2].interval.low, 0.8397282064207046, 1e-11);
  check_absolute(out[2].interval.high, 4.416271793579296, 1e-11);
  assert_int_equal(out[0].interval.state, SCW_NOT_COMPUTED);
}

/* e-Handbook 7.4.7.1, recomputed to ten digits. */
static void four_groups(void **state) {
  scwi_entry entries[MOST];
  scwi_moments moments[MOST];
  scwi_adjusted out[MOST];
  (void)state;
  size_t n = example("four groups", 0, entries, moments);
  assert_int_equal(n, 4);
  pairs(entries, n, true, out);
  const scwi_adjusted *one_four = &out[scwi_pair_place(0, 3, n)];
  const scwi_adjusted *two_three = &out[scwi_pair_place(1, 2, n)];
  const scwi_adjusted *three_four = &out[scwi_pair_place(2, 3, n)];
  check_absolute(one_four->interval.low, -2.247368391, 6e-10);
  check_absolute(one_four->interval.high, 1.927368391, 6e-10);
  check_absolute(one_four->p.value, 0.9961210796, 6e-11);
  check_absolute(two_three->interval.low, -2.927368391, 6e-10);
  check_absolute(two_three->p.value, 0.6644649024, 6e-11);
  check_absolute(three_four->interval.low, 0.972631609, 6e-10);
  check_absolute(three_four->p.value, 0.0034505562, 6e-11);
  check_absolute(out[0].p.value, 0.0227933800, 6e-11);
  check_relative(scwi_one_way(moments, n).f.value, 9.723839939883524, 1e-13);
}

/* e-Handbook 1.3.5.4. */
static void gear(void **state) {
  check_table t = check_table_read(REFERENCE_DATA "/pooling/gear.csv");
  scwi_moments moments[MOST];
  double x[MOST];
  (void)state;
  assert_int_equal(t.rows, MOST * MOST);
  for (size_t i = 0; i < t.rows; i++) {
    x[i % MOST] = check_table_number(&t, i, t.header[1]);
    if (i % MOST == MOST - 1) moments[i / MOST] = moments_of(x, MOST);
  }
  check_table_free(&t);
  scw_f_test f = scwi_one_way(moments, MOST);
  check_relative(f.f.value, 2.296912413358538, 1e-11);
  check_relative(f.p.value, 0.02266081927864138, 1e-11);
  check_relative(f.df_between.value, 9, 0);
  check_relative(f.df_within.value, 90, 0);
}

/* Two products are one comparison: Welch's, or with one SD the pooled t, whose
 * square is the F of the analysis of variance. */
static void two_are_one_comparison(void **state) {
  scwi_entry entries[MOST];
  scwi_moments m[MOST];
  scwi_adjusted out[MOST];
  scw_estimate welch;
  (void)state;
  example("four groups", 0.1, entries, m);
  assert_int_equal(scwi_welch(context, m[0], m[1], 0.1, 0.1, 0.95, &welch),
                   SCW_OK);
  against(entries, 2, 0, false, out);
  same(&out[1], &welch);
  against(entries, 2, 1, false, out);
  check_relative(-out[0].interval.high, welch.interval.low, 1e-9);
  pairs(entries, 2, false, out);
  check_relative(-out[0].interval.high, welch.interval.low, 1e-9);
  check_relative(out[0].p.value, welch.p.value, 1e-9);
  pairs(entries, 2, true, out);
  scw_f_test f = scwi_one_way(m, 2);
  double t = out[0].own.estimate.value / out[0].own.standard_uncertainty.value;
  check_relative(t * t, f.f.value, 1e-12);
  check_relative(out[0].p.value, f.p.value, 1e-9);
  against(entries, 2, 0, true, out);
  check_relative(out[1].p.value, f.p.value, 1e-9);
}

/* More questions: wider than alone, no wider than Bonferroni; all pairs wider
 * than against a control. */
static void between_alone_and_bonferroni(void **state) {
  scwi_entry entries[MOST];
  scwi_moments m[MOST];
  scwi_adjusted few[MOST], all[MOST];
  (void)state;
  size_t n = example("four groups", 0, entries, m);
  for (int equal = 0; equal < 2; equal++) {
    against(entries, n, 0, equal, few);
    pairs(entries, n, equal, all);
    for (size_t i = 1; i < n; i++) {
      const scwi_adjusted *pair = &all[scwi_pair_place(0, i, n)];
      double p = few[i].own.p.value;
      assert_true(few[i].p.value > p && few[i].p.value < 3 * p);
      assert_true(pair->p.value > few[i].p.value && pair->p.value < 6 * p);
      assert_true(few[i].interval.low < few[i].own.interval.low);
      assert_true(pair->interval.high - pair->interval.low >
                  few[i].interval.high - few[i].interval.low);
      check_relative(pair->own.p.value, p, 1e-14);
    }
  }
}

/* No unit and no common level matters. */
static void any_unit(void **state) {
  scwi_entry entries[MOST], other[MOST];
  scwi_moments m[MOST];
  scwi_adjusted wanted[MOST], got[MOST];
  static const double units[] = {1e-12, 1e12};
  (void)state;
  size_t n = example("four groups", 0.1, entries, m);
  pairs(entries, n, false, wanted);
  for (size_t u = 0; u < 2; u++) {
    for (size_t i = 0; i < n; i++) {
      scwi_moments scaled = m[i];
      scaled.mean *= units[u];
      scaled.sd *= units[u];
      other[i] = entry_of(scaled, 0.1 * units[u]);
    }
    pairs(other, n, false, got);
    for (size_t i = 0; i < 6; i++) {
      check_relative(got[i].p.value, wanted[i].p.value, 1e-10);
      check_relative(got[i].interval.low, wanted[i].interval.low * units[u],
                     1e-10);
    }
  }
}

/* One reading has no scatter: its comparisons say so, and the others are the
 * family that is left. One SD for all gives it an uncertainty. */
static void one_reading(void **state) {
  scwi_entry entries[MOST], left[3];
  scwi_moments m[MOST];
  scwi_adjusted out[MOST], wanted[MOST];
  (void)state;
  size_t n = example("four groups", 0, entries, m);
  entries[2] = entry_of(moments_of(&m[2].mean, 1), 0);
  left[0] = entries[0], left[1] = entries[1], left[2] = entries[3];
  against(entries, n, 0, false, out);
  against(left, 3, 0, false, wanted);
  assert_int_equal(out[2].interval.state, SCW_ONE_READING);
  assert_int_equal(out[2].p.state, SCW_ONE_READING);
  check_relative(out[2].own.estimate.value, m[2].mean - m[0].mean, 1e-15);
  check_relative(out[1].p.value, wanted[1].p.value, 1e-14);
  check_relative(out[3].p.value, wanted[2].p.value, 1e-14);
  pairs(entries, n, false, out);
  pairs(left, 3, false, wanted);
  assert_int_equal(out[scwi_pair_place(1, 2, n)].p.state, SCW_ONE_READING);
  check_relative(out[scwi_pair_place(1, 3, n)].p.value,
                 wanted[scwi_pair_place(1, 2, 3)].p.value, 1e-14);
  against(entries, n, 2, false, out); /* the control itself */
  for (size_t i = 0; i < n; i++)
    if (i != 2) assert_int_equal(out[i].interval.state, SCW_ONE_READING);
  against(entries, n, 2, true, out);
  assert_int_equal(out[0].interval.state, SCW_PRESENT);
  check_relative(out[0].own.df.value, 12, 1e-15);
}

/* All readings alike: without a step nothing can be said, with one the normal
 * distribution speaks, the widths known without doubt. */
static void nothing_scatters(void **state) {
  static const double x[] = {80, 80, 80}, y[] = {81, 81, 81};
  scwi_entry entries[3];
  scwi_adjusted out[3];
  (void)state;
  for (int equal = 0; equal < 2; equal++) {
    for (size_t i = 0; i < 3; i++)
      entries[i] = entry_of(moments_of(i == 2 ? y : x, 3), 0);
    against(entries, 3, 0, equal, out);
    assert_int_equal(out[1].interval.state, SCW_NO_SCATTER);
    assert_int_equal(out[2].p.state, SCW_NO_SCATTER);
    pairs(entries, 3, equal, out);
    assert_int_equal(out[0].interval.state, SCW_NO_SCATTER);
    for (size_t i = 0; i < 3; i++)
      entries[i] = entry_of(moments_of(i == 2 ? y : x, 3), 1);
    pairs(entries, 3, equal, out);
    assert_int_equal(out[1].interval.state, SCW_PRESENT);
    assert_int_equal(out[1].own.df.state, SCW_UNBOUNDED);
    /* u = sqrt(2/12); 3.314493 is the range's 0.05 point of three groups */
    check_absolute(out[1].interval.high, -1 + 3.314493 / sqrt(12), 2e-7);
  }
}

/* A control known without doubt, and a product so: lambda 0 and 1. */
static void no_doubt_on_one_side(void **state) {
  scwi_entry entries[MOST];
  scwi_moments m[MOST];
  scwi_adjusted out[MOST];
  (void)state;
  size_t n = example("four groups", 0, entries, m);
  entries[0].u = (scwi_uncertainty){0, INFINITY};
  against(entries, n, 0, false, out);
  check_relative(out[1].own.df.value, 4, 1e-12);
  assert_true(out[1].p.value > out[1].own.p.value);
  entries[0].u = entries[3].u;
  entries[1].u = entries[2].u = entries[3].u = (scwi_uncertainty){0, INFINITY};
  against(entries, n, 0, false, out);
  for (size_t i = 1; i < n; i++) /* all stand or fall together */
    check_relative(out[i].p.value, out[i].own.p.value, 1e-9);
}

static void too_many(void **state) {
  static scwi_entry entries[GROUPS + 1];
  static scwi_adjusted out[GROUPS * (GROUPS + 1) / 2];
  static const double x[] = {80, 81, 83};
  (void)state;
  for (size_t i = 0; i < GROUPS + 1; i++)
    entries[i] = entry_of(moments_of(x, 3), 0);
  assert_int_equal(
      scwi_many_to_one(context, entries, GROUPS + 1, 0, false, 0.95, out),
      SCW_BAD_ARGUMENT);
  assert_int_equal(scwi_all_pairs(context, entries, GROUPS, false, 0.95, out),
                   SCW_BAD_ARGUMENT);
}

static void analyses_without_an_answer(void **state) {
  static const double x[] = {80, 80, 80}, y[] = {80, 81, 83};
  (void)state;
  const scwi_moments alike[] = {moments_of(x, 3), moments_of(x, 3)},
                     half[] = {moments_of(x, 3), moments_of(y, 3)},
                     single[] = {moments_of(x, 1), moments_of(y, 1)},
                     mixed[] = {moments_of(x, 1), moments_of(y, 3)};
  assert_int_equal(scwi_one_way(alike, 2).f.state, SCW_NO_SCATTER);
  assert_int_equal(scwi_one_way(single, 2).p.state, SCW_TOO_FEW);
  assert_int_equal(scwi_one_way(half, 1).p.state, SCW_TOO_FEW);
  assert_int_equal(scwi_one_way(mixed, 2).p.state, SCW_PRESENT);
  assert_int_equal(scwi_one_way(half, 2).p.state, SCW_PRESENT);
  assert_int_equal(scwi_welch_one_way(half, 2).f.state, SCW_NO_SCATTER);
  assert_int_equal(scwi_welch_one_way(mixed, 2).f.state, SCW_TOO_FEW);
  assert_int_equal(scwi_welch_one_way(half, 1).f.state, SCW_TOO_FEW);
}

/* Two alike: E|d| = 2u/sqrt(pi). Three: the largest is expected at
 * 3/(2 sqrt(pi)). One without doubt, or next to none: E|d| of the other. */
static void lead_by_luck(void **state) {
  static const double u[] = {1, 1, 1}, lone[] = {2, 0}, far[] = {1e-6, 1}, none[] = {0, 0};
  const double pi = acos(-1);
  (void)state;
  scwi_best_of b = scwi_best_of_alike(u, 2);
  check_relative(b.over_second.value, 2 / sqrt(pi), 1e-10);
  check_relative(b.over_rest.value, 2 / sqrt(pi), 1e-10);
  b = scwi_best_of_alike(u, 3);
  check_relative(b.over_rest.value, 1.5 * 1.5 / sqrt(pi), 1e-10);
  check_relative(b.over_second.value, 1.5 / sqrt(pi), 1e-10);
  b = scwi_best_of_alike(lone, 2);
  check_relative(b.over_second.value, 2 * sqrt(2 / pi), 1e-10);
  b = scwi_best_of_alike(far, 2);
  check_relative(b.over_second.value, sqrt(2 / pi), 1e-10);
  assert_int_equal(scwi_best_of_alike(u, 1).over_rest.state, SCW_ONE_OF_IT);
  assert_int_equal(scwi_best_of_alike(none, 2).over_rest.state, SCW_NO_SCATTER);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(blood_counts),
      cmocka_unit_test(four_groups),
      cmocka_unit_test(gear),
      cmocka_unit_test(two_are_one_comparison),
      cmocka_unit_test(between_alone_and_bonferroni),
      cmocka_unit_test(any_unit),
      cmocka_unit_test(one_reading),
      cmocka_unit_test(nothing_scatters),
      cmocka_unit_test(no_doubt_on_one_side),
      cmocka_unit_test(too_many),
      cmocka_unit_test(analyses_without_an_answer),
      cmocka_unit_test(lead_by_luck)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
