/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "place.h"

#include <math.h>
#include <stdlib.h>

#include "memory.h"
#include "place_figures.h"
#include "two_sample.h"

enum { NEIGHBOURS_FROM = 30 };

/* The mean of the places and its uncertainty as if they were independent. */
static scw_status plain_mean(scw_context *context, const scwi_places *places,
                             const scwi_place_options *options,
                             scw_estimate *out) {
  if (places->n < 2) {
    *out = scwi_no_estimate(places->n ? SCW_ONE_SPOT : SCW_NO_POSITIONS,
                            options->level);
    return SCW_OK;
  }
  scwi_sample sample = {.n = places->n, .x = places->w};
  double sd = scwi_moments_of(&sample).sd * places->scale;
  scwi_uncertainty u = scwi_mean_uncertainty(sd, places->n, options->step);
  scw_status status =
      scwi_estimate(context, places->middle, u, options->level, out);
  out->p = scwi_missing(SCW_NOT_COMPUTED); /* zero is no special mean */
  return status;
}

static void no_neighbours(const scwi_places *places, double level,
                          scw_place *out) {
  scw_presence why = places->n == 0 ? SCW_NO_POSITIONS : SCW_TOO_FEW;
  scw_figure none = scwi_missing(why);
  scw_estimate no_mean = scwi_no_estimate(why, level);
  scw_place_model no_model = {
      .state = why, .spots = places->n, .sd = none, .range = none,
      .nugget_share = none, .range_low = none, .range_high = none,
      .gain = none, .mean = no_mean, .effective_spots = none,
      .area_mean = no_mean};
  out->moran = (scw_moran){none, none, none, none, none};
  out->semivariogram = (scw_semivariogram){.state = why};
  out->model = out->model_about_plane = no_model;
  out->model_about_plane.with_plane = true;
}

/* Residuals where no plane can be fitted are the deviations from the mean. */
static scw_status neighbours(scw_context *context, const scwi_places *places,
                             const scwi_place_options *options,
                             const double *residual, scw_place *out) {
  size_t from = options->neighbours_from;
  no_neighbours(places, options->level, out);
  if (places->n < (from > 0 ? from : NEIGHBOURS_FROM)) return SCW_OK;
  scw_status status = scwi_moran(context, places, residual, &out->moran);
  if (status == SCW_OK)
    scwi_semivariogram(places, residual, &out->semivariogram);
  if (status == SCW_OK)
    status = scwi_place_model(context, places, places->w, false,
                              options->level, &out->model);
  if (status == SCW_OK)
    status = scwi_place_model(context, places, residual, true, options->level,
                              &out->model_about_plane);
  return status;
}

static scw_status all_parts(scw_context *context, const scwi_places *places,
                            const scwi_place_options *options,
                            double *residual, scw_place *out) {
  scwi_place_grid grid;
  scw_status status = scwi_place_grid_of(context, places, &grid);
  if (status == SCW_OK)
    status = scwi_gradient(context, places, options->level, &out->gradient,
                           residual);
  if (status == SCW_OK)
    status = scwi_edge(context, places, &grid, options->level, options->step,
                       &out->edge);
  if (status == SCW_OK) scwi_place_map(places, &grid, &out->map);
  if (status == SCW_OK)
    status = plain_mean(context, places, options, &out->plain);
  if (status == SCW_OK)
    status = neighbours(context, places, options, residual, out);
  scwi_place_grid_free(&grid);
  return status;
}

scw_status scwi_place(scw_context *context, const scw_place_spot *spots,
                      size_t n, const scwi_place_options *options,
                      scw_place *out) {
  scwi_places places;
  double *residual = NULL;
  *out = (scw_place){.given = n};
  scw_status status = scwi_places_of(context, spots, n, &places);
  if (status == SCW_OK) status = SCWI_ALLOCATE(context, places.n, &residual);
  if (status == SCW_OK) {
    *out = (scw_place){.given = n,
                       .unplaced = places.unplaced,
                       .merged = places.merged,
                       .used = places.n,
                       .span = places.span};
    status = all_parts(context, &places, options, residual, out);
  }
  if (status != SCW_OK) *out = (scw_place){.given = n};
  free(residual);
  scwi_places_free(&places);
  return status;
}
