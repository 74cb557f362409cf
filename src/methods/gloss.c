/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Gloss by Fresnel's equations. The differences in them are written out by
 * hand, s = sqrt(n^2 - sin^2): cos - s = (1 - n^2)/(cos + s) and
 * n^2 cos - s = (n^2 - 1)(cos^2 (n^2 + 1) - 1)/(n^2 cos + s), so that little
 * reflectance keeps all its digits. */
#include "scatterwise/gloss.h"

#include <math.h>
#include <stddef.h>

#include "context.h"
#include "number_text.h"
#include "roots.h"

/* Cosines of the angles, and the index up to which gloss rises. At 85 degrees
 * it turns at 1.927. */
static const struct angle {
  int degrees;
  double cosine, highest;
} angles[] = {{20, 0.93969262078590838405, 4},
              {60, 0.5, 4},
              {85, 0.08715574274765817356, 1.9}};
static const double least_index = 1, most_index = 4;

static scw_status find_angle(scw_context *context, int degrees,
                             const struct angle **out) {
  for (size_t i = 0; i < sizeof angles / sizeof *angles; i++)
    if (angles[i].degrees == degrees) {
      *out = &angles[i];
      return SCW_OK;
    }
  return scwi_fail(context, SCW_BAD_ARGUMENT,
                   "gloss at %d degrees; the angles of the scale are 20, 60 "
                   "and 85",
                   degrees);
}

static double reflectance(double n, double cosine) {
  double above = (n - 1) * (n + 1), c2 = cosine * cosine;
  double s = sqrt(above + c2);
  double across = above / ((cosine + s) * (cosine + s));
  double along = n * n * cosine + s;
  along = above * (c2 * (n * n + 1) - 1) / (along * along);
  return (across * across + along * along) / 2;
}

static double gloss(double n, double cosine) {
  return 100 * reflectance(n, cosine) /
         reflectance(SCW_GLOSS_REFERENCE_INDEX, cosine);
}

scw_status scw_gloss_of_index(scw_context *context, double index, int angle,
                              double *out) {
  char text[SCWI_NUMBER_SIZE];
  const struct angle *at = NULL;
  *out = 0;
  scw_status status = find_angle(context, angle, &at);
  if (status) return status;
  if (!(index >= least_index && index <= most_index))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a refractive index of %s; it must lie between 1 and 4",
                     scwi_number_text(index, text));
  *out = gloss(index, at->cosine);
  return SCW_OK;
}

typedef struct wanted {
  double gloss, cosine;
} wanted;

static double missed(double index, void *parameters) {
  const wanted *w = parameters;
  return gloss(index, w->cosine) - w->gloss;
}

scw_status scw_index_of_gloss(scw_context *context, double value, int angle,
                              double *out) {
  char text[SCWI_NUMBER_SIZE], most[SCWI_NUMBER_SIZE];
  const struct angle *at = NULL;
  *out = 0;
  scw_status status = find_angle(context, angle, &at);
  if (status) return status;
  double highest = gloss(at->highest, at->cosine);
  if (!(value >= 0 && value <= highest))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a gloss of %s GU; at %d degrees a polished surface has "
                     "0 to %s GU",
                     scwi_number_text(value, text), angle,
                     scwi_number_text(highest, most));
  *out = value > 0 ? at->highest : least_index;
  if (value == 0 || value == highest) return SCW_OK;
  wanted w = {value, at->cosine};
  return scwi_root(context, missed, &w, least_index, at->highest, 1e-15, out);
}

int scw_gloss_angle_for(double gloss_at_60) {
  return gloss_at_60 > 70 ? 20 : gloss_at_60 < 10 ? 85 : 60;
}
