/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Does the shape look normal? Shapiro-Wilk and Anderson-Darling. */
#ifndef SCWI_SHAPE_H
#define SCWI_SHAPE_H

#include "scatterwise/summary.h"
#include "workings.h"

/* Shapiro-Wilk from 3 readings on, Anderson-Darling from 8 on, both to 5000. */
scw_status scwi_shape(scw_context *context, const scwi_workings *workings,
                      scw_shape *out);

#endif
