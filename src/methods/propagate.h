/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Law of propagation of uncertainty (JCGM 100, clause 5, annex G). */
#ifndef SCWI_PROPAGATE_H
#define SCWI_PROPAGATE_H

#include "correlation.h"
#include "expression.h"
#include "inputs.h"

/* The budget of y = expression(inputs). `given` and `known` are in the order of
 * expression->input. `correlation` (n x n, checked) may be null: independent.
 * The slopes, and with them everything else, are those at the estimates:
 * SCW_NO_FIGURE in words where there are none. */
scw_status scwi_propagate(scw_context *context,
                          const scwi_expression *expression,
                          const scw_budget_given *given,
                          const scwi_known_input *known,
                          const double *correlation, double level,
                          scw_budget *out);
void scwi_budget_free(scw_budget *budget); /* names in it are borrowed */

/* Covariance of two results of the same n inputs by their slopes (JCGM 100
 * H.2.3). `u` are the inputs' standard uncertainties. */
double scwi_result_covariance(const double *slopes_a, const double *slopes_b,
                              const double *u, const double *correlation,
                              size_t n);

#endif
