/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bare panels and tiles read by both methods: do the baselines agree? */
#include <stdlib.h>

#include "bridge_inside.h"
#include "equivalence.h"
#include "figure.h"
#include "memory.h"
#include "moments.h"
#include "two_sample.h"
#include "verdict.h"

static bool counts(const scw_bridge_item *item) {
  return item->baseline && item->n_old && item->n_new;
}

static void count(const scw_bridge_result *result, scw_bridge_baselines *out) {
  for (size_t k = 0; k < result->n_items; k++) {
    const scw_bridge_item *item = &result->item[k];
    if (!counts(item)) continue;
    out->items++;
    out->n_old += item->n_old;
    out->n_new += item->n_new;
  }
}

/* Several items: the item is the unit. */
static scw_status by_item(scw_context *context, const scwi_bridge_frame *frame,
                          const scw_bridge_result *result,
                          scw_bridge_baselines *out) {
  double *d = NULL;
  size_t n = 0;
  scw_status status = SCWI_ALLOCATE(context, out->items, &d);
  for (size_t k = 0; k < result->n_items && !status; k++)
    if (counts(&result->item[k])) d[n++] = result->item[k].difference.value;
  scwi_sample sample = {.n = n, .x = d, .step = frame->facts->step};
  scwi_display display = {.step = frame->facts->step.size};
  if (!status)
    status = scwi_paired(context, &sample, display, result->settings.level,
                         &out->difference);
  free(d);
  return status;
}

static scwi_moments moments_of(const scwi_bridge_side *side) {
  double df = side->n > 1 ? (double)(side->n - 1) : 1;
  return (scwi_moments){side->n, side->mean, sqrt(side->squares / df)};
}

/* One item: its readings by the one method beside those by the other. */
static scw_status by_reading(scw_context *context,
                             const scwi_bridge_frame *frame,
                             const scw_bridge_result *result,
                             scw_bridge_baselines *out) {
  double step = frame->facts->step.size;
  for (size_t k = 0; k < result->n_items; k++)
    if (counts(&result->item[k]))
      return scwi_welch(context, moments_of(&frame->side[0][k]),
                        moments_of(&frame->side[1][k]), step, step,
                        result->settings.level, &out->difference);
  return SCW_OK;
}

scw_status scwi_bridge_baselines_of(scw_context *context,
                                    const scwi_bridge_frame *frame,
                                    scw_bridge_result *out) {
  scw_bridge_baselines *to = &out->baselines;
  scw_status status = SCW_OK;
  to->difference =
      scwi_bare_estimate(0, SCW_NOT_COMPUTED, out->settings.level);
  to->difference.estimate = scwi_missing(SCW_NOT_COMPUTED);
  count(out, to);
  to->paired = to->items > 1;
  if (to->paired)
    status = by_item(context, frame, out, to);
  else if (to->items)
    status = by_reading(context, frame, out, to);
  to->verdict = scwi_verdict(to->difference.interval, out->margin);
  to->tost = scwi_tost(&to->difference, out->margin);
  return status;
}
