/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "workings.h"

#include <stdlib.h>

#include "memory.h"
#include "quantiles.h"

typedef struct placed {
  int64_t tick; /* 0 where there are none */
  double x;
  size_t place;
} placed;

static int by_reading(const void *left, const void *right) {
  const placed *a = left, *b = right;
  if (a->tick != b->tick) return a->tick < b->tick ? -1 : 1;
  if (a->x < b->x || a->x > b->x) return a->x < b->x ? -1 : 1;
  return a->place < b->place ? -1 : 1;
}

static scw_status sort_readings(scw_context *context, const scwi_sample *s,
                                size_t *place) {
  placed *all;
  scw_status status = SCWI_ALLOCATE(context, s->n, &all);
  if (status != SCW_OK) return status;
  for (size_t i = 0; i < s->n; i++)
    all[i] = s->ticks ? (placed){s->ticks[i], 0, i} : (placed){0, s->x[i], i};
  qsort(all, s->n, sizeof *all, by_reading);
  for (size_t k = 0; k < s->n; k++)
    place[k] = all[k].place;
  free(all);
  return SCW_OK;
}

static void fill(scwi_workings *w) {
  for (size_t i = 0; i < w->n; i++)
    w->deviation[i] = scwi_deviation(&w->centre, i);
  w->origin = w->place[(w->n - 1) / 2];
  size_t rank = 0;
  for (size_t k = 0; k < w->n; k++) {
    if (k && scwi_sample_compare(w->sample, w->place[k - 1], w->place[k]))
      rank++;
    w->rank[w->place[k]] = rank;
    w->ascending[k] = scwi_distance(&w->centre, w->place[k], w->origin);
  }
  w->distinct = rank + 1;
  w->middle = scwi_middle(w->ascending, w->n);
  w->scaled_mad = scwi_middle_distance(w->ascending, w->n, w->middle);
}

scw_status scwi_workings_of(scw_context *context, const scwi_sample *sample,
                            scwi_workings *out) {
  *out = (scwi_workings){
      .sample = sample, .n = sample->n, .centre = scwi_centre_of(sample)};
  scw_status status = SCWI_ALLOCATE(context, out->n, &out->deviation);
  if (status == SCW_OK)
    status = SCWI_ALLOCATE(context, out->n, &out->ascending);
  if (status == SCW_OK) status = SCWI_ALLOCATE(context, out->n, &out->place);
  if (status == SCW_OK) status = SCWI_ALLOCATE(context, out->n, &out->rank);
  if (status == SCW_OK) status = sort_readings(context, sample, out->place);
  if (status != SCW_OK) {
    scwi_workings_free(out);
    return status;
  }
  out->scaled_sd = scwi_scaled_sd(&out->centre);
  fill(out);
  return SCW_OK;
}

void scwi_workings_free(scwi_workings *workings) {
  free(workings->deviation);
  free(workings->ascending);
  free(workings->place);
  free(workings->rank);
  *workings = (scwi_workings){0};
}
