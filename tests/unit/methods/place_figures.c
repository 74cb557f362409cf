/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures of place for the judge, see figures_filter.h. Every question ends in
 * the positions and means of the spots: n x1 .. n y1 .. n z1 .. */
#include <stdio.h>
#include <stdlib.h>

#include "figures_filter.h"
#include "place.h"
#include "spacing.h"

static scwi_places take_places(scw_context *context, char **rest) {
  static readings x, y, z;
  static scw_place_spot spots[MOST_READINGS];
  scwi_places places;
  take_readings(rest, &x);
  take_readings(rest, &y);
  take_readings(rest, &z);
  for (size_t i = 0; i < x.sample.n; i++)
    spots[i] = (scw_place_spot){x.x[i], y.x[i], z.x[i]};
  must(context, scwi_places_of(context, spots, x.sample.n, &places));
  return places;
}

/* level: for each slope estimate, u, low and high, then F, its df, p, rise, SD
 * about the plane. */
static void gradient(scw_context *context, char *rest) {
  double level = take_number(&rest);
  scwi_places places = take_places(context, &rest);
  scw_gradient g;
  must(context, scwi_gradient(context, &places, level, &g, NULL));
  double values[] = {
      shown(g.x.estimate), shown(g.x.standard_uncertainty), g.x.interval.low,
      g.x.interval.high, shown(g.y.estimate), shown(g.y.standard_uncertainty),
      g.y.interval.low, g.y.interval.high, shown(g.f), shown(g.df1),
      shown(g.df2), shown(g.p), shown(g.rise), shown(g.sd_about)};
  say(values, 14);
  scwi_places_free(&places);
}

/* level: outer and inner spots, the difference. */
static void edge(scw_context *context, char *rest) {
  double level = take_number(&rest);
  scwi_places places = take_places(context, &rest);
  scwi_place_grid grid;
  scw_edge e;
  must(context, scwi_place_grid_of(context, &places, &grid));
  must(context, scwi_edge(context, &places, &grid, level, 0, &e));
  double values[] = {(double)e.rule, (double)e.outer, (double)e.inner,
                     shown(e.difference.estimate), shown(e.difference.df),
                     shown(e.difference.p), e.difference.interval.low,
                     e.difference.interval.high};
  say(values, 8);
  scwi_place_grid_free(&grid);
  scwi_places_free(&places);
}

static double residual[MOST_READINGS];

static void moran(scw_context *context, char *rest) {
  scwi_places places = take_places(context, &rest);
  scw_gradient g;
  scw_moran m;
  must(context, scwi_gradient(context, &places, 0.95, &g, residual));
  must(context, scwi_moran(context, &places, residual, &m));
  double values[] = {shown(m.i), shown(m.expected), shown(m.sd), shown(m.p),
                     shown(m.p_shuffled)};
  say(values, 5);
  scwi_places_free(&places);
}

/* The cutoff, then pairs, distance and semivariance of each bin. */
static void semivariogram(scw_context *context, char *rest) {
  scwi_places places = take_places(context, &rest);
  scw_gradient g;
  scw_semivariogram s;
  must(context, scwi_gradient(context, &places, 0.95, &g, residual));
  scwi_semivariogram(&places, residual, &s);
  double values[1 + 3 * SCW_VARIOGRAM_BINS] = {s.cutoff};
  for (size_t b = 0; b < s.n_bins; b++) {
    values[1 + 3 * b] = (double)s.bins[b].pairs;
    values[2 + 3 * b] = s.bins[b].distance;
    values[3 + 3 * b] = s.bins[b].semivariance;
  }
  say(values, 1 + 3 * s.n_bins);
  scwi_places_free(&places);
}

/* level plane(0/1): SD, range, nugget, its profile ends, gain, mean with u, df
 * and interval, effective spots, mean of the panel with u. */
static void model(scw_context *context, char *rest) {
  double level = take_number(&rest);
  bool plane = take_number(&rest) > 0;
  scwi_places places = take_places(context, &rest);
  scw_gradient g;
  scw_place_model m;
  must(context, scwi_gradient(context, &places, level, &g, residual));
  must(context, scwi_place_model(context, &places, plane ? residual : places.w,
                                 plane, level, &m));
  double values[] = {shown(m.sd), shown(m.range), shown(m.nugget_share),
                     shown(m.range_low), shown(m.range_high), shown(m.gain),
                     shown(m.mean.estimate), shown(m.mean.standard_uncertainty),
                     shown(m.mean.df), m.mean.interval.low,
                     m.mean.interval.high, shown(m.effective_spots),
                     shown(m.area_mean.estimate),
                     shown(m.area_mean.standard_uncertainty)};
  say(values, 14);
  scwi_places_free(&places);
}

int main(void) {
  static const verb verbs[] = {{"gradient", gradient},
                               {"edge", edge},
                               {"moran", moran},
                               {"semivariogram", semivariogram},
                               {"model", model}};
  return answer_lines(verbs, sizeof verbs / sizeof *verbs);
}
