/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Settings: checked once, and handed on to the methods. */
#ifndef SCWI_SETTINGS_H
#define SCWI_SETTINGS_H

#include "context.h"
#include "scatterwise/readings.h"
#include "summarise.h"

/* *out = *settings, or the defaults when null; SCW_BAD_ARGUMENT names the
 * setting that is out of range. */
scw_status scwi_settings_take(scw_context *context,
                              const scw_settings *settings, scw_settings *out);

scwi_summary_settings scwi_settings_for_summary(const scw_settings *settings);

#endif
