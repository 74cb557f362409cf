/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Powers over gamma functions without cancellation of large logarithms. */
#ifndef SCWI_SADDLE_H
#define SCWI_SADDLE_H

/* log Gamma(a+1) - (a + 1/2) log a + a - log(2 pi)/2; a > 0. */
double scwi_stirling_remainder(double a);

/* u - log(1 + u), accurate near 0; u > -1. */
double scwi_log_gap(double u);

/* x^a exp(-x) / Gamma(a+1); a >= 0, x >= 0. */
double scwi_gamma_term(double a, double x);

/* x^a y^b / Beta(a, b); a, b > 0 and x + y = 1, both given because 1 - x
 * alone would lose the digits of a small y. */
double scwi_beta_term(double a, double b, double x, double y);

/* 1 / Beta(a, 1/2). */
double scwi_inverse_beta_half(double a);

#endif
