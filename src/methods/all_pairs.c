/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "all_pairs.h"

#include <math.h>
#include <stdlib.h>

#include "memory.h"
#include "studentised_range.h"

static scw_status judge(scw_context *context, const scwi_entry *entry, size_t n,
                        bool equal_sd, double level,
                        scwi_studentised_range *range, scwi_adjusted *out) {
  scw_status status = SCW_OK;
  for (size_t i = 0; i < n && !status; i++)
    for (size_t j = i + 1; j < n && !status; j++) {
      scw_estimate own;
      status = scwi_entry_difference(context, &entry[i], &entry[j], equal_sd,
                                     level, &own);
      if (!status)
        status = scwi_adjust(context, &range->of, M_SQRT2, &own, level,
                             &out[scwi_pair_place(i, j, n)]);
    }
  return status;
}

scw_status scwi_all_pairs(scw_context *context, const scwi_entry *entries,
                          size_t n, bool equal_sd, double level,
                          scwi_adjusted *out) {
  scwi_entry *entry = NULL;
  scwi_studentised_range *range = NULL;
  size_t judged = 0;
  scw_status status = SCWI_ALLOCATE(context, n, &entry);
  if (!status) status = SCWI_ALLOCATE(context, 1, &range);
  for (size_t i = 0; i < n && !status; i++) entry[i] = entries[i];
  if (!status && equal_sd) scwi_pool_entries(entries, n, entry);
  for (size_t i = 0; i < n && !status; i++)
    judged += entry[i].state == SCW_PRESENT;
  if (!status)
    status = scwi_studentised_range_of(context, judged < 2 ? 2 : judged, range);
  if (!status)
    status = judge(context, entry, n, equal_sd, level, range, out);
  free(entry);
  free(range);
  return status;
}
