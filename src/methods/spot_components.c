/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spot_components.h"

#include <stdlib.h>

#include "figure.h"
#include "memory.h"
#include "nested.h"

/* Squared; without scatter the limit is 0. */
static scw_figure limit_of(const scw_component *component) {
  scw_figure most = component->at_most;
  return scwi_figure(scwi_present(most) ? most.value * most.value : 0);
}

scw_status scwi_spot_components(scw_context *context, const double *x,
                                size_t spots, size_t repeats, double assurance,
                                scw_spot_components *out) {
  scw_figure few = scwi_missing(SCW_TOO_FEW);
  scwi_sample sample = {.n = spots * repeats, .x = x};
  uint32_t *spot;
  scw_nested found;
  *out = (scw_spot_components){spots, repeats, assurance, few, few, few, few};
  if (spots < 2 || repeats < 2) return SCW_OK;
  scw_status status = SCWI_ALLOCATE(context, sample.n, &spot);
  if (status != SCW_OK) return status;
  for (size_t i = 0; i < sample.n; i++)
    spot[i] = (uint32_t)(i / repeats);
  scwi_labels labels = {{[SCW_LEVEL_SPOT] = spot}};
  status = scwi_nested(context, &sample, &labels, assurance, NULL, &found);
  free(spot);
  if (status != SCW_OK) return status;
  const scw_component *between = &found.component[SCW_LEVEL_SPOT];
  const scw_component *within = &found.component[SCW_LEVEL_REPEAT];
  out->repeat = within->variance;
  out->spot = between->variance;
  out->repeat_upper = limit_of(within);
  out->spot_upper = limit_of(between);
  return SCW_OK;
}
