/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bare number on one side, or on both: what it would have to be good for. */
#ifndef SCWI_BASELINE_H
#define SCWI_BASELINE_H

#include "moments.h"
#include "scatterwise/comparison.h"

/* Readings (their moments, display step q) against a number shown in steps of
 * number_step. No unconditional verdict:
 *   if_exact      the change and its interval, were the number exact
 *   break_even_u  the standard uncertainty u_b of the number at which
 *                 t((1+level)/2, df) sqrt(u^2 + u_b^2) + number_step/2 = |d|,
 *                 u and its df those of the readings' mean, df Satterthwaite
 *                 with u_b of infinite df
 * SCW_CANNOT_TELL, and no break_even_u, when the interval reaches zero
 * (SCW_NOT_COMPUTED) or the rounding of the number alone would make it
 * (SCW_WITHIN_STEP); without an interval the reason is the interval's and the
 * verdict SCW_NO_VERDICT. */
scw_status scwi_against_number(scw_context *context, scwi_moments readings,
                               double step, double number, double number_step,
                               double level, scw_against_number *out);

/* The same of a change whose readings' side has the uncertainty u > 0. */
scw_status scwi_against_number_at(scw_context *context, double change,
                                  scwi_uncertainty u, double number_step,
                                  double level, scw_against_number *out);

/* Two means without SDs, of n_before and n_after readings: the common SD of
 * single readings up to which the change stands,
 * (|d| - (q1+q2)/2) / (t((1+level)/2, n1+n2-2) sqrt(1/n1 + 1/n2)).
 * SCW_WITHIN_STEP when the steps alone explain the change, SCW_TOO_FEW when
 * n1 + n2 < 3. */
scw_status scwi_break_even_sd(scw_context *context, double change,
                              size_t n_before, size_t n_after,
                              double step_before, double step_after,
                              double level, scw_figure *out);
#endif
