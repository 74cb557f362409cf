/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Trials beside what is known exactly: JCGM 101's examples as printed, exact
 * distributions, references of 1e8 trials made elsewhere, and that the number
 * of threads changes nothing. Seeds are fixed, so a test passes always or never;
 * the distance allowed is FAR standard errors, which are known or stated. */
#include "budget_case.h"

#include <math.h>
#include <string.h>

#include "monte_carlo.h"

static const double FAR = 4;

#define NORMAL(n, v, s)                                                        \
  { .name = n, .kind = SCW_KIND_NORMAL, .value = v, .uncertainty = s }
#define RECTANGULAR(n, v, a)                                                   \
  { .name = n, .kind = SCW_KIND_RECTANGULAR, .value = v, .half_width = a }
#define T(n, v, s, f)                                                          \
  { .name = n, .kind = SCW_KIND_T, .value = v, .uncertainty = s, .df = f }

static const double root3 = 1.7320508075688772;

static scw_monte_carlo million(const budget_case *c) {
  const scw_trials_options options = {.trials = 1000000, .seed = 1};
  return trials_of(c, &options);
}

static double present(scw_figure figure) {
  assert_int_equal(figure.state, SCW_PRESENT);
  return figure.value;
}

static void check_within(double got, double wanted, double error) {
  check_absolute(got, wanted, FAR * error);
}

/* --- JCGM 101, as printed ------------------------------------------------ */

/* Half a unit of the last printed digit, and the trials' own error. */
static void check_printed(double got, double wanted, double unit,
                          double error) {
  check_absolute(got, wanted, unit / 2 + FAR * error);
}

static void four_normals(void **state) { /* 9.2.2 */
  const budget_case c = {.model = "a + b + c + d",
                         .given = {NORMAL("a", 0, 1), NORMAL("b", 0, 1),
                                   NORMAL("c", 0, 1), NORMAL("d", 0, 1)}};
  scw_monte_carlo got = million(&c);
  (void)state;
  check_printed(present(got.mean), 0, 0.1, 0);
  check_printed(present(got.sd), 2.0, 0.1, 0);
  check_printed(got.symmetric.high, 3.92, 0.01, present(got.high_error));
  check_printed(got.symmetric.low, -3.92, 0.01, present(got.low_error));
  check_within(got.symmetric.high, 3.919927969080108, present(got.high_error));
  check_within(present(got.mean), 0, 0.002);
  check_within(present(got.sd), 2, 2 / sqrt(2e6));
  assert_int_equal(got.agreement, SCW_AGREES);
}

static void four_rectangulars(void **state) { /* 9.2.3, 9.2.4 */
  budget_case c = {
      .model = "a + b + c + d",
      .given = {RECTANGULAR("a", 0, root3), RECTANGULAR("b", 0, root3),
                RECTANGULAR("c", 0, root3), RECTANGULAR("d", 0, root3)}};
  (void)state;
  scw_monte_carlo got = million(&c);
  check_printed(got.symmetric.high, 3.88, 0.01, present(got.high_error));
  check_within(got.symmetric.high, 3.879406741348, present(got.high_error));
  c.given[3].half_width = 10 * root3;
  got = million(&c);
  check_printed(present(got.sd), 10.1, 0.1, present(got.sd_error));
  check_printed(got.symmetric.high, 17.0, 0.1, present(got.high_error));
  check_within(present(got.sd), 10.14889156509222, present(got.sd_error));
  check_within(got.symmetric.high, 17.015814099867, present(got.high_error));
  check_within(got.symmetric.low, -17.015814099867, present(got.low_error));
  assert_int_equal(got.agreement, SCW_DIFFERS); /* the law says 19.9 */
}

static void mass(void **state) { /* 9.3, Table 6; from memory, in mg */
  const budget_case c = {
      .model = "(mass + extra) * (1 + (air - 1.2) * (1 / weight - 1 / standard))"
               " - 100000",
      .given = {NORMAL("mass", 100000, 0.050), NORMAL("extra", 1.234, 0.020),
                RECTANGULAR("air", 1.20, 0.10),
                RECTANGULAR("weight", 8000, 1000),
                RECTANGULAR("standard", 8000, 50)}};
  scw_monte_carlo got = million(&c);
  (void)state;
  check_printed(present(got.mean), 1.2341, 0.0001, present(got.mean_error));
  check_printed(present(got.sd), 0.0754, 0.0001, present(got.sd_error));
  check_printed(got.shortest.low, 1.0834, 0.0001, present(got.low_error));
  check_printed(got.shortest.high, 1.3825, 0.0001, present(got.high_error));
  assert_int_equal(got.agreement, SCW_DIFFERS);
  scw_budget law = budget_of(&c, NULL, 0); /* GUF1 and GUF2 */
  check_printed(law.standard_uncertainty.value, 0.0539, 0.0001, 0);
  check_printed(law.interval.low, 1.1285, 0.0001, 0);
  check_printed(law.interval.high, 1.3395, 0.0001, 0);
  assert_true(law.second_order.matters);
  check_printed(law.second_order.standard_uncertainty.value, 0.0750, 0.0001, 0);
  scwi_budget_free(&law);
}

static void comparison_loss(void **state) { /* 9.4.2; from memory */
  static const struct {
    double x1, mean, sd, low, high; /* printed, in 1e-6 */
  } cases[] = {{0, 50, 50, 0, 150}, {0.010, 150, 112, 0, 367},
               {0.050, 2551, 502, 1590, 3543}};
  (void)state;
  for (size_t i = 0; i < 3; i++) {
    const budget_case c = {.model = "1e6 * (x1^2 + x2^2)",
                           .given = {NORMAL("x1", cases[i].x1, 0.005),
                                     NORMAL("x2", 0, 0.005)}};
    scw_monte_carlo got = million(&c);
    double u2 = 25, x2 = cases[i].x1 * cases[i].x1 * 1e6;
    check_within(present(got.mean), x2 + 2 * u2, present(got.mean_error));
    check_within(present(got.sd), sqrt(4 * x2 * u2 + 4 * u2 * u2),
                 present(got.sd_error));
    /* the guide's own figures are from 1e6 trials, and scatter like ours */
    check_printed(present(got.mean), cases[i].mean, 1,
                  hypot(got.mean_error.value, cases[i].sd / 1e3));
    check_printed(present(got.sd), cases[i].sd, 1, 2 * got.sd_error.value);
    /* ends of shortest intervals scatter more than quantiles */
    check_printed(got.shortest.low, cases[i].low, 1, 3 * got.high_error.value);
    check_printed(got.shortest.high, cases[i].high, 1,
                  3 * got.high_error.value);
    assert_int_equal(got.agreement, i == 0 ? SCW_AGREEMENT_NOT_APPLICABLE
                                           : SCW_DIFFERS);
  }
}

/* --- Exact distributions ------------------------------------------------- */

static void correlated(void **state) {
  /* 9.4.3, r = 0.9: var of x1^2 + x2^2 is 2 tr((V)^2) + 4 x' V x. */
  const double r[] = {1, 0.9, 0.9, 1};
  const budget_case c = {.model = "1e6 * (x1^2 + x2^2)",
                         .given = {NORMAL("x1", 0.010, 0.005),
                                   NORMAL("x2", 0, 0.005)},
                         .correlation = r};
  scw_monte_carlo got = million(&c);
  (void)state;
  check_within(present(got.mean), 150, present(got.mean_error));
  check_within(present(got.sd), sqrt(2 * 625 * (2 + 2 * 0.81) + 4 * 100 * 25),
               present(got.sd_error));
}

/* A lone t input beside a correlated pair: each keeps its own numbers. */
static void lone_beside_correlated(void **state) {
  const double r[] = {1, 0, 0, 0, 1, 0.5, 0, 0.5, 1};
  const budget_case c = {
      .model = "x + a - b",
      .given = {T("x", 160, 2, 9), NORMAL("a", 0, 1), NORMAL("b", 0, 1)},
      .correlation = r};
  scw_monte_carlo got = million(&c);
  (void)state;
  check_within(present(got.mean), 160, present(got.mean_error));
  check_within(present(got.sd), sqrt(4 * 9.0 / 7 + 1), present(got.sd_error));
}

/* Readings of the same number that are correlated: t with common degrees of
 * freedom, so that a sum is t again. */
static void correlated_readings(void **state) {
  const double r[] = {1, 0.6, 0.6, 1};
#define READINGS(name)                                                         \
  { name, .kind = SCW_KIND_READINGS, .value = 10, .n = 6, .sd = 1 }
  const budget_case c = {.model = "a + b",
                         .given = {READINGS("a"), READINGS("b")},
                         .correlation = r};
  scw_monte_carlo got = million(&c);
  double scale = sqrt((2 + 2 * 0.6) / 6), t5 = 2.570581835636314;
  (void)state;
  assert_false(got.as_normal);
  check_within(got.symmetric.high, 20 + scale * t5, present(got.high_error));
  check_within(present(got.sd), scale * sqrt(5.0 / 3), present(got.sd_error));
}

/* One input of every kind, against quantiles of its distribution: from SciPy
 * 1.10.1 (t, norm), or in closed form. */
static void every_kind(void **state) {
  const struct {
    scw_budget_given given;
    double high, sd; /* 0.975 quantile and SD about 0 */
  } cases[] = {
      {NORMAL("x", 0, 2), 2 * 1.959963984540054, 2},
      {T("x", 0, 2, 4), 2 * 2.7764451051977987, 2 * sqrt(2)},
      {RECTANGULAR("x", 0, 2), 1.9, 2 / root3},
      {{"x", .kind = SCW_KIND_TRIANGULAR, .half_width = 2},
       2 * (1 - sqrt(0.05)), 2 / sqrt(6)},
      {{"x", .kind = SCW_KIND_TRAPEZOIDAL, .half_width = 2, .top = 0.5},
       2 * (1 - sqrt(0.025 * 2 * 0.75)), 2 * sqrt(1.25 / 6)},
      {{"x", .kind = SCW_KIND_ARCSINE, .half_width = 2},
       2 * 0.9969173337331280, sqrt(2)}, /* sin(0.475 pi) */
      {{"x", .kind = SCW_KIND_CERTIFICATE, .expanded = 4, .k = 2},
       2 * 1.959963984540054, 2},
      {{"x", .kind = SCW_KIND_CERTIFICATE, .expanded = 4, .k = 2, .df = 9},
       2 * 2.2621571627409915, 2 * sqrt(9.0 / 7)},
      {{"x", .kind = SCW_KIND_READINGS, .n = 4, .sd = 2}, 3.182446305284263,
       root3},
      /* half-widths from 1 to 3: P(X > x) = (3 - x - x log(3/x))/4, x > 1,
       * solved by SciPy */
      {{"x", .kind = SCW_KIND_UNCERTAIN_LIMITS, .half_width = 2,
        .limit_half_width = 1}, 2.2595084125661566, sqrt(4.0 / 3 + 1.0 / 9)},
  };
  (void)state;
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    const budget_case c = {.model = "x", .given = {cases[i].given}};
    scw_monte_carlo got = million(&c);
    check_within(got.symmetric.high, cases[i].high, present(got.high_error));
    check_within(got.symmetric.low, -cases[i].high, present(got.low_error));
    check_within(present(got.sd), cases[i].sd, present(got.sd_error));
    check_within(present(got.median), 0, 2.5 * present(got.mean_error));
  }
}

/* Correlated inputs of several kinds: normal, and said so; a group of t beside
 * them stays t. Readings of the t: 1.0 and 2.0 with 5 degrees of freedom. */
static void kinds_together(void **state) {
  const double r[] = {1, 0.5, 0, 0, 0.5, 1, 0, 0, 0, 0, 1, 0.4, 0, 0, 0.4, 1};
  budget_case c = {.model = "a + b + 0 * (x + y)",
                   .given = {RECTANGULAR("a", 0, root3), NORMAL("b", 0, 2),
                             T("x", 0, 1, 5), T("y", 0, 2, 5)},
                   .correlation = r};
  (void)state;
  scw_monte_carlo got = million(&c);
  double u = sqrt(1 + 4 + 2 * 0.5 * 2);
  assert_true(got.as_normal);
  check_within(got.symmetric.high, 1.959963984540054 * u,
               present(got.high_error));
  c.model = "a - a + b - b + x + y";
  got = million(&c);
  check_within(got.symmetric.high, 2.570581835636314 * sqrt(5 + 2 * 0.4 * 2),
               present(got.high_error));
}

/* Good to 25 %: 8 degrees of freedom, so that the variance is 8/6 of it. */
static void uncertain_width(void **state) {
  const budget_case c = {
      .model = "x",
      .given = {{"x", .kind = SCW_KIND_RECTANGULAR, .half_width = root3,
                 .unreliability = 0.25}}};
  scw_monte_carlo got = million(&c);
  (void)state;
  check_within(present(got.sd), sqrt(8.0 / 6), present(got.sd_error));
}

/* The square of a number from 0 to 1: its density falls, so that the shortest
 * interval starts at 0. The end has the error of a quantile. */
static void skewed(void **state) {
  const budget_case c = {.model = "x^2", .given = {RECTANGULAR("x", 0.5, 0.5)}};
  scw_monte_carlo got = million(&c);
  double error = sqrt(0.95 * 0.05 / 1e6) * 2 * 0.95;
  (void)state;
  check_within(got.shortest.high, 0.9025, error);
  check_absolute(got.shortest.low, 0, 1e-5);
  check_within(got.symmetric.low, 0.025 * 0.025, present(got.low_error));
  check_within(got.symmetric.high, 0.975 * 0.975, present(got.high_error));
  check_within(present(got.median), 0.25, sqrt(0.25 / 1e6) * 2 * 0.5);
  check_within(present(got.mean), 1.0 / 3, present(got.mean_error));
}

/* Readings on a coarse display: t and rectangular, added. */
static void rounding(void **state) {
  const budget_case c = {.model = "x",
                         .given = {{"x", .kind = SCW_KIND_READINGS, .value = 5,
                                    .n = 8, .sd = 0.2,
                                    .step = {1, SCW_STEP_GIVEN}}}};
  scw_monte_carlo got = million(&c);
  (void)state;
  check_within(present(got.sd),
               sqrt(0.04 / 8 * 7 / 5 + 1.0 / 12 - 0.04 / 3),
               present(got.sd_error));
}

/* --- References of 1e8 trials, made by numpy (reference-data/trials) ------ */

static void beside_references(void **state) {
  check_table t = check_table_read(REFERENCE_DATA "/trials/references.csv");
  const budget_case cases[] = {
      {.model = "(pull - zero) / block",
       .given = {{"pull", .kind = SCW_KIND_READINGS, .value = 160, .n = 5,
                  .sd = 9},
                 RECTANGULAR("zero", 0, 5), RECTANGULAR("block", 500, 1)}},
      {.model = "a * exp(-b) * log(c) / d^1.5 + e^2 / f",
       .given = {NORMAL("a", 2, 0.1), NORMAL("b", 0.5, 0.05),
                 RECTANGULAR("c", 5, 0.5), NORMAL("d", 3, 0.1),
                 RECTANGULAR("e", 1, 0.2), NORMAL("f", 4, 0.2)}}};
  (void)state;
  assert_int_equal(t.rows, 2);
  for (size_t i = 0; i < 2; i++) {
    scw_monte_carlo got = million(&cases[i]);
    const struct {
      const char *figure, *error;
      double got, own_error;
    } figures[] = {
        {"mean", "mean_error", got.mean.value, got.mean_error.value},
        {"sd", "sd_error", got.sd.value, got.sd_error.value},
        {"low", "low_error", got.symmetric.low, got.low_error.value},
        {"high", "high_error", got.symmetric.high, got.high_error.value}};
    for (size_t k = 0; k < 4; k++)
      check_within(figures[k].got,
                   check_table_number(&t, i, figures[k].figure),
                   hypot(check_table_number(&t, i, figures[k].error),
                         figures[k].own_error));
  }
  check_table_free(&t);
}

/* --- The run itself ------------------------------------------------------ */

static const budget_case ratio = {
    .model = "x / a", .given = {T("x", 160, 4, 4), NORMAL("a", 500, 0.5)}};

static void threads_change_nothing(void **state) {
  static const unsigned threads[] = {2, 7};
  static const scw_trials_options runs[] = {
      {.seed = 3}, {.trials = 123457, .seed = 3}};
  (void)state;
  for (size_t r = 0; r < 2; r++) {
    assert_int_equal(scw_context_set_threads(context, 1), SCW_OK);
    scw_monte_carlo one = trials_of(&ratio, &runs[r]);
    for (size_t i = 0; i < 2; i++) {
      assert_int_equal(scw_context_set_threads(context, threads[i]), SCW_OK);
      scw_monte_carlo many = trials_of(&ratio, &runs[r]);
      assert_int_equal(one.trials, many.trials);
      assert_true(one.mean.value == many.mean.value &&
                  one.sd.value == many.sd.value &&
                  one.median.value == many.median.value &&
                  one.symmetric.low == many.symmetric.low &&
                  one.symmetric.high == many.symmetric.high &&
                  one.shortest.low == many.shortest.low &&
                  one.low_error.value == many.low_error.value);
    }
  }
}

static void seeds_differ(void **state) {
  const scw_trials_options a = {.trials = 10000, .seed = 1};
  const scw_trials_options b = {.trials = 10000, .seed = 2};
  (void)state;
  scw_monte_carlo first = trials_of(&ratio, &a), again = trials_of(&ratio, &a);
  scw_monte_carlo other = trials_of(&ratio, &b);
  assert_true(first.mean.value == again.mean.value);
  assert_true(first.mean.value != other.mean.value);
}

static void adaptive_settles(void **state) {
  const scw_trials_options options = {.digits = 1, .seed = 1};
  scw_monte_carlo got = trials_of(&ratio, &options);
  (void)state;
  assert_true(got.adaptive && got.settled);
  assert_int_equal(got.trials % 10000, 0);
  assert_true(2 * got.mean_error.value <= got.tolerance &&
              2 * got.low_error.value <= got.tolerance &&
              2 * got.high_error.value <= got.tolerance);
  check_relative(got.tolerance, 0.005, 1e-15); /* u is 0.011, one digit */
}

static void few_readings(void **state) {
  static const struct {
    double df;
    scw_presence mean, sd;
  } cases[] = {{1, SCW_NO_MEAN, SCW_NO_SD},
               {2, SCW_PRESENT, SCW_NO_SD},
               {3, SCW_PRESENT, SCW_PRESENT}};
  (void)state;
  for (size_t i = 0; i < 3; i++) {
    const budget_case c = {.model = "x", .given = {T("x", 1, 1, cases[i].df)}};
    const scw_trials_options options = {.trials = 100000, .seed = 1};
    scw_monte_carlo got = trials_of(&c, &options);
    assert_int_equal(got.mean.state, cases[i].mean);
    assert_int_equal(got.sd.state, cases[i].sd);
    assert_int_equal(got.symmetric.state, SCW_PRESENT);
    if (cases[i].sd != SCW_PRESENT)
      assert_int_equal(got.agreement, SCW_AGREEMENT_NOT_APPLICABLE);
  }
}

static void no_value(void **state) {
  const budget_case c = {.model = "log(x)", .given = {NORMAL("x", 1, 0.5)}};
  const scw_trials_options options = {.seed = 1};
  scw_monte_carlo got = trials_of(&c, &options);
  (void)state;
  /* P(x < 0) is 0.02275 */
  check_relative((double)got.failed / (double)got.trials, 0.02275, 0.03);
  assert_int_equal(got.mean.state, SCW_NO_VALUE);
  assert_int_equal(got.symmetric.state, SCW_NO_VALUE);
}

/* A law that is exact: wherever the leading digit of u stands, trials come to
 * say so, and never stop at the first glance. */
static void exact_law_agrees(void **state) {
  static const double u[] = {1, 3, 9};
  (void)state;
  for (size_t i = 0; i < 3; i++)
    for (unsigned seed = 0; seed < 4; seed++) {
      const budget_case c = {.model = "x", .given = {NORMAL("x", 0, u[i])}};
      const scw_trials_options options = {.seed = seed};
      scw_monte_carlo got = trials_of(&c, &options);
      assert_int_equal(got.agreement, SCW_AGREES);
      assert_true(got.settled && got.trials >= 160000);
    }
}

static void gives_up(void **state) {
  const budget_case c = {.model = "x", .given = {NORMAL("x", 0, 9)}};
  const scw_trials_options options = {.digits = 3};
  scw_monte_carlo got = trials_of(&c, &options);
  (void)state;
  assert_false(got.settled);
  assert_int_equal(got.trials, SCW_TRIALS_ADAPTIVE);
  assert_int_equal(got.agreement, SCW_AGREEMENT_UNDECIDED);
}

static void few_trials(void **state) {
  const budget_case c = {.model = "x", .given = {NORMAL("x", 0, 1)}};
  const scw_trials_options options = {.trials = 1000};
  scw_monte_carlo got = trials_of(&c, &options);
  (void)state;
  assert_int_equal(got.low_error.state, SCW_TOO_FEW);
  assert_int_equal(got.agreement, SCW_AGREEMENT_UNDECIDED);
  assert_false(got.settled);
  check_within(got.symmetric.high, 1.959963984540054, /* exact: sqrt(pq/n)/f */
               sqrt(0.025 * 0.975 / 1000) / 0.05844507);
}

/* A t to divide by: neither mean nor SD, yet the ends settle, and are right.
 * The far side of 0 has 1e-9 of the probability. */
static void heavy_denominator(void **state) {
  const budget_case c = {.model = "1 / x", .given = {T("x", 100, 1, 5)}};
  const scw_trials_options options = {.seed = 1};
  scw_monte_carlo got = trials_of(&c, &options);
  (void)state;
  assert_int_equal(got.mean.state, SCW_NO_MEAN);
  assert_int_equal(got.sd.state, SCW_NO_SD);
  assert_int_equal(got.agreement, SCW_AGREEMENT_NOT_APPLICABLE);
  assert_int_equal(got.d_low.state, SCW_NOT_COMPUTED);
  assert_true(got.settled);
  check_within(got.symmetric.high, 1 / (100 - 2.570581835636314),
               present(got.high_error));
  check_within(got.symmetric.low, 1 / (100 + 2.570581835636314),
               present(got.low_error));
}

/* Powers of two change no digit, however far they go. */
static void any_size(void **state) {
  static const int exponents[] = {-900, -40, 40, 900};
  const scw_trials_options options = {.seed = 1};
  budget_case c = {.model = "x", .given = {NORMAL("x", 3, 2)}};
  scw_monte_carlo one = trials_of(&c, &options);
  (void)state;
  for (size_t i = 0; i < 4; i++) {
    double by = ldexp(1, exponents[i]);
    const scw_trials_options same = {.trials = one.trials, .seed = 1};
    c.given[0].value = 3 * by;
    c.given[0].uncertainty = 2 * by;
    scw_monte_carlo got = trials_of(&c, &same);
    assert_true(present(got.mean) == by * one.mean.value);
    assert_true(present(got.sd) == by * one.sd.value);
    assert_true(present(got.sd_error) == by * one.sd_error.value);
    assert_true(present(got.low_error) == by * one.low_error.value);
    assert_true(got.shortest.low == by * one.shortest.low);
  }
}

/* A value that is missing late in a run takes back what was said before. */
static void no_value_late(void **state) {
  size_t late = 0;
  (void)state;
  for (unsigned seed = 0; seed < 6; seed++) { /* P(x < 0) is 1.3e-6 */
    const budget_case c = {.model = "log(x)", .given = {NORMAL("x", 4.7, 1)}};
    const scw_trials_options options = {.seed = seed};
    scw_monte_carlo got = trials_of(&c, &options);
    if (!got.failed) continue;
    late += got.trials > 160000;
    assert_int_equal(got.symmetric.state, SCW_NO_VALUE);
    assert_int_equal(got.d_low.state, SCW_NO_VALUE);
    assert_int_equal(got.agreement, SCW_AGREEMENT_NOT_APPLICABLE);
    assert_false(got.settled);
  }
  assert_true(late > 0);
}

static void refused(void **state) {
  static const scw_trials_options bad[] = {
      {.trials = SCW_TRIALS_LEAST - 1}, {.trials = SCW_TRIALS_MOST + 1u},
      {.digits = 4}, {.digits = -1}};
  scw_budget_given given = NORMAL("x", 0, 1);
  scwi_expression e = parsed("x");
  scwi_known_input known;
  scw_monte_carlo out;
  (void)state;
  assert_int_equal(scwi_input_known(context, &given, &known), SCW_OK);
  for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
    assert_int_equal(scwi_monte_carlo(context, &e, &given, &known, NULL, 0.95,
                                      &bad[i], NULL, &out),
                     SCW_BAD_ARGUMENT);
  scwi_expression_free(&e);
}

static void tolerances(void **state) { /* JCGM 101 7.9.2, and a carry */
  (void)state;
  check_relative(scwi_tolerance_of(0.00035, 2), 0.000005, 1e-14);
  check_relative(scwi_tolerance_of(0.00035, 1), 0.00005, 1e-14);
  check_relative(scwi_tolerance_of(0.0754, 2), 0.0005, 1e-14);
  check_relative(scwi_tolerance_of(0.996, 2), 0.05, 1e-14);
  check_relative(scwi_tolerance_of(0.994, 2), 0.005, 1e-14);
  check_relative(scwi_tolerance_of(1370, 2), 50, 1e-14);
}

static void odd_levels(void **state) {
  static const double levels[] = {0.2, 0.5, 0.999};
  static const double high[] = {0.2533471031357997, 0.6744897501960817,
                                3.2905267314919255};
  (void)state;
  for (size_t i = 0; i < 3; i++) {
    const budget_case c = {.model = "x", .given = {NORMAL("x", 0, 1)},
                           .level = levels[i]};
    scw_monte_carlo got = million(&c);
    check_within(got.symmetric.high, high[i], present(got.high_error));
    assert_true(got.shortest.high - got.shortest.low <=
                got.symmetric.high - got.symmetric.low);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(four_normals), cmocka_unit_test(four_rectangulars),
      cmocka_unit_test(mass), cmocka_unit_test(comparison_loss),
      cmocka_unit_test(correlated), cmocka_unit_test(lone_beside_correlated),
      cmocka_unit_test(correlated_readings), cmocka_unit_test(every_kind),
      cmocka_unit_test(rounding),
      cmocka_unit_test(kinds_together), cmocka_unit_test(uncertain_width),
      cmocka_unit_test(skewed), cmocka_unit_test(beside_references),
      cmocka_unit_test(threads_change_nothing), cmocka_unit_test(seeds_differ),
      cmocka_unit_test(adaptive_settles), cmocka_unit_test(few_readings),
      cmocka_unit_test(no_value), cmocka_unit_test(no_value_late),
      cmocka_unit_test(exact_law_agrees), cmocka_unit_test(gives_up),
      cmocka_unit_test(few_trials), cmocka_unit_test(heavy_denominator),
      cmocka_unit_test(any_size), cmocka_unit_test(refused), cmocka_unit_test(tolerances),
      cmocka_unit_test(odd_levels)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
