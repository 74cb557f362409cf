/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Averages over what an SD from few readings could be. */
#ifndef SCWI_CHI_AVERAGE_H
#define SCWI_CHI_AVERAGE_H

#include "roots.h"

/* Integral over s from low to high (may be infinite) of f(s) g(s), where g is
 * the density of sd/sigma with `df` degrees of freedom, s^2 df ~ chi-square
 * (normal readings). df > 0; beyond 1e9, infinity included, s is 1. `accuracy`
 * is absolute, for |f| <= 1 smooth between the limits. f may return NaN to give
 * up: SCW_NOT_REACHED. */
scw_status scwi_chi_average(scw_context *context, scwi_function f,
                            void *parameters, double df, double low,
                            double high, double accuracy, double *out);
#endif
