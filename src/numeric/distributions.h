/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Distribution functions and quantiles at real degrees of freedom, 0.5 to 1e10
 * (t: 0.5 to infinity). CDFs take any real argument and never fail on valid
 * parameters (an invalid parameter gives NaN); both tails keep their relative
 * accuracy. Quantiles: p in [1e-300, 1-1e-16], 1e-12 relative, checked by their
 * CDF in the smaller tail. SCW_BAD_ARGUMENT for p or df out of range,
 * SCW_NOT_REACHED when the quantile lies outside 2.3e-308 .. 1.7e308. A failure
 * leaves 0 in *out. */
#ifndef SCWI_DISTRIBUTIONS_H
#define SCWI_DISTRIBUTIONS_H

#include "scatterwise/context.h"

double scwi_normal_cdf(double z);
double scwi_normal_upper(double z);
scw_status scwi_normal_quantile(scw_context *context, double p, double *out);

double scwi_t_cdf(double t, double df);   /* df may be infinite: normal */
double scwi_t_upper(double t, double df);
/* Lower-tail quantile; for the upper tail use the symmetry -t. */
scw_status scwi_t_quantile(scw_context *context, double p, double df,
                           double *out);

double scwi_chi2_cdf(double x, double df);
double scwi_chi2_upper(double x, double df);
scw_status scwi_chi2_quantile(scw_context *context, double p, double df,
                              double *out);
scw_status scwi_chi2_upper_quantile(scw_context *context, double q, double df,
                                    double *out);

double scwi_f_cdf(double x, double df1, double df2);
double scwi_f_upper(double x, double df1, double df2);
scw_status scwi_f_quantile(scw_context *context, double p, double df1,
                           double df2, double *out);
scw_status scwi_f_upper_quantile(scw_context *context, double q, double df1,
                                 double df2, double *out);

double scwi_beta_cdf(double x, double a, double b);
double scwi_beta_upper(double x, double a, double b);
scw_status scwi_beta_quantile(scw_context *context, double p, double a,
                              double b, double *out);

#endif
