/* SPDX-License-Identifier: GPL-3.0-or-later */
/* REML of nested scatter: published figures, balanced sets where it equals the
 * mean squares, boundaries. R judges the rest (judge_components). */
#include "check.h"

#include <math.h>
#include <stdlib.h>

#include "labelled.h"
#include "nested.h"
#include "reml.h"

static scw_reml reml_of(const scwi_sample *sample, const scwi_level_labels *labels) {
  scw_reml out;
  assert_int_equal(scwi_reml(one_set_context(), sample, labels, 0.95, &out),
                   SCW_OK);
  return out;
}

static scw_reml of_spots(const double *x, size_t n, const uint32_t *spot) {
  return reml_of(&(scwi_sample){.n = n, .x = x},
                 &(scwi_level_labels){{[SCW_LEVEL_SPOT] = spot}});
}

/* To the digits lme4's documentation prints; and, since both are balanced with
 * positive components, the mean squares' own SDs and t interval. */
static void check_classic(const char *name, const char *const *columns,
                          double panel, double spot, double repeat) {
  labelled d = labelled_from_file(name, columns, NULL, NULL);
  scwi_sample sample = one_set_sample(&d.set);
  scwi_level_labels labels = {{d.label[1] ? d.label[0] : NULL, NULL,
                         d.label[1] ? d.label[1] : d.label[0], NULL}};
  scw_reml got = reml_of(&sample, &labels);
  scw_nested squares;
  assert_int_equal(
      scwi_nested(one_set_context(), &sample, &labels, 0.95, NULL, &squares),
      SCW_OK);
  if (panel > 0) check_absolute(got.sd[SCW_LEVEL_PANEL].value, panel, 5e-4);
  check_absolute(got.sd[SCW_LEVEL_SPOT].value, spot, panel > 0 ? 5e-4 : 5e-3);
  check_absolute(got.sd[SCW_LEVEL_REPEAT].value, repeat,
                 panel > 0 ? 5e-5 : 5e-3);
  for (size_t l = 0; l < SCW_LEVEL_COUNT; l++)
    if (squares.component[l].state == SCW_PRESENT)
      check_relative(got.sd[l].value, squares.component[l].sd.value, 1e-12);
    else
      assert_int_equal(got.sd[l].state, squares.component[l].state);
  check_relative(got.mean.estimate.value, squares.mean.estimate.value, 1e-14);
  check_relative(got.mean.df.value, squares.mean.df.value, 1e-11);
  check_relative(got.mean.interval.low, squares.mean.interval.low, 1e-13);
  labelled_free(&d);
}

static void classics(void **state) {
  const char *one[LABELLED_COLUMNS] = {"group", NULL, NULL};
  const char *two[LABELLED_COLUMNS] = {"batch", "cask", NULL};
  (void)state;
  check_classic("components/dyestuff.csv", one, 0, 42.00, 49.51);
  check_classic("components/pastes.csv", two, 1.287, 2.904, 0.8234);
}

/* A level at zero: the others as if it were not there, and no df. */
static void at_zero(void **state) {
  static const double x[] = {1, 3, 5, 1.5, 3, 4.5, 2, 3, 4.25, 1, 2.5, 5};
  static const uint32_t spot[] = {0, 0, 0, 1, 1, 1, 2, 2, 2, 3, 3, 3};
  double mean = 0, squares = 0;
  (void)state;
  scw_reml got = of_spots(x, 12, spot);
  for (size_t i = 0; i < 12; i++)
    mean += x[i] / 12;
  for (size_t i = 0; i < 12; i++)
    squares += (x[i] - mean) * (x[i] - mean) / 11;
  assert_true(got.at_zero[SCW_LEVEL_SPOT]);
  assert_true(got.sd[SCW_LEVEL_SPOT].value == 0);
  assert_true(got.share[SCW_LEVEL_REPEAT].value == 1);
  check_relative(got.sd[SCW_LEVEL_REPEAT].value, sqrt(squares), 1e-12);
  check_relative(got.mean.standard_uncertainty.value, sqrt(squares / 12),
                 1e-12);
  assert_int_equal(got.mean.df.state, SCW_AT_ZERO);
  assert_int_equal(got.mean.interval.state, SCW_AT_ZERO);
}

static void nothing_to_fit(void **state) {
  static const double x[] = {1, 1, 2, 2, 4, 4}, same[] = {3, 3, 3, 3, 3, 3};
  static const uint32_t spot[] = {0, 0, 1, 1, 2, 2};
  static const uint32_t each[] = {0, 1, 2, 3, 4, 5};
  (void)state;
  assert_int_equal(of_spots(x, 6, spot).state, SCW_NO_SCATTER);
  assert_int_equal(of_spots(same, 6, spot).state, SCW_NO_SCATTER);
  assert_int_equal(of_spots(x, 6, each).state, SCW_TOO_FEW);
  assert_int_equal(of_spots(x, 1, spot).state, SCW_TOO_FEW);
  assert_int_equal(of_spots(x, 2, each).state, SCW_TOO_FEW);
}

/* Any unit, any offset a double can hold; spots a million apart with repeats
 * of a millionth; 1e300. */
static void any_unit(void **state) {
  static const double noise[] = {1, -2, 3, 9, 8, 5, -7, -4, -6, 2};
  static const uint32_t spot[] = {0, 0, 0, 1, 1, 1, 2, 2, 2, 2};
  static const double scale[] = {1e-300, 0x1p-20, 1e12, 1e300};
  static const double offset[] = {0, 1e6, 0, 0};
  double x[10];
  (void)state;
  scw_reml one = of_spots(noise, 10, spot);
  assert_false(one.at_zero[SCW_LEVEL_SPOT]);
  for (size_t k = 0; k < 4; k++) {
    for (size_t i = 0; i < 10; i++)
      x[i] = offset[k] + scale[k] * noise[i];
    scw_reml got = of_spots(x, 10, spot);
    for (size_t l = SCW_LEVEL_SPOT; l < SCW_LEVEL_COUNT; l++) {
      check_relative(got.sd[l].value, scale[k] * one.sd[l].value, 1e-12);
      check_relative(got.share[l].value, one.share[l].value, 1e-12);
    }
    check_relative(got.mean.df.value, one.mean.df.value, 1e-11);
  }
  for (size_t i = 0; i < 10; i++)
    x[i] = 0x1p20 * spot[i] + noise[i % 3] * 0x1p-20;
  scw_reml far = of_spots(x, 10, spot);
  /* nothing to weigh: spots as they are, repeats pooled */
  check_relative(far.sd[SCW_LEVEL_SPOT].value, 0x1p20, 1e-12);
  check_relative(far.mean.df.value, 2, 1e-9);
}

/* A thousand panels with gaps: it ends, and where the truth is. */
static void thousand_panels(void **state) {
  enum { PANELS = 1000, SPOTS = 10, EACH = 3 };
  static double x[PANELS * SPOTS * EACH];
  static uint32_t panel[PANELS * SPOTS * EACH], spot[PANELS * SPOTS * EACH];
  unsigned long long seed = 11;
  double of_panel = 0, of_spot = 0;
  size_t n = 0;
  (void)state;
  for (size_t i = 0; i < PANELS * SPOTS * EACH; i++) {
    if (i % (SPOTS * EACH) == 0) of_panel = 2 * one_set_normal(&seed);
    if (i % EACH == 0) of_spot = one_set_normal(&seed);
    x[n] = 70 + of_panel + of_spot + 0.5 * one_set_normal(&seed);
    panel[n] = (uint32_t)(i / (SPOTS * EACH));
    spot[n] = (uint32_t)(i / EACH % SPOTS);
    if (one_set_random(&seed) % 10 > 0) n++; /* a tenth is missing */
  }
  scw_reml got = reml_of(&(scwi_sample){.n = n, .x = x},
                         &(scwi_level_labels){{panel, NULL, spot, NULL}});
  /* four standard errors */
  check_absolute(got.sd[SCW_LEVEL_PANEL].value, 2, 4 * 2 / sqrt(2 * 1000.0));
  check_absolute(got.sd[SCW_LEVEL_SPOT].value, 1, 4 * 1.1 / sqrt(2 * 9000.0));
  check_absolute(got.sd[SCW_LEVEL_REPEAT].value, 0.5,
                 4 * 0.5 / sqrt(2 * 17000.0));
  check_absolute(got.mean.df.value, 999, 2);
  assert_true(got.steps < 20);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(classics),        cmocka_unit_test(at_zero),
      cmocka_unit_test(nothing_to_fit),  cmocka_unit_test(any_unit),
      cmocka_unit_test(thousand_panels),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
