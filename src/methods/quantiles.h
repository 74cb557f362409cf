/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Median, quartiles and median absolute deviation. */
#ifndef SCWI_QUANTILES_H
#define SCWI_QUANTILES_H

#include "sample.h"

/* Quartile 0 to 4 (2: the median) by the type 7 rule of Hyndman & Fan 1996,
 * at (n-1) quarter / 4 counted from the smallest. `place` lists the readings
 * in ascending order. n >= 1. */
double scwi_quartile(const scwi_sample *sample, const size_t *place,
                     size_t quarter);

/* The median of sorted numbers that lie far from overflow. */
double scwi_middle(const double *ascending, size_t n);

/* The median of |a - middle| over sorted numbers, without sorting again. */
double scwi_middle_distance(const double *ascending, size_t n, double middle);

/* median |Z| of a normal variable: mad / this estimates its SD. */
#define SCWI_NORMAL_MAD 0.6744897501960817

#endif
