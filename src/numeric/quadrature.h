/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Integral of f from low to high (adaptive Gauss-Kronrod, by GSL) to
 * `absolute` or `relative` error, whichever is reached first. */
#ifndef SCWI_QUADRATURE_H
#define SCWI_QUADRATURE_H

#include "roots.h"

scw_status scwi_integral(scw_context *context, scwi_function f,
                         void *parameters, double low, double high,
                         double absolute, double relative, double *out);
#endif
