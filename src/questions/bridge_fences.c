/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Fences: what changed between old results and new ones, each with its day. */
#include <stdlib.h>
#include <string.h>

#include "bridge_inside.h"
#include "calendar.h"
#include "memory.h"
#include "text.h"

static scw_status add(scw_context *context, const char *date,
                      const char *reason, bool found, scw_bridge_result *out) {
  scw_found_fence *to = &out->fence[out->n_fences];
  scw_status status =
      scwi_copy_text(context, reason, strlen(reason), &to->reason);
  if (status) return status;
  memcpy(to->date, date, strlen(date) + 1);
  to->found = found;
  out->n_fences++;
  return SCW_OK;
}

static scw_status add_given(scw_context *context,
                            const scw_bridge_fence *fence,
                            scw_bridge_result *out) {
  long day = 0;
  char date[SCWI_DATE_SIZE];
  if (!fence->reason || !fence->reason[strspn(fence->reason, " ")])
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "the fence of %.40s has no reason; say what changed on "
                     "that day",
                     fence->date);
  switch (scwi_date_read(fence->date, &day)) {
    case SCWI_DATE_OK:
      scwi_date_text(day, date);
      return add(context, date, fence->reason, false, out);
    case SCWI_DATE_TWO:
    case SCWI_DATE_SHORT_YEAR:
      return scwi_fail(context, SCW_BAD_ARGUMENT,
                       "the fence's day '%.40s' could be two dates; write it "
                       "year first, as 2026-03-14",
                       fence->date);
    default:
      return scwi_fail(context, SCW_BAD_ARGUMENT,
                       "the fence's day '%.40s' is no date; write it as "
                       "2026-03-14",
                       fence->date);
  }
}

/* Readings of an item where they are the same for all, else 0. */
static size_t readings_of(const scw_bridge_result *result, bool of_new) {
  size_t common = 0;
  for (size_t k = 0; k < result->n_items; k++) {
    const scw_bridge_item *item = &result->item[k];
    size_t n = of_new ? item->n_new : item->n_old;
    if (!item->n_old || !item->n_new) continue;
    if (common && n != common) return 0;
    common = n;
  }
  return common;
}

static scw_status find_readings(scw_context *context, bool named,
                                scw_bridge_result *out) {
  scwi_text text = {0};
  char *reason = NULL;
  size_t before = readings_of(out, false), after = readings_of(out, true);
  if (!named || !before || !after || before == after) return SCW_OK;
  scwi_text_format(&text, "readings of an item went from %zu to %zu", before,
                   after);
  scw_status status = scwi_text_take(context, &text, &reason);
  if (!status) status = add(context, "", reason, true, out);
  free(reason);
  return status;
}

/* By day, those without one last; equal days stay as given. */
static void sort(scw_found_fence *fence, size_t n) {
  for (size_t i = 1; i < n; i++)
    for (size_t j = i; j > 0 && strcmp(fence[j - 1].date, fence[j].date) > 0;
         j--) {
      scw_found_fence swap = fence[j];
      fence[j] = fence[j - 1];
      fence[j - 1] = swap;
    }
}

scw_status scwi_bridge_fences(scw_context *context,
                              const scwi_bridge_frame *frame,
                              scw_bridge_result *out) {
  const scw_bridge_options *options = frame->options;
  scw_status status =
      SCWI_ALLOCATE(context, options->n_fence + 2, &out->fence);
  for (size_t i = 0; i < options->n_fence && !status; i++)
    status = add_given(context, &options->fence[i], out);
  if (status) return status;
  sort(out->fence, out->n_fences);
  if (out->pairs == 0)
    status = add(context, "", "no product was run on both methods", true, out);
  return status ? status : find_readings(context, frame->named, out);
}
