/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Scatter of readings on levels within each other, from mean squares. */
#ifndef SCWI_NESTED_H
#define SCWI_NESTED_H

#include "large_sample.h"
#include "tree.h"

/* Balanced: closed-form mean squares, exact chi-square interval at the lowest
 * level, modified large sample above it. Unbalanced: mean squares of unweighted
 * means. n >= 1. `memo` (may be null) keeps limits that depend on the design
 * alone from one call to the next. Cost: sorting where the labels are not in
 * order, then O(n). */
scw_status scwi_nested(scw_context *context, const scwi_sample *sample,
                       const scwi_level_labels *labels, double level,
                       scwi_limits_memo *memo, scw_nested *out);

#endif
