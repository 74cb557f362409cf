/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Prints what docs/methods/numeric.md states: the largest error of every
 * function against its judge values, and the time of a call. No test. */
#include "check.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "distributions.h"
#include "kendall_exact.h"
#include "noncentral_t.h"
#include "outlier_limits.h"
#include "shapiro_wilk.h"
#include "t_power.h"
#include "tolerance_factor.h"

#define DATA REFERENCE_DATA "/distributions/"

static scw_context *context;

typedef struct worst {
  const char *name;
  size_t cases;
  double relative, absolute;
} worst;

static void note(worst *w, double got, double wanted) {
  w->cases++;
  w->relative = fmax(w->relative, fabs(got - wanted) / fabs(wanted));
  w->absolute = fmax(w->absolute, fabs(got - wanted));
}

static void report(const worst *w) {
  printf("%-24s %4zu cases, relative %.1e, absolute %.1e\n", w->name, w->cases,
         w->relative, w->absolute);
}

typedef double (*function)(double x, double a, double b);

static double t_upper(double x, double a, double b) {
  (void)b;
  return scwi_t_upper(x, a);
}
static double chi2_cdf(double x, double a, double b) {
  (void)b;
  return scwi_chi2_cdf(x, a);
}
static double chi2_upper(double x, double a, double b) {
  (void)b;
  return scwi_chi2_upper(x, a);
}
static double power_of(double ncp, double df, double alpha) {
  double power = NAN;
  scwi_t_power(context, ncp, df, alpha, &power);
  return power;
}
static double factor(double n, double content, double level) {
  double k = NAN;
  scwi_tolerance_factor(context, (size_t)n, content, level, &k);
  return k;
}
static double limit(double n, double i, double alpha) {
  double value = NAN;
  scwi_esd_limit(context, (size_t)n, (size_t)i, alpha, &value);
  return value;
}
static double kendall(double n, double s, double unused) {
  double p = NAN;
  (void)unused;
  scwi_kendall_exact_p(context, (size_t)n, (long)s, &p);
  return p;
}

static double cell(const check_table *rows, size_t row, const char *column) {
  return column ? check_table_number(rows, row, column) : 0;
}

static void measure(const char *name, const char *file, function f,
                    const char *x, const char *a, const char *b,
                    const char *wanted) {
  char path[1000];
  snprintf(path, sizeof path, DATA "%s.csv", file);
  check_table rows = check_table_read(path);
  worst w = {.name = name};
  for (size_t i = 0; i < rows.rows; i++)
    note(&w, f(cell(&rows, i, x), cell(&rows, i, a), cell(&rows, i, b)),
         cell(&rows, i, wanted));
  report(&w);
  check_table_free(&rows);
}

static double quantile(const char *name, double p, double a, double b) {
  double x = NAN;
  if (!strcmp(name, "normal")) scwi_normal_quantile(context, p, &x);
  if (!strcmp(name, "t")) scwi_t_quantile(context, p, a, &x);
  if (!strcmp(name, "chi_square")) scwi_chi2_quantile(context, p, a, &x);
  if (!strcmp(name, "f")) scwi_f_quantile(context, p, a, b, &x);
  if (!strcmp(name, "beta")) scwi_beta_quantile(context, p, a, b, &x);
  return x;
}

static void measure_quantiles(const char *name) {
  check_table rows = check_table_read(DATA "quantiles.csv");
  char title[50];
  snprintf(title, sizeof title, "%s quantile", name);
  worst w = {.name = title};
  for (size_t i = 0; i < rows.rows; i++)
    if (!strcmp(check_table_text(&rows, i, "distribution"), name))
      note(&w, quantile(name, cell(&rows, i, "p"), cell(&rows, i, "first"),
                        cell(&rows, i, "second")),
           cell(&rows, i, "quantile"));
  report(&w);
  check_table_free(&rows);
}

static void accuracy(void) {
  static const char *const names[] = {"normal", "t", "chi_square", "f", "beta"};
  measure("t upper", "t", t_upper, "t", "df", NULL, "upper");
  measure("chi-square lower", "chi_square", chi2_cdf, "x", "df", NULL, "lower");
  measure("chi-square upper", "chi_square", chi2_upper, "x", "df", NULL,
          "upper");
  measure("F lower", "f", scwi_f_cdf, "x", "df1", "df2", "lower");
  measure("F upper", "f", scwi_f_upper, "x", "df1", "df2", "upper");
  measure("beta lower", "beta", scwi_beta_cdf, "x", "a", "b", "lower");
  measure("beta upper", "beta", scwi_beta_upper, "x", "a", "b", "upper");
  for (size_t i = 0; i < 5; i++) measure_quantiles(names[i]);
  measure("noncentral t lower", "noncentral_t", scwi_noncentral_t_cdf, "t",
          "df", "ncp", "lower");
  measure("noncentral t upper", "noncentral_t", scwi_noncentral_t_upper, "t",
          "df", "ncp", "upper");
  measure("power", "power", power_of, "ncp", "df", "alpha", "power");
  measure("tolerance factor", "tolerance", factor, "n", "content", "level",
          "k");
  measure("ESD and Grubbs limits", "limits", limit, "n", "i", "alpha", "limit");
  measure("Kendall exact p", "kendall", kendall, "n", "s", NULL, "p");
}

static double now(void) {
  struct timespec t;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return (double)t.tv_sec * 1e6 + (double)t.tv_nsec * 1e-3;
}

static volatile double sink;

/* Arguments vary a little from call to call. */
#define TIME(label, calls, expression)                                         \
  do {                                                                         \
    double start = now();                                                      \
    for (unsigned call = 0; call < (calls); call++) {                          \
      double j = 1 + 1e-3 * (call % 7);                                        \
      (void)j;                                                                 \
      sink = (expression);                                                     \
    }                                                                          \
    printf("%-44s %9.2f us\n", (label), (now() - start) / (calls));            \
  } while (0)

static double planned_n(double effect) {
  size_t n = 0;
  scwi_t_power_n(context, SCWI_TWO_SAMPLE, effect, 0.05, 0.8, 1000000, &n);
  return (double)n;
}

static void noncentral_speed(double df, double ncp) {
  char title[90];
  snprintf(title, sizeof title, "noncentral t upper, df %g, ncp %g", df, ncp);
  TIME(title, 20000, scwi_noncentral_t_upper(1.2 * ncp * j, df, ncp));
  snprintf(title, sizeof title, "noncentral t far side, df %g, ncp %g", df,
           ncp);
  TIME(title, 5000, scwi_noncentral_t_cdf(-0.5 * ncp * j, df, ncp));
  snprintf(title, sizeof title, "power, df %g, ncp %g", df, ncp);
  TIME(title, 20000, power_of(ncp * j, df, 0.05));
}

static double shapiro(const double *x, size_t n) {
  double w = NAN, p;
  scwi_shapiro_wilk(context, x, n, &w, &p);
  return w;
}

static void speed(void) {
  static const double df[] = {1, 4, 9, 18, 50, 1000, 1e6};
  static const double sizes[] = {2, 10, 100, 1e4, 1e5};
  static double x[5000];
  for (size_t i = 0; i < 5000; i++) x[i] = (double)i * (1 + 1e-3 * (double)i);
  TIME("t tail, df 9", 100000, scwi_t_upper(2 * j, 9));
  TIME("t tail, df 50", 100000, scwi_t_upper(2 * j, 50));
  TIME("t quantile, df 9", 20000, quantile("t", 0.025 * j, 9, 0));
  TIME("t quantile, df 50", 20000, quantile("t", 0.025 * j, 50, 0));
  TIME("chi-square quantile, df 9", 20000,
       quantile("chi_square", 0.025 * j, 9, 0));
  TIME("F quantile, df 3 and 7", 20000, quantile("f", 0.025 * j, 3, 7));
  for (size_t i = 0; i < sizeof df / sizeof *df; i++)
    for (double ncp = 1; ncp < 50; ncp *= 3.4) noncentral_speed(df[i], ncp);
  TIME("n for a power, 1000 effects, each", 1000, planned_n(0.2 + call * 0.002));
  for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
    char title[60];
    snprintf(title, sizeof title, "tolerance factor, n %g", sizes[i]);
    TIME(title, 300, factor(sizes[i], 0.95 / j, 0.95));
  }
  TIME("Kendall exact p, n 10", 2000, kendall(10, 5, 0));
  TIME("Kendall exact p, n 50", 50, kendall(50, 1, 0));
  TIME("Shapiro-Wilk, n 10", 5000, shapiro(x, 10));
  TIME("Shapiro-Wilk, n 5000", 50, shapiro(x, 5000));
}

int main(void) {
  if (scw_context_new(&context)) return 1;
  accuracy();
  speed();
  scw_context_free(context);
  return 0;
}
