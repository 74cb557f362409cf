/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dense.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>

#include "context.h"
#include "memory.h"

/* Below this the columns depend on each other as far as doubles can tell. */
#define DEPENDENT 1e-12

static bool all_finite(const double *x, size_t n) {
  for (size_t i = 0; i < n; i++)
    if (!isfinite(x[i])) return false;
  return true;
}

static scw_status refuse(scw_context *context) {
  return scwi_fail(context, SCW_BAD_ARGUMENT,
                   "a system of equations holds a number that is not finite, "
                   "or no equations");
}

static scw_status broken(scw_context *context) {
  return scwi_fail(context, SCW_NOT_REACHED,
                   "a system of equations could not be solved: the figures "
                   "are too extreme for a reliable answer");
}

static double rank_ratio(const gsl_matrix *qr, size_t p) {
  double least = INFINITY, most = 0;
  for (size_t j = 0; j < p; j++) {
    double size = fabs(gsl_matrix_get(qr, j, j));
    least = fmin(least, size);
    most = fmax(most, size);
  }
  return most > 0 ? least / most : 0;
}

/* (R'R)^-1 from the upper triangle R: with R^-1 = U it is U U'. */
static void inverse_product(const gsl_matrix *qr, size_t p,
                            scwi_least_squares *out) {
  double u[SCWI_DENSE_COLUMNS][SCWI_DENSE_COLUMNS] = {{0}};
  for (size_t j = 0; j < p; j++) {
    u[j][j] = 1 / gsl_matrix_get(qr, j, j);
    for (size_t i = j; i-- > 0;) {
      double sum = 0;
      for (size_t k = i + 1; k <= j; k++)
        sum += gsl_matrix_get(qr, i, k) * u[k][j];
      u[i][j] = -sum / gsl_matrix_get(qr, i, i);
    }
  }
  for (size_t i = 0; i < p; i++)
    for (size_t j = 0; j < p; j++)
      for (size_t k = i > j ? i : j; k < p; k++)
        out->covariance[i][j] += u[i][k] * u[j][k];
}

static scw_status solve(scw_context *context, gsl_matrix *qr, const double *y,
                        double *left, scwi_least_squares *out) {
  double tau[SCWI_DENSE_COLUMNS];
  size_t n = qr->size1, p = qr->size2;
  gsl_vector_view taus = gsl_vector_view_array(tau, p);
  gsl_vector_view b = gsl_vector_view_array(out->coefficient, p);
  gsl_vector_view r = gsl_vector_view_array(left, n);
  gsl_vector_const_view target = gsl_vector_const_view_array(y, n);
  if (gsl_linalg_QR_decomp(qr, &taus.vector) != GSL_SUCCESS)
    return broken(context);
  out->rank_ratio = rank_ratio(qr, p);
  if (out->rank_ratio < DEPENDENT) return SCW_OK;
  if (gsl_linalg_QR_lssolve(qr, &taus.vector, &target.vector, &b.vector,
                            &r.vector) != GSL_SUCCESS)
    return broken(context);
  inverse_product(qr, p, out);
  for (size_t i = 0; i < n; i++)
    out->sum_of_squares += left[i] * left[i];
  return SCW_OK;
}

scw_status scwi_least_squares_of(scw_context *context, const double *x,
                                 const double *y, size_t n, size_t p,
                                 scwi_least_squares *out, double *residual) {
  *out = (scwi_least_squares){.rank_ratio = 0};
  if (p < 1 || p > SCWI_DENSE_COLUMNS || n < p || !all_finite(x, n * p) ||
      !all_finite(y, n))
    return refuse(context);
  double *room;
  scw_status status = SCWI_ALLOCATE(context, n * p + n, &room);
  if (status != SCW_OK) return status;
  memcpy(room, x, n * p * sizeof *room);
  gsl_matrix_view qr = gsl_matrix_view_array(room, n, p);
  double *left = residual ? residual : room + n * p;
  status = solve(context, &qr.matrix, y, left, out);
  free(room);
  return status;
}

scw_status scwi_tridiagonal(scw_context *context, double *a, size_t n,
                            double *diagonal, double *beside, double *b,
                            size_t columns) {
  if (n < 2 || !all_finite(a, n * n) || !all_finite(b, columns * n))
    return refuse(context);
  double *room;
  scw_status status = SCWI_ALLOCATE(context, n, &room);
  if (status != SCW_OK) return status;
  gsl_matrix_view matrix = gsl_matrix_view_array(a, n, n);
  gsl_vector_view tau = gsl_vector_view_array(room, n - 1);
  if (gsl_linalg_symmtd_decomp(&matrix.matrix, &tau.vector) != GSL_SUCCESS)
    status = broken(context);
  /* Q = H_0 H_1 ..., so Q' b applies H_0 first. */
  for (size_t c = 0; status == SCW_OK && c < columns; c++)
    for (size_t i = 0; i + 2 < n; i++) {
      gsl_vector_view v = gsl_matrix_subcolumn(&matrix.matrix, i, i + 1,
                                               n - i - 1);
      gsl_vector_view w = gsl_vector_view_array(b + c * n + i + 1, n - i - 1);
      gsl_linalg_householder_hv(room[i], &v.vector, &w.vector);
    }
  for (size_t i = 0; i < n; i++) {
    diagonal[i] = a[i * n + i];
    if (i > 0) beside[i - 1] = a[i * n + i - 1];
  }
  free(room);
  return status;
}
