/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Scatter of readings on levels within each other, from mean squares. */
#ifndef SCWI_NESTED_H
#define SCWI_NESTED_H

#include "context.h"
#include "large_sample.h"
#include "sample.h"
#include "scatterwise/components.h"

/* Readings and where they were taken: label[level][i] is a small number
 * standing for the panel, session or spot of reading i, null where the file has
 * no such column. A label counts within the level above: spot 1 of panel A is
 * not spot 1 of panel B. Readings under the same labels are repeats; the order
 * of readings does not matter. label[SCW_LEVEL_REPEAT] is not looked at. */
typedef struct scwi_labels {
  const uint32_t *label[SCW_LEVEL_COUNT];
} scwi_labels;

/* Balanced: closed-form mean squares, exact chi-square interval at the lowest
 * level, modified large sample above it. Unbalanced: mean squares of unweighted
 * means. n >= 1. `memo` (may be null) keeps limits that depend on the design
 * alone from one call to the next. Cost: sorting, then O(n). */
scw_status scwi_nested(scw_context *context, const scwi_sample *sample,
                       const scwi_labels *labels, double level,
                       scwi_limits_memo *memo, scw_nested *out);

#endif
