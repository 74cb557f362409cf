/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The means of a panel's spots and where they lie. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "figure.h"
#include "memory.h"
#include "panel_part.h"
#include "panel_places.h"
#include "place.h"

/* The mean of one unit, and the spot it is of. */
typedef struct unit_mean {
  uint32_t spot;
  scw_place_spot at;
} unit_mean;

static int by_spot(const void *left, const void *right) {
  const unit_mean *a = left, *b = right;
  return (a->spot > b->spot) - (a->spot < b->spot);
}

static unit_mean mean_of(const scwi_panel_readings *readings,
                         const scwi_panel_units *units, size_t u) {
  const size_t *order = units->order;
  size_t first = units->first[u], end = units->first[u + 1];
  unit_mean out = {readings->spot[order[first]],
                   {readings->along[order[first]],
                    readings->across[order[first]], 0}};
  double start = readings->x[order[first]], sum = 0;
  for (size_t i = first; i < end; i++) sum += readings->x[order[i]] - start;
  out.at.mean = start + sum / (double)(end - first);
  return out;
}

/* Spots read in several sessions count by the mean of these. */
static scw_status spots_of(scw_context *context,
                           const scwi_panel_readings *readings,
                           const scwi_panel_units *units,
                           scw_place_spot **out, size_t *n) {
  unit_mean *all = NULL;
  scw_status status = SCWI_ALLOCATE(context, units->n, &all);
  if (!status) status = SCWI_ALLOCATE(context, units->n, out);
  *n = 0;
  if (!status) {
    for (size_t u = 0; u < units->n; u++) all[u] = mean_of(readings, units, u);
    if (units->n_sessions > 1) qsort(all, units->n, sizeof *all, by_spot);
    for (size_t u = 0, end; u < units->n; u = end) {
      scw_place_spot spot = all[u].at;
      double sum = 0;
      for (end = u; end < units->n && all[end].spot == all[u].spot; end++)
        sum += all[end].at.mean - all[u].at.mean;
      spot.mean += sum / (double)(end - u);
      (*out)[(*n)++] = spot;
    }
  }
  free(all);
  return status;
}

/* Row 1 or A belongs to the top, as in a table. */
static void put_first_row_on_top(scw_place_map *map) {
  for (size_t low = 0; low < map->rows / 2; low++) {
    size_t high = map->rows - 1 - low;
    double y = map->y[low];
    map->y[low] = map->y[high];
    map->y[high] = y;
    for (size_t c = 0; c < map->columns; c++) {
      double *a = &map->mean[low * map->columns + c];
      double *b = &map->mean[high * map->columns + c], mean = *a;
      *a = *b;
      *b = mean;
    }
  }
}

/* Evidence needed before neighbours, or a slope, count. */
static const double significance = 0.05;

static bool is_small(scw_figure p) {
  return scwi_present(p) && p.value < significance;
}

static void take_neighbours(scw_panel_part *out) {
  const scw_place *place = out->place;
  const scw_moran *moran = &place->moran;
  scw_presence none =
      scwi_present(moran->p) ? SCW_NO_DEPENDENCE : moran->p.state;
  out->neighbours =
      is_small(moran->p) && moran->i.value > moran->expected.value;
  out->about_plane = is_small(place->gradient.p);
  const scw_place_model *model =
      out->about_plane ? &place->model_about_plane : &place->model;
  out->range = out->neighbours ? model->range : scwi_missing(none);
  out->effective_spots =
      out->neighbours ? model->effective_spots : scwi_missing(none);
  if (out->neighbours) out->neighbours_mean = model->mean;
}

scw_status scwi_panel_place(scw_context *context, const scwi_panel_frame *frame,
                            const scwi_panel_readings *readings,
                            const scwi_panel_units *units,
                            scw_panel_part *out) {
  scw_place_spot *spots = NULL;
  size_t n = 0;
  scwi_place_options options = {.level = frame->settings->level,
                                .step = frame->facts->step.size};
  if (out->positions == SCW_POSITIONS_NONE || units->n_panels > 1)
    return SCW_OK;
  bool xy = out->positions == SCW_POSITIONS_XY;
  scw_status status =
      scwi_copy_text(context, xy ? frame->length_unit : "",
                     xy ? strlen(frame->length_unit) : 0, &out->length_unit);
  if (!status) status = spots_of(context, readings, units, &spots, &n);
  if (!status) status = SCWI_ALLOCATE(context, 1, &out->place);
  if (!status) status = scwi_place(context, spots, n, &options, out->place);
  if (!status) take_neighbours(out);
  if (!status && !xy) put_first_row_on_top(&out->place->map);
  free(spots);
  return status;
}
