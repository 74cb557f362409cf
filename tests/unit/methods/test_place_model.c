/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The correlation model: limits in which it must become something known, and
 * what it keeps to itself. R judges the numbers elsewhere. */
#include "check.h"

#include "field.h"
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

/* With a nugget of 1 it is ordinary least squares. */
static void a_full_nugget_is_least_squares(void **state) {
  (void)state;
  panel p = scattered_panel(40);
  scwi_places places;
  scwi_field field;
  scwi_field_fit fit;
  scw_gradient g;
  assert_int_equal(scwi_places_of(context, p.spot, p.n, &places), SCW_OK);
  assert_int_equal(scwi_gradient(context, &places, 0.95, &g, NULL), SCW_OK);
  assert_int_equal(scwi_field_new(context, &places, true, &field), SCW_OK);
  assert_int_equal(scwi_field_at(context, &field, 0.3, false), SCW_OK);
  scwi_gram gram = scwi_field_gram(&field, 1);
  assert_true(scwi_field_fit_of(&field, &gram, &fit));
  double unit = places.scale / places.length;
  check_relative(fit.mean[1] * unit, g.x.estimate.value, 1e-10);
  check_relative(fit.mean[2] * unit, g.y.estimate.value, 1e-10);
  check_relative(sqrt(fit.variance) * places.scale, g.sd_about.value, 1e-12);
  check_relative(sqrt(fit.covariance[1][1] * fit.variance) * unit,
                 g.x.standard_uncertainty.value, 1e-12);
  check_absolute(gram.log_determinant, 0, 1e-12);
  scwi_field_free(&field);
  scwi_places_free(&places);
}

/* A range that reaches no neighbour is the same, whatever the nugget; two
 * places are a 2 x 2 matrix. */
static void short_ranges_and_two_places(void **state) {
  static const scw_place_spot two[2] = {{0, 0, 83}, {3, 4, 85}};
  (void)state;
  scwi_places places;
  scwi_field field;
  assert_int_equal(scwi_places_of(context, two, 2, &places), SCW_OK);
  assert_int_equal(scwi_field_new(context, &places, false, &field), SCW_OK);
  double range = 2 / places.length; /* so the distance is 2.5 ranges */
  assert_int_equal(scwi_field_at(context, &field, range, false), SCW_OK);
  double r = 0.75 * exp(-2.5);
  scwi_gram gram = scwi_field_gram(&field, 0.25);
  check_relative(gram.log_determinant, log1p(-r * r), 1e-12);
  check_relative(gram.of[0][0], 2 / (1 + r), 1e-13); /* 1' V^-1 1 */
  check_relative(gram.of[1][1], 2 / (1 - r), 1e-13); /* w = -1, 1 */
  assert_int_equal(scwi_field_at(context, &field, range / 1e3, false), SCW_OK);
  gram = scwi_field_gram(&field, 0);
  check_absolute(gram.log_determinant, 0, 1e-14);
  scwi_field_free(&field);
  scwi_places_free(&places);
}

/* The best nugget is no worse than any on a fine grid. */
static void no_nugget_is_better(void **state) {
  (void)state;
  panel p = scattered_panel(50);
  make_waves(&p, 1, 12);
  scwi_places places;
  scwi_field field;
  assert_int_equal(scwi_places_of(context, p.spot, p.n, &places), SCW_OK);
  assert_int_equal(scwi_field_new(context, &places, false, &field), SCW_OK);
  for (double range = 0.05; range < 3; range *= 2) {
    double nugget, best;
    assert_int_equal(scwi_field_at(context, &field, range, false), SCW_OK);
    assert_int_equal(scwi_field_best_nugget(context, &field, &nugget, &best),
                     SCW_OK);
    for (int k = 0; k <= 997; k++) {
      scwi_gram gram = scwi_field_gram(&field, k / 997.0);
      scwi_field_fit fit;
      if (scwi_field_fit_of(&field, &gram, &fit))
        assert_true(fit.log_likelihood <= best + 1e-9);
    }
  }
  scwi_field_free(&field);
  scwi_places_free(&places);
}

/* A strong pattern a few spots wide: shown, with fewer effective spots than
 * spots and a wider interval than the plain one. */
static void neighbours_that_resemble_each_other(void **state) {
  (void)state;
  panel p = scattered_panel(90);
  make_waves(&p, 1.5, 9);
  scw_place place = place_of(context, &p);
  const scw_place_model *m = &place.model;
  assert_int_equal(m->range.state, SCW_PRESENT);
  assert_true(place.moran.p.value < 1e-4);
  assert_true(m->gain.value > 3.84);
  assert_true(m->range_low.value < m->range.value);
  assert_true(m->range_high.state != SCW_PRESENT ||
              m->range.value < m->range_high.value);
  assert_true(m->effective_spots.value > 1 && m->effective_spots.value < 45);
  assert_true(m->mean.standard_uncertainty.value >
              1.5 * place.plain.standard_uncertainty.value);
  assert_true(m->area_mean.standard_uncertainty.value <
              m->mean.standard_uncertainty.value);
  check_relative(m->sd.value * m->sd.value / m->effective_spots.value,
                 m->mean.standard_uncertainty.value *
                     m->mean.standard_uncertainty.value, 1e-12);
}

/* Neighbours that differ more than others: independent spots fit best. */
static void neighbours_that_avoid_each_other(void **state) {
  (void)state;
  panel p = grid_panel(6, 6);
  for (size_t i = 0; i < p.n; i++)
    p.spot[i].mean += (i % 6 + i / 6) % 2 ? 2 : -2;
  scw_place place = place_of(context, &p);
  assert_int_equal(place.model.state, SCW_PRESENT);
  assert_int_equal(place.model.range.state, SCW_NO_DEPENDENCE);
  assert_int_equal(place.model.nugget_share.state, SCW_NO_DEPENDENCE);
  check_absolute(place.model.gain.value, 0, 0);
  check_relative(place.model.effective_spots.value, 36, 1e-12);
  check_relative(place.model.mean.standard_uncertainty.value,
                 place.plain.standard_uncertainty.value, 1e-12);
  check_relative(place.model.mean.interval.low, place.plain.interval.low,
                 1e-12);
  check_relative(place.model.area_mean.standard_uncertainty.value,
                 place.plain.standard_uncertainty.value, 1e-12);
}

/* A slope is a range without end to a model about one mean: it says so, and
 * about the plane the slope is gone. */
static void a_slope_has_no_range(void **state) {
  (void)state;
  panel p = scattered_panel(40);
  for (size_t i = 0; i < p.n; i++) p.spot[i].mean += 0.3 * p.spot[i].x;
  scw_place place = place_of(context, &p);
  const scw_place_model *m = &place.model;
  assert_int_equal(m->range.state, SCW_UNBOUNDED);
  assert_int_equal(m->effective_spots.state, SCW_UNBOUNDED);
  assert_int_equal(m->mean.interval.state, SCW_UNBOUNDED);
  assert_int_equal(m->mean.standard_uncertainty.state, SCW_UNBOUNDED);
  assert_int_equal(m->range_high.state, SCW_UNBOUNDED);
  assert_int_equal(m->area_mean.interval.state, SCW_PRESENT);
  assert_true(place.model_about_plane.gain.value < m->gain.value / 10);
}

/* Noise that a range of any length fits nearly as well: no figure. */
static void a_flat_likelihood_says_nothing(void **state) {
  (void)state;
  size_t flat = 0;
  for (size_t n = 30; n < 60; n++) {
    panel p = scattered_panel(n);
    scw_place place = place_of(context, &p);
    if (place.model.range.state != SCW_FLAT) continue;
    flat++;
    assert_true(place.model.gain.value <= 3.8415);
    assert_int_equal(place.model.effective_spots.state, SCW_FLAT);
    assert_int_equal(place.model.mean.interval.state, SCW_FLAT);
    assert_int_equal(place.model.area_mean.interval.state, SCW_FLAT);
    assert_int_equal(place.model.area_mean.estimate.state, SCW_PRESENT);
    assert_int_equal(place.model.range_low.state, SCW_NO_DEPENDENCE);
  }
  assert_true(flat > 3);
}

static void sizes(void **state) {
  (void)state;
  panel p = grid_panel(20, 20); /* more than a model takes */
  scw_place place = place_of(context, &p);
  assert_int_equal(place.model.state, SCW_TOO_MANY);
  assert_int_equal(place.model.mean.interval.state, SCW_TOO_MANY);
  assert_int_equal(place.moran.p.state, SCW_PRESENT);
  scwi_place_options options = {0.95, 0, 4};
  p = grid_panel(7, 1);
  assert_int_equal(scwi_place(context, p.spot, p.n, &options, &place), SCW_OK);
  assert_int_equal(place.model.state, SCW_TOO_FEW);
  p = grid_panel(8, 1);
  assert_int_equal(scwi_place(context, p.spot, p.n, &options, &place), SCW_OK);
  assert_int_equal(place.model.state, SCW_PRESENT);
}

/* Along one line, and with two spots nearly on each other. */
static void odd_layouts(void **state) {
  (void)state;
  panel p = grid_panel(60, 1);
  make_waves(&p, 2, 25);
  scw_place place = place_of(context, &p);
  assert_int_equal(place.model.range.state, SCW_PRESENT);
  assert_int_equal(place.model_about_plane.state, SCW_PRESENT);
  p.spot[1].x = p.spot[0].x + 1e-5;
  p.spot[1].mean = p.spot[0].mean + 0.01;
  place = place_of(context, &p);
  assert_int_equal(place.used, 60);
  assert_int_equal(place.model.state, SCW_PRESENT);
  assert_int_equal(place.moran.p.state, SCW_PRESENT);
  p.spot[1].x = p.spot[0].x + 1e-8; /* one place */
  assert_int_equal(place_of(context, &p).used, 59);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_full_nugget_is_least_squares),
      cmocka_unit_test(short_ranges_and_two_places),
      cmocka_unit_test(no_nugget_is_better),
      cmocka_unit_test(neighbours_that_resemble_each_other),
      cmocka_unit_test(neighbours_that_avoid_each_other),
      cmocka_unit_test(a_slope_has_no_range),
      cmocka_unit_test(a_flat_likelihood_says_nothing),
      cmocka_unit_test(sizes),
      cmocka_unit_test(odd_layouts)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
