/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the curvature of a model adds to the variance of its result. */
#ifndef SCWI_SECOND_ORDER_H
#define SCWI_SECOND_ORDER_H

#include "expression.h"
#include "scatterwise/budget.h"

/* JCGM 100 5.1.2, note: 1/2 sum (f_ij u_i u_j)^2 + sum f_i f_ijj u_i^2 u_j^2,
 * exact for normal inputs; for correlated ones
 * 1/2 tr(H V H V) + D_w tr(H V), w = V grad f, which is the same where V is
 * diagonal. `slopes` and `hessian` are those of the expression at x,
 * `variance` the first-order variance. Where the model has no usable third
 * slope, out->part is missing as SCW_NOT_COMPUTED. */
scw_status scwi_second_order(scw_context *context,
                             const scwi_expression *expression, const double *x,
                             const double *u, const double *correlation,
                             const double *slopes, const double *hessian,
                             double variance, scw_second_order *out);

scw_second_order scwi_no_second_order(void);

#endif
