/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "angle_advice.h"

#include <string.h>

#include "figure.h"
#include "scatterwise/gloss.h"

void scwi_see_gloss(scwi_best_angle *best, scw_figure gloss) {
  if (!scwi_present(gloss)) return;
  int degrees = scw_gloss_angle_for(gloss.value);
  if (!best->seen)
    best->degrees = degrees;
  else if (best->degrees != degrees)
    best->degrees = 0;
  best->seen = true;
}

scw_status scwi_angle_advice(scw_context *context, scwi_best_angle best,
                             const char *geometry, scwi_notes *notes) {
  bool other = best.degrees == 20 || best.degrees == 85;
  if (!other || strcmp(geometry, "60")) return SCW_OK;
  return scwi_note(context, notes, "geometry_advice",
                   "At 60 degrees this surface reads %s GU; %d degrees tells "
                   "such surfaces apart better (ISO 2813). A series stays at "
                   "one angle.",
                   best.degrees == 20 ? "above 70" : "below 10", best.degrees);
}
