/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Place on a panel as JSON. */
#include <math.h>

#include "figure.h"
#include "json_panel.h"

static scwi_json *gradient_of(const scw_gradient *found) {
  scwi_json *to = scwi_json_object();
  scwi_json_figure(to, "x", found->x.estimate);
  scwi_json_ends(to, "x_low", "x_high", found->x.interval);
  scwi_json_figure(to, "y", found->y.estimate);
  scwi_json_ends(to, "y_low", "y_high", found->y.interval);
  scwi_json_figure(to, "f", found->f);
  scwi_json_figure(to, "df1", found->df1);
  scwi_json_figure(to, "df2", found->df2);
  scwi_json_figure(to, "p", found->p);
  scwi_json_figure(to, "rise", found->rise);
  scwi_json_figure(to, "sd_about", found->sd_about);
  return to;
}

static scwi_json *edge_of(const scw_edge *found) {
  scwi_json *to = scwi_json_estimate_of(&found->difference);
  scwi_json_whole(to, "outer", found->outer);
  scwi_json_whole(to, "inner", found->inner);
  scwi_json_figure(to, "outer_mean", found->outer_mean);
  scwi_json_figure(to, "inner_mean", found->inner_mean);
  scwi_json_figure(to, "p", found->difference.p);
  return to;
}

static scwi_json *moran_of(const scw_moran *found) {
  scwi_json *to = scwi_json_object();
  scwi_json_figure(to, "i", found->i);
  scwi_json_figure(to, "expected", found->expected);
  scwi_json_figure(to, "sd", found->sd);
  scwi_json_figure(to, "p", found->p);
  return to;
}

static scwi_json *semivariogram_of(const scw_semivariogram *found) {
  scwi_json *all = scwi_json_array();
  for (size_t i = 0; found->state == SCW_PRESENT && i < found->n_bins; i++) {
    scwi_json *bin = scwi_json_object();
    scwi_json_number(bin, "distance", found->bins[i].distance);
    scwi_json_number(bin, "semivariance", found->bins[i].semivariance);
    scwi_json_whole(bin, "pairs", found->bins[i].pairs);
    scwi_json_add(all, NULL, bin);
  }
  return all;
}

static scwi_json *model_of(const scw_place_model *found) {
  scwi_json *to = scwi_json_object();
  scwi_json_figure(to, "sd", found->sd);
  scwi_json_figure(to, "range", found->range);
  scwi_json_figure(to, "range_low", found->range_low);
  scwi_json_figure(to, "range_high", found->range_high);
  scwi_json_figure(to, "nugget_share", found->nugget_share);
  scwi_json_figure(to, "gain", found->gain);
  scwi_json_figure(to, "effective_spots", found->effective_spots);
  scwi_json_add(to, "mean", scwi_json_estimate_of(&found->mean));
  scwi_json_add(to, "area_mean", scwi_json_estimate_of(&found->area_mean));
  return to;
}

static void add_axis(scwi_json *to, const char *key, const double *at,
                     size_t n) {
  scwi_json *all = scwi_json_array();
  for (size_t i = 0; i < n; i++) scwi_json_number(all, NULL, at[i]);
  scwi_json_add(to, key, all);
}

/* Row after row, as y lists them. */
static scwi_json *map_of(const scw_place_map *found) {
  scwi_json *to = scwi_json_object(), *rows = scwi_json_array();
  add_axis(to, "x", found->x, found->columns);
  add_axis(to, "y", found->y, found->rows);
  for (size_t r = 0; r < found->rows; r++) {
    scwi_json *row = scwi_json_array();
    for (size_t c = 0; c < found->columns; c++) {
      double mean = found->mean[r * found->columns + c];
      if (isnan(mean))
        scwi_json_null(row, NULL);
      else
        scwi_json_number(row, NULL, mean);
    }
    scwi_json_add(rows, NULL, row);
  }
  scwi_json_add(to, "mean", rows);
  return to;
}

scwi_json *scwi_json_place(const scw_panel_part *part) {
  const scw_place *place = part->place;
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "positions", scw_positions_code(part->positions));
  scwi_json_text(to, "length_unit", part->length_unit);
  scwi_json_whole(to, "spots", place->used);
  scwi_json_whole(to, "unplaced", place->unplaced);
  scwi_json_whole(to, "merged", place->merged);
  scwi_json_add(to, "gradient", gradient_of(&place->gradient));
  scwi_json_add(to, "edge", edge_of(&place->edge));
  scwi_json_add(to, "moran", moran_of(&place->moran));
  scwi_json_figure(to, "range", part->range);
  scwi_json_figure(to, "effective_spots", part->effective_spots);
  scwi_json_add(to, "plain", scwi_json_estimate_of(&place->plain));
  scwi_json_add(to, "model", model_of(&place->model));
  scwi_json_add(to, "model_about_plane", model_of(&place->model_about_plane));
  scwi_json_add(to, "semivariogram", semivariogram_of(&place->semivariogram));
  scwi_json_add(to, "map", map_of(&place->map));
  return to;
}
