/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A comparison with a part that no number of readings makes smaller: what is
 * seen, what settles it, and when nothing does. Judged by identities and by
 * the chance at the number found and at the one before it. */
#include "check.h"

#include "settle.h"

static scw_context *context;

static int make(void **state) {
  (void)state;
  return scw_context_new(&context) != SCW_OK;
}

static int drop(void **state) {
  (void)state;
  scw_context_free(context);
  return 0;
}

static scwi_comparison with(double u, double df) {
  return (scwi_comparison){
      .paired = true, .sd_before = 1, .level = 0.95, .fixed = {u, df}};
}

static scw_settle settled(scwi_comparison c, double change) {
  scw_settle out;
  assert_int_equal(scwi_settle(context, &c, change,
                               (scw_figure){0, SCW_NO_MARGIN}, 6, 6, 0.8, &out),
                   SCW_OK);
  return out;
}

/* Two independent parts add by squares; df by Welch-Satterthwaite. */
static void adds_up(void **state) {
  (void)state;
  scwi_comparison c = with(0.3, 7);
  scwi_uncertainty u = scwi_comparison_uncertainty(&c, 16, 16);
  double scatter = 1 / 16., fixed = 0.09, sum = scatter + fixed;
  check_relative(u.u, sqrt(sum), 1e-15);
  check_relative(u.df, sum * sum / (scatter * scatter / 15 + fixed * fixed / 7),
                 1e-14);
  c.fixed.u = 0;
  scwi_comparison none = with(0, 0);
  assert_true(scwi_comparison_uncertainty(&c, 16, 16).u ==
              scwi_comparison_uncertainty(&none, 16, 16).u);
}

/* At the number found the chance is there, one reading less it is not. */
static void number_that_settles(void **state) {
  (void)state;
  scwi_comparison c = with(0.2, 30);
  scw_settle out = settled(c, 0.8), without = settled(with(0, 0), 0.8);
  assert_int_equal(out.total.state, SCW_PRESENT);
  assert_true(out.total.value > without.total.value);
  size_t n = (size_t)out.total.value;
  double there, before;
  assert_int_equal(scwi_power(context, &c, n, n, 0.8, &there), SCW_OK);
  assert_int_equal(scwi_power(context, &c, n - 1, n - 1, 0.8, &before), SCW_OK);
  assert_true(there >= 0.8 && before < 0.8);
}

/* With u fixed at 0.5 a change of 0.8 is 1.6 u, which endless readings leave
 * below 2.8 u = 1.4 (z of 0.975 plus z of 0.8, normal). */
static void instruments_decide(void **state) {
  (void)state;
  assert_int_equal(settled(with(0.5, INFINITY), 0.8).total.state,
                   SCW_INSTRUMENTS);
  assert_int_equal(settled(with(0.5, INFINITY), 1.39).total.state,
                   SCW_INSTRUMENTS);
  assert_int_not_equal(settled(with(0.5, INFINITY), 1.42).total.state,
                       SCW_INSTRUMENTS);
  /* few degrees of freedom ask for more */
  assert_int_equal(settled(with(0.5, 3), 1.42).total.state, SCW_INSTRUMENTS);
}

/* At the margin not even perfect instruments would tell. */
static void never_either_way(void **state) {
  (void)state;
  scw_settle out;
  scwi_comparison c = with(0.5, INFINITY);
  assert_int_equal(scwi_settle(context, &c, 0.8, (scw_figure){0.8, SCW_PRESENT},
                               6, 6, 0.8, &out),
                   SCW_OK);
  assert_int_equal(out.total.state, SCW_NEVER);
}

static void what_would_be_seen(void **state) {
  (void)state;
  scw_figure seen;
  scwi_comparison c = with(0.5, INFINITY);
  assert_int_equal(
      scwi_detectable(context, &c, 100000000, 100000000, 0.8, &seen), SCW_OK);
  /* d with erfc((z - d)/sqrt 2)/2 + erfc((z + d)/sqrt 2)/2 = 0.8, z of 0.975,
   * bisected in Python; the readings leave 1e-4 beside the 0.5 */
  check_relative(seen.value, hypot(0.5, 1e-4) * 2.8015817870135793, 1e-9);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(adds_up), cmocka_unit_test(number_that_settles),
      cmocka_unit_test(instruments_decide), cmocka_unit_test(never_either_way),
      cmocka_unit_test(what_would_be_seen)};
  return cmocka_run_group_tests(tests, make, drop);
}
