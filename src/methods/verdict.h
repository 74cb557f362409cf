/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The verdict: one interval read against zero and the margin. */
#ifndef SCWI_VERDICT_H
#define SCWI_VERDICT_H

#include "scatterwise/comparison.h"

/* `margin` is the smallest change that matters (> 0); absent, only changed
 * and cannot_tell exist. An end that touches zero or the margin exactly never
 * earns the stronger claim: zero counts as contained, the margin as reached.
 * Without an interval: SCW_NO_VERDICT. */
scw_verdict scwi_verdict(scw_interval interval, scw_figure margin);

#endif
