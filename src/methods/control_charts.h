/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Charts of single values about a centre: moving range, weighted moving
 * average, cumulative sums (ISO 7870-2, -6 and -4; e-Handbook 6.3.2). */
#ifndef SCWI_CONTROL_CHARTS_H
#define SCWI_CONTROL_CHARTS_H

#include <stddef.h>

/* Mean |x_i - x_(i-1)| over d2 = 2/sqrt(pi), which is the SD of independent
 * normal values. n >= 2. */
double scwi_moving_range_sd(const double *x, size_t n);

/* z_i = w x_i + (1-w) z_(i-1), z_0 = centre, and half the width of its limits
 * after so many values: width sd sqrt(w/(2-w) (1 - (1-w)^(2i))). */
void scwi_weighted_average(const double *x, size_t n, double centre,
                           double weight, double *average);
double scwi_weighted_half_width(size_t i, double sd, double weight,
                                double width);

/* In SD: up_i = max(0, up_(i-1) + (x_i - centre)/sd - k), down_i the same with
 * the sign turned; both start at 0. sd > 0. */
void scwi_cumulative_sums(const double *x, size_t n, double centre, double sd,
                          double reference, double *up, double *down);

#endif
