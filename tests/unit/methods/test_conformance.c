/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Conformance with limits: JCGM 106's example and table, identities, edges. */
#include "budget_case.h"

#include <math.h>
#include <string.h>

#include "conformance.h"

static scw_conformance conform(double y, double u, double df, double low,
                               double high, double wanted) {
  scw_conformance out;
  if (scwi_conformance(context, y, u, df, low, high, wanted, &out))
    fail_msg("%s", scw_context_message(context));
  return out;
}

static void breakdown_voltage(void **state) { /* clause 7 */
  (void)state;
  check_published(
      "JCGM 106", "probability",
      conform(-5.47, 0.05, INFINITY, -INFINITY, -5.40, 0.95).probability.value);
}

static void guard_in_standard_uncertainties(void **state) { /* Table 1 */
  (void)state;
  static const struct {
    const char *item;
    double wanted;
  } cases[] = {{"z_0.80", 0.80},
               {"z_0.90", 0.90},
               {"z_0.95", 0.95},
               {"z_0.99", 0.99},
               {"z_0.999", 0.999}};
  for (size_t i = 0; i < 5; i++) {
    scw_conformance c =
        conform(3, 0.2, INFINITY, -INFINITY, 4, cases[i].wanted);
    check_published("JCGM 106", cases[i].item, c.guard.value / 0.2);
    assert_int_equal(c.accept_low.state, SCW_UNBOUNDED);
    check_relative(c.accept_high.value, 4 - c.guard.value, 1e-15);
  }
}

/* At the line of acceptance the probability is what was wanted; the middle of
 * mirrored limits is the mirror; a wide interval is two single limits. */
static void the_line_of_acceptance(void **state) {
  static const double dfs[] = {1, 4, 17.3, INFINITY};
  (void)state;
  for (size_t i = 0; i < 4; i++)
    for (double width = 1; width < 60; width *= 1.7) {
      scw_conformance c = conform(0.1, 0.5, dfs[i], -width, width, 0.9);
      if (c.guard.state != SCW_PRESENT) {
        assert_int_equal(c.guard.state, SCW_LEVEL_UNREACHABLE);
        assert_true(
            conform(0, 0.5, dfs[i], -width, width, 0.9).probability.value <
            0.9);
        continue;
      }
      double line = c.accept_high.value;
      check_absolute(
          conform(line, 0.5, dfs[i], -width, width, 0.9).probability.value, 0.9,
          1e-13);
      check_relative(c.accept_low.value, -line, 1e-12);
      double one = conform(0, 0.5, dfs[i], -INFINITY, width, 0.9).guard.value;
      assert_true(c.guard.value >= one * (1 - 1e-12));
      if (isinf(dfs[i]) && width > 20)
        check_relative(c.guard.value, one, 1e-12);
    }
}

static void tails_keep_their_digits(void **state) {
  (void)state; /* upper normal tails, from tables */
  check_relative(conform(10, 1, INFINITY, -INFINITY, 0, 0.95).probability.value,
                 7.619853024160527e-24, 1e-12);
  check_relative(conform(-10, 1, INFINITY, 0, INFINITY, 0.95).probability.value,
                 7.619853024160527e-24, 1e-12);
  check_relative(conform(0, 1, INFINITY, 5, 6, 0.6).probability.value,
                 2.866515718791939e-07 - 9.865876450376946e-10, 1e-12);
  check_relative(conform(11, 1, INFINITY, 5, 6, 0.6).probability.value,
                 2.866515718791939e-07 - 9.865876450376946e-10, 1e-12);
  check_relative(conform(0, 1, 1, -1, 1, 0.5001).probability.value, 0.5, 2e-15);
}

static void refusals(void **state) {
  static const double bad[][6] = {{0, 0, INFINITY, 0, 1, 0.95},
                                  {0, -1, INFINITY, 0, 1, 0.95},
                                  {NAN, 1, INFINITY, 0, 1, 0.95},
                                  {0, NAN, INFINITY, 0, 1, 0.95},
                                  {0, 1, INFINITY, 1, 1, 0.95},
                                  {0, 1, INFINITY, 2, 1, 0.95},
                                  {0, 1, INFINITY, NAN, 1, 0.95},
                                  {0, 1, INFINITY, 0, 1, 0.5},
                                  {0, 1, INFINITY, 0, 1, 1},
                                  {0, 1, INFINITY, 0, 1, NAN},
                                  {0, 1, INFINITY, -INFINITY, INFINITY, 0.95}};
  (void)state;
  for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
    scw_conformance out;
    assert_int_equal(scwi_conformance(context, bad[i][0], bad[i][1], bad[i][2],
                                      bad[i][3], bad[i][4], bad[i][5], &out),
                     SCW_BAD_ARGUMENT);
    assert_int_not_equal(out.probability.state, SCW_PRESENT);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(breakdown_voltage),
      cmocka_unit_test(guard_in_standard_uncertainties),
      cmocka_unit_test(the_line_of_acceptance),
      cmocka_unit_test(tails_keep_their_digits), cmocka_unit_test(refusals)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
