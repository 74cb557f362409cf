/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A root of f between low and high, where f changes sign (Brent, by GSL).
 * Stops at `relative` width of the root. */
#ifndef SCWI_ROOTS_H
#define SCWI_ROOTS_H

#include "scatterwise/context.h"

typedef double (*scwi_function)(double x, void *parameters);

scw_status scwi_root(scw_context *context, scwi_function f, void *parameters,
                     double low, double high, double relative, double *out);
#endif
