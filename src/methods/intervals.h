/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Mean, SD and everything that is a multiple of the SD about the mean. */
#ifndef SCWI_INTERVALS_H
#define SCWI_INTERVALS_H

#include "context.h"
#include "moments.h"
#include "scatterwise/summary.h"

/* The standard uncertainty of the mean, or why there is none. */
scw_presence scwi_uncertainty_of_mean(scwi_moments moments, scw_step step,
                                      scwi_uncertainty *out);

/* The equal-tailed chi-square interval (e-Handbook 7.2.3.1) of an SD > 0 with
 * df degrees of freedom. */
scw_status scwi_sd_interval(scw_context *context, double sd, double df,
                            double level, scw_interval *out);

/* Fills n, mean, sd, the standard uncertainties, df, and the intervals of the
 * mean, of the SD, of the next reading and of the spots. out->step is set. */
scw_status scwi_intervals(scw_context *context, scwi_moments moments,
                          double level, double content, scw_summary *out);

#endif
