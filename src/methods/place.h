/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Everything about place in one call. */
#ifndef SCWI_PLACE_H
#define SCWI_PLACE_H

#include "context.h"
#include "place_spots.h"
#include "scatterwise/place.h"

typedef struct scwi_place_options {
  double level;     /* of intervals */
  double step;      /* display step of the readings; 0: continuous */
  size_t neighbours_from; /* places from which Moran's I, the semivariogram and
                             the models are worked out; 0: 30 */
} scwi_place_options;

/* Spots in any order; those with a position or mean that is no finite number
 * are counted in `unplaced` and left out. n may be 0: then everything is
 * missing as SCW_NO_POSITIONS. Time: pairs of places, and for the models the
 * cube of their number up to SCWI_PLACE_MOST. */
scw_status scwi_place(scw_context *context, const scw_place_spot *spots,
                      size_t n, const scwi_place_options *options,
                      scw_place *out);

/* The parts, for those who need one alone. */

/* Plane, or line where the places lie along x or y. SCW_TOO_FEW below 4 places
 * (line: 3); SCW_ON_ONE_LINE on a slanted line; SCW_NO_SCATTER where all means
 * are equal or lie on the plane exactly. `residual` (n of them, or null) gets
 * what is left, in the unit of places->w; the deviations from the mean where
 * no plane is fitted. */
scw_status scwi_gradient(scw_context *context, const scwi_places *places,
                         double level, scw_gradient *out, double *residual);

/* The plane's columns: 3 over an area, 2 (a constant and the position) along x
 * or y, else 1; and the entry of place i. */
size_t scwi_plane_columns(scw_span span);
double scwi_plane_entry(const scwi_places *places, size_t i, size_t column);

/* Outer ring less inside. */
scw_status scwi_edge(scw_context *context, const scwi_places *places,
                     const scwi_place_grid *grid, double level, double step,
                     scw_edge *out);

/* Moran's I of the residuals that scwi_gradient leaves. Moments: of residuals
 * under normality, and under randomisation (Cliff & Ord 1981). SCW_TOO_FEW
 * below 4 places, or where the plane leaves fewer than 2 df; SCW_NO_SCATTER
 * where nothing is left, or all places are equally far apart. */
scw_status scwi_moran(scw_context *context, const scwi_places *places,
                      const double *residual, scw_moran *out);

/* Classical semivariogram (Matheron) of `residual`, in the units of the
 * positions and of the means. */
void scwi_semivariogram(const scwi_places *places, const double *residual,
                        scw_semivariogram *out);

enum { SCWI_PLACE_MOST = 300 }; /* places of a model: more are too many */

/* Exponential correlation with nugget by restricted maximum likelihood.
 * `residual` are the places' means about what the model has for a mean: w, or
 * what scwi_gradient leaves. SCW_TOO_FEW below 8 places. */
scw_status scwi_place_model(scw_context *context, const scwi_places *places,
                            const double *residual, bool with_plane,
                            double level, scw_place_model *out);

/* The panel in rows and columns. */
void scwi_place_map(const scwi_places *places, const scwi_place_grid *grid,
                    scw_place_map *out);

#endif
