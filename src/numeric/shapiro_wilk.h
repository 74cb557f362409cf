/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shapiro-Wilk W and p, Royston 1995 (AS R94). `sorted` ascending, n 3 to
 * 5000, not all equal; SCW_BAD_ARGUMENT otherwise. */
#ifndef SCWI_SHAPIRO_WILK_H
#define SCWI_SHAPIRO_WILK_H

#include "scatterwise/context.h"

scw_status scwi_shapiro_wilk(scw_context *context, const double *sorted,
                             size_t n, double *w, double *p);
#endif
