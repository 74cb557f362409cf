/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Serial dependence: do neighbours in order resemble each other? */
#ifndef SCWI_SERIAL_H
#define SCWI_SERIAL_H

#include "scatterwise/summary.h"
#include "workings.h"

/* Lag-1 autocorrelation and Bartels' rank von Neumann ratio with its two-sided
 * p, 2 min(P(<=), P(>=)): exact to n = 9, his beta approximation above. */
scw_status scwi_serial(scw_context *context, const scwi_workings *workings,
                       scw_serial *out);

#endif
