/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Poisson-weighted sums of central t tails: what noncentral t and the power
 * of the t test are made of. */
#ifndef SCWI_NONCENTRAL_SERIES_H
#define SCWI_NONCENTRAL_SERIES_H

/* P(T > t) for t > 0, ncp >= 0: a sum of positive terms, so small values keep
 * their digits. */
double scwi_noncentral_above(double t, double df, double ncp);

/* P(0 < T <= t) for t > 0, ncp >= 0, positive terms as well. */
double scwi_noncentral_between(double t, double df, double ncp);

/* P(|T| > t) for t > 0, given the central value `alpha` = P(|T0| > t); also
 * its derivative in ncp. */
typedef struct scwi_power_point {
  double power, slope;
} scwi_power_point;
scwi_power_point scwi_power_at(double t, double df, double ncp, double alpha);

#endif
