/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The incomplete beta function at a point given by both x and 1 - x. */
#ifndef SCWI_BETA_TAILS_H
#define SCWI_BETA_TAILS_H

#include "scatterwise/context.h"

/* Lower and upper tail of Beta(a, b) at x, and the density times x (1-x),
 * which is d(lower) / d log(odds). x + y = 1; a, b >= 0.25. */
typedef struct scwi_beta_tails {
  double lower, upper, density;
} scwi_beta_tails;
scwi_beta_tails scwi_beta_at(double a, double b, double x, double y);

/* Odds x / (1 - x) of the lower-tail quantile. */
scw_status scwi_beta_odds(scw_context *context, double p, double a, double b,
                          double *odds);
#endif
