/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Repeatability and reproducibility of one quantity read by several
 * laboratories or operators, and which of them do not fit (ISO 5725-2). */
#ifndef SCWI_PRECISION_H
#define SCWI_PRECISION_H

#include "context.h"
#include "sample.h"
#include "scatterwise/components.h"

/* lab_of[i] is the number of reading i's laboratory or operator, 0 to labs - 1;
 * each has at least one reading. All readings are of one spot, or of spots that
 * count as alike. Free with scwi_precision_free, also after a failure. */
scw_status scwi_precision(scw_context *context, const scwi_sample *sample,
                          const uint32_t *lab_of, size_t labs, double level,
                          scw_precision *out);
void scwi_precision_free(scw_precision *precision);

/* Cochran's limit of the largest of p variances on df degrees of freedom each,
 * over their sum, at most 1: 1/(1 + (p-1)/F(1-alpha/p; df, (p-1) df)). */
scw_status scwi_cochran_limit(scw_context *context, size_t p, double df,
                              double alpha, double *out);
/* Mandel's limits for p laboratories: of |h|, p >= 3, and of k with n readings
 * each, n >= 2. */
scw_status scwi_mandel_h_limit(scw_context *context, size_t p, double alpha,
                               double *out);
scw_status scwi_mandel_k_limit(scw_context *context, size_t p, size_t n,
                               double alpha, double *out);

#endif
