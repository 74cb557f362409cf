/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Least squares by QR on centred positions, so that the slopes do not feel
 * where the panel lies. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "dense.h"
#include "distributions.h"
#include "memory.h"
#include "place.h"
#include "place_figures.h"
#include "sum.h"
#include "two_sample.h"

static double mean_of(const double *x, size_t n) {
  scwi_sum sum = {0};
  for (size_t i = 0; i < n; i++) scwi_sum_add(&sum, x[i]);
  return scwi_sum_of(sum) / (double)n;
}

size_t scwi_plane_columns(scw_span span) {
  return span == SCW_SPAN_AREA                                    ? 3
         : span == SCW_SPAN_ALONG_X || span == SCW_SPAN_ALONG_Y ? 2
                                                                  : 1;
}

double scwi_plane_entry(const scwi_places *p, size_t i, size_t column) {
  if (column == 0) return 1;
  return column == 2 || p->span == SCW_SPAN_ALONG_Y ? p->v[i] : p->u[i];
}

/* What a slope in the unit of the places is in those of the table. */
static double slope_unit(const scwi_places *places) {
  return places->scale / places->length;
}

static void nothing(scw_presence why, double level, scw_gradient *out) {
  scw_figure none = scwi_missing(why);
  *out = (scw_gradient){.span = out->span,
                        .x = scwi_no_estimate(why, level),
                        .y = scwi_no_estimate(why, level),
                        .f = none, .df1 = none, .df2 = none, .p = none,
                        .rise = none, .sd_about = none};
}

static scw_presence why_not(const scwi_places *places) {
  switch (places->span) {
    case SCW_SPAN_NONE: return SCW_NO_POSITIONS;
    case SCW_SPAN_POINT: return SCW_ONE_SPOT;
    case SCW_SPAN_SLANTED:
      return places->n < 3 ? SCW_TOO_FEW : SCW_ON_ONE_LINE;
    default: break;
  }
  return places->n <= scwi_plane_columns(places->span) ? SCW_TOO_FEW
                                                       : SCW_PRESENT;
}

/* The rise of the fitted plane over the spots, from what it leaves. */
static double rise_of(const scwi_places *places, const double *residual) {
  double low = INFINITY, high = -INFINITY;
  for (size_t i = 0; i < places->n; i++) {
    double fitted = places->w[i] - residual[i];
    low = fmin(low, fitted);
    high = fmax(high, fitted);
  }
  return high - low;
}

/* Slope k of the fit; sd 0 gives no interval. */
static scw_status slope(scw_context *context, const scwi_places *places,
                        const scwi_least_squares *fit, size_t k, double sd,
                        double df, double level, scw_estimate *out) {
  scwi_uncertainty u = {sd * sqrt(fit->covariance[k][k]), df};
  scw_status status =
      scwi_estimate(context, fit->coefficient[k], u, level, out);
  *out = scwi_scaled_estimate(*out, slope_unit(places));
  return status;
}

/* F of all slopes: what the plane takes off the sum of squares. */
static void judge(const scwi_places *places, const double *residual,
                  double left, scw_gradient *out) {
  scwi_sum taken = {0};
  for (size_t i = 0; i < places->n; i++) {
    double fitted = places->w[i] - residual[i];
    scwi_sum_add(&taken, fitted * fitted);
  }
  double df1 = out->df1.value, df2 = out->df2.value;
  double f = scwi_sum_of(taken) / df1 / (left / df2);
  double p = scwi_f_upper(f, df1, df2);
  out->f = scwi_figure(f);
  out->p = p > 0 ? scwi_figure(p) : scwi_missing(SCW_OUT_OF_RANGE);
}

static scw_status fitted(scw_context *context, const scwi_places *places,
                         double level, const scwi_least_squares *fit,
                         const double *residual, scw_gradient *out) {
  size_t columns = scwi_plane_columns(places->span);
  double df = (double)(places->n - columns);
  double sd = sqrt(fit->sum_of_squares / df);
  bool exact = sd <= 2 * places->noise;
  scw_status status = SCW_OK;
  scw_estimate *first =
      places->span == SCW_SPAN_ALONG_Y ? &out->y : &out->x;
  out->rise = scwi_figure(rise_of(places, residual) * places->scale);
  out->df1 = scwi_figure((double)columns - 1);
  out->df2 = scwi_figure(df);
  out->sd_about = scwi_figure(exact ? 0 : sd * places->scale);
  if (exact) sd = 0;
  status = slope(context, places, fit, 1, sd, df, level, first);
  if (status == SCW_OK && columns == 3)
    status = slope(context, places, fit, 2, sd, df, level, &out->y);
  out->f = out->p = scwi_missing(SCW_NO_SCATTER);
  if (status == SCW_OK && !exact)
    judge(places, residual, fit->sum_of_squares, out);
  return status;
}

/* The columns of the plane, positions less their means. */
static scw_status design(scw_context *context, const scwi_places *places,
                         double **out) {
  size_t n = places->n, columns = scwi_plane_columns(places->span);
  scw_status status = SCWI_ALLOCATE(context, n * columns, out);
  if (status != SCW_OK) return status;
  double middle[2] = {mean_of(places->u, n), mean_of(places->v, n)};
  if (places->span == SCW_SPAN_ALONG_Y) middle[0] = middle[1];
  for (size_t i = 0; i < n; i++)
    for (size_t k = 0; k < columns; k++)
      (*out)[i * columns + k] =
          scwi_plane_entry(places, i, k) - (k > 0 ? middle[k - 1] : 0);
  return SCW_OK;
}

static scw_status fit_plane(scw_context *context, const scwi_places *places,
                            double level, scw_gradient *out,
                            double *residual) {
  double *x;
  scwi_least_squares fit;
  scw_status status = design(context, places, &x);
  if (status != SCW_OK) return status;
  status = scwi_least_squares_of(context, x, places->w, places->n,
                                 scwi_plane_columns(places->span), &fit,
                                 residual);
  if (status == SCW_OK)
    status = fitted(context, places, level, &fit, residual, out);
  free(x);
  return status;
}

scw_status scwi_gradient(scw_context *context, const scwi_places *places,
                         double level, scw_gradient *out, double *residual) {
  scw_presence why = why_not(places);
  double *room = NULL;
  scw_status status = SCW_OK;
  *out = (scw_gradient){.span = places->span};
  nothing(why == SCW_PRESENT ? SCW_ON_ONE_LINE : why, level, out);
  if (!residual) status = SCWI_ALLOCATE(context, places->n, &room);
  if (status != SCW_OK) return status;
  if (!residual) residual = room;
  memcpy(residual, places->w, places->n * sizeof *residual);
  if (why == SCW_PRESENT)
    status = fit_plane(context, places, level, out, residual);
  free(room);
  return status;
}
