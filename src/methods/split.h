/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Unequal numbers on the two sides. */
#ifndef SCWI_SPLIT_H
#define SCWI_SPLIT_H

#include "planning.h"

/* Fewest readings in all, at least 3 a side, with which two sides reach DETECT
 * or WITHIN. ratio > 0: after = ceil(ratio before). ratio = 0: the best split,
 * near SD to SD (Neyman); the equal one where that saves nothing. Missing as
 * in scwi_plan_n. */
scw_status scwi_plan_split(scw_context *context,
                           const scwi_comparison *comparison, scwi_goal goal,
                           double ratio, scw_plan_split *out);
#endif
