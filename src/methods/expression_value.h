/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The values of all steps at one point. */
#ifndef SCWI_EXPRESSION_VALUE_H
#define SCWI_EXPRESSION_VALUE_H

#include "expression.h"

/* value[i] of every step (n_steps long). SCW_NO_FIGURE, in words, where a step
 * has no value or not `order` derivatives, or is too large. */
scw_status scwi_values(scw_context *context, const scwi_expression *expression,
                       const double *x, int order, double *value);

/* SCW_NO_FIGURE at a step: "at the estimates of the inputs ...". */
scw_status scwi_no_figure_at(scw_context *context,
                             const scwi_expression *expression,
                             const scwi_expression_step *step, const char *why);

#endif
