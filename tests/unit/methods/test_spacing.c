/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Spacing from the range, and spots that fit. */
#include "check.h"

#include <math.h>

#include "figure.h"
#include "spacing.h"

static void spacing_is_where_correlation_has_dropped(void **state) {
  (void)state;
  scw_figure s = scwi_spacing(scwi_figure(40), scwi_figure(0), 0.05);
  check_relative(s.value, 40 * 2.995732273553991, 1e-14); /* ln 20 */
  check_relative(exp(-s.value / 40), 0.05, 1e-13);
  s = scwi_spacing(scwi_figure(40), scwi_figure(0.5), 0.05);
  check_relative(0.5 * exp(-s.value / 40), 0.05, 1e-13);
  check_absolute(scwi_spacing(scwi_figure(40), scwi_figure(0.96), 0.05).value,
                 0, 0);
  s = scwi_spacing(scwi_missing(SCW_NO_DEPENDENCE), scwi_figure(1), 0.05);
  assert_int_equal(s.state, SCW_PRESENT);
  check_absolute(s.value, 0, 0);
  s = scwi_spacing(scwi_missing(SCW_FLAT), scwi_missing(SCW_FLAT), 0.05);
  assert_int_equal(s.state, SCW_FLAT);
  s = scwi_spacing(scwi_missing(SCW_UNBOUNDED), scwi_figure(0.1), 0.05);
  assert_int_equal(s.state, SCW_UNBOUNDED);
}

static double fit(double width, double height, double spacing) {
  scw_figure f = scwi_spots_that_fit(width, height, spacing);
  assert_int_equal(f.state, SCW_PRESENT);
  return f.value;
}

static void spots_that_fit(void **state) {
  (void)state;
  check_absolute(fit(300, 200, 100), 12, 0);   /* 4 x 3 */
  check_absolute(fit(0.3, 0.2, 0.1), 12, 0);   /* and in decimals */
  check_absolute(fit(40, 80, 100), 1, 0);
  check_absolute(fit(99, 99, 100), 2, 0);      /* (0, 0) and (50, 86.6) */
  check_absolute(fit(100, 87, 100), 3, 0);     /* a triangle */
  check_absolute(fit(0, 0, 5), 1, 0);
  check_absolute(fit(30, 0, 10), 4, 0);
  /* rows of 11 and 10, sqrt(3)/2 apart: 12 rows where a square has 11 */
  check_absolute(fit(10, 10, 1), 6 * 11 + 6 * 10, 0);
  assert_int_equal(scwi_spots_that_fit(1, 1, 0).state, SCW_UNBOUNDED);
  assert_int_equal(scwi_spots_that_fit(-1, 1, 1).state, SCW_OUT_OF_RANGE);
  assert_int_equal(scwi_spots_that_fit(1, NAN, 1).state, SCW_OUT_OF_RANGE);
  assert_int_equal(scwi_spots_that_fit(1e300, 1e300, 1e-10).state,
                   SCW_OUT_OF_RANGE);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(spacing_is_where_correlation_has_dropped),
      cmocka_unit_test(spots_that_fit)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
