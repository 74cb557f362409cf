/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The interval that holds at every look together, for deciding while reading:
 * normal readings, unknown SD.
 *
 * Mixture of t likelihood ratios: right-Haar prior on sigma, the standardised
 * shift (mu - mu0)/sigma ~ N(0, g). Under mu0 the ratio is a martingale that
 * starts at 1, so the chance that it ever reaches 1/alpha is at most alpha
 * (Ville). With a = 1 + n g and v = n - 1
 *
 *   E_n(mu0) = a^(-1/2) [(1 + t^2/v) / (1 + t^2/(a v))]^(n/2),
 *   t = sqrt(n) (mean - mu0) / sd
 *
 * (Hendriksen, de Heide & Grunwald 2021; Perez-Ortiz et al. 2022; from
 * memory, checked by simulation and by solving E_n = 1/alpha elsewhere). */
#ifndef SCWI_ANYTIME_H
#define SCWI_ANYTIME_H

#include "moments.h"

enum { SCWI_ANYTIME_G = 1 };

/* Half-width of the interval in units of sd/sqrt(n):
 *   K = (a/alpha^2)^(1/n), sqrt(v (K - 1) / (1 - K/a)).
 * SCW_UNBOUNDED while K >= a; SCW_ONE_READING below two readings. */
scw_figure scwi_anytime_factor(size_t n, double level, double g);

/* mean -+ factor sd/sqrt(n) -+ rounding, where `rounding` is half the display
 * step of a mean of displayed values, a whole step of a mean of differences of
 * two. SCW_NO_SCATTER as long as all readings are equal, which spoils nothing
 * for later ones. */
scw_interval scwi_anytime_interval(scwi_moments moments, double rounding,
                                   double level, double g);

/* E_n for a true mean of `null_value`, or of whatever lies within `rounding` of
 * it and fits best: at least 1/alpha exactly where the interval excludes it.
 * SCW_OUT_OF_RANGE beyond a double. */
scw_figure scwi_anytime_e_value(scwi_moments moments, double null_value,
                                double rounding, double g);

#endif
