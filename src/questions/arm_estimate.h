/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The change of one arm, by its design. */
#ifndef SCWI_ARM_ESTIMATE_H
#define SCWI_ARM_ESTIMATE_H

#include "arm.h"
#include "planning.h"

typedef struct scwi_arm_estimate {
  scw_estimate change;
  scwi_comparison comparison; /* the SDs found, for planning */
  size_t n_before, n_after;   /* pairs in both when paired */
} scwi_arm_estimate;

/* After minus before with its interval at `level`; figures that do not exist
 * say why. */
scw_status scwi_arm_estimate_of(scw_context *context, const scwi_arm *arm,
                                scw_step step, double level,
                                scwi_arm_estimate *out);
#endif
