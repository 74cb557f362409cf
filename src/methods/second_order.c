/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "second_order.h"

#include <stdlib.h>
#include <string.h>

#include "correlation.h"
#include "eigen.h"
#include "figure.h"
#include "memory.h"

/* Second-order terms below this part of the variance are not brought up
 * (common practice, no source). */
static const double worth_saying = 0.05;

typedef struct curved {
  scw_context *context;
  const scwi_expression *expression;
  const double *x, *u, *correlation;
  size_t n;
  double *factor; /* n x n: V = factor factor' */
  double *along;  /* V grad f */
  double *q;      /* one direction */
} curved;

/* Columns of the root of V: u_j e_j, or from the eigenvectors of R. */
static scw_status find_factor(curved *c, double *copy, double *values) {
  size_t n = c->n;
  for (size_t i = 0; i < n && !c->correlation; i++)
    c->factor[i * n + i] = c->u[i];
  if (!c->correlation || n == 0) return SCW_OK;
  memcpy(copy, c->correlation, n * n * sizeof *copy);
  scw_status status =
      scwi_symmetric_eigen(c->context, copy, n, values, c->factor);
  for (size_t i = 0; i < n && !status; i++)
    for (size_t k = 0; k < n; k++)
      c->factor[i * n + k] *= c->u[i] * sqrt(fmax(values[k], 0));
  return status;
}

/* D_w tr(H V) as the sum over the columns q of the root of D_w D_q D_q f. */
static scw_status third_term(curved *c, double *out) {
  scw_status status = SCW_OK;
  *out = 0;
  for (size_t k = 0; k < c->n && !status; k++) {
    double third = 0;
    for (size_t i = 0; i < c->n; i++)
      c->q[i] = c->factor[i * c->n + k];
    status = scwi_expression_third(c->context, c->expression, c->x, c->q,
                                   c->along, &third);
    *out += third;
  }
  return status;
}

/* tr(H V H V) / 2 and tr(H V) / 2: with F the root of V, of F' H F. */
static void curvature_terms(const curved *c, const double *hessian,
                            double *variance, double *shift) {
  size_t n = c->n;
  *variance = *shift = 0;
  for (size_t k = 0; k < n; k++) {
    for (size_t i = 0; i < n; i++) {
      c->q[i] = 0;
      for (size_t j = 0; j < n; j++)
        c->q[i] += hessian[i * n + j] * c->factor[j * n + k];
    }
    for (size_t l = 0; l < n; l++) {
      double entry = 0;
      for (size_t i = 0; i < n; i++)
        entry += c->factor[i * n + l] * c->q[i];
      *variance += entry * entry / 2;
      if (l == k) *shift += entry / 2;
    }
  }
}

static scw_second_order sum_up(double variance, double first, double shift) {
  scw_second_order out = {.variance = variance, .shift = shift};
  double both = first + variance;
  out.part = first > 0 ? scwi_figure(fabs(variance) / first)
                       : scwi_missing(SCW_UNBOUNDED);
  out.matters = fabs(variance) > worth_saying * first;
  out.standard_uncertainty =
      both > 0 ? scwi_figure(sqrt(both)) : scwi_missing(SCW_OUT_OF_RANGE);
  if (first <= 0 && variance == 0) {
    out.part = scwi_missing(SCW_NO_SCATTER);
    out.standard_uncertainty = scwi_missing(SCW_NO_SCATTER);
  }
  return out;
}

scw_second_order scwi_no_second_order(void) {
  return (scw_second_order){
      .part = scwi_missing(SCW_NOT_COMPUTED),
      .standard_uncertainty = scwi_missing(SCW_NOT_COMPUTED)};
}

static scw_status work_out(curved *c, double *copy, double *values,
                           const double *slopes, const double *hessian,
                           double first, scw_second_order *out) {
  double square, shift, third;
  scw_status status = find_factor(c, copy, values);
  if (status) return status;
  for (size_t i = 0; i < c->n; i++)
    c->q[i] = slopes[i] * c->u[i];
  for (size_t i = 0; i < c->n; i++)
    c->along[i] = c->u[i] * scwi_correlation_row(c->correlation, c->q, c->n, i);
  curvature_terms(c, hessian, &square, &shift);
  status = third_term(c, &third);
  if (status == SCW_NO_FIGURE) return SCW_OK; /* no such slope: said in *out */
  if (!status) *out = sum_up(square + third, first, shift);
  return status;
}

scw_status scwi_second_order(scw_context *context,
                             const scwi_expression *expression, const double *x,
                             const double *u, const double *correlation,
                             const double *slopes, const double *hessian,
                             double variance, scw_second_order *out) {
  size_t n = expression->n_inputs;
  double *room;
  *out = scwi_no_second_order();
  scw_status status = SCWI_ALLOCATE(context, n * (2 * n + 3), &room);
  if (status) return status;
  double *copy = room + n * n, *values = copy + n * n;
  curved c = {context,    expression,    x, u, correlation, n, room,
              values + n, values + 2 * n};
  status = work_out(&c, copy, values, slopes, hessian, variance, out);
  free(room);
  return status;
}
