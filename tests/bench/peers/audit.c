/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Welch's p of every row (readings before, then as many after), the
 * Benjamini-Hochberg q and what it calls beyond: the shortest C on GSL. */
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_statistics_double.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int rising(const void *a, const void *b) {
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

static double welch(const double *x, size_t n) {
  double count = (double)n, mx = gsl_stats_mean(x, 1, n);
  double my = gsl_stats_mean(x + n, 1, n);
  double u = gsl_stats_variance_m(x, 1, n, mx) / count;
  double v = gsl_stats_variance_m(x + n, 1, n, my) / count;
  double df = (u + v) * (u + v) / ((u * u + v * v) / (count - 1));
  return 2 * gsl_cdf_tdist_Q(fabs(my - mx) / sqrt(u + v), df);
}

int main(int argc, char **argv) {
  char line[4096];
  size_t n = 0, room = 0, alone = 0, beyond = 0;
  double x[200], *p = NULL;
  FILE *file = argc > 1 ? fopen(argv[1], "r") : NULL;
  if (!file || !fgets(line, sizeof line, file)) return 1;
  while (fgets(line, sizeof line, file)) {
    size_t k = 0;
    for (char *at = strchr(line, ','); at && k < 200; at = strchr(at, ','))
      x[k++] = strtod(at + 1, &at);
    if (n == room) {
      room = room ? 2 * room : 1024;
      p = realloc(p, room * sizeof *p);
      if (!p) return 1;
    }
    p[n] = welch(x, k / 2);
    alone += p[n++] < 0.05;
  }
  fclose(file);
  qsort(p, n, sizeof *p, rising);
  for (size_t i = 0; i < n; i++)
    if (p[i] * (double)n / (double)(i + 1) <= 0.05) beyond = i + 1;
  printf("%zu %zu %zu\n", n, beyond, alone);
  free(p);
  return 0;
}
