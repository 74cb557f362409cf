/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Law of propagation of uncertainty (JCGM 100, clause 5, annex G). */
#ifndef SCWI_PROPAGATE_H
#define SCWI_PROPAGATE_H

#include "expression.h"
#include "inputs.h"

/* Checks that an n x n matrix (row after row) can be a correlation matrix:
 * 1 on the diagonal, symmetric, entries within -1 .. 1, no eigenvalue below 0
 * (beyond rounding, 1e-10). SCW_BAD_INPUT names the entry, or the smallest
 * eigenvalue and the inputs it rests on. `name` are the inputs. */
scw_status scwi_correlation_check(scw_context *context, const char *const *name,
                                  const double *correlation, size_t n);

/* The budget of y = expression(inputs). `given` and `known` are in the order of
 * expression->input. `correlation` (n x n, checked) may be null: independent.
 * The slopes, and with them everything else, are those at the estimates. */
scw_status scwi_propagate(scw_context *context,
                          const scwi_expression *expression,
                          const scw_budget_given *given,
                          const scwi_known_input *known,
                          const double *correlation, double level,
                          scw_budget *out);
void scwi_budget_free(scw_budget *budget); /* names in it are borrowed */

/* Covariance of two results of the same inputs by their slopes (gradients over
 * the same n inputs): JCGM 100 H.2.3. `u` are the standard uncertainties. */
double scwi_result_covariance(const double *slopes_a, const double *slopes_b,
                              const double *u, const double *correlation,
                              size_t n);

#endif
