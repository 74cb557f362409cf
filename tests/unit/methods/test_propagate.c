/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Budgets: the examples of JCGM 100 to the digits printed, what cancels, and
 * identities. SciPy judges random budgets elsewhere. */
#include "budget_case.h"

#include <math.h>
#include <string.h>

#include "distributions.h"
#include "moments.h"

#define LINE(budget, i) ((budget).lines[i])

static void product_of_three(void **state) { /* G.4.1 */
  const budget_case c = {
      .model = "2 * a * b * c",
      .given = {{"a", SCW_KIND_T, true, 3, .uncertainty = 0.0025, .df = 9},
                {"b", SCW_KIND_T, true, 0.7, .uncertainty = 0.0057, .df = 4},
                {"c", SCW_KIND_T, true, 11, .uncertainty = 0.0082, .df = 14}}};
  scw_budget b = budget_of(&c, NULL, 0);
  (void)state;
  check_published("G.4.1", "uc_percent",
                  100 * b.standard_uncertainty.value / b.estimate);
  check_published("G.4.1", "df", b.df.value);
  check_published("G.4.1", "k", b.k.value);
  check_published("G.4.1", "U_percent", 100 * b.expanded.value / b.estimate);
  assert_int_equal(b.df_from, SCW_DF_INDEPENDENT);
  assert_int_equal(b.most_help, 2);
  scwi_budget_free(&b);
}

/* H.1 in nanometres: the comparator's three parts and the two of the
 * temperature are inputs of their own. */
static const budget_case end_gauge = {
    .model = "ls + d - ls * (dalpha * theta + alphas * dtheta)",
    .given = {{"ls", SCW_KIND_T, false, 50000623, .uncertainty = 25, .df = 18},
              {"d0", SCW_KIND_T, false, 215, .uncertainty = 5.8, .df = 24},
              {"d1", SCW_KIND_T, false, 0, .uncertainty = 3.9, .df = 5},
              {"d2", SCW_KIND_T, false, 0, .uncertainty = 6.7, .df = 8},
              {"alphas", SCW_KIND_RECTANGULAR, false, 11.5e-6,
               .half_width = 2e-6},
              {"theta", SCW_KIND_NORMAL, false, -0.1,
               .uncertainty = 0.40620192023179804}, /* 0.2 and arcsine 0.5 */
              {"dalpha", SCW_KIND_RECTANGULAR, false, 0, .half_width = 1e-6,
               .unreliability = 0.1},
              {"dtheta", SCW_KIND_RECTANGULAR, false, 0, .half_width = 0.05,
               .unreliability = 0.5}},
    .level = 0.99};

static void end_gauge_of_50_mm(void **state) {
  scwi_expression d = parsed("d0 + d1 + d2");
  const scwi_definition comparator = {"d", &d};
  scw_budget b = budget_of(&end_gauge, &comparator, 1);
  double u = b.standard_uncertainty.value, t16;
  (void)state;
  check_published("H.1", "l_mm", b.estimate / 1e6);
  check_published(
      "H.1", "u_d",
      sqrt(pow(LINE(b, 1).contribution, 2) + pow(LINE(b, 2).contribution, 2) +
           pow(LINE(b, 3).contribution, 2)));
  check_published("H.1", "c_dalpha", LINE(b, 6).contribution);
  check_published("H.1", "c_dtheta", LINE(b, 7).contribution);
  check_published("H.1", "uc", u);
  check_published("H.1", "df", b.df.value);
  /* The guide cuts df to 16 and rounds u to 32: its k and U. Ours keeps the
   * df whole. */
  scwi_t_quantile(context, 0.995, floor(b.df.value), &t16);
  check_published("H.1", "t99_16", t16);
  check_published("H.1", "U99", round(u) * t16);
  assert_true(b.k.value < t16 && b.k.value > 2.898); /* t99(17) */
  check_published("H.1", "uc_with_second_order",
                  b.second_order.standard_uncertainty.value);
  assert_true(b.second_order.matters);
  assert_true(LINE(b, 4).contribution == 0); /* alphas: dtheta is 0 */
  scwi_budget_free(&b);
  scwi_expression_free(&d);
}

/* The two second-order terms of H.1.7, one at a time. */
static void end_gauge_second_order(void **state) {
  budget_case one = {.model = "50000623 * dalpha * theta",
                     .given = {end_gauge.given[6], end_gauge.given[5]}};
  budget_case two = {.model = "50000623 * alphas * dtheta",
                     .given = {end_gauge.given[4], end_gauge.given[7]}};
  scw_budget b = budget_of(&one, NULL, 0);
  (void)state;
  check_published("H.1", "second_order_dalpha_theta",
                  sqrt(b.second_order.variance));
  scwi_budget_free(&b);
  b = budget_of(&two, NULL, 0);
  check_published("H.1", "second_order_alphas_dtheta",
                  sqrt(b.second_order.variance));
  scwi_budget_free(&b);
}

enum { SETS = 5 };

static double correlation(const double *x, const double *y, size_t n) {
  scwi_moments a = scwi_moments_of(&(scwi_sample){.n = n, .x = x});
  scwi_moments b = scwi_moments_of(&(scwi_sample){.n = n, .x = y});
  double sum = 0;
  for (size_t i = 0; i < n; i++)
    sum += (x[i] - a.mean) * (y[i] - b.mean);
  return sum / ((double)n - 1) / a.sd / b.sd;
}

static scw_budget_given from_readings(const char *name, const double *x) {
  scwi_moments m = scwi_moments_of(&(scwi_sample){.n = SETS, .x = x});
  return (scw_budget_given){.name = name,
                            .kind = SCW_KIND_READINGS,
                            .value = m.mean,
                            .n = SETS,
                            .sd = m.sd};
}

/* The inputs of H.2, in volt, milliampere and radian. */
static void simultaneous_readings(scw_budget_given given[3], double r[9]) {
  static const char *const names[] = {"V", "I", "phi"};
  check_table t = check_table_read(REFERENCE_DATA "/budgets/gum_h2.csv");
  double x[3][SETS];
  for (size_t k = 0; k < 3; k++) {
    for (size_t i = 0; i < SETS; i++)
      x[k][i] = check_table_number(&t, i, names[k]);
    given[k] = from_readings(names[k], x[k]);
  }
  for (size_t i = 0; i < 3; i++)
    for (size_t j = 0; j < 3; j++)
      r[3 * i + j] = i == j ? 1 : correlation(x[i], x[j], SETS);
  for (size_t i = 0; i < 3; i++)
    for (size_t j = 0; j < i; j++)
      r[3 * i + j] = r[3 * j + i];
  check_table_free(&t);
}

static void resistance_inputs(void **state) {
  scw_budget_given given[3];
  scwi_known_input known[3];
  double r[9];
  static const char *const means[] = {"V", "I", "phi"};
  static const char *const us[] = {"u_V", "u_I", "u_phi"};
  (void)state;
  simultaneous_readings(given, r);
  for (size_t k = 0; k < 3; k++) {
    assert_int_equal(scwi_input_known(context, &given[k], &known[k]), SCW_OK);
    check_published("H.2", means[k], known[k].estimate);
    check_published("H.2", us[k], known[k].u);
  }
  check_published("H.2", "r_VI", r[1]);
  check_published("H.2", "r_Vphi", r[2]);
  check_published("H.2", "r_Iphi", r[5]);
}

static void resistance_reactance_impedance(void **state) {
  static const struct {
    const char *model, *value, *u;
  } cases[] = {{"1000 * V / I * cos(phi)", "R", "u_R"},
               {"1000 * V / I * sin(phi)", "X", "u_X"},
               {"1000 * V / I + 0 * phi", "Z", "u_Z"}};
  double slopes[3][3], r[9], us[3] = {0}, u[3];
  (void)state;
  for (size_t k = 0; k < 3; k++) {
    budget_case c = {.model = cases[k].model, .correlation = r};
    simultaneous_readings(c.given, r);
    scw_budget b = budget_of(&c, NULL, 0);
    check_published("H.2", cases[k].value, b.estimate);
    check_published("H.2", cases[k].u, b.standard_uncertainty.value);
    check_relative(b.df.value, 4, 1e-12);      /* five sets, taken together */
    assert_int_equal(LINE(b, 2).group, k < 2); /* Z does not need the phase */
    assert_int_equal(b.df_from, SCW_DF_GROUPS);
    for (size_t i = 0; i < 3; i++) {
      slopes[k][i] = LINE(b, i).sensitivity;
      us[i] = LINE(b, i).standard_uncertainty;
    }
    u[k] = b.standard_uncertainty.value;
    check_relative(sqrt(scwi_result_covariance(slopes[k], slopes[k], us, r, 3)),
                   u[k], 1e-13);
    scwi_budget_free(&b);
  }
#define R_OF(a, b)                                                             \
  (scwi_result_covariance(slopes[a], slopes[b], us, r, 3) / u[a] / u[b])
  check_published("H.2", "r_RX", R_OF(0, 1));
  check_published("H.2", "r_RZ", R_OF(0, 2));
  check_published("H.2", "r_XZ", R_OF(1, 2));
#undef R_OF
}

typedef struct line_fit {
  double y1, y2, u1, u2, r, s;
} line_fit;

/* Least squares of the corrections on t - 20. */
static line_fit fit_of_thermometer(void) {
  check_table t = check_table_read(REFERENCE_DATA "/budgets/gum_h3.csv");
  double n = (double)t.rows, sx = 0, sxx = 0, sy = 0, sxy = 0, ss = 0;
  for (size_t i = 0; i < t.rows; i++) {
    double x = check_table_number(&t, i, "t") - 20;
    double y = check_table_number(&t, i, "b");
    sx += x, sxx += x * x, sy += y, sxy += x * y;
  }
  double d = n * sxx - sx * sx;
  line_fit f = {.y1 = (sy * sxx - sxy * sx) / d, .y2 = (n * sxy - sx * sy) / d};
  for (size_t i = 0; i < t.rows; i++)
    ss += pow(check_table_number(&t, i, "b") - f.y1 -
                  f.y2 * (check_table_number(&t, i, "t") - 20),
              2);
  f.s = sqrt(ss / (n - 2));
  f.u1 = f.s * sqrt(sxx / d);
  f.u2 = f.s * sqrt(n / d);
  f.r = -sx / sqrt(n * sxx);
  check_table_free(&t);
  return f;
}

static void thermometer_line(void **state) { /* H.3 */
  line_fit f = fit_of_thermometer();
  const double r[] = {1, f.r, f.r, 1};
  const budget_case c = {
      .model = "y1 + y2 * (30 - 20)",
      .given = {{"y1", SCW_KIND_T, false, f.y1, .uncertainty = f.u1, .df = 9},
                {"y2", SCW_KIND_T, false, f.y2, .uncertainty = f.u2, .df = 9}},
      .correlation = r};
  scw_budget b = budget_of(&c, NULL, 0);
  (void)state;
  check_published("H.3", "y1", f.y1);
  check_published("H.3", "u_y1", f.u1);
  check_published("H.3", "y2", f.y2);
  check_published("H.3", "u_y2", f.u2);
  check_published("H.3", "r", f.r);
  check_published("H.3", "s", f.s);
  check_published("H.3", "b_30", b.estimate);
  check_published("H.3", "u_b_30", b.standard_uncertainty.value);
  check_relative(b.df.value, 9, 1e-12);
  scwi_budget_free(&b);
}

static void ten_days_of_five_readings(void **state) { /* H.5 */
  check_table t = check_table_read(REFERENCE_DATA "/budgets/gum_h5.csv");
  double x[16], within = 0, days = (double)t.rows;
  (void)state;
  for (size_t i = 0; i < t.rows; i++) {
    x[i] = check_table_number(&t, i, "mean");
    within += pow(check_table_number(&t, i, "sd"), 2) / days;
  }
  scwi_moments m = scwi_moments_of(&(scwi_sample){.n = t.rows, .x = x});
  double sd = m.sd * 1e6, pooled = sqrt((45 * sd * sd + 40 * within) / 49);
  const budget_case c = {.model = "mean",
                         .given = {{"mean", SCW_KIND_READINGS, .value = m.mean,
                                    .n = t.rows, .sd = m.sd}}};
  const budget_case flat = {
      .model = "mean",
      .given = {
          {"mean", SCW_KIND_READINGS, .value = m.mean, .n = 50, .sd = pooled}}};
  scw_budget b = budget_of(&c, NULL, 0), all = budget_of(&flat, NULL, 0);
  check_published("H.5", "grand_mean", b.estimate);
  check_published("H.5", "sd_of_day_means_uV", sd);
  check_published("H.5", "s_a_uV", sd * sqrt(5));
  check_published("H.5", "s_b_uV", sqrt(within));
  check_published("H.5", "u_between_uV", b.standard_uncertainty.value * 1e6);
  check_published("H.5", "u_pooled_uV", all.standard_uncertainty.value);
  check_relative(b.df.value, 9, 1e-15);
  check_relative(all.df.value, 49, 1e-15);
  scwi_budget_free(&b);
  scwi_budget_free(&all);
  check_table_free(&t);
}

/* A shared offset cancels in a difference and not in a ratio; a shared gain in
 * a ratio, and in a difference acts on the difference only. */
static void what_is_shared_cancels(void **state) {
  static const scw_budget_given a = {"a", SCW_KIND_NORMAL, false, 90,
                                     .uncertainty = 0.1};
  static const scw_budget_given b = {"b", SCW_KIND_NORMAL, false, 84,
                                     .uncertainty = 0.1};
  static const scw_budget_given zero = {"zero", SCW_KIND_NORMAL, false, 0,
                                        .uncertainty = 1};
  static const scw_budget_given gain = {"gain", SCW_KIND_NORMAL, false, 1,
                                        .uncertainty = 0.01};
  static const struct {
    const char *model;
    double by_third; /* contribution of what is shared */
  } cases[] = {{"(a + zero) - (b + zero)", 0},
               {"(a + zero) / (b + zero)", 6.0 / 84 / 84},
               {"gain * a - gain * b", 0.06},
               {"(gain * a) / (gain * b)", 0}};
  (void)state;
  for (size_t i = 0; i < 4; i++) {
    budget_case c = {.model = cases[i].model,
                     .given = {a, b, i < 2 ? zero : gain}};
    scw_budget out = budget_of(&c, NULL, 0);
    check_absolute(LINE(out, 2).contribution, cases[i].by_third, 1e-16);
    scwi_budget_free(&out);
  }
}

static void shares_and_the_best_to_hope_for(void **state) {
  const double r[] = {1, 0.5, 0, 0.5, 1, 0, 0, 0, 1};
  const budget_case c = {
      .model = "a - 2 * b + c",
      .given = {{"a", SCW_KIND_NORMAL, false, 1, .uncertainty = 3},
                {"b", SCW_KIND_NORMAL, false, 1, .uncertainty = 1},
                {"c", SCW_KIND_NORMAL, false, 1, .uncertainty = 2}},
      .correlation = r};
  scw_budget b = budget_of(&c, NULL, 0);
  (void)state; /* variance 9 + 4 + 4 - 2 * 0.5 * 3 * 2 = 11 */
  check_relative(b.standard_uncertainty.value, sqrt(11), 1e-15);
  check_relative(LINE(b, 0).share.value, 6.0 / 11, 1e-15);
  check_relative(LINE(b, 1).share.value, 1.0 / 11, 1e-14);
  check_relative(LINE(b, 2).share.value, 4.0 / 11, 1e-15);
  check_relative(LINE(b, 0).if_perfect.value, sqrt(8), 1e-15);
  check_relative(LINE(b, 1).if_perfect.value, sqrt(13), 1e-15); /* worse */
  check_relative(LINE(b, 2).if_perfect.value, sqrt(7), 1e-15);
  assert_int_equal(b.most_help, 2);
  assert_int_equal(LINE(b, 0).group, 1);
  assert_int_equal(LINE(b, 1).group, 1);
  assert_int_equal(LINE(b, 2).group, 0);
  assert_int_equal(b.df.state, SCW_UNBOUNDED);
  check_relative(b.k.value, 1.959963984540054, 1e-14);
  scwi_budget_free(&b);
}

/* Correlated inputs of different df count as one term with the smallest. */
static void groups_of_unequal_df(void **state) {
  const double r[] = {1, 0.3, 0, 0.3, 1, 0, 0, 0, 1};
  const budget_case c = {
      .model = "a + b + c",
      .given = {{"a", SCW_KIND_T, false, 1, .uncertainty = 2, .df = 12},
                {"b", SCW_KIND_T, false, 1, .uncertainty = 1, .df = 5},
                {"c", SCW_KIND_T, false, 1, .uncertainty = 1, .df = 3}},
      .correlation = r};
  scw_budget b = budget_of(&c, NULL, 0);
  const double group = 4 + 1 + 2 * 0.3 * 2, all = group + 1;
  (void)state;
  assert_int_equal(b.df_from, SCW_DF_CAUTIOUS);
  check_relative(b.df.value, all * all / (group * group / 5 + 1.0 / 3), 1e-14);
  scwi_budget_free(&b);
}

/* Nothing uncertain, or all of it cancels: no uncertainty, and it says so. */
static void where_there_is_no_uncertainty(void **state) {
  const double one[] = {1, 1, 1, 1};
  static const scw_budget_given a = {"a", SCW_KIND_NORMAL, false, 0.3,
                                     .uncertainty = 0.1};
  static const scw_budget_given b = {"b", SCW_KIND_NORMAL, false, 0.1,
                                     .uncertainty = 0.3};
  const budget_case cases[] = {
      {.model = "2 * a", .given = {{"a", SCW_KIND_EXACT, .value = 3}}},
      {.model = "3 * a - b", .given = {a, b}, .correlation = one},
      {.model = "a - a", .given = {a}}};
  (void)state;
  for (size_t i = 0; i < 3; i++) {
    scw_budget out = budget_of(&cases[i], NULL, 0);
    assert_int_equal(out.standard_uncertainty.state, SCW_NO_SCATTER);
    assert_int_equal(out.expanded.state, SCW_NO_SCATTER);
    assert_int_equal(out.interval.state, SCW_NO_SCATTER);
    assert_int_equal(LINE(out, 0).share.state, SCW_NO_SCATTER);
    assert_int_equal(out.second_order.standard_uncertainty.state,
                     SCW_NO_SCATTER);
    assert_int_equal(out.most_help, out.n_lines);
    scwi_budget_free(&out);
  }
}

/* What is left of contributions that cancel is rounding, not uncertainty. */
static void what_rounding_leaves(void **state) {
  const double one[] = {1, 1, 1, 1, 1, 1, 1, 1, 1};
  (void)state;
  for (int i = 1; i < 60; i++) {
    double u = 0.013 * i, v = 0.37 / i;
    const budget_case c = {
        .model = "a + b - c",
        .given = {{"a", SCW_KIND_NORMAL, false, 1, .uncertainty = u},
                  {"b", SCW_KIND_NORMAL, false, 1, .uncertainty = v},
                  {"c", SCW_KIND_NORMAL, false, 1, .uncertainty = u + v}},
        .correlation = one};
    scw_budget out = budget_of(&c, NULL, 0);
    assert_int_equal(out.standard_uncertainty.state, SCW_NO_SCATTER);
    scwi_budget_free(&out);
  }
}

/* Products and squares of normal inputs, whose variances are known exactly. */
static void second_order_by_closed_form(void **state) {
  const double r[] = {1, 0.6, 0.6, 1};
  static const scw_budget_given a = {"a", SCW_KIND_NORMAL, false, 2,
                                     .uncertainty = 0.5};
  static const scw_budget_given b = {"b", SCW_KIND_NORMAL, false, 3,
                                     .uncertainty = 0.4};
  static const scw_budget_given z = {"a", SCW_KIND_NORMAL, false, 0,
                                     .uncertainty = 0.5};
  budget_case product = {.model = "a * b", .given = {a, b}, .correlation = r};
  const budget_case square = {.model = "a ^ 2", .given = {z}};
  scw_budget out = budget_of(&product, NULL, 0);
  (void)state; /* var(ab) = first + u_a^2 u_b^2 (1 + r^2); mean shift r u u */
  check_relative(out.second_order.variance, 0.25 * 0.16 * 1.36, 1e-14);
  check_relative(out.second_order.shift, 0.6 * 0.5 * 0.4, 1e-14);
  assert_false(out.second_order.matters); /* 0.0544 of 4.33 */
  scwi_budget_free(&out);
  product.correlation = NULL;
  out = budget_of(&product, NULL, 0);
  check_relative(out.second_order.variance, 0.25 * 0.16, 1e-14);
  assert_true(out.second_order.shift == 0);
  scwi_budget_free(&out);
  out = budget_of(&square, NULL, 0); /* at 0: 2 u^4, no first order at all */
  assert_int_equal(out.standard_uncertainty.state, SCW_NO_SCATTER);
  check_relative(out.second_order.variance, 2 * 0.0625, 1e-15);
  check_relative(out.second_order.standard_uncertainty.value, sqrt(0.125),
                 1e-15);
  check_relative(out.second_order.shift, 0.25, 1e-15);
  assert_int_equal(out.second_order.part.state, SCW_UNBOUNDED);
  assert_true(out.second_order.matters);
  scwi_budget_free(&out);
}

/* exp of a normal input: first u^2 e^2m, second (1/2 + 1) u^4 e^2m, by the
 * lognormal variance e^2m (e^2v - e^v) = e^2m (v + 3/2 v^2 + ...). */
static void second_order_with_a_third_slope(void **state) {
  const budget_case c = {
      .model = "exp(a)",
      .given = {{"a", SCW_KIND_NORMAL, false, 0.7, .uncertainty = 0.3}}};
  scw_budget out = budget_of(&c, NULL, 0);
  (void)state;
  check_relative(out.second_order.variance, 1.5 * 0.0081 * exp(1.4), 1e-14);
  check_relative(out.second_order.part.value, 1.5 * 0.09, 1e-14);
  check_relative(out.second_order.shift, 0.045 * exp(0.7), 1e-14);
  scwi_budget_free(&out);
}

/* No curvature at the estimate: the first order stands, the second is missing.
 */
static void a_slope_without_curvature(void **state) {
  const budget_case c = {.model = "a ^ 1.5 + b",
                         .given = {{"a", SCW_KIND_NORMAL, .uncertainty = 0.3},
                                   {"b", SCW_KIND_NORMAL, .uncertainty = 0.3}}};
  scw_budget out = budget_of(&c, NULL, 0);
  (void)state;
  check_relative(out.standard_uncertainty.value, 0.3, 1e-15);
  assert_int_equal(out.second_order.part.state, SCW_NOT_COMPUTED);
  assert_false(out.second_order.matters);
  scwi_budget_free(&out);
}

/* Another unit changes figures by the unit alone, 1e-150 to 1e150. */
static void any_unit_does(void **state) {
  (void)state;
  for (int power = -150; power <= 150; power += 50) {
    double unit = pow(10, power);
    const budget_case c = {.model = "a + b",
                           .given = {{"a", SCW_KIND_T, false, 3 * unit,
                                      .uncertainty = 0.3 * unit, .df = 4},
                                     {"b", SCW_KIND_T, false, 2 * unit,
                                      .uncertainty = 0.4 * unit, .df = 7}}};
    scw_budget b = budget_of(&c, NULL, 0);
    check_relative(b.standard_uncertainty.value, 0.5 * unit, 1e-15);
    check_relative(b.df.value, 0.0625 / (0.0081 / 4 + 0.0256 / 7), 1e-14);
    check_relative(LINE(b, 0).share.value, 0.36, 1e-14);
    scwi_budget_free(&b);
  }
}

static void refuse_matrix(const double *r, size_t n, const char *words) {
  static const char *const names[] = {"pull", "block", "line", "level"};
  assert_int_equal(scwi_correlation_check(context, names, r, n), SCW_BAD_INPUT);
  if (!strstr(scw_context_message(context), words))
    fail_msg("`%s` is not in: %s", words, scw_context_message(context));
}

static void impossible_correlations(void **state) {
  /* 1 - 0.9 - ... : eigenvalues of r = -0.9 three times are 1.9, 1.9, -0.8 */
  const double three[] = {1, -0.9, -0.9, -0.9, 1, -0.9, -0.9, -0.9, 1};
  const double edge[] = {1, -0.5, -0.5, -0.5, 1, -0.5, -0.5, -0.5, 1};
  const double beyond[] = {1,          -0.5000001, -0.5000001, -0.5000001, 1,
                           -0.5000001, -0.5000001, -0.5000001, 1};
  static const char *const names[] = {"pull", "block", "line"};
  (void)state;
  refuse_matrix(three, 3, "smallest eigenvalue is -0.800");
  refuse_matrix(beyond, 3, "not positive semi-definite");
  assert_int_equal(scwi_correlation_check(context, names, edge, 3), SCW_OK);
  refuse_matrix((double[]){1, 1.2, 1.2, 1}, 2,
                "of `pull` and `block` is 1.2; it must lie from -1 to 1");
  refuse_matrix((double[]){1, NAN, NAN, 1}, 2, "it must lie from -1 to 1");
  refuse_matrix((double[]){1, 0.2, 0.3, 1}, 2, "given twice");
  refuse_matrix((double[]){1, 0, 0, 0.5}, 2, "`block` with itself must be 1");
  const double four[] = {1, 0,   0, 0,    0, 1,   0.9,  0.9,
                         0, 0.9, 1, -0.9, 0, 0.9, -0.9, 1};
  refuse_matrix(four, 4, "smallest eigenvalue is -0.800");
  /* `pull` has no part in it */
  assert_null(strstr(scw_context_message(context), "`pull`"));
}

/* A model of numbers alone has a value and no uncertainty. */
static void no_inputs_at_all(void **state) {
  const double none[] = {0};
  scwi_expression e = parsed("2 * pi");
  scw_budget out;
  (void)state;
  for (int i = 0; i < 2; i++) {
    assert_int_equal(scwi_propagate(context, &e, NULL, NULL, i ? none : NULL,
                                    0.95, &out),
                     SCW_OK);
    check_relative(out.estimate, 6.283185307179586, 1e-15);
    assert_int_equal(out.n_lines, 0);
    assert_int_equal(out.standard_uncertainty.state, SCW_NO_SCATTER);
    scwi_budget_free(&out);
  }
  scwi_expression_free(&e);
}

static void refusals(void **state) {
  scwi_expression e = parsed("log(a)");
  scw_budget_given given = {"a", SCW_KIND_NORMAL, false, -1, .uncertainty = 1};
  scwi_known_input known;
  scw_budget out;
  (void)state;
  scwi_input_known(context, &given, &known);
  assert_int_equal(
      scwi_propagate(context, &e, &given, &known, NULL, 0.95, &out),
      SCW_NO_FIGURE);
  assert_null(out.lines);
  known.estimate = 1;
  for (int i = 0; i < 4; i++) {
    static const double levels[] = {0, 1, -2, NAN};
    assert_int_equal(
        scwi_propagate(context, &e, &given, &known, NULL, levels[i], &out),
        SCW_BAD_ARGUMENT);
    assert_null(out.lines);
  }
  scwi_expression_free(&e);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(product_of_three),
      cmocka_unit_test(end_gauge_of_50_mm),
      cmocka_unit_test(end_gauge_second_order),
      cmocka_unit_test(resistance_inputs),
      cmocka_unit_test(resistance_reactance_impedance),
      cmocka_unit_test(thermometer_line),
      cmocka_unit_test(ten_days_of_five_readings),
      cmocka_unit_test(what_is_shared_cancels),
      cmocka_unit_test(shares_and_the_best_to_hope_for),
      cmocka_unit_test(groups_of_unequal_df),
      cmocka_unit_test(where_there_is_no_uncertainty),
      cmocka_unit_test(what_rounding_leaves),
      cmocka_unit_test(second_order_by_closed_form),
      cmocka_unit_test(second_order_with_a_third_slope),
      cmocka_unit_test(a_slope_without_curvature),
      cmocka_unit_test(any_unit_does),
      cmocka_unit_test(impossible_correlations),
      cmocka_unit_test(no_inputs_at_all),
      cmocka_unit_test(refusals)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
