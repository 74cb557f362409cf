/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Creep: the least-squares line of the readings over their order. */
#ifndef SCWI_CREEP_H
#define SCWI_CREEP_H

#include "scatterwise/summary.h"
#include "workings.h"

/* Slope per reading with its t interval on n-2 df, SD about the line; and
 * Kendall's S. Readings that lie on a line exactly have no interval
 * (no_scatter) and are not called creeping. */
scw_status scwi_creep(scw_context *context, const scwi_workings *workings,
                      double level, scw_creep *out);

#endif
