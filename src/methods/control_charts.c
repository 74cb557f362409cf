/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "control_charts.h"

#include <math.h>

#include "sum.h"

double scwi_moving_range_sd(const double *x, size_t n) {
  static const double d2 = 1.1283791670955126; /* 2/sqrt(pi) */
  scwi_sum sum = {0};
  double ranges = (double)(n - 1);
  for (size_t i = 1; i < n; i++)
    scwi_sum_add(&sum, fabs(x[i] / ranges - x[i - 1] / ranges));
  return scwi_sum_of(sum) / d2;
}

void scwi_weighted_average(const double *x, size_t n, double centre,
                           double weight, double *average) {
  double now = centre;
  for (size_t i = 0; i < n; i++) {
    now = weight * x[i] + (1 - weight) * now;
    average[i] = now;
  }
}

double scwi_weighted_half_width(size_t i, double sd, double weight,
                                double width) {
  double grown = -expm1(2 * (double)i * log1p(-weight));
  return width * sd * sqrt(weight / (2 - weight) * grown);
}

void scwi_cumulative_sums(const double *x, size_t n, double centre, double sd,
                          double reference, double *up, double *down) {
  double high = 0, low = 0;
  for (size_t i = 0; i < n; i++) {
    double away = x[i] / sd - centre / sd;
    high = fmax(0, high + away - reference);
    low = fmax(0, low - away - reference);
    up[i] = high;
    down[i] = low;
  }
}
