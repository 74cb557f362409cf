/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Spots made ready for everything about place: those without a position left
 * out, those at the same place averaged, positions and means brought to a unit
 * in which nothing overflows. */
#ifndef SCWI_PLACE_SPOTS_H
#define SCWI_PLACE_SPOTS_H

#include "context.h"
#include "scatterwise/place.h"

/* u = (x - middle_x)/length, v = (y - middle_y)/length, w = (mean -
 * middle)/scale. The longer side of the rectangle around the spots runs from
 * -1 to 1; w has the mean 0 and is at most 2 in size. */
typedef struct scwi_places {
  size_t n;          /* places */
  double *u, *v, *w; /* one block, freed through u */
  double middle_x, middle_y, length; /* length 0: all at one place */
  double middle, scale;              /* scale 0: all means equal */
  double noise; /* what rounding of the means may leave in w */
  double half_u, half_v;             /* half sides of the rectangle */
  size_t given, unplaced, merged;
  scw_span span;
} scwi_places;

/* Two spots are at the same place when both positions agree to 1e-9 of the
 * longer side. n may be 0. Free with scwi_places_free, also after a failure. */
scw_status scwi_places_of(scw_context *context, const scw_place_spot *spots,
                          size_t n, scwi_places *out);
void scwi_places_free(scwi_places *places);

/* A grid: places in rows and columns, half of its places or more taken. */
typedef struct scwi_place_grid {
  size_t rows, columns; /* 0: no grid */
  size_t *row, *column; /* of each place; one block, freed through row */
} scwi_place_grid;
scw_status scwi_place_grid_of(scw_context *context, const scwi_places *places,
                              scwi_place_grid *out);
void scwi_place_grid_free(scwi_place_grid *grid);

#endif
