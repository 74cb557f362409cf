/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is left of before, in percent. */
#ifndef SCWI_RETENTION_H
#define SCWI_RETENTION_H

#include "arm_estimate.h"

/* SCW_BAD_ARGUMENT where retention is asked for together with a control: a
 * percentage is left of one before, not of two. */
scw_status scwi_check_retention(scw_context *context,
                                const scw_change_options *options);

/* 100 * after / before of the sides whose change is `estimate`; instruments as
 * they act on a ratio: a shared gain cancels, an offset does not. */
scw_status scwi_retention(scw_context *context, const scwi_compared *compared,
                          const scwi_arm_estimate *estimate, double level,
                          scw_ratio *out);

#endif
