/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is known of an input, by kind: published figures, closed forms, and
 * refusals that name the field. */
#include "budget_case.h"

#include <math.h>
#include <string.h>

#include "moments.h"

static scwi_known_input known_of(scw_budget_given given) {
  scwi_known_input out;
  if (!given.name) given.name = "a";
  if (scwi_input_known(context, &given, &out))
    fail_msg("%s", scw_context_message(context));
  check_relative(out.estimate, given.value, 0);
  return out;
}

static void twenty_temperatures(void **state) {
  check_table t = check_table_read(REFERENCE_DATA "/budgets/gum_4_4_3.csv");
  double x[64];
  (void)state;
  for (size_t i = 0; i < t.rows; i++)
    x[i] = check_table_number(&t, i, "reading");
  scwi_moments m = scwi_moments_of(&(scwi_sample){.n = t.rows, .x = x});
  scwi_known_input mean = known_of((scw_budget_given){
      .kind = SCW_KIND_READINGS, .value = m.mean, .n = m.n, .sd = m.sd});
  check_published("4.4.3", "mean", mean.estimate);
  check_published("4.4.3", "sd", m.sd);
  check_published("4.4.3", "sd_of_mean", mean.u);
  assert_true(mean.df == 19);
  check_published("4.4.3", "u_rectangular",
                  known_of((scw_budget_given){.kind = SCW_KIND_RECTANGULAR,
                                              .half_width = 4})
                      .u);
  check_published(
      "4.4.3", "u_triangular",
      known_of((scw_budget_given){.kind = SCW_KIND_TRIANGULAR, .half_width = 4})
          .u);
  check_table_free(&t);
}

/* JCGM 101, 6.4.2 to 6.4.6: the variances of these distributions. */
static void widths_by_closed_form(void **state) {
  (void)state;
  static const struct {
    scw_budget_kind kind;
    double top, limit, wanted; /* at a half-width of 3 */
  } cases[] = {{SCW_KIND_RECTANGULAR, 0, 0, 1.7320508075688772},
               {SCW_KIND_TRIANGULAR, 0, 0, 1.2247448713915890},
               {SCW_KIND_TRAPEZOIDAL, 0, 0, 1.2247448713915890},
               {SCW_KIND_TRAPEZOIDAL, 1, 0, 1.7320508075688772},
               {SCW_KIND_TRAPEZOIDAL, 0.5, 0, 1.3693063937629153},
               {SCW_KIND_UNCERTAIN_LIMITS, 0, 1.5, 1.8027756377319946},
               {SCW_KIND_ARCSINE, 0, 0, 2.1213203435596426}};
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
    for (double unit = 1e-12; unit < 1e13; unit *= 1e6) {
      scw_budget_given given = {.kind = cases[i].kind,
                                .value = 5 * unit,
                                .half_width = 3 * unit,
                                .top = cases[i].top,
                                .limit_half_width = cases[i].limit * unit};
      check_relative(known_of(given).u, cases[i].wanted * unit, 1e-15);
      assert_true(isinf(known_of(given).df));
      given.relative = true; /* the same as parts of the value */
      given.value = -2 * unit;
      given.half_width = 1.5;
      given.limit_half_width = cases[i].limit / 2;
      check_relative(known_of(given).u, cases[i].wanted * unit, 1e-15);
      check_relative(known_of(given).scale, 3 * unit, 1e-15);
    }
}

/* JCGM 101 6.4.3: rectangular about a known middle, the half-width itself
 * rectangular; the variance w^2/3 averaged over the half-widths. */
static void uncertain_limits_by_mixture(void **state) {
  const double half = 3, limit = 1.2;
  enum { STEPS = 100000 };
  double sum = 0;
  (void)state;
  for (int i = 0; i < STEPS; i++) {
    double w = half - limit + 2 * limit * (i + 0.5) / STEPS;
    sum += w * w / 3;
  }
  double u = known_of((scw_budget_given){.kind = SCW_KIND_UNCERTAIN_LIMITS,
                                         .half_width = half,
                                         .limit_half_width = limit})
                 .u;
  check_relative(u * u, sum / STEPS, 1e-10); /* the grid's own error */
}

static void normal_and_t(void **state) {
  (void)state;
  scwi_known_input n = known_of((scw_budget_given){.kind = SCW_KIND_NORMAL,
                                                   .value = 200,
                                                   .uncertainty = 0.02,
                                                   .relative = true});
  check_relative(n.u, 4, 1e-15);
  assert_true(isinf(n.df));
  scwi_known_input t = known_of((scw_budget_given){
      .kind = SCW_KIND_T, .value = 1, .uncertainty = 0.3, .df = 7.5});
  assert_true(t.u == 0.3 && t.df == 7.5 && t.scale == 0.3);
  scwi_known_input exact =
      known_of((scw_budget_given){.kind = SCW_KIND_EXACT, .value = 4});
  assert_true(exact.u == 0 && isinf(exact.df));
}

static void reliability_is_degrees_of_freedom(void **state) {
  (void)state; /* JCGM 100 G.4.2: 25 % gives 8; H.1: 10 % gives 50, 50 % 2 */
  static const double cases[][2] = {{0.25, 8}, {0.1, 50}, {0.5, 2}, {1, 0.5}};
  for (size_t i = 0; i < 4; i++)
    check_relative(known_of((scw_budget_given){.kind = SCW_KIND_RECTANGULAR,
                                               .half_width = 1,
                                               .unreliability = cases[i][0]})
                       .df,
                   cases[i][1], 1e-15);
}

/* Certificates: U = k u, or by the t table of JCGM 100 (Table G.2). */
static void certificates(void **state) {
  (void)state;
  scw_budget_given given = {
      .kind = SCW_KIND_CERTIFICATE, .value = 92.6, .expanded = 0.5, .k = 2};
  check_relative(known_of(given).u, 0.25, 0);
  given.level = 0.95; /* said beside k: k decides */
  check_relative(known_of(given).u, 0.25, 0);
  given.k = 0;
  check_relative(known_of(given).u, 0.5 / 1.959963984540054, 1e-14);
  given.df = 10;
  check_absolute(known_of(given).u, 0.5 / 2.23, 0.005 * 0.5 / 2.23 / 2.2);
  assert_true(known_of(given).df == 10);
  given.df = 0;
  given.unreliability = 0.1;
  check_absolute(known_of(given).u, 0.5 / 2.01, 0.005 * 0.5 / 2);
  check_relative(known_of(given).df, 50, 1e-15);
  given.relative = true;
  given.k = 2;
  check_relative(known_of(given).u, 0.25 * 92.6, 1e-15);
}

static void readings_with_a_display_step(void **state) {
  scw_budget_given given = {.kind = SCW_KIND_READINGS,
                            .value = 84.2,
                            .n = 5,
                            .step = {0.1, SCW_STEP_GIVEN}};
  (void)state;
  scwi_known_input even = known_of(given); /* all the same: the step speaks */
  check_relative(even.u, 0.1 / sqrt(12), 1e-15);
  assert_true(isinf(even.df));
  check_relative(even.rounding, 0.1 / sqrt(12), 1e-15);
  given.sd = 0.03;
  scwi_known_input some = known_of(given);
  check_relative(some.scale, 0.03 / sqrt(5), 1e-15);
  check_relative(some.u * some.u,
                 some.scale * some.scale + some.rounding * some.rounding,
                 1e-14);
  check_relative(some.rounding * some.rounding, 0.01 / 12 - 0.0009 / 3, 1e-14);
  given.sd = 0.06; /* more than half a step: the step term is gone */
  check_relative(known_of(given).u, 0.06 / sqrt(5), 1e-15);
  assert_true(known_of(given).rounding == 0 && known_of(given).df == 4);
}

static void refuse(scw_budget_given given, const char *words) {
  scwi_known_input out;
  given.name = "block";
  assert_int_equal(scwi_input_known(context, &given, &out), SCW_BAD_INPUT);
  const char *message = scw_context_message(context);
  if (!strstr(message, words) || !strstr(message, "input `block`"))
    fail_msg("`%s` is not in: %s", words, message);
  assert_true(out.u == 0 && out.estimate == 0);
  const char *field = words + (strncmp(words, "needs ", 6) ? 0 : 6);
  if (*field != '`') return;
  size_t length = strcspn(field + 1, "`");
  assert_int_equal(strlen(out.fault), length);
  assert_memory_equal(out.fault, field + 1, length);
}

static void refusals_name_the_field(void **state) {
  (void)state;
#define REFUSE(words, ...) refuse((scw_budget_given){__VA_ARGS__}, words)
  REFUSE("`sd` is -1; it must be at least 0", .kind = SCW_KIND_READINGS, .n = 3,
         .sd = -1);
  REFUSE("fewer than two readings", .kind = SCW_KIND_READINGS, .n = 1, .sd = 0);
  REFUSE("fewer than two readings", .kind = SCW_KIND_READINGS);
  REFUSE("all the same", .kind = SCW_KIND_READINGS, .n = 4);
  REFUSE("display step must be", .kind = SCW_KIND_READINGS, .n = 4,
         .step = {-1, SCW_STEP_GIVEN});
  REFUSE("needs `uncertainty`", .kind = SCW_KIND_NORMAL);
  REFUSE("needs `df`", .kind = SCW_KIND_T, .uncertainty = 1);
  REFUSE("`df` is 0.2; it must be at least 0.5", .kind = SCW_KIND_T,
         .uncertainty = 1, .df = 0.2);
  REFUSE("needs `half_width`", .kind = SCW_KIND_ARCSINE);
  REFUSE("`top` is 1.5; it must be at most 1", .kind = SCW_KIND_TRAPEZOIDAL,
         .half_width = 1, .top = 1.5);
  REFUSE("needs `limit_half_width`", .kind = SCW_KIND_UNCERTAIN_LIMITS,
         .half_width = 1);
  REFUSE("must be less than `half_width`", .kind = SCW_KIND_UNCERTAIN_LIMITS,
         .half_width = 1, .limit_half_width = 1);
  REFUSE("`top` is of no use", .kind = SCW_KIND_RECTANGULAR, .half_width = 1,
         .top = 0.5);
  REFUSE("`n` is of no use", .kind = SCW_KIND_NORMAL, .uncertainty = 1, .n = 3);
  REFUSE("`step` is of no use", .kind = SCW_KIND_NORMAL, .uncertainty = 1,
         .step = {0.1, SCW_STEP_GIVEN});
  REFUSE("`df` is of no use to an input known as normal",
         .kind = SCW_KIND_NORMAL, .uncertainty = 1, .df = 4);
  REFUSE("`relative` is of no use", .kind = SCW_KIND_READINGS, .n = 3, .sd = 1,
         .relative = true);
  REFUSE("a value of 0 says nothing", .kind = SCW_KIND_NORMAL,
         .uncertainty = 0.1, .relative = true);
  REFUSE("must be a finite number", .kind = SCW_KIND_NORMAL, .value = NAN,
         .uncertainty = 1);
  REFUSE("`uncertainty` must be a finite number", .kind = SCW_KIND_NORMAL,
         .uncertainty = INFINITY);
  REFUSE("give `k`, or the `level`", .kind = SCW_KIND_CERTIFICATE,
         .expanded = 1);
  REFUSE("`level` is 1; it must be at most", .kind = SCW_KIND_CERTIFICATE,
         .expanded = 1, .level = 1);
  REFUSE("say the same thing", .kind = SCW_KIND_CERTIFICATE, .expanded = 1,
         .level = 0.95, .df = 5, .unreliability = 0.1);
  REFUSE("`unreliability` is 2; it must be at most 1",
         .kind = SCW_KIND_RECTANGULAR, .half_width = 1, .unreliability = 2);
  REFUSE("`uncertainty` is of no use", .kind = SCW_KIND_EXACT,
         .uncertainty = 1);
  REFUSE("choose another unit", .kind = SCW_KIND_NORMAL, .value = 1e300,
         .uncertainty = 1e300, .relative = true);
#undef REFUSE
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(twenty_temperatures),
      cmocka_unit_test(widths_by_closed_form),
      cmocka_unit_test(uncertain_limits_by_mixture),
      cmocka_unit_test(normal_and_t),
      cmocka_unit_test(reliability_is_degrees_of_freedom),
      cmocka_unit_test(certificates),
      cmocka_unit_test(readings_with_a_display_step),
      cmocka_unit_test(refusals_name_the_field)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
