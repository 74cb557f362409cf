/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Mean and SD, the uncertainty of a mean, its interval. */
#ifndef SCWI_MOMENTS_H
#define SCWI_MOMENTS_H

#include "context.h"
#include "sample.h"

typedef struct scwi_moments {
  size_t n;
  double mean;
  double sd;      /* 0 when n == 1 or all readings are equal */
} scwi_moments;

/* Two-pass with compensation, safe from overflow to 1e308; exact where the
 * ticks allow. n >= 1. */
scwi_moments scwi_moments_of(const scwi_sample *sample);

/* The same from sums kept instead of the readings: in ticks, their sum and the
 * sum of (n * reading - sum)^2. n >= 1. */
scwi_moments scwi_moments_of_sums(size_t n, double sum, double spread,
                                  double tick_size);

/* A standard uncertainty with its degrees of freedom (infinite where only
 * the display step speaks). */
typedef struct scwi_uncertainty {
  double u, df;
} scwi_uncertainty;

/* Of the mean of n readings of SD `sd` at display step q:
 * u^2 = sd^2/n + max(0, q^2/12 - sd^2/3). n >= 2. */
scwi_uncertainty scwi_mean_uncertainty(double sd, size_t n, double step);

/* What the display says of a mean of differences. `sides` is the standard
 * uncertainty that rounding leaves on the sides themselves, the root of the
 * sum of the squares of their scwi_rounding_left; 0 where the sides are not known. It
 * matters on a panel so even that the same rounding sits in every difference,
 * whatever the scatter of the differences says. */
typedef struct scwi_display {
  double step, sides;
} scwi_display;

/* max(0, q^2/12 - sd^2/3) as a standard uncertainty: what rounding leaves in
 * the mean of displayed values of this SD. */
double scwi_rounding_left(double sd, double step);

/* Of a mean of m differences of two displayed values:
 * u^2 = sd^2/m + max(q^2/6 - 2 sd^2/3, sides^2, 0). m >= 2. */
scwi_uncertainty scwi_difference_uncertainty(double sd, size_t m,
                                             scwi_display display);

/* Sum of independent uncertainties (Welch-Satterthwaite, JCGM 100 G.4). */
scwi_uncertainty scwi_uncertainty_sum(scwi_uncertainty a, scwi_uncertainty b);

/* estimate -+ t((1+level)/2, df) u. */
scw_status scwi_t_interval(scw_context *context, double estimate,
                           scwi_uncertainty uncertainty, double level,
                           scw_interval *out);
#endif
