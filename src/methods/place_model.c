/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Restricted maximum likelihood: Patterson & Thompson, Biometrika 58 (1971).
 * The mean of the panel itself: block kriging, e.g. Cressie, Statistics for
 * Spatial Data, 1993 (both from memory; judged by nlme, gstat and a dense
 * computation in R). */
#include <math.h>

#include "field_range.h"
#include "place.h"
#include "place_figures.h"
#include "two_sample.h"

/* Below this an interval would be wider than anyone can use. */
enum { FEWEST_DF = 1 };

enum { FEWEST = 8 }; /* with fewer places no likelihood has a shape */

static void nothing(scw_presence why, double level, scw_place_model *out) {
  scw_figure none = scwi_missing(why);
  *out = (scw_place_model){.state = why,
                           .with_plane = out->with_plane,
                           .spots = out->spots,
                           .sd = none, .range = none, .nugget_share = none,
                           .range_low = none, .range_high = none, .gain = none,
                           .mean = scwi_no_estimate(why, level),
                           .effective_spots = none,
                           .area_mean = scwi_no_estimate(why, level)};
}

/* An estimate in the unit of w, brought to that of the readings. */
static scw_status tell(scw_context *context, const scwi_places *places,
                       double estimate, scwi_uncertainty u, double level,
                       scw_estimate *out) {
  scw_status status = SCW_OK;
  if (u.df >= FEWEST_DF) {
    status = scwi_estimate(context, estimate, u, level, out);
  } else {
    *out = scwi_bare_estimate(estimate, SCW_UNBOUNDED, level);
    out->standard_uncertainty = scwi_figure(u.u);
    out->df = scwi_figure(u.df);
  }
  *out = scwi_scaled_estimate(*out, places->scale);
  double middle = places->middle;
  out->p = scwi_missing(SCW_NOT_COMPUTED); /* zero is no special mean */
  if (scwi_present(out->estimate))
    out->estimate = scwi_figure(out->estimate.value + middle);
  if (out->interval.state == SCW_PRESENT)
    out->interval = scwi_interval(out->interval.low + middle,
                                  out->interval.high + middle, level);
  return status;
}

/* Mean of the panel: what the places say of it beyond the fitted mean, and the
 * variance of that, for the field's range with its panel column. */
static scw_status tell_area(scw_context *context, const scwi_field *field,
                            const scwi_gram *gram, const scwi_field_fit *fit,
                            double nugget, double level, scw_estimate *out) {
  size_t p = field->means, w = p, c = p + 1;
  double share = 1 - nugget, away[SCWI_FIELD_MEANS];
  double estimate = share * gram->of[c][w];
  double variance = share * field->panel - share * share * gram->of[c][c];
  for (size_t k = 0; k < p; k++) {
    double at_middle = k == 0 ? 1 : -field->middle[k];
    away[k] = at_middle - share * gram->of[c][k];
    estimate += fit->mean[k] * away[k];
  }
  for (size_t k = 0; k < p; k++)
    for (size_t l = 0; l < p; l++)
      variance += away[k] * away[l] * fit->covariance[k][l];
  scwi_uncertainty u = {sqrt(fmax(0, variance) * fit->variance),
                        (double)(field->places->n - p)};
  return tell(context, field->places, estimate, u, level, out);
}

/* Mean and effective spots of panels like this one. */
static scw_status tell_mean(scw_context *context, const scwi_field *field,
                            const scwi_field_fit *fit, double level,
                            scw_place_model *out) {
  double effective = 1 / fit->covariance[0][0];
  scwi_uncertainty u = {sqrt(fit->covariance[0][0] * fit->variance),
                        effective - (double)field->means};
  out->sd = scwi_figure(sqrt(fit->variance) * field->places->scale);
  out->effective_spots = scwi_figure(effective);
  return tell(context, field->places, fit->mean[0], u, level, &out->mean);
}

static void tell_range(const scwi_places *places,
                       const scwi_range_found *found, scw_place_model *out) {
  out->gain = scwi_figure(found->gain);
  out->range = scwi_figure(found->range * places->length);
  out->nugget_share = scwi_figure(found->nugget);
  out->range_low = scwi_scaled_figure(found->low, places->length);
  out->range_high = scwi_scaled_figure(found->high, places->length);
}

/* What may not be said: independent places fit best; they fit nearly as well
 * as any range; or the range is longer than the panel can show. */
static scw_presence silence(const scwi_range_found *found) {
  if (found->gain <= 0) return SCW_NO_DEPENDENCE;
  if (!scwi_present(found->low)) return SCW_FLAT;
  if (found->beyond) return SCW_UNBOUNDED;
  return SCW_PRESENT;
}

static void keep_silent(scw_presence why, double level, scw_place_model *out) {
  out->range = scwi_missing(why);
  out->nugget_share = scwi_missing(why);
  if (why == SCW_NO_DEPENDENCE) return;
  out->sd = out->effective_spots = scwi_missing(why);
  out->mean = scwi_bare_estimate(out->mean.estimate.value, why, level);
  if (why == SCW_FLAT)
    out->area_mean =
        scwi_bare_estimate(out->area_mean.estimate.value, why, level);
}

static scw_status tell_all(scw_context *context, scwi_field *field,
                           const scwi_range_found *found, double level,
                           scw_place_model *out) {
  scwi_field_fit fit;
  scw_presence why = silence(found);
  double nugget = why == SCW_NO_DEPENDENCE ? 1 : found->nugget;
  scw_status status = scwi_field_at(context, field, found->range, true);
  if (status != SCW_OK) return status;
  scwi_gram gram = scwi_field_gram(field, nugget);
  if (!scwi_field_fit_of(field, &gram, &fit)) {
    nothing(SCW_OUT_OF_RANGE, level, out);
    return SCW_OK;
  }
  tell_range(field->places, found, out);
  status = tell_mean(context, field, &fit, level, out);
  if (status == SCW_OK)
    status = tell_area(context, field, &gram, &fit, nugget, level,
                       &out->area_mean);
  if (status == SCW_OK && why != SCW_PRESENT) keep_silent(why, level, out);
  return status;
}

/* Nothing is left to scatter about the mean or the plane. */
static bool no_scatter(const scwi_places *places, const double *residual) {
  double squares = 0;
  for (size_t i = 0; i < places->n; i++) squares += residual[i] * residual[i];
  return sqrt(squares / (double)places->n) <= 2 * places->noise;
}

scw_status scwi_place_model(scw_context *context, const scwi_places *places,
                            const double *residual, bool with_plane,
                            double level, scw_place_model *out) {
  scwi_range_found found;
  scwi_field field;
  *out = (scw_place_model){.with_plane = with_plane, .spots = places->n};
  scw_presence why = places->n < FEWEST             ? SCW_TOO_FEW
                     : places->n > SCWI_PLACE_MOST  ? SCW_TOO_MANY
                     : no_scatter(places, residual) ? SCW_NO_SCATTER
                     : with_plane && scwi_plane_columns(places->span) == 1
                         ? SCW_ON_ONE_LINE
                         : SCW_PRESENT;
  nothing(why, level, out);
  if (why != SCW_PRESENT) return SCW_OK;
  scw_status status = scwi_field_new(context, places, with_plane, &field);
  if (status == SCW_OK)
    status = scwi_field_range(context, &field, level, &found);
  if (status == SCW_OK)
    status = tell_all(context, &field, &found, level, out);
  scwi_field_free(&field);
  return status;
}
