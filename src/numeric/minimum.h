/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The lowest point of f between low and high (Brent, by GSL), started at
 * `middle`, where f is below both ends. Stops when the bracket is narrower
 * than `width`, or when f is the same at its ends as at the lowest point, up to
 * 1e-13 of it (of 1 where f is smaller). */
#ifndef SCWI_MINIMUM_H
#define SCWI_MINIMUM_H

#include "roots.h"

/* *at and *value: where f was lowest, and f there. An f that is not finite
 * somewhere is SCW_NOT_REACHED. */
scw_status scwi_minimum(scw_context *context, scwi_function f, void *parameters,
                        double low, double middle, double high, double width,
                        double *at, double *value);
#endif
