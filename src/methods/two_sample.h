/* SPDX-License-Identifier: GPL-3.0-or-later */
/* After minus before: paired by spot, and Welch, with the display step. */
#ifndef SCWI_TWO_SAMPLE_H
#define SCWI_TWO_SAMPLE_H

#include "context.h"
#include "moments.h"
#include "multiplicity.h"
#include "sample.h"
#include "scatterwise/comparison.h"
#include "verdict.h"

/* An estimate with its t interval and two-sided p from its standard
 * uncertainty. Where nothing scatters:
 *   df infinite (only the display step speaks): the normal distribution, df
 *   is missing as SCW_UNBOUNDED;
 *   u = 0: no interval, no p, SCW_NO_SCATTER.
 * A p too small for a double is missing as SCW_OUT_OF_RANGE, or as
 * SCW_NO_SCATTER when only the display step speaks. */
scw_status scwi_estimate(scw_context *context, double estimate,
                         scwi_uncertainty uncertainty, double level,
                         scw_estimate *out);

/* An estimate without interval, and why. */
scw_estimate scwi_bare_estimate(double estimate, scw_presence why,
                                double level);

/* Welch on two sides given by their moments; each side's u carries its own
 * step term; fractional Satterthwaite df. A side with one reading has no
 * scatter: the figures say SCW_ONE_READING. */
scw_status scwi_welch(scw_context *context, scwi_moments before,
                      scwi_moments after, double step_before, double step_after,
                      double level, scw_estimate *out);

/* Paired: the sample holds the m >= 1 differences; `display` is that of the
 * displayed values (not of the differences). */
scw_status scwi_paired(scw_context *context, const scwi_sample *differences,
                       scwi_display display, double level, scw_estimate *out);

#endif
