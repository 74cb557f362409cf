/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Eigenvalues of small symmetric matrices (by GSL). */
#ifndef SCWI_EIGEN_H
#define SCWI_EIGEN_H

#include "scatterwise/context.h"

/* A = V diag(values) V' for a symmetric n x n matrix (row after row, entries
 * finite; destroyed). Values rise; vectors[i * n + k] is entry i of the k-th
 * vector. n >= 1. Cost n^3. */
scw_status scwi_symmetric_eigen(scw_context *context, double *a, size_t n,
                                double *values, double *vectors);

#endif
