/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "many_to_one.h"

#include <math.h>
#include <stdlib.h>

#include "max_t.h"
#include "memory.h"

typedef struct family {
  scwi_entry *entry;
  double *lambda;
  scwi_max_t *largest;
} family;

static bool is_judged(const scw_estimate *own) {
  return own->interval.state == SCW_PRESENT;
}

static scw_status differences(scw_context *context, const family *f, size_t n,
                              size_t control, bool equal_sd, double level,
                              scwi_adjusted *out, size_t *judged) {
  const scwi_entry *one = &f->entry[control];
  scw_status status = SCW_OK;
  *judged = 0;
  for (size_t i = 0; i < n && !status; i++) {
    out[i] = (scwi_adjusted){0};
    if (i == control) continue;
    status = scwi_entry_difference(context, &f->entry[i], one, equal_sd, level,
                                   &out[i].own);
    if (status || !is_judged(&out[i].own)) continue;
    f->lambda[(*judged)++] = one->u.u / hypot(one->u.u, f->entry[i].u.u);
  }
  return status;
}

scw_status scwi_many_to_one(scw_context *context, const scwi_entry *entries,
                            size_t n, size_t control, bool equal_sd,
                            double level, scwi_adjusted *out) {
  family f = {0};
  size_t judged = 0;
  scw_status status = SCWI_ALLOCATE(context, n, &f.entry);
  if (!status) status = SCWI_ALLOCATE(context, n, &f.lambda);
  if (!status) status = SCWI_ALLOCATE(context, 1, &f.largest);
  for (size_t i = 0; i < n && !status; i++) f.entry[i] = entries[i];
  if (!status && equal_sd) scwi_pool_entries(entries, n, f.entry);
  if (!status)
    status = differences(context, &f, n, control, equal_sd, level, out,
                         &judged);
  if (!status && judged)
    status = scwi_max_t_of(context, f.lambda, judged, f.largest);
  for (size_t i = 0; i < n && !status; i++) {
    scw_estimate own = out[i].own;
    if (i != control)
      status =
          scwi_adjust(context, &f.largest->of, 1, &own, level, &out[i]);
  }
  free(f.entry);
  free(f.lambda);
  free(f.largest);
  return status;
}
