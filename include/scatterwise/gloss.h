/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The gloss scale at 20, 60 and 85 degrees, and which angle tells most. */
#ifndef SCATTERWISE_GLOSS_H
#define SCATTERWISE_GLOSS_H

#include "scatterwise/context.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Polished glass of this refractive index is 100 GU at every angle (ISO 2813,
 * ASTM D523). */
#define SCW_GLOSS_REFERENCE_INDEX 1.567

/* Gloss in GU of a polished surface that absorbs nothing, of this refractive
 * index, at an angle of 20, 60 or 85 degrees, by Fresnel's equations for
 * unpolarised light: its reflectance over that of the reference. The index may
 * be 1 to 4. SCW_BAD_ARGUMENT for other angles or indices. */
SCW_API scw_status scw_gloss_of_index(scw_context *context, double index,
                                      int angle, double *out);

/* The index of a polished surface of this gloss: the inverse, from 0 GU up to
 * the gloss of index 4 (at 85 degrees of index 1.9, where gloss rises no
 * further). SCW_BAD_ARGUMENT beyond. */
SCW_API scw_status scw_index_of_gloss(scw_context *context, double gloss,
                                      int angle, double *out);

/* The angle that tells surfaces of this gloss at 60 degrees apart best (ISO
 * 2813): 20 above 70 GU, 85 below 10 GU, else 60. */
SCW_API int scw_gloss_angle_for(double gloss_at_60);

#ifdef __cplusplus
}
#endif
#endif
