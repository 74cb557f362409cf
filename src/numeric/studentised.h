/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The largest of several statistics over one independent SD: P(W/S > x) for
 * W >= 0 and S = sqrt(chi2(df)/df). */
#ifndef SCWI_STUDENTISED_H
#define SCWI_STUDENTISED_H

#include <stdbool.h>

#include "scatterwise/context.h"

enum { SCWI_TAIL_PIECES = 80, SCWI_TAIL_TERMS = 20 };

/* W is the largest of `members` statistics, each of them `scale` times the
 * absolute value of a standard normal deviate, dependent on each other as may
 * be. What is worked out of its tail is kept: the first P(W/S > x) costs
 * hundreds of tails, the next ones, whatever their x and df, next to none. */
typedef struct scwi_studentised scwi_studentised;
struct scwi_studentised {
  double (*tail)(double w, scwi_studentised *self); /* P(W > w) */
  double scale, members;
  scw_status status; /* of a tail that could not be worked out */
  bool known[SCWI_TAIL_PIECES];
  double piece[SCWI_TAIL_PIECES][SCWI_TAIL_TERMS];
};

/* P(W/S > x), 1e-10 absolute, and about 1e-11 of itself. Real df >= 1 or
 * infinite, x >= 0; SCW_BAD_ARGUMENT else. */
scw_status scwi_studentised_upper(scw_context *context, scwi_studentised *of,
                                  double x, double df, double *p);

/* The x with P(W/S > x) = p. SCW_BAD_ARGUMENT unless
 * 1e-290 <= p <= 1 - 1e-12. */
scw_status scwi_studentised_quantile_upper(scw_context *context,
                                           scwi_studentised *of, double p,
                                           double df, double *x);

#endif
