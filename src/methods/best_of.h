/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The best of several looks better than it is. */
#ifndef SCWI_BEST_OF_H
#define SCWI_BEST_OF_H

#include <stddef.h>

#include "figure.h"

/* Were all products alike, and their figures apart by their uncertainties
 * alone: by how much the best of them would be expected to lead. */
typedef struct scwi_best_of {
  scw_figure over_second;
  scw_figure over_rest; /* over the mean of the others */
} scwi_best_of;

/* u[i]: the standard uncertainty of each of the n products' figures, taken as
 * independent and normal. SCW_ONE_OF_IT for fewer than two, SCW_NO_SCATTER where
 * none is above zero. By quadrature, 1e-10 of itself. */
scwi_best_of scwi_best_of_alike(const double *u, size_t n);

#endif
