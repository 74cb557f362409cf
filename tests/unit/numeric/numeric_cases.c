/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes generated cases with the library's answers, one a line, for the judges
 * in R and SciPy: FUNCTION,VALUE,ARGUMENT... */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "distributions.h"
#include "kendall_exact.h"
#include "noncentral_t.h"
#include "outlier_limits.h"
#include "random.h"
#include "shapiro_wilk.h"
#include "t_power.h"

static scw_context *context;
static scwi_random *stream;

static double uniform(double low, double high) {
  double u = (double)scwi_random_below(stream, (size_t)1 << 52) / 0x1p52;
  return low + (high - low) * u;
}

static double log_uniform(double low, double high) {
  return exp(uniform(log(low), log(high)));
}

static void need(scw_status status) {
  if (status == SCW_OK) return;
  fprintf(stderr, "numeric_cases: %s\n", scw_context_message(context));
  exit(1);
}

static void line(const char *name, double value, double a, double b,
                 double c) {
  printf("%s,%.17g,%.17g,%.17g,%.17g\n", name, value, a, b, c);
}

static double probability(void) {
  double p = scwi_random_below(stream, 2) ? uniform(0.001, 0.999)
                                          : log_uniform(1e-40, 0.5);
  return p;
}

static void central(void) {
  double p = probability(), df = log_uniform(0.5, 3e4), x;
  double df2 = log_uniform(0.5, 3e3), a = log_uniform(0.5, 300);
  double b = log_uniform(0.5, 300);
  need(scwi_normal_quantile(context, p, &x));
  line("normal_quantile", x, p, 0, 0);
  line("normal_upper", scwi_normal_upper(x), x, 0, 0);
  need(scwi_t_quantile(context, p, df, &x));
  line("t_quantile", x, p, df, 0);
  line("t_upper", scwi_t_upper(x, df), x, df, 0);
  need(scwi_chi2_quantile(context, p, df, &x));
  line("chi2_quantile", x, p, df, 0);
  line("chi2_cdf", scwi_chi2_cdf(x, df), x, df, 0);
  need(scwi_chi2_upper_quantile(context, p, df, &x));
  line("chi2_upper_quantile", x, p, df, 0);
  line("chi2_upper", scwi_chi2_upper(x, df), x, df, 0);
  need(scwi_f_quantile(context, p, df, df2, &x));
  line("f_quantile", x, p, df, df2);
  line("f_cdf", scwi_f_cdf(x, df, df2), x, df, df2);
  need(scwi_f_upper_quantile(context, p, df, df2, &x));
  line("f_upper_quantile", x, p, df, df2);
  line("f_upper", scwi_f_upper(x, df, df2), x, df, df2);
  need(scwi_beta_quantile(context, p, a, b, &x));
  line("beta_quantile", x, p, a, b);
  line("beta_cdf", scwi_beta_cdf(x, a, b), x, a, b);
}

static void noncentral(void) {
  double df = log_uniform(1, 1e4), ncp = uniform(-30, 30), power;
  double spread = sqrt(1 + ncp * ncp / (2 * df));
  double t = ncp + uniform(-4, 4) * spread;
  line("noncentral_t_cdf", scwi_noncentral_t_cdf(t, df, ncp), t, df, ncp);
  size_t n = 2 + scwi_random_below(stream, 60), found;
  double effect = log_uniform(0.1, 3), alpha = uniform(0.001, 0.2);
  need(scwi_t_power(context, effect * sqrt((double)n / 2),
                    2 * (double)n - 2, alpha, &power));
  line("power_two_sample", power, (double)n, effect, alpha);
  effect = log_uniform(0.1, 2);
  need(scwi_t_power_n(context, SCWI_TWO_SAMPLE, effect, 0.05, 0.8, 1000000,
                      &found));
  line("n_two_sample", (double)found, effect, 0.05, 0.8);
}

static void kendall(void) {
  size_t n = 3 + scwi_random_below(stream, 46), order[50];
  long s = 0;
  double p;
  for (size_t i = 0; i < n; i++) { /* shuffled near or far from sorted */
    order[i] = i;
    size_t back = i > 6 ? 6 : i;
    size_t j = i - scwi_random_below(stream, back + 1), kept = order[j];
    order[j] = order[i], order[i] = kept;
  }
  for (size_t i = 0; i < n; i++)
    for (size_t j = 0; j < i; j++) s += order[j] < order[i] ? 1 : -1;
  need(scwi_kendall_exact_p(context, n, s, &p));
  printf("kendall,%.17g", p);
  for (size_t i = 0; i < n; i++) printf(",%zu", order[i]);
  puts("");
}

static int by_size(const void *a, const void *b) {
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

/* Normal, skew and rounded readings, small and large, near and far from 0. */
static void shapiro(size_t n, unsigned kind) {
  static double x[5000];
  double w, p, offset = kind % 3 == 2 ? 1e6 : 0;
  for (size_t i = 0; i < n; i++) {
    double z;
    need(scwi_normal_quantile(context, uniform(1e-9, 1 - 1e-9), &z));
    x[i] = kind % 4 == 1 ? exp(z) : kind % 4 == 3 ? rint(4 * z) / 4 : z;
    x[i] += offset;
  }
  qsort(x, n, sizeof *x, by_size);
  if (!(x[n - 1] > x[0])) return;
  need(scwi_shapiro_wilk(context, x, n, &w, &p));
  printf("shapiro,%.17g,%.17g", w, p);
  for (size_t i = 0; i < n; i++) printf(",%.17g", x[i]);
  puts("");
}

static void random_words(unsigned seed) {
  scwi_random *other;
  need(scwi_random_new(context, seed, &other));
  printf("random,%u", seed);
  for (int i = 0; i < 700; i++)
    printf(",%zu", scwi_random_below(other, (size_t)1 << 32));
  puts("");
  scwi_random_free(other);
}

int main(void) {
  if (scw_context_new(&context)) return 1;
  need(scwi_random_new(context, 20240611, &stream));
  for (unsigned i = 0; i < 300; i++) {
    central();
    noncentral();
  }
  for (unsigned i = 0; i < 60; i++) kendall();
  for (size_t n = 3; n < 60; n++)
    for (unsigned kind = 0; kind < 4; kind++)
      shapiro(n, kind + (unsigned)n);
  for (size_t n = 100; n <= 5000; n = n * 7 / 2) shapiro(n, (unsigned)n);
  shapiro(5000, 1);
  for (unsigned seed = 1; seed < 4000000000U / 3; seed = seed * 31 + 5)
    random_words(seed);
  scwi_random_free(stream);
  scw_context_free(context);
  return ferror(stdout) != 0;
}
