/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exact two-sided normal tolerance factor (ISO 16269-6): mean -+ k sd holds
 * at least `content` of the population with confidence `level`; 1e-8
 * relative, n 2 to 1e5, content and level 0.5 to 0.9999. */
#ifndef SCWI_TOLERANCE_FACTOR_H
#define SCWI_TOLERANCE_FACTOR_H

#include "scatterwise/context.h"

scw_status scwi_tolerance_factor(scw_context *context, size_t n,
                                 double content, double level, double *k);
#endif
