/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Probability that a quantity lies within limits, and where to draw the line
 * for acceptance (JCGM 106, clauses 7 and 8). */
#ifndef SCWI_CONFORMANCE_H
#define SCWI_CONFORMANCE_H

#include "context.h"
#include "scatterwise/budget.h"

/* The quantity is estimate + u * t(df), or normal for infinite df; u > 0.
 * low < high, one of which may be infinite. wanted: 0.5 < wanted < 1. */
scw_status scwi_conformance(scw_context *context, double estimate, double u,
                            double df, double low, double high, double wanted,
                            scw_conformance *out);

#endif
