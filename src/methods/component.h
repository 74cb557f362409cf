/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A component of scatter from a linear combination of mean squares. */
#ifndef SCWI_COMPONENT_H
#define SCWI_COMPONENT_H

#include "large_sample.h"
#include "scatterwise/components.h"

/* What limits are worked out with; roots of mean squares times `unit` are in
 * the unit of the readings. */
typedef struct scwi_limit_setting {
  double level, unit;
  scwi_limits_memo *memo; /* may be null */
} scwi_limit_setting;

/* An SD with its two-sided interval and its one-sided limit, each at the level
 * of the setting. */
typedef struct scwi_sd_limits {
  scw_figure variance, sd, at_most;
  scw_interval interval;
} scwi_sd_limits;

/* Of the SD whose square is the sum of the terms. No limits (SCW_NO_SCATTER)
 * where all mean squares are 0. */
scw_status scwi_sd_of_terms(scw_context *context,
                            const scwi_limit_setting *setting,
                            const scwi_square_term *terms, size_t n,
                            scwi_sd_limits *out);

/* Every figure missing as `why`, which is also the state. */
scw_component scwi_no_component(scw_presence why, size_t groups, double level);

/* terms[0] is the component's own mean square with the coefficient 1/readings
 * in a group of it; the others, if any, take away what that would be without
 * the component. Shares are left to the caller. */
scw_status scwi_component_of(scw_context *context,
                             const scwi_limit_setting *setting,
                             const scwi_square_term *terms, size_t n,
                             size_t groups, scw_component *out);

/* sqrt(2) z((1+level)/2): two readings that differ by an SD of 1 each seldom
 * differ by more. */
scw_status scwi_limit_factor(scw_context *context, double level, double *out);

/* Fills in the shares of the variance of one reading, negative variances
 * counting 0 and missing components left out. Returns the SD of one reading.
 */
scw_figure scwi_share_out(scw_component *const *components, size_t n);

#endif
