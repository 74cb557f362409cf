/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Power of the two-sided t test, both tails counted: P(|T'| > t(1-alpha/2))
 * with T' noncentral t(df, ncp). */
#ifndef SCWI_T_POWER_H
#define SCWI_T_POWER_H

#include "scatterwise/context.h"

/* NaN for parameters out of range (df >= 1, 0 < alpha < 1, |ncp| finite;
 * |ncp| beyond 40 is answered by the normal limit or 1). */
scw_status scwi_t_power(scw_context *context, double ncp, double df,
                        double alpha, double *power);

/* The noncentrality at which the power is reached; power in (alpha, 1). */
scw_status scwi_t_power_ncp(scw_context *context, double power, double df,
                            double alpha, double *ncp);

typedef enum scwi_t_design { SCWI_ONE_SAMPLE, SCWI_TWO_SAMPLE } scwi_t_design;

/* Smallest whole n (one sample: readings or pairs, df n-1; two samples: per
 * side, df 2n-2), at least 2, with power at least `power` for an effect in SD
 * units. SCW_NO_FIGURE when it lies above `most`. */
scw_status scwi_t_power_n(scw_context *context, scwi_t_design design,
                          double effect, double alpha, double power,
                          size_t most, size_t *n);
#endif
