/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two one-sided tests (Schuirmann 1987, J. Pharmacokin. Biopharm. 15,
 * 657-680). */
#ifndef SCWI_EQUIVALENCE_H
#define SCWI_EQUIVALENCE_H

#include "scatterwise/comparison.h"

/* The larger p of "the change is at least the margin up" and "... down", to be
 * held against (1 - interval level)/2. SCW_NO_MARGIN; else missing for the
 * reason that the interval is; a p too small for a double as in
 * scwi_estimate. */
scw_tost scwi_tost(const scw_estimate *change, scw_figure margin);
#endif
