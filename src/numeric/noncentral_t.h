/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Noncentral t: df 1 to 1e6 (real), |ncp| <= 40; 1e-12 absolute and 1e-9
 * relative in both tails down to 1e-30, a few microseconds a call. Outside
 * the parameter range: NaN. */
#ifndef SCWI_NONCENTRAL_T_H
#define SCWI_NONCENTRAL_T_H

#include "scatterwise/context.h"

double scwi_noncentral_t_cdf(double t, double df, double ncp);
double scwi_noncentral_t_upper(double t, double df, double ncp);
scw_status scwi_noncentral_t_quantile(scw_context *context, double p,
                                      double df, double ncp, double *out);
#endif
