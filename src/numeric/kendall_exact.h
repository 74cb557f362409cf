/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exact two-sided p of Kendall's S without ties, n 2 to 50: P(|S*| >= |s|). */
#ifndef SCWI_KENDALL_EXACT_H
#define SCWI_KENDALL_EXACT_H

#include "scatterwise/context.h"

scw_status scwi_kendall_exact_p(scw_context *context, size_t n, long s,
                                double *p);
#endif
