/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "places.h"

#include <math.h>
#include <stdlib.h>

#include "memory.h"
#include "studentised_range.h"

static bool is_judged(const scwi_entry *entry) {
  return entry->state == SCW_PRESENT && entry->u.u > 0;
}

/* Does a differ from b, among all of them? */
static scw_status differs(scw_context *context, scwi_studentised *range,
                          const scwi_entry *a, const scwi_entry *b,
                          double level, bool *out) {
  double p;
  scwi_uncertainty u = scwi_uncertainty_sum(a->u, b->u);
  double t = fabs(a->estimate - b->estimate) / u.u;
  scw_status status =
      scwi_studentised_upper(context, range, M_SQRT2 * t, u.df, &p);
  *out = !status && p < 1 - level;
  return status;
}

scw_status scwi_places(scw_context *context, const scwi_entry *entries,
                       size_t n, double level, scwi_place_range *out) {
  scwi_studentised_range *range;
  size_t judged = 0;
  for (size_t i = 0; i < n; i++) {
    out[i] = (scwi_place_range){1, n};
    judged += is_judged(&entries[i]);
  }
  if (judged < 2) return SCW_OK;
  scw_status status = SCWI_ALLOCATE(context, 1, &range);
  if (!status) status = scwi_studentised_range_of(context, judged, range);
  for (size_t i = 0; i < n && !status; i++)
    for (size_t j = i + 1; j < n && !status; j++) {
      bool apart = false;
      if (!is_judged(&entries[i]) || !is_judged(&entries[j])) continue;
      status = differs(context, &range->of, &entries[i], &entries[j], level,
                       &apart);
      bool i_better = entries[i].estimate > entries[j].estimate;
      if (!apart) continue;
      out[i_better ? i : j].high--;
      out[i_better ? j : i].low++;
    }
  free(range);
  return status;
}
