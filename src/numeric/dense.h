/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Small dense linear algebra (by GSL). Matrices row after row; entries finite,
 * in a unit where their squares neither overflow nor vanish. */
#ifndef SCWI_DENSE_H
#define SCWI_DENSE_H

#include <stddef.h>

#include "scatterwise/context.h"

enum { SCWI_DENSE_COLUMNS = 4 };

/* Least squares of y on the p <= 4 columns of X (n x p, n >= p) by QR. */
typedef struct scwi_least_squares {
  double coefficient[SCWI_DENSE_COLUMNS];
  double covariance[SCWI_DENSE_COLUMNS][SCWI_DENSE_COLUMNS]; /* (X'X)^-1 */
  double sum_of_squares; /* of the residuals */
  double rank_ratio;     /* smallest over largest |R_jj|: near 0 when columns
                            depend on each other; below 1e-12 nothing else is
                            worked out */
} scwi_least_squares;
/* `residual` (n) may be null. */
scw_status scwi_least_squares_of(scw_context *context, const double *x,
                                 const double *y, size_t n, size_t p,
                                 scwi_least_squares *out, double *residual);

/* A = Q T Q' for symmetric A (n x n, destroyed), T tridiagonal with `diagonal`
 * (n) and `beside` (n - 1); each of the `columns` columns of `b` (column after
 * column, n long each) becomes Q' times itself. */
scw_status scwi_tridiagonal(scw_context *context, double *a, size_t n,
                            double *diagonal, double *beside, double *b,
                            size_t columns);

#endif
