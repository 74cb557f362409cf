/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Propagation of distributions by trials (JCGM 101). */
#ifndef SCWI_MONTE_CARLO_H
#define SCWI_MONTE_CARLO_H

#include "expression.h"
#include "inputs.h"
#include "scatterwise/monte_carlo.h"

/* The distribution of y = expression(inputs); arguments as for scwi_propagate,
 * `law` its result, with which the trials are compared. The same numbers for
 * any number of threads of the context. Cost: eight bytes a trial, and up to
 * a tenth of a microsecond for each input of a trial. */
scw_status scwi_monte_carlo(scw_context *context,
                            const scwi_expression *expression,
                            const scw_budget_given *given,
                            const scwi_known_input *known,
                            const double *correlation, double level,
                            const scw_trials_options *options,
                            const scw_budget *law, scw_monte_carlo *out);

/* Half a unit of the last of so many significant digits of u > 0 (JCGM 101
 * 7.9.2). */
double scwi_tolerance_of(double u, int digits);

#endif
