/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Place: identities, published and counted values, and what is said where
 * there is nothing to tell. R judges the numbers elsewhere. */
#include "check.h"

#include "place_panel.h"

static scw_context *context;

static int make_context(void **state) {
  (void)state;
  return scw_context_new(&context) != SCW_OK;
}

static int drop_context(void **state) {
  (void)state;
  scw_context_free(context);
  return 0;
}

/* z = 80 + 0.5 x - 0.25 y, and a pattern that is orthogonal to it: the plane
 * comes back as it was, F from sums done by hand. */
static void a_plane_comes_back(void **state) {
  static const double away[3][3] = {{1, -2, 1}, {-2, 4, -2}, {1, -2, 1}};
  (void)state;
  panel p = {.n = 9};
  for (size_t i = 0; i < 9; i++) {
    double x = (double)(i % 3), y = (double)(i / 3);
    p.spot[i] = (scw_place_spot){
        x, y, 80 + 0.5 * x - 0.25 * y + away[i / 3][i % 3] / 16};
  }
  scw_place place = place_of(context, &p);
  const scw_gradient *g = &place.gradient;
  assert_int_equal(g->span, SCW_SPAN_AREA);
  check_relative(g->x.estimate.value, 0.5, 1e-14);
  check_relative(g->y.estimate.value, -0.25, 1e-14);
  check_relative(g->rise.value, 1.5, 1e-14);
  double left = 36.0 / 256, taken = 6 * (0.25 + 0.0625);
  check_relative(g->sd_about.value, sqrt(left / 6), 1e-13);
  check_relative(g->f.value, taken / 2 / (left / 6), 1e-13);
  check_absolute(g->df1.value, 2, 0);
  check_absolute(g->df2.value, 6, 0);
  check_relative(g->x.standard_uncertainty.value, sqrt(left / 6 / 6), 1e-13);
  /* P(F > f) on 2 and m df is (1 + 2 f/m)^(-m/2) */
  check_relative(g->p.value, pow(1 + 2 * g->f.value / 6, -3), 1e-12);
}

static panel moved(panel p, double by, double stretch, double add,
                   double scale) {
  for (size_t i = 0; i < p.n; i++) {
    p.spot[i].x = by + stretch * p.spot[i].x;
    p.spot[i].y = by + stretch * p.spot[i].y;
    p.spot[i].mean = add + scale * p.spot[i].mean;
  }
  return p;
}

/* Powers of two change no digit; other units and places only the last. */
static void units_and_places_do_not_matter(void **state) {
  static const double stretches[] = {0x1p-40, 0x1p40, 1e-12, 1e12, 1e-300,
                                     1e300};
  (void)state;
  panel p = scattered_panel(40);
  make_waves(&p, 1, 15);
  scw_place a = place_of(context, &p);
  for (size_t k = 0; k < 6; k++) {
    double s = stretches[k], scale = k < 4 ? 1 / s : 1;
    panel q = moved(p, 0, s, 0, scale);
    scw_place b = place_of(context, &q);
    double tolerance = k < 2 ? 0 : 1e-12;
    check_relative(b.gradient.x.estimate.value,
                   a.gradient.x.estimate.value * scale / s, fmax(tolerance, 1e-15));
    check_relative(b.gradient.p.value, a.gradient.p.value, tolerance);
    check_relative(b.edge.difference.p.value, a.edge.difference.p.value,
                   1e-11);
    check_relative(b.moran.i.value, a.moran.i.value, tolerance);
    check_relative(b.moran.p.value, a.moran.p.value, 1e-11);
    check_relative(b.model.range.value, a.model.range.value * s, 1e-4);
    check_relative(b.model.area_mean.estimate.value,
                   a.model.area_mean.estimate.value * scale, 1e-9);
    assert_int_equal(b.semivariogram.bins[3].pairs,
                     a.semivariogram.bins[3].pairs);
    check_relative(b.semivariogram.bins[3].semivariance,
                   a.semivariogram.bins[3].semivariance * scale * scale, 1e-12);
  }
  scw_place b = place_of(context, &(panel){0});
  panel q = moved(p, 4096, 1, -16, 1);
  b = place_of(context, &q);
  check_relative(b.gradient.x.estimate.value, a.gradient.x.estimate.value,
                 1e-10);
  check_relative(b.moran.i.value, a.moran.i.value, 1e-10);
  check_absolute(b.model.area_mean.estimate.value,
                 a.model.area_mean.estimate.value - 16, 1e-8);
}

/* Huge coordinates whose range is beyond a double. */
static void the_largest_doubles_have_a_place(void **state) {
  (void)state;
  panel p = grid_panel(6, 6);
  for (size_t i = 0; i < p.n; i++) {
    p.spot[i].x = (p.spot[i].x - 25) * 6.8e306;
    p.spot[i].mean = (p.spot[i].mean - 84) * 1e307;
  }
  scw_place place = place_of(context, &p);
  assert_int_equal(place.span, SCW_SPAN_ALONG_X); /* y is nothing beside x */
  panel q = grid_panel(6, 6);
  for (size_t i = 0; i < p.n; i++) {
    p.spot[i].y = (8 * (double)(i / 6) - 20) * 8e306;
    q.spot[i] = (scw_place_spot){p.spot[i].x / 1e307, p.spot[i].y / 1e307,
                                 p.spot[i].mean / 1e307};
  }
  place = place_of(context, &p);
  scw_place wanted = place_of(context, &q);
  check_relative(place.gradient.p.value, wanted.gradient.p.value, 1e-12);
  check_relative(place.moran.p.value, wanted.moran.p.value, 1e-11);
}

/* Neither the order of the rows nor the direction of the axes matters. */
static void order_and_direction_do_not_matter(void **state) {
  (void)state;
  panel p = scattered_panel(35), q = p, mirrored = p;
  for (size_t i = 0; i < p.n; i++) {
    q.spot[i] = p.spot[(i * 12) % 35];
    mirrored.spot[i] = (scw_place_spot){p.spot[i].y, -p.spot[i].x,
                                        p.spot[i].mean};
  }
  scw_place a = place_of(context, &p), b = place_of(context, &q);
  check_absolute(b.gradient.p.value, a.gradient.p.value, 0);
  check_absolute(b.moran.p.value, a.moran.p.value, 0);
  check_absolute(b.edge.difference.p.value, a.edge.difference.p.value, 0);
  check_absolute(b.model.gain.value, a.model.gain.value, 0);
  check_absolute(b.model.area_mean.estimate.value,
                 a.model.area_mean.estimate.value, 0);
  b = place_of(context, &mirrored);
  check_relative(b.gradient.p.value, a.gradient.p.value, 1e-12);
  check_relative(b.gradient.y.estimate.value, -a.gradient.x.estimate.value,
                 1e-12);
  check_relative(b.moran.p.value, a.moran.p.value, 1e-11);
  check_relative(b.edge.difference.estimate.value,
                 a.edge.difference.estimate.value, 1e-12);
}

static panel line_panel(size_t n, double dx, double dy) {
  panel p = {.n = n};
  for (size_t i = 0; i < n; i++)
    p.spot[i] = (scw_place_spot){0.1 + dx * (double)i, 0.7 + dy * (double)i,
                                 84 + noise(i)};
  return p;
}

static void one_line_of_spots(void **state) {
  (void)state;
  panel p = line_panel(8, 0.3, 0);
  scw_place place = place_of(context, &p);
  assert_int_equal(place.span, SCW_SPAN_ALONG_X);
  assert_int_equal(place.gradient.x.interval.state, SCW_PRESENT);
  assert_int_equal(place.gradient.y.estimate.state, SCW_ON_ONE_LINE);
  assert_int_equal(place.edge.difference.estimate.state, SCW_ON_ONE_LINE);
  check_absolute(place.gradient.df2.value, 6, 0);
  /* F is the square of t */
  const scw_estimate *x = &place.gradient.x;
  double t = x->estimate.value / x->standard_uncertainty.value;
  check_relative(place.gradient.f.value, t * t, 1e-12);
  check_relative(place.gradient.p.value, x->p.value, 1e-12);
  p = line_panel(8, 0, 0.3);
  double slope = x->estimate.value;
  place = place_of(context, &p);
  assert_int_equal(place.span, SCW_SPAN_ALONG_Y);
  check_relative(place.gradient.y.estimate.value, slope, 1e-12);
  assert_int_equal(place.gradient.x.estimate.state, SCW_ON_ONE_LINE);
  p = line_panel(40, 0.1, 0.3); /* no step of it is exact in doubles */
  place = place_of(context, &p);
  assert_int_equal(place.span, SCW_SPAN_SLANTED);
  assert_int_equal(place.gradient.f.state, SCW_ON_ONE_LINE);
  assert_int_equal(place.gradient.x.interval.state, SCW_ON_ONE_LINE);
  assert_int_equal(place.moran.p.state, SCW_PRESENT); /* about the mean */
  assert_int_equal(place.model_about_plane.state, SCW_ON_ONE_LINE);
  assert_true(place.model.state == SCW_PRESENT);
}

static void too_few_spots(void **state) {
  (void)state;
  scw_place place = place_of(context, &(panel){0});
  assert_int_equal(place.span, SCW_SPAN_NONE);
  assert_int_equal(place.gradient.p.state, SCW_NO_POSITIONS);
  assert_int_equal(place.edge.difference.p.state, SCW_NO_POSITIONS);
  assert_int_equal(place.moran.p.state, SCW_NO_POSITIONS);
  assert_int_equal(place.model.state, SCW_NO_POSITIONS);
  assert_int_equal(place.plain.estimate.state, SCW_NO_POSITIONS);
  assert_int_equal(place.map.rows, 0);
  panel p = grid_panel(2, 2);
  p.n = 1;
  place = place_of(context, &p);
  assert_int_equal(place.span, SCW_SPAN_POINT);
  assert_int_equal(place.gradient.p.state, SCW_ONE_SPOT);
  assert_int_equal(place.plain.interval.state, SCW_ONE_SPOT);
  assert_int_equal(place.map.rows, 0);
  p.n = 3;
  place = place_of(context, &p);
  assert_int_equal(place.gradient.p.state, SCW_TOO_FEW);
  p.n = 4;
  place = place_of(context, &p);
  assert_int_equal(place.gradient.p.state, SCW_PRESENT);
  assert_int_equal(place.edge.difference.p.state, SCW_TOO_FEW);
  assert_int_equal(place.edge.outer, 4);
  assert_int_equal(place.moran.p.state, SCW_TOO_FEW);
  p = line_panel(2, 1, 0);
  assert_int_equal(place_of(context, &p).gradient.p.state, SCW_TOO_FEW);
  p = grid_panel(29, 1);
  assert_int_equal(place_of(context, &p).moran.p.state, SCW_TOO_FEW);
  p = grid_panel(30, 1);
  assert_int_equal(place_of(context, &p).moran.p.state, SCW_PRESENT);
}

static void no_scatter(void **state) {
  (void)state;
  panel p = grid_panel(6, 6);
  for (size_t i = 0; i < p.n; i++) /* the same up to rounding */
    p.spot[i].mean = i % 2 ? 0.3 : 0.1 + 0.2;
  scw_place place = place_of(context, &p);
  check_absolute(place.gradient.x.estimate.value, 0, 0);
  assert_int_equal(place.gradient.x.interval.state, SCW_NO_SCATTER);
  assert_int_equal(place.gradient.p.state, SCW_NO_SCATTER);
  check_absolute(place.gradient.sd_about.value, 0, 0);
  assert_int_equal(place.edge.difference.interval.state, SCW_NO_SCATTER);
  assert_int_equal(place.moran.p.state, SCW_NO_SCATTER);
  assert_int_equal(place.model.state, SCW_NO_SCATTER);
  check_absolute(place.semivariogram.bins[0].semivariance, 0, 0);
  for (size_t i = 0; i < p.n; i++) /* exactly on a plane, in decimals */
    p.spot[i].mean = 84 + 0.1 * (double)(i % 6) + 0.3 * (double)(i / 6);
  place = place_of(context, &p);
  check_relative(place.gradient.x.estimate.value, 0.01, 1e-12);
  assert_int_equal(place.gradient.p.state, SCW_NO_SCATTER);
  assert_int_equal(place.gradient.x.interval.state, SCW_NO_SCATTER);
  assert_int_equal(place.moran.p.state, SCW_NO_SCATTER);
  assert_int_equal(place.model.state, SCW_PRESENT);
  assert_int_equal(place.model_about_plane.state, SCW_NO_SCATTER);
}

static void spots_without_a_place(void **state) {
  (void)state;
  panel p = grid_panel(4, 4), q = p;
  p.spot[p.n++] = (scw_place_spot){NAN, 3, 1e6};
  p.spot[p.n++] = (scw_place_spot){3, INFINITY, 1e6};
  p.spot[p.n++] = (scw_place_spot){3, 4, NAN};
  scw_place a = place_of(context, &p), b = place_of(context, &q);
  assert_int_equal(a.given, 19);
  assert_int_equal(a.unplaced, 3);
  assert_int_equal(a.used, 16);
  check_absolute(a.gradient.p.value, b.gradient.p.value, 0);
  /* a place read under two labels counts once, with the mean of the two */
  q.spot[5].mean += 1;
  q.spot[q.n] = q.spot[5];
  q.spot[q.n++].mean -= 2;
  b = place_of(context, &q);
  assert_int_equal(b.merged, 1);
  assert_int_equal(b.used, 16);
  check_relative(b.gradient.p.value, a.gradient.p.value, 1e-12);
}

static void edges(void **state) {
  (void)state;
  panel p = grid_panel(5, 4);
  for (size_t i = 0; i < p.n; i++) {
    size_t c = i % 5, r = i / 5;
    bool outer = c == 0 || c == 4 || r == 0 || r == 3;
    p.spot[i].mean = (outer ? 81 : 84) + (i % 2 ? 0.5 : -0.5);
  }
  scw_place place = place_of(context, &p);
  assert_int_equal(place.edge.rule, SCW_EDGE_GRID);
  assert_int_equal(place.edge.outer, 14);
  assert_int_equal(place.edge.inner, 6);
  check_relative(place.edge.difference.estimate.value, -3, 1e-13);
  check_relative(place.edge.outer_mean.value, 81, 1e-14);
  check_relative(place.edge.inner_mean.value, 84, 1e-14);
  /* a grid with gaps is still one */
  p.spot[7] = p.spot[19];
  p.n = 19;
  place = place_of(context, &p);
  assert_int_equal(place.edge.rule, SCW_EDGE_GRID);
  assert_int_equal(place.edge.inner, 5);
  /* a square with its sides' middles, all on the hull, around four spots */
  static const double at[12][2] = {{0, 0}, {5, 0.0}, {10, 0}, {10, 5.1},
                                   {10, 10}, {4.9, 10}, {0, 10}, {0, 4.7},
                                   {3, 4}, {6.2, 3.1}, {7, 7.3}, {2.8, 6.4}};
  panel q = {.n = 12};
  for (size_t i = 0; i < 12; i++)
    q.spot[i] = (scw_place_spot){at[i][0], at[i][1], 84 + noise(i)};
  place = place_of(context, &q);
  assert_int_equal(place.edge.rule, SCW_EDGE_HULL);
  assert_int_equal(place.edge.outer, 8);
  assert_int_equal(place.edge.inner, 4);
  assert_int_equal(place.edge.difference.interval.state, SCW_PRESENT);
}

/* Moran's moments under randomisation, counted over all orders of six means on
 * the corners of no grid; p is the normal tail of exactly those. */
static void permute(double *z, size_t k, size_t n, const scw_place_spot *at,
                    double *sum, double *square, double *count) {
  if (k < n) {
    for (size_t i = k; i < n; i++) {
      double keep = z[k];
      z[k] = z[i], z[i] = keep;
      permute(z, k + 1, n, at, sum, square, count);
      keep = z[k];
      z[k] = z[i], z[i] = keep;
    }
    return;
  }
  double weights = 0, product = 0, squares = 0;
  for (size_t i = 0; i < n; i++) {
    squares += z[i] * z[i];
    for (size_t j = 0; j < n; j++) {
      if (i == j) continue;
      double w = 1 / hypot(at[i].x - at[j].x, at[i].y - at[j].y);
      weights += w;
      product += w * z[i] * z[j];
    }
  }
  double moran = (double)n * product / (weights * squares);
  *sum += moran;
  *square += moran * moran;
  *count += 1;
}

static void moran_over_all_orders(void **state) {
  static const scw_place_spot spots[7] = {
      {0, 0, 3}, {1, 2, -1}, {2, 4, 4}, {3, 6, -2}, {5, 10, 1}, {8, 16, -5},
      {9, 18, 0}};
  (void)state;
  double z[7], sum = 0, square = 0, count = 0, residual[7];
  scwi_places places;
  scw_gradient g;
  scw_moran m;
  for (size_t i = 0; i < 7; i++) z[i] = spots[i].mean; /* mean 0 */
  permute(z, 0, 7, spots, &sum, &square, &count);
  assert_int_equal(scwi_places_of(context, spots, 7, &places), SCW_OK);
  assert_int_equal(scwi_gradient(context, &places, 0.95, &g, residual), SCW_OK);
  assert_int_equal(scwi_moran(context, &places, residual, &m), SCW_OK);
  scwi_places_free(&places);
  double mean = sum / count, sd = sqrt(square / count - mean * mean);
  check_relative(count, 5040, 0);
  check_relative(mean, -1.0 / 6, 1e-12);
  check_relative(m.p_shuffled.value,
                 erfc(fabs(m.i.value - mean) / sd / sqrt(2)), 1e-11);
  /* about one mean, normal residuals have that expectation as well */
  check_relative(m.expected.value, -1.0 / 6, 1e-12);
}

/* Four corners of a square and its middle: every weight, bin and pair by
 * hand. */
static void semivariogram_by_hand(void **state) {
  static const scw_place_spot spots[5] = {
      {0, 0, 1}, {10, 0, 2}, {0, 10, 4}, {10, 10, 7}, {1, 1, 3}};
  (void)state;
  scwi_places places;
  scw_semivariogram s;
  assert_int_equal(scwi_places_of(context, spots, 5, &places), SCW_OK);
  scwi_semivariogram(&places, places.w, &s);
  scwi_places_free(&places);
  check_relative(s.cutoff, sqrt(200) / 3, 1e-14);
  assert_int_equal(s.n_bins, 1); /* only the spot beside the corner is near */
  assert_int_equal(s.bins[0].pairs, 1);
  check_relative(s.bins[0].distance, sqrt(2), 1e-14);
  check_relative(s.bins[0].semivariance, 2, 1e-13);
}

static void maps(void **state) {
  (void)state;
  panel p = grid_panel(5, 4);
  p.spot[7] = p.spot[19];
  p.n = 19;
  scw_place_map map = place_of(context, &p).map;
  assert_true(map.grid);
  assert_int_equal(map.columns, 5);
  assert_int_equal(map.rows, 4);
  assert_true(isnan(map.mean[5 + 2])); /* the gap */
  check_relative(map.mean[3 * 5 + 1], p.spot[16].mean, 1e-14);
  check_absolute(map.x[3], 30, 1e-12);
  check_absolute(map.y[2], 16, 1e-12);
  p = scattered_panel(60);
  map = place_of(context, &p).map;
  assert_false(map.grid);
  assert_int_equal(map.columns, 10);
  assert_int_equal(map.rows, 6);
  double low[2] = {INFINITY, INFINITY}, high[2] = {-INFINITY, -INFINITY};
  for (size_t i = 0; i < 60; i++) {
    low[0] = fmin(low[0], p.spot[i].x), high[0] = fmax(high[0], p.spot[i].x);
    low[1] = fmin(low[1], p.spot[i].y), high[1] = fmax(high[1], p.spot[i].y);
  }
  for (size_t cell = 0; cell < 60; cell++) {
    double sum = 0, count = 0;
    for (size_t i = 0; i < 60; i++) {
      double c = floor(10 * (p.spot[i].x - low[0]) / (high[0] - low[0]));
      double r = floor(6 * (p.spot[i].y - low[1]) / (high[1] - low[1]));
      if ((size_t)(fmin(r, 5) * 10 + fmin(c, 9)) != cell) continue;
      sum += p.spot[i].mean;
      count++;
    }
    assert_int_equal(isnan(map.mean[cell]), count == 0);
    if (count > 0) check_relative(map.mean[cell], sum / count, 1e-13);
  }
  check_relative(map.x[0], low[0] + (high[0] - low[0]) / 20, 1e-12);
  p = grid_panel(400, 1);
  map = place_of(context, &p).map;
  assert_int_equal(map.rows, 1);
  assert_int_equal(map.columns, SCW_MAP_COLUMNS);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_plane_comes_back),
      cmocka_unit_test(units_and_places_do_not_matter),
      cmocka_unit_test(the_largest_doubles_have_a_place),
      cmocka_unit_test(order_and_direction_do_not_matter),
      cmocka_unit_test(one_line_of_spots),
      cmocka_unit_test(too_few_spots),
      cmocka_unit_test(no_scatter),
      cmocka_unit_test(spots_without_a_place),
      cmocka_unit_test(edges),
      cmocka_unit_test(moran_over_all_orders),
      cmocka_unit_test(semivariogram_by_hand),
      cmocka_unit_test(maps)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
