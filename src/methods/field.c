/* SPDX-License-Identifier: GPL-3.0-or-later */
/* With C = Q T Q' the correlation matrix is Q ((1-nugget) T + nugget I) Q'; the
 * middle is factored as L D L' with L bidiagonal while the inner products are
 * summed. */
#include "field.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "dense.h"
#include "memory.h"
#include "minimum.h"

/* Points a side at which the panel is looked at for its mean. */
enum { PANEL_POINTS = 32, NUGGETS = 20 };

scw_status scwi_field_new(scw_context *context, const scwi_places *places,
                          bool with_plane, scwi_field *out) {
  size_t n = places->n;
  *out = (scwi_field){.places = places, .means = 1};
  if (with_plane) out->means = scwi_plane_columns(places->span);
  out->columns = out->means + 2;
  scw_status status =
      SCWI_ALLOCATE(context, n * (n + 2 + out->columns), &out->matrix);
  if (status != SCW_OK) return status;
  out->diagonal = out->matrix + n * n;
  out->beside = out->diagonal + n;
  out->rotated = out->beside + n;
  for (size_t k = 1; k < out->means; k++)
    for (size_t i = 0; i < n; i++)
      out->middle[k] += scwi_plane_entry(places, i, k) / (double)n;
  return SCW_OK;
}

void scwi_field_free(scwi_field *field) {
  free(field->matrix);
  field->matrix = NULL;
}

static void correlations(const scwi_field *field, double range) {
  const scwi_places *p = field->places;
  for (size_t i = 0; i < p->n; i++) {
    double *row = field->matrix + i * p->n;
    for (size_t j = 0; j < i; j++) {
      double du = p->u[i] - p->u[j], dv = p->v[i] - p->v[j];
      row[j] = exp(-sqrt(du * du + dv * dv) / range);
      field->matrix[j * p->n + i] = row[j];
    }
    row[i] = 1;
  }
}

static double panel_point(size_t k, double half) {
  return ((2 * (double)k + 1) / PANEL_POINTS - 1) * half;
}

/* Mean exp(-distance/range) between a place and the points of the panel. */
static double to_panel(const scwi_places *p, double u, double v, double range) {
  double sum = 0;
  for (size_t i = 0; i < PANEL_POINTS; i++)
    for (size_t j = 0; j < PANEL_POINTS; j++)
      sum += exp(-hypot(panel_point(i, p->half_u) - u,
                        panel_point(j, p->half_v) - v) / range);
  return sum / (PANEL_POINTS * PANEL_POINTS);
}

/* The same between two points of the panel: so many pairs lie i and j steps
 * apart. */
static double within_panel(const scwi_places *p, double range) {
  double sum = 0, step_u = 2 * p->half_u / PANEL_POINTS;
  double step_v = 2 * p->half_v / PANEL_POINTS, all = PANEL_POINTS;
  for (int i = 0; i < PANEL_POINTS; i++)
    for (int j = 0; j < PANEL_POINTS; j++)
      sum += (i ? 2 : 1) * (all - i) * (j ? 2 : 1) * (all - j) *
             exp(-hypot(i * step_u, j * step_v) / range);
  return sum / (all * all * all * all);
}

scw_status scwi_field_at(scw_context *context, scwi_field *field, double range,
                         bool panel) {
  const scwi_places *p = field->places;
  double *column = field->rotated;
  correlations(field, range);
  for (size_t k = 0; k < field->means; k++, column += p->n)
    for (size_t i = 0; i < p->n; i++)
      column[i] = scwi_plane_entry(p, i, k) - field->middle[k];
  memcpy(column, p->w, p->n * sizeof *column);
  column += p->n;
  for (size_t i = 0; i < p->n; i++)
    column[i] = panel ? to_panel(p, p->u[i], p->v[i], range) : 0;
  field->panel = panel ? within_panel(p, range) : 0;
  return scwi_tridiagonal(context, field->matrix, p->n, field->diagonal,
                          field->beside, field->rotated, field->columns);
}

scwi_gram scwi_field_gram(const scwi_field *field, double nugget) {
  size_t n = field->places->n, columns = field->columns;
  double solved[SCWI_FIELD_COLUMNS] = {0}, pivot = 1, beside = 0;
  scwi_gram gram = {{{0}}, 0};
  for (size_t i = 0; i < n; i++) {
    double ratio = beside / pivot;
    pivot = (1 - nugget) * field->diagonal[i] + nugget - ratio * beside;
    if (!(pivot > 0)) return (scwi_gram){{{0}}, NAN};
    gram.log_determinant += log(pivot);
    for (size_t k = 0; k < columns; k++) {
      solved[k] = field->rotated[k * n + i] - ratio * solved[k];
      for (size_t l = 0; l <= k; l++)
        gram.of[k][l] += solved[k] * solved[l] / pivot;
    }
    if (i + 1 < n) beside = (1 - nugget) * field->beside[i];
  }
  for (size_t k = 0; k < columns; k++)
    for (size_t l = 0; l < k; l++) gram.of[l][k] = gram.of[k][l];
  return gram;
}

/* Cholesky of the means and the readings: the last pivot is what the mean
 * leaves of the readings' sum of squares. */
static bool factor(const scwi_gram *gram, size_t size,
                   double l[SCWI_FIELD_COLUMNS][SCWI_FIELD_COLUMNS]) {
  for (size_t j = 0; j < size; j++)
    for (size_t i = j; i < size; i++) {
      double sum = gram->of[i][j];
      for (size_t k = 0; k < j; k++) sum -= l[i][k] * l[j][k];
      if (i == j && !(sum > 0)) return false;
      l[i][j] = i == j ? sqrt(sum) : sum / l[j][j];
    }
  return true;
}

bool scwi_field_fit_of(const scwi_field *field, const scwi_gram *gram,
                       scwi_field_fit *out) {
  size_t p = field->means;
  double l[SCWI_FIELD_COLUMNS][SCWI_FIELD_COLUMNS], df, inverse[3][3] = {{0}};
  *out = (scwi_field_fit){.variance = 0};
  if (isnan(gram->log_determinant) || !factor(gram, p + 1, l)) return false;
  df = (double)(field->places->n - p);
  out->variance = l[p][p] * l[p][p] / df;
  out->log_likelihood = -0.5 * (df * log(out->variance) + gram->log_determinant);
  for (size_t j = 0; j < p; j++) {
    out->log_likelihood -= log(l[j][j]);
    inverse[j][j] = 1 / l[j][j];
    for (size_t i = j + 1; i < p; i++) {
      for (size_t k = j; k < i; k++)
        inverse[i][j] -= l[i][k] * inverse[k][j];
      inverse[i][j] /= l[i][i];
    }
  }
  for (size_t i = 0; i < p; i++)
    for (size_t j = 0; j < p; j++)
      for (size_t k = i > j ? i : j; k < p; k++)
        out->covariance[i][j] += inverse[k][i] * inverse[k][j];
  for (size_t i = 0; i < p; i++)
    for (size_t k = i; k < p; k++)
      out->mean[i] += inverse[k][i] * l[p][k];
  return isfinite(out->log_likelihood);
}

/* For the search: the lower, the better; large where there is no fit. */
static double badness(double nugget, void *parameters) {
  const scwi_field *field = parameters;
  scwi_field_fit fit;
  scwi_gram gram = scwi_field_gram(field, nugget);
  return scwi_field_fit_of(field, &gram, &fit) ? -fit.log_likelihood : 1e300;
}

scw_status scwi_field_best_nugget(scw_context *context, const scwi_field *field,
                                  double *nugget, double *log_likelihood) {
  scwi_field copy = *field; /* the search takes no pointers to const */
  double value[NUGGETS + 1], step = 1.0 / NUGGETS;
  size_t best = 0;
  for (size_t k = 0; k <= NUGGETS; k++) {
    value[k] = badness((double)k * step, &copy);
    if (value[k] < value[best]) best = k;
  }
  *nugget = (double)best * step;
  *log_likelihood = -value[best];
  /* beside an end the best may lie between the end and the first step */
  double low = best > 0 ? *nugget - step : 0;
  double high = best < NUGGETS ? *nugget + step : 1;
  double middle = *nugget;
  if (best == 0) middle = 1e-6;
  if (best == NUGGETS) middle = 1 - 1e-6;
  double inside = badness(middle, &copy), lowest;
  if (!(inside < badness(low, &copy) && inside < badness(high, &copy)))
    return SCW_OK;
  scw_status status = scwi_minimum(context, badness, &copy, low, middle, high,
                                   1e-7, nugget, &lowest);
  *log_likelihood = -lowest;
  return status;
}

