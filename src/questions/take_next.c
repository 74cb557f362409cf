/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where to read next: down the list of spots, else after the baseline. */
#include <stdlib.h>

#include "memory.h"
#include "table.h"
#include "take_inside.h"

/* How often each spot has been read, by its label; readings taken again count
 * with those they replace. */
static scw_status count_spots(scw_context *context, const scw_take *take,
                              size_t **out) {
  scw_status status = SCWI_ALLOCATE(context, take->table->labels.n + 1, out);
  for (size_t i = 0; i < take->n_taken && !status; i++) {
    const scwi_taken *item = &take->taken[i];
    if (!item->gone && !item->replaces && item->spot)
      (*out)[item->reading.spot]++;
  }
  return status;
}

static void down_the_list(const scw_take *take, size_t *read,
                          const char **spot, size_t *left) {
  for (size_t i = 0; i < take->n_places; i++) {
    size_t *had = &read[take->place_label[i]];
    if (*had) {
      --*had; /* this place has had its reading */
      continue;
    }
    if (!*spot) *spot = take->place[i].spot;
    ++*left;
  }
}

/* In the order in which the baseline first comes to its spots. */
static void after_the_baseline(const scw_take *take, size_t *read,
                               const char **spot, size_t *left) {
  for (size_t i = 0; i < take->n_before; i++) {
    int32_t label = scw_table_readings(take->table)[take->before[i]].spot;
    if (label == SCW_NO_LABEL || read[label]++) continue;
    if (!*spot) *spot = scw_table_label(take->table, label);
    ++*left;
  }
}

scw_status scwi_take_next(scw_context *context, const scw_take *take,
                          const char **spot, size_t *left) {
  size_t *read = NULL;
  *spot = NULL;
  *left = 0;
  if (!take->form.spots) return SCW_OK;
  scw_status status = count_spots(context, take, &read);
  if (!status && take->n_places)
    down_the_list(take, read, spot, left);
  else if (!status && take->spots_before)
    after_the_baseline(take, read, spot, left);
  free(read);
  return status;
}
