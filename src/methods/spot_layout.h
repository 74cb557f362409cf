/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the spots go on a rectangle: a regular grid, one drawn in each of as
 * many equal areas, or spread as far apart as they go. */
#ifndef SCWI_SPOT_LAYOUT_H
#define SCWI_SPOT_LAYOUT_H

#include <stdbool.h>

#include "context.h"
#include "random.h"

/* A rectangle from (0, 0), in any unit; both sides > 0. */
typedef struct scwi_rectangle {
  double width, height;
} scwi_rectangle;

/* n areas of equal size, in rows (or columns) of nearly the same number: the
 * arrangement whose narrowest area is widest. Area i is that of spot i. */
typedef struct scwi_strata {
  scwi_rectangle field;
  size_t n, rows;
  bool upright; /* columns of areas instead of rows */
} scwi_strata;

typedef struct scwi_area {
  double left, right, low, high;
} scwi_area;

scwi_strata scwi_strata_of(scwi_rectangle field, size_t n);
scwi_area scwi_area_of(const scwi_strata *strata, size_t i);

/* Each spot in the middle of its own area. */
void scwi_grid_spots(const scwi_strata *strata, double *x, double *y);

/* Each spot drawn in its own area, at a whole multiple of the unit of the
 * field (so no rounding decides). */
void scwi_random_spots(const scwi_strata *strata, scwi_random *random,
                       double *x, double *y);

/* Numbers the spots anew along a short path: the rows of the areas to and fro,
 * from the origin on. */
void scwi_walk_spots(const scwi_strata *strata, double *x, double *y);

/* Smallest distance between two spots; infinity for one. */
double scwi_nearest(const double *x, const double *y, size_t n);

/* The largest distance that is found at which the spots lie from each other
 * and, without `to_border`, half of it from the border: equal discs without
 * overlap in the field. The same spots every time. At least as far apart as
 * the best square or staggered arrangement; from there, and from up to 150 scattered
 * starts for few spots, uphill on a smoothed smallest distance (after Nurmela
 * & Ostergard 1997, Discrete Comput. Geom. 18, 111-120, from memory). n >= 1;
 * beyond 200 spots the arrangement is left as it is. */
scw_status scwi_spread_spots(scw_context *context, scwi_rectangle field,
                             bool to_border, size_t n, double *x, double *y);

#endif
