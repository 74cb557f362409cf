/* SPDX-License-Identifier: GPL-3.0-or-later */
/* TOST and SD ratio where there is nothing to compute, and TOST against the
 * interval. SciPy and R judge the numbers elsewhere. */
#include "check.h"

#include <math.h>

#include "equivalence.h"
#include "figure.h"
#include "sd_ratio.h"
#include "two_sample.h"

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

static scw_estimate change_of(double change, double sd, double step) {
  scw_estimate e;
  assert_int_equal(
      scwi_welch(context, (scwi_moments){5, 80, sd},
                 (scwi_moments){6, 80 + change, sd}, step, step, 0.95, &e),
      SCW_OK);
  return e;
}

/* p equals its level exactly where the interval touches the margin. */
static void meets_the_interval(void **state) {
  (void)state;
  scw_estimate e = change_of(0.2, 0.3, 0);
  scw_tost t = scwi_tost(&e, scwi_figure(e.interval.high));
  check_relative(t.level, 0.025, 1e-13);
  check_relative(t.p.value, t.level, 1e-10);
  e = change_of(-0.2, 0.3, 0);
  check_relative(scwi_tost(&e, scwi_figure(-e.interval.low)).p.value, 0.025,
                 1e-10);
  /* A change right at the margin is as likely inside as out. */
  e = change_of(0.5, 0.3, 0);
  check_relative(scwi_tost(&e, e.estimate).p.value, 0.5, 1e-12);
}

static void reasons(void **state) {
  (void)state;
  scw_estimate e = change_of(0.2, 0.3, 0);
  assert_int_equal(scwi_tost(&e, scwi_missing(SCW_NO_MARGIN)).p.state,
                   SCW_NO_MARGIN);
  assert_int_equal(scwi_tost(&e, scwi_figure(1e300)).p.state, SCW_OUT_OF_RANGE);
  e = change_of(0.2, 0, 0);
  assert_int_equal(scwi_tost(&e, scwi_figure(1)).p.state, SCW_NO_SCATTER);
  /* Only the display step: normal, u = q/sqrt(6), here 2 u from the edge. */
  e = change_of(0, 0, 0.1);
  check_relative(scwi_tost(&e, scwi_figure(0.2 / sqrt(6))).p.value,
                 erfc(sqrt(2)) / 2, 1e-11);
  assert_int_equal(scwi_tost(&e, scwi_figure(10)).p.state, SCW_NO_SCATTER);
}

static scw_presence ratio_state(scwi_moments before, scwi_moments after) {
  scw_sd_ratio r;
  assert_int_equal(scwi_sd_ratio(context, before, after, 0.95, &r), SCW_OK);
  assert_true((r.ratio.state == SCW_PRESENT) ==
              (r.interval.state == SCW_PRESENT));
  return r.ratio.state;
}

static void ratio_needs_scatter(void **state) {
  scwi_moments one = {1, 80, 0}, flat = {5, 80, 0}, rough = {5, 80, 0.4};
  (void)state;
  assert_int_equal(ratio_state(one, rough), SCW_ONE_READING);
  assert_int_equal(ratio_state(rough, flat), SCW_NO_SCATTER);
  assert_int_equal(ratio_state(flat, rough), SCW_NO_SCATTER);
  assert_int_equal(ratio_state(rough, rough), SCW_PRESENT);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(meets_the_interval),
                                     cmocka_unit_test(reasons),
                                     cmocka_unit_test(ratio_needs_scatter)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
