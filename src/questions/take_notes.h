/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a tester must be aware of while reading. */
#ifndef SCWI_TAKE_NOTES_H
#define SCWI_TAKE_NOTES_H

#include "arm.h"
#include "scatterwise/summary.h"
#include "take_inside.h"

/* From the values behind the figures, the arm of a change, and what the
 * stand-out and creep methods found (of `summary` only these two are read). */
scw_status scwi_take_notes(scw_context *context, const scw_take *take,
                           const scw_take_state *state,
                           const scwi_values *values, const scwi_arm *arm,
                           const scw_summary *summary, scwi_notes *out);
#endif
