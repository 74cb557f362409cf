/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every change checks of its options. */
#ifndef SCWI_CHANGE_OPTIONS_H
#define SCWI_CHANGE_OPTIONS_H

#include "context.h"
#include "scatterwise/change.h"

/* SCW_BAD_ARGUMENT for a margin that is not positive (0: none given). */
scw_status scwi_check_margin(scw_context *context, double margin);

/* A side given as numbers: finite, an SD that is not negative and has at least
 * two readings behind it. `name` is "the baseline" and the like. */
scw_status scwi_check_given(scw_context *context, const char *name,
                            const scw_given_side *given);
#endif
