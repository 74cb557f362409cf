/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The change where one side or both are numbers instead of readings. */
#ifndef SCWI_GIVEN_ESTIMATE_H
#define SCWI_GIVEN_ESTIMATE_H

#include "arm_estimate.h"

scw_status scwi_given_estimate(scw_context *context, scwi_compared compared,
                               scw_step step, double level,
                               scwi_arm_estimate *out);
#endif
