/* SPDX-License-Identifier: GPL-3.0-or-later */
/* After minus before: paired by spot, and Welch, with the display step. */
#ifndef SCWI_TWO_SAMPLE_H
#define SCWI_TWO_SAMPLE_H

#include "context.h"
#include "moments.h"
#include "sample.h"
#include "scatterwise/change.h"

/* Welch on two sides given by their moments; each side's u carries its own
 * step term. Needs n >= 2 on both sides, else figures say why not. */
scw_status scwi_welch(scw_context *context, scwi_moments before,
                      scwi_moments after, double step_before,
                      double step_after, double level, scw_estimate *out);

/* Paired: the sample holds the m differences; `step` is that of the displayed
 * values (not of the differences). */
scw_status scwi_paired(scw_context *context, const scwi_sample *differences,
                       double step, double level, scw_estimate *out);

/* The verdict of the one interval against zero and the margin (absent: only
 * changed and cannot_tell). */
scw_verdict scwi_verdict(scw_interval interval, scw_figure margin);

/* Bonferroni level for a family of k, and Holm's adjusted p in place. */
double scwi_bonferroni_level(double level, size_t k);
void scwi_holm(double *p, size_t k);
#endif
