/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Nested scatter: certified and published mean squares, identities, and what a
 * bench brings that no table does. R judges the rest (judge_components). */
#include "check.h"

#include <float.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "labelled.h"
#include "nested.h"

static scw_nested nested_of(const scwi_sample *sample,
                            const scwi_level_labels *labels) {
  scw_nested out;
  assert_int_equal(
      scwi_nested(one_set_context(), sample, labels, 0.95, NULL, &out), SCW_OK);
  return out;
}

static scw_nested of_spots(const scwi_sample *sample, const uint32_t *spot) {
  return nested_of(sample, &(scwi_level_labels){{[SCW_LEVEL_SPOT] = spot}});
}

/* n readings, `each` at every spot; labels in static room. */
static scw_nested even(const double *x, size_t n, size_t each) {
  static uint32_t spot[60000];
  for (size_t i = 0; i < n; i++)
    spot[i] = (uint32_t)(i / each);
  return of_spots(&(scwi_sample){.n = n, .x = x}, spot);
}

static void check_anova(const check_table *table, size_t row,
                        const scw_nested *got, double tolerance) {
  const scw_component *between = &got->component[SCW_LEVEL_SPOT];
  const scw_component *within = &got->component[SCW_LEVEL_REPEAT];
  double ms = check_table_number(table, row, "ms_within");
  check_relative(between->mean_square.value,
                 check_table_number(table, row, "ms_between"), tolerance);
  check_relative(within->mean_square.value, ms, tolerance);
  check_relative(between->f.value, check_table_number(table, row, "f"),
                 2 * tolerance);
  check_relative(between->mean_square.value * between->df.value,
                 check_table_number(table, row, "ss_between"), tolerance);
  check_relative(within->mean_square.value * within->df.value,
                 check_table_number(table, row, "ss_within"), tolerance);
  check_relative(within->sd.value,
                 check_table_number(table, row, "residual_sd"), tolerance);
}

/* Base and tenths, see reference-data/components/SOURCE.md. */
static one_set simon_lesage(double base, size_t each) {
  static const int tenths[] = {14, 13, 15, 13, 15, 13, 15, 13, 15};
  int64_t *ticks = malloc(9 * each * sizeof *ticks);
  assert_non_null(ticks);
  for (size_t i = 0; i < 9 * each; i++) {
    size_t j = i % each;
    int turn = j == 0 ? 0 : j % 2 ? -1 : 1;
    ticks[i] = (int64_t)base * 10 + tenths[i / each] + turn;
  }
  one_set set = one_set_from_ticks(ticks, 9 * each, 1);
  free(ticks);
  return set;
}

/* All eleven: 13 digits and more from the decimals as written. From doubles
 * the readings themselves are off by half of DBL_EPSILON times their size, and
 * so is a spread of 0.1 by that over 0.1: three digits are left at 1e12. */
static void strd(void **state) {
  check_table table = check_table_read(REFERENCE_DATA "/components/anova.csv");
  (void)state;
  assert_int_equal(table.rows, 11);
  for (size_t row = 0; row < table.rows; row++) {
    char file[64];
    static uint32_t spot[20000];
    double base = check_table_number(&table, row, "base");
    size_t each = (size_t)check_table_number(&table, row, "per_group");
    const char *columns[LABELLED_COLUMNS] = {"group", NULL, NULL};
    labelled data = {.label = {NULL}};
    const uint32_t *labels = spot;
    if (each) {
      data.set = simon_lesage(base, each);
      for (size_t i = 0; i < data.set.n; i++)
        spot[i] = (uint32_t)(i / each);
    } else {
      check_snprintf(file, sizeof file, "components/%s.csv",
                     check_table_text(&table, row, "set"));
      data = labelled_from_file(file, columns, NULL, NULL);
      labels = data.label[0];
    }
    scwi_sample exact = one_set_sample(&data.set);
    scwi_sample doubles = one_set_doubles(&data.set);
    scw_nested got = of_spots(&exact, labels);
    scw_nested plain = of_spots(&doubles, labels);
    check_anova(&table, row, &got, 2e-14);
    double sd = check_table_number(&table, row, "residual_sd");
    check_anova(&table, row, &plain,
                2e-14 + 2 * DBL_EPSILON * fabs(exact.x[0]) / sd);
    labelled_free(&data);
  }
  check_table_free(&table);
}

/* Published to the digits printed. */
static void machines(void **state) {
  const char *columns[LABELLED_COLUMNS] = {"machine", "operator", NULL};
  labelled d =
      labelled_from_file("components/machines.csv", columns, NULL, NULL);
  scwi_sample sample = one_set_sample(&d.set);
  (void)state;
  scw_nested got = nested_of(
      &sample,
      &(scwi_level_labels){
          {[SCW_LEVEL_PANEL] = d.label[0], [SCW_LEVEL_SPOT] = d.label[1]}});
  const scw_component *c = got.component;
  assert_true(c[SCW_LEVEL_PANEL].df.value == 4);
  assert_true(c[SCW_LEVEL_SPOT].df.value == 5);
  assert_true(c[SCW_LEVEL_REPEAT].df.value == 40);
  check_absolute(c[SCW_LEVEL_PANEL].mean_square.value * 4, 0.000303, 5e-7);
  check_absolute(c[SCW_LEVEL_SPOT].mean_square.value * 5, 0.0000186, 5e-8);
  check_absolute(c[SCW_LEVEL_REPEAT].mean_square.value * 40, 0.000346, 5e-7);
  /* operators differ less than their parts: raw below zero, kept */
  assert_true(c[SCW_LEVEL_SPOT].variance.value < 0);
  assert_true(c[SCW_LEVEL_SPOT].sd.value == 0);
  assert_false(c[SCW_LEVEL_SPOT].distinguishable);
  assert_true(c[SCW_LEVEL_SPOT].at_most.value > 0);
  assert_true(c[SCW_LEVEL_PANEL].distinguishable);
  assert_int_equal(c[SCW_LEVEL_SESSION].state, SCW_NOT_COMPUTED);
  labelled_free(&d);
}

static void probe(void **state) {
  const char *columns[LABELLED_COLUMNS] = {"wafer", "run", NULL};
  labelled d = labelled_from_file("components/probe.csv", columns, NULL, NULL);
  scwi_sample sample = one_set_sample(&d.set);
  (void)state;
  scw_nested got = nested_of(
      &sample,
      &(scwi_level_labels){
          {[SCW_LEVEL_PANEL] = d.label[0], [SCW_LEVEL_SESSION] = d.label[1]}});
  const scw_component *run = &got.component[SCW_LEVEL_SESSION];
  /* the handbook's level-3 SD is that of run means, of 6 days each: 0.019645
   * from its readings, printed as 0.0197 */
  check_absolute(sqrt(run->mean_square.value / 6), 0.0197, 5.5e-5);
  assert_true(run->df.value == 5);
  labelled_free(&d);
  columns[0] = "run";
  columns[1] = NULL;
  d = labelled_from_file("components/probe.csv", columns, "wafer", "140");
  sample = one_set_sample(&d.set);
  got = of_spots(&sample, d.label[0]);
  check_absolute(got.component[SCW_LEVEL_REPEAT].sd.value, 0.02742, 5e-6);
  labelled_free(&d);
}

/* JCGM 100:2008 H.5 from day means and SDs in microvolt (from memory): five
 * readings that have them. */
static void voltage(void **state) {
  static const double mean[] = {172, 116, 13, 144, 106, 31, 60, 125, 163, 41};
  static const double sd[] = {60, 77, 111, 101, 67, 93, 80, 73, 88, 86};
  double x[50];
  (void)state;
  for (size_t i = 0; i < 50; i++)
    x[i] = 1e7 + mean[i / 5] + sd[i / 5] * ((double)(i % 5) - 2) / sqrt(2.5);
  scw_nested got = even(x, 50, 5);
  const scw_component *day = &got.component[SCW_LEVEL_SPOT];
  const scw_component *rest = &got.component[SCW_LEVEL_REPEAT];
  /* readings of 1e7 as doubles are exact to 1e-9 of the scatter */
  check_relative(sqrt(day->mean_square.value), 127.6560047767263, 1e-9);
  check_relative(rest->sd.value, 84.88698369008054, 1e-9);
  check_relative(day->f.value, 2.261519269970795, 1e-9);
  check_relative(day->p.value, 0.03739682514493531, 1e-8);
  check_relative(day->sd.value, 42.63861056731459, 1e-9);
  check_relative(got.mean.estimate.value, 10000097.1, 1e-14);
  check_relative(got.mean.standard_uncertainty.value, 18.05328532736109, 1e-9);
  assert_true(got.mean.df.value == 9);
  assert_false(day->distinguishable); /* F below its 97.5 % point, 2.45 */
}

/* Published: dyestuff and paste (Davies), see SOURCE.md. */
static void classics(void **state) {
  const char *one[LABELLED_COLUMNS] = {"group", NULL, NULL};
  const char *two[LABELLED_COLUMNS] = {"batch", "cask", NULL};
  labelled d = labelled_from_file("components/dyestuff.csv", one, NULL, NULL);
  scwi_sample sample = one_set_sample(&d.set);
  (void)state;
  scw_nested got = of_spots(&sample, d.label[0]);
  check_relative(got.component[SCW_LEVEL_SPOT].mean_square.value, 11271.5,
                 1e-15);
  check_relative(got.component[SCW_LEVEL_REPEAT].mean_square.value, 2451.25,
                 1e-15);
  check_relative(got.component[SCW_LEVEL_SPOT].variance.value, 1764.05, 1e-14);
  labelled_free(&d);
  d = labelled_from_file("components/pastes.csv", two, NULL, NULL);
  sample = one_set_sample(&d.set);
  got = nested_of(
      &sample,
      &(scwi_level_labels){
          {[SCW_LEVEL_SESSION] = d.label[0], [SCW_LEVEL_SPOT] = d.label[1]}});
  check_absolute(got.component[SCW_LEVEL_SESSION].sd.value, 1.287, 5e-4);
  check_absolute(got.component[SCW_LEVEL_SPOT].sd.value, 2.904, 5e-4);
  check_absolute(got.component[SCW_LEVEL_REPEAT].sd.value, 0.8234, 5e-5);
  assert_int_equal(got.top, SCW_LEVEL_SESSION);
  labelled_free(&d);
}

/* The order of the readings and the numbers of the labels say nothing; unit
 * and offset go where they belong. */
static void identities(void **state) {
  static const uint32_t session[] = {0, 0, 0, 0, 1, 1, 1, 2, 2, 2, 2, 2};
  static const uint32_t spot[] = {0, 0, 1, 1, 0, 1, 1, 0, 0, 1, 2, 2};
  static const double x[] = {1.5, 1.25, 2, 2.5, 7, 6, 6.5, 3, 3.75, 4, 4.5, 3};
  static const uint32_t name[] = {7, 4000000000u, 0};
  double y[12];
  uint32_t a[12], b[12];
  scwi_level_labels labels = {{NULL, session, spot, NULL}}, other = {{NULL, a, b}};
  (void)state;
  scw_nested one = nested_of(&(scwi_sample){.n = 12, .x = x}, &labels);
  assert_false(one.balanced);
  for (double scale = 0x1p-900; scale < 0x1p900; scale *= 0x1p300) {
    for (size_t i = 0; i < 12; i++) {
      size_t from = 5 * i % 12; /* another order */
      y[i] = scale * x[from];
      a[i] = name[session[from]];
      b[i] = name[spot[from]];
    }
    scw_nested two = nested_of(&(scwi_sample){.n = 12, .x = y}, &other);
    for (size_t l = SCW_LEVEL_SESSION; l < SCW_LEVEL_COUNT; l++) {
      const scw_component *c = &one.component[l], *d = &two.component[l];
      check_relative(d->sd.value, scale * c->sd.value, 1e-13);
      check_relative(d->interval.high, scale * c->interval.high, 1e-13);
      check_relative(d->at_most.value, scale * c->at_most.value, 1e-13);
      check_relative(d->share.value, c->share.value, 1e-13);
    }
    check_relative(two.mean.estimate.value, scale * one.mean.estimate.value,
                   1e-15);
    check_relative(two.mean.interval.low, scale * one.mean.interval.low, 1e-13);
  }
}

/* The interval of a component ends at zero exactly where its F test says so:
 * at p = 0.025, going through it by one reading. */
static void interval_and_test_agree(void **state) {
  (void)state;
  for (double far = 0; far < 6; far += 0.01) {
    double x[] = {1, 2, 3, 2 + far, 3 + far, 4 + far, 1, 3, 2};
    const scw_nested got = even(x, 9, 3);
    const scw_component *c = &got.component[SCW_LEVEL_SPOT];
    assert_int_equal(c->distinguishable, c->p.value < 0.025);
    assert_true(c->at_most.value <= c->interval.high);
  }
}

/* The memo changes nothing. */
static void memo(void **state) {
  static const uint32_t spot[] = {0, 0, 0, 1, 1, 1, 2, 2, 2};
  static const double x[] = {1, 2, 3, 2.5, 3.5, 4, 1, 3, 2.25};
  scwi_level_labels labels = {{NULL, NULL, spot}};
  scwi_sample sample = {.n = 9, .x = x};
  scwi_limits_memo kept = {0};
  scw_nested a = nested_of(&sample, &labels), b;
  (void)state;
  for (int i = 0; i < 2; i++) {
    assert_int_equal(
        scwi_nested(one_set_context(), &sample, &labels, 0.95, &kept, &b),
        SCW_OK);
    assert_memory_equal(&a.component[SCW_LEVEL_SPOT].interval,
                        &b.component[SCW_LEVEL_SPOT].interval,
                        sizeof a.component[0].interval);
  }
  assert_true(kept.n > 0);
}

/* Ting et al. written out in R (qchisq, qf): 10 on 5 df less 0.5 times 4 on 8
 * and 0.3 times 2 on 12, at 0.975. Two taken away whose squares go with their df
 * act as one. */
static void several_to_take_away(void **state) {
  static const scwi_square_term terms[] = {
      {1, 10, 5}, {-0.5, 4, 8}, {-0.3, 2, 12}};
  double low, high;
  (void)state;
  assert_int_equal(scwi_large_sample_limits(one_set_context(), NULL, terms, 3,
                                            0.975, &low, &high),
                   SCW_OK);
  check_relative(low, -0.43908009863479869, 1e-12);
  check_relative(high, 57.361965205107765, 1e-12);
}

/* A step of 1: repeats that scatter less than 3/4 of it are marked, and what
 * the display leaves in the mean is by the SD of all readings. */
static void coarse_display(void **state) {
  static const uint32_t spot[] = {0, 0, 1, 1, 2, 2};
  static const double fine[] = {80, 80, 80, 80, 80, 81};
  static const double wide[] = {80, 82, 79, 82, 80, 83};
  scwi_sample sample = {.n = 6, .x = fine, .step = {1, SCW_STEP_GIVEN}};
  (void)state;
  scw_nested got = of_spots(&sample, spot);
  assert_true(got.component[SCW_LEVEL_REPEAT].approximate);
  assert_false(got.component[SCW_LEVEL_SPOT].approximate);
  /* spot means 80, 80, 80.5; SD of all readings sqrt(1/6) */
  double scatter = 0.25 / 9, left = 1 / 12.0 - 1 / 18.0;
  check_relative(got.mean.standard_uncertainty.value, sqrt(scatter + left),
                 1e-14);
  check_relative(got.mean.df.value,
                 2 * (1 + left / scatter) * (1 + left / scatter), 1e-13);
  sample.x = wide;
  got = of_spots(&sample, spot);
  assert_false(got.component[SCW_LEVEL_REPEAT].approximate);
}

static void levels_that_tell_nothing(void **state) {
  static const uint32_t same[] = {3, 3, 3, 3, 3, 3},
                        each[] = {5, 4, 3, 2, 1, 0};
  static const uint32_t two[] = {0, 0, 0, 1, 1, 1};
  static const double x[] = {1, 2, 4, 3, 5, 9};
  scwi_sample sample = {.n = 6, .x = x};
  (void)state;
  /* one panel, three single-reading spots in each of two sessions */
  scw_nested got = nested_of(&sample, &(scwi_level_labels){{same, two, each, NULL}});
  assert_int_equal(got.component[SCW_LEVEL_PANEL].state, SCW_ONE_OF_IT);
  assert_int_equal(got.component[SCW_LEVEL_SESSION].state, SCW_PRESENT);
  assert_int_equal(got.component[SCW_LEVEL_SPOT].state, SCW_PRESENT);
  assert_int_equal(got.component[SCW_LEVEL_REPEAT].state, SCW_NOT_TOLD_APART);
  assert_int_equal(got.lowest, SCW_LEVEL_SPOT);
  assert_true(got.component[SCW_LEVEL_SPOT].df.value == 4);
  /* one spot in each session: the sessions hold its scatter */
  got = nested_of(&sample, &(scwi_level_labels){{NULL, two, same, NULL}});
  assert_int_equal(got.component[SCW_LEVEL_SPOT].state, SCW_NOT_TOLD_APART);
  assert_int_equal(got.levels, 2);
  /* no labels at all: an ordinary set */
  got = nested_of(&sample, &(scwi_level_labels){{NULL}});
  assert_int_equal(got.levels, 1);
  check_relative(got.mean.estimate.value, 4, 1e-15);
  check_relative(got.component[SCW_LEVEL_REPEAT].sd.value, sqrt(8), 1e-15);
  check_relative(got.mean.standard_uncertainty.value, sqrt(8 / 6.0), 1e-15);
  assert_true(got.mean.df.value == 5);
}

static void too_few(void **state) {
  static const uint32_t spot[] = {0, 1, 1};
  static const double x[] = {4, 6, 6};
  (void)state;
  scw_nested got = of_spots(&(scwi_sample){.n = 1, .x = x}, spot);
  assert_int_equal(got.levels, 0);
  assert_int_equal(got.component[SCW_LEVEL_SPOT].state, SCW_ONE_READING);
  assert_int_equal(got.mean.interval.state, SCW_ONE_READING);
  check_relative(got.mean.estimate.value, 4, 0);
  /* two readings at two spots */
  got = of_spots(&(scwi_sample){.n = 2, .x = x}, spot);
  assert_int_equal(got.component[SCW_LEVEL_REPEAT].state, SCW_NOT_TOLD_APART);
  check_relative(got.component[SCW_LEVEL_SPOT].sd.value, sqrt(2), 1e-15);
  /* one repeat in all, and it is the same */
  got = of_spots(&(scwi_sample){.n = 3, .x = x}, spot);
  assert_true(got.component[SCW_LEVEL_REPEAT].sd.value == 0);
  assert_int_equal(got.component[SCW_LEVEL_REPEAT].interval.state,
                   SCW_NO_SCATTER);
  assert_int_equal(got.component[SCW_LEVEL_SPOT].f.state, SCW_NO_SCATTER);
  assert_true(got.component[SCW_LEVEL_SPOT].distinguishable);
}

static void no_scatter(void **state) {
  static const uint32_t spot[] = {0, 0, 1, 1};
  double x[] = {80, 80, 80, 80};
  scwi_sample sample = {.n = 4, .x = x};
  (void)state;
  scw_nested got = of_spots(&sample, spot);
  assert_true(got.component[SCW_LEVEL_SPOT].sd.value == 0);
  assert_int_equal(got.component[SCW_LEVEL_SPOT].interval.state,
                   SCW_NO_SCATTER);
  assert_int_equal(got.component[SCW_LEVEL_SPOT].share.state, SCW_NO_SCATTER);
  assert_false(got.component[SCW_LEVEL_SPOT].distinguishable);
  assert_int_equal(got.mean.interval.state, SCW_STEP_UNKNOWN);
  /* a display step is left as an uncertainty */
  sample.step = (scw_step){0.1, SCW_STEP_GIVEN};
  got = of_spots(&sample, spot);
  check_relative(got.mean.standard_uncertainty.value, 0.1 / sqrt(12), 1e-15);
  assert_int_equal(got.mean.df.state, SCW_UNBOUNDED);
  /* equal spot means tell nothing of how sure their mean is */
  x[0] = x[2] = 79;
  sample.step.size = 0;
  got = of_spots(&sample, spot);
  assert_int_equal(got.mean.interval.state, SCW_NO_SCATTER);
  assert_true(got.component[SCW_LEVEL_SPOT].variance.value < 0);
  assert_true(got.component[SCW_LEVEL_SPOT].at_most.value == 0);
}

static void far_from_zero(void **state) {
  static const double noise[] = {1, -2, 3, 9, 8, 5, -7, -4, -6};
  double x[9], near[9];
  (void)state;
  for (size_t i = 0; i < 9; i++) {
    near[i] = noise[i];
    x[i] = 1e6 + noise[i] * 0x1p-20; /* a millionth, held exactly */
  }
  scw_nested a = even(near, 9, 3), b = even(x, 9, 3);
  for (size_t l = SCW_LEVEL_SPOT; l < SCW_LEVEL_COUNT; l++) {
    check_relative(b.component[l].sd.value, a.component[l].sd.value * 0x1p-20,
                   1e-14);
    check_relative(b.component[l].interval.low,
                   a.component[l].interval.low * 0x1p-20, 1e-14);
  }
  /* spots a million apart, repeats a millionth: both keep their digits */
  for (size_t i = 0; i < 9; i++)
    x[i] = 0x1p20 * (double)(i / 3) + noise[i % 3] * 0x1p-20;
  b = even(x, 9, 3);
  check_relative(b.component[SCW_LEVEL_REPEAT].sd.value,
                 sqrt(19 / 3.0) * 0x1p-20, 1e-15);
  for (size_t i = 0; i < 9; i++)
    x[i] = 1e300 * noise[i];
  b = even(x, 9, 3);
  check_relative(b.component[SCW_LEVEL_SPOT].sd.value,
                 1e300 * a.component[SCW_LEVEL_SPOT].sd.value, 1e-14);
  assert_int_equal(b.component[SCW_LEVEL_SPOT].variance.state,
                   SCW_OUT_OF_RANGE);
}

static void many(void **state) {
  enum { SPOTS = 10000, EACH = 5 };
  static double x[SPOTS * EACH];
  unsigned long long seed = 7;
  double spot = 0;
  (void)state;
  for (size_t i = 0; i < SPOTS * EACH; i++) {
    if (i % EACH == 0) spot = 2 * one_set_normal(&seed);
    x[i] = 60 + spot + one_set_normal(&seed);
  }
  scw_nested got = even(x, SPOTS * EACH, EACH);
  /* four standard errors: SD/sqrt(2 df), and a little more for the spots */
  check_absolute(got.component[SCW_LEVEL_REPEAT].sd.value, 1,
                 4 / sqrt(2.0 * SPOTS * (EACH - 1)));
  check_absolute(got.component[SCW_LEVEL_SPOT].sd.value, 2,
                 4 * 2.1 / sqrt(2.0 * SPOTS));
  assert_true(got.component[SCW_LEVEL_SPOT].interval.low > 1.95);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(strd),
      cmocka_unit_test(machines),
      cmocka_unit_test(probe),
      cmocka_unit_test(voltage),
      cmocka_unit_test(classics),
      cmocka_unit_test(identities),
      cmocka_unit_test(interval_and_test_agree),
      cmocka_unit_test(memo),
      cmocka_unit_test(several_to_take_away),
      cmocka_unit_test(coarse_display),
      cmocka_unit_test(levels_that_tell_nothing),
      cmocka_unit_test(too_few),
      cmocka_unit_test(no_scatter),
      cmocka_unit_test(far_from_zero),
      cmocka_unit_test(many),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
