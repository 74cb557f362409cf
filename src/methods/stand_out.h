/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings that stand out: Grubbs, generalised extreme Studentised deviate.
 * A flag is never a removal. */
#ifndef SCWI_STAND_OUT_H
#define SCWI_STAND_OUT_H

#include "scatterwise/summary.h"
#include "workings.h"

/* `candidates` 0: by n (one to n = 14, then n/5, at most 20). Grubbs' figures
 * are given from n = 3 to 1e5; flags never name a reading within two display
 * steps of the median. */
scw_status scwi_stand_out(scw_context *context, const scwi_workings *workings,
                          double significance, size_t candidates,
                          scw_stand_out *out);

/* Share of normal sets of n readings in which the procedure flags any, at 0.05
 * with the candidates that go with n, for n 15 to 24 where Rosner's limits are
 * approximate; not computed elsewhere. */
scw_figure scwi_esd_false_rate(size_t n);

#endif
