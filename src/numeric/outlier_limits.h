/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits and p of stand-out tests. n 3 to 1e5, 1e-12 relative. */
#ifndef SCWI_OUTLIER_LIMITS_H
#define SCWI_OUTLIER_LIMITS_H

#include "scatterwise/context.h"

/* Grubbs' two-sided limit of max |x - mean| / sd. */
scw_status scwi_grubbs_limit(scw_context *context, size_t n, double alpha,
                             double *limit);
/* p = min(1, 2 n P(T > t)), an upper bound; 0 < g <= (n-1)/sqrt(n). */
scw_status scwi_grubbs_p(scw_context *context, size_t n, double g, double *p);
/* lambda_i of the generalised ESD procedure, i = 1 .. n-2 (Rosner 1983). */
scw_status scwi_esd_limit(scw_context *context, size_t n, size_t i,
                          double alpha, double *limit);
#endif
