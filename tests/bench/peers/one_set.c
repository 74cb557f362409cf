/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Mean, SD, interval and Grubbs' limit of one set: the shortest C on GSL. */
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_statistics_double.h>
#include <math.h>
#include <stdio.h>

int main(int argc, char **argv) {
  double x[1000], most = 0;
  size_t n = 0;
  FILE *file = argc > 1 ? fopen(argv[1], "r") : NULL;
  if (!file) return 1;
  while (n < 1000 && fscanf(file, "%lf", &x[n]) == 1) n++;
  fclose(file);
  double m = gsl_stats_mean(x, 1, n), s = gsl_stats_sd_m(x, 1, n, m);
  double count = (double)n;
  double h = gsl_cdf_tdist_Pinv(0.975, count - 1) * s / sqrt(count);
  double t = gsl_cdf_tdist_Pinv(1 - 0.05 / (2 * count), count - 2);
  for (size_t i = 0; i < n; i++) most = fmax(most, fabs(x[i] - m));
  printf("%.15g %.15g %.15g %.15g %.15g %.15g\n", m, s, m - h, m + h, most / s,
         (count - 1) / sqrt(count) * sqrt(t * t / (count - 2 + t * t)));
  return 0;
}
