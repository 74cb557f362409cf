/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far GSL is from the judge values beside this program: see
 * measure_scipy.py.  cc measure_gsl.c -lgsl -lgslcblas -lm && ./a.out FOLDER */
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_version.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct worst {
  double error;
  char label[500];
  unsigned cases, lost;
} worst;

static void note(worst *w, double got, double wanted, const char *label) {
  double error = isfinite(got) ? fabs(got / wanted - 1) : INFINITY;
  w->cases++;
  w->lost += error > 1e-6;
  if (error <= w->error) return;
  w->error = error;
  snprintf(w->label, sizeof w->label, "%s", label);
}

static void report(const char *name, const worst *w) {
  printf("%-24s %4u cases, worst %.1e at %.*s; %u wrong by more than 1e-6\n",
         name, w->cases, w->error, (int)strcspn(w->label, "\n"), w->label,
         w->lost);
}

static double tail(const char *table, const double *v, int upper) {
  if (!strcmp(table, "t")) return gsl_cdf_tdist_Q(v[1], v[0]);
  if (!strcmp(table, "chi_square"))
    return upper ? gsl_cdf_chisq_Q(v[1], v[0]) : gsl_cdf_chisq_P(v[1], v[0]);
  if (!strcmp(table, "f"))
    return upper ? gsl_cdf_fdist_Q(v[2], v[0], v[1])
                 : gsl_cdf_fdist_P(v[2], v[0], v[1]);
  return upper ? gsl_cdf_beta_Q(v[2], v[0], v[1])
               : gsl_cdf_beta_P(v[2], v[0], v[1]);
}

static void tails(const char *folder, const char *table, int arguments) {
  char path[500], line[500], name[60];
  worst w[2] = {{0}};
  snprintf(path, sizeof path, "%s/%s.csv", folder, table);
  FILE *file = fopen(path, "r");
  if (!file) exit(1);
  while (fgets(line, sizeof line, file)) {
    double v[5] = {0};
    char *at = line;
    int n = 0;
    if (line[0] == '#' || strchr("ad", line[0])) continue;
    for (; *at && n < 5; n++) {
      v[n] = strtod(at, &at);
      at += *at == ',';
      if (*at == '\n') at++;
    }
    for (int i = arguments; i < n; i++) {
      int upper = n == arguments + 1 || i > arguments;
      note(&w[upper], tail(table, v, upper), v[i], line);
    }
  }
  fclose(file);
  for (int upper = 0; upper < 2; upper++) {
    snprintf(name, sizeof name, "%s %s", table, upper ? "upper" : "lower");
    if (w[upper].cases) report(name, &w[upper]);
  }
}

static double quantile(const char *name, double p, double a, double b) {
  if (!strcmp(name, "normal")) return gsl_cdf_ugaussian_Pinv(p);
  if (!strcmp(name, "t")) return gsl_cdf_tdist_Pinv(p, a);
  if (!strcmp(name, "chi_square")) return gsl_cdf_chisq_Pinv(p, a);
  if (!strcmp(name, "f")) return gsl_cdf_fdist_Pinv(p, a, b);
  return gsl_cdf_beta_Pinv(p, a, b);
}

static void quantiles(const char *folder, const char *name) {
  char path[500], line[500], title[60];
  worst w = {0};
  snprintf(path, sizeof path, "%s/quantiles.csv", folder);
  FILE *file = fopen(path, "r");
  if (!file) exit(1);
  while (fgets(line, sizeof line, file)) {
    double v[4] = {0};
    size_t length = strlen(name);
    if (strncmp(line, name, length) || line[length] != ',') continue;
    char *cell = line;
    for (int i = 0; i < 4; i++) {
      cell = strchr(cell, ',') + 1;
      v[i] = *cell == ',' ? 0 : strtod(cell, NULL);
    }
    note(&w, quantile(name, v[0], v[1], v[2]), v[3], line);
  }
  fclose(file);
  snprintf(title, sizeof title, "%s quantile", name);
  report(title, &w);
}

int main(int argc, char **argv) {
  if (argc < 2) return 2;
  gsl_set_error_handler_off();
  printf("GSL %s\n", gsl_version);
  tails(argv[1], "t", 2);
  tails(argv[1], "chi_square", 2);
  tails(argv[1], "f", 3);
  tails(argv[1], "beta", 3);
  static const char *const names[] = {"normal", "t", "chi_square", "f", "beta"};
  for (int i = 0; i < 5; i++) quantiles(argv[1], names[i]);
  return 0;
}
