/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Scatter on levels within each other by restricted maximum likelihood. */
#ifndef SCWI_REML_H
#define SCWI_REML_H

#include "nested.h"

/* The levels present are those of scwi_nested. Projected Newton search on the
 * variances (>= 0) with exact first and second derivatives of the likelihood,
 * from a recursion over the groups: O(groups) for each step. */
scw_status scwi_reml(scw_context *context, const scwi_sample *sample,
                     const scwi_level_labels *labels, double level, scw_reml *out);

#endif
