/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdlib.h>

#include "memory.h"
#include "place.h"
#include "place_figures.h"
#include "two_sample.h"

enum { FEWEST = 3 };

/* How far inside the hull a spot may lie and still be on it, in half sides of
 * the panel. */
#define ON_THE_HULL 1e-9

/* Twice the area of the triangle a, b, c: above 0 when c lies to the left. */
static double turn(const scwi_places *p, size_t a, size_t b, size_t c) {
  return (p->u[b] - p->u[a]) * (p->v[c] - p->v[a]) -
         (p->v[b] - p->v[a]) * (p->u[c] - p->u[a]);
}

/* Corners of the convex hull, counter-clockwise (monotone chain; places are
 * sorted by position). `corner` holds 2 n. */
static size_t corners(const scwi_places *p, size_t *corner) {
  size_t found = 0;
  for (size_t i = 0; i < p->n; i++) {
    while (found >= 2 && turn(p, corner[found - 2], corner[found - 1], i) <= 0)
      found--;
    corner[found++] = i;
  }
  size_t lower = found + 1;
  for (size_t i = p->n - 1; i-- > 0;) {
    while (found >= lower &&
           turn(p, corner[found - 2], corner[found - 1], i) <= 0)
      found--;
    corner[found++] = i;
  }
  return found - 1; /* the first corner closes the ring */
}

/* Marks the places on side a-b of the hull. */
static void mark_side(const scwi_places *p, size_t a, size_t b, char *outer) {
  double length = hypot(p->u[b] - p->u[a], p->v[b] - p->v[a]);
  for (size_t i = 0; i < p->n; i++)
    if (turn(p, a, b, i) <= ON_THE_HULL * length) outer[i] = 1;
}

static scw_status mark_hull(scw_context *context, const scwi_places *places,
                            char *outer) {
  size_t *corner;
  scw_status status = SCWI_ALLOCATE(context, 2 * places->n, &corner);
  if (status != SCW_OK) return status;
  size_t n = corners(places, corner);
  for (size_t k = 0; k < n; k++)
    mark_side(places, corner[k], corner[(k + 1) % n], outer);
  free(corner);
  return SCW_OK;
}

static void mark_ring(const scwi_places *places, const scwi_place_grid *grid,
                      char *outer) {
  for (size_t i = 0; i < places->n; i++)
    outer[i] = grid->row[i] == 0 || grid->row[i] + 1 == grid->rows ||
               grid->column[i] == 0 || grid->column[i] + 1 == grid->columns;
}

/* Moments of the marked places or of the others, in the unit of the means. */
static scwi_moments moments_of(const scwi_places *places, const char *outer,
                               char wanted, double *room) {
  size_t n = 0;
  for (size_t i = 0; i < places->n; i++)
    if (outer[i] == wanted) room[n++] = places->w[i];
  scwi_sample sample = {.n = n, .x = room};
  scwi_moments m = {0, 0, 0};
  if (n > 0) m = scwi_moments_of(&sample);
  if (m.sd <= 2 * places->noise) m.sd = 0;
  m.mean *= places->scale;
  m.sd *= places->scale;
  return m;
}

static scw_figure mean_figure(const scwi_places *places, scwi_moments m) {
  return m.n > 0 ? scwi_figure(places->middle + m.mean)
                 : scwi_missing(SCW_TOO_FEW);
}

static scw_status compare(scw_context *context, const scwi_places *places,
                          const char *outer, double level, double step,
                          scw_edge *out) {
  double *room;
  scw_status status = SCWI_ALLOCATE(context, places->n, &room);
  if (status != SCW_OK) return status;
  scwi_moments ring = moments_of(places, outer, 1, room);
  scwi_moments inside = moments_of(places, outer, 0, room);
  free(room);
  out->outer = ring.n;
  out->inner = inside.n;
  out->outer_mean = mean_figure(places, ring);
  out->inner_mean = mean_figure(places, inside);
  if (ring.n < FEWEST || inside.n < FEWEST) return SCW_OK;
  return scwi_welch(context, inside, ring, step, step, level,
                    &out->difference);
}

scw_status scwi_edge(scw_context *context, const scwi_places *places,
                     const scwi_place_grid *grid, double level, double step,
                     scw_edge *out) {
  bool area = places->span == SCW_SPAN_AREA;
  scw_presence why = places->n == 0 ? SCW_NO_POSITIONS
                     : area || places->n < 3 ? SCW_TOO_FEW
                                             : SCW_ON_ONE_LINE;
  *out = (scw_edge){.outer_mean = scwi_missing(why),
                    .inner_mean = scwi_missing(why),
                    .difference = scwi_no_estimate(why, level)};
  if (!area) return SCW_OK;
  char *outer;
  scw_status status = SCWI_ALLOCATE(context, places->n, &outer);
  if (status != SCW_OK) return status;
  out->rule = grid->rows > 0 ? SCW_EDGE_GRID : SCW_EDGE_HULL;
  if (grid->rows > 0)
    mark_ring(places, grid, outer);
  else
    status = mark_hull(context, places, outer);
  if (status == SCW_OK)
    status = compare(context, places, outer, level, step, out);
  free(outer);
  return status;
}
