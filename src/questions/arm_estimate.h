/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The change by its design: of one arm, or of one arm less its control. */
#ifndef SCWI_ARM_ESTIMATE_H
#define SCWI_ARM_ESTIMATE_H

#include "arm.h"
#include "instruments.h"
#include "planning.h"

/* What is compared. `halves`: treated and control are two halves of the same
 * layout, so that their spots are true pairs. */
typedef struct scwi_compared {
  const scwi_arm *arm;
  const scwi_arm *control; /* null: none */
  bool halves;
  /* Sides given as numbers take the place of the arm's; null: readings. */
  const scw_given_side *given_before, *given_after;
  const scwi_instruments *instruments; /* added to the change; null: none */
} scwi_compared;

typedef struct scwi_arm_estimate {
  scw_estimate change;
  scwi_comparison comparison; /* the SDs found, for planning */
  size_t n_before, n_after;   /* pairs in both when paired; with a control,
                                 those of the control and of the treated */
  /* A bare number among the sides: what it has to be good for, and the
   * verdict that leaves (SCW_VERDICT_END: none, read the interval). */
  scw_figure break_even_u, break_even_sd;
  scw_verdict bare;
  scw_estimate scatter;       /* the change without the instruments' part, which
                                 is comparison.fixed */
} scwi_arm_estimate;

static inline bool scwi_by_numbers(const scwi_compared *compared) {
  return compared->given_before || compared->given_after;
}

/* After minus before (less the control's) with its interval at `level`;
 * figures that do not exist say why. Instruments are added where the scatter
 * has a standard uncertainty: without one an interval would be too narrow. */
scw_status scwi_change_estimate(scw_context *context, scwi_compared compared,
                                scw_step step, double level,
                                scwi_arm_estimate *out);

/* The means of its sides, that of the value after first. */
scwi_side_means scwi_sides_of(const scwi_compared *compared);

/* The scatter of one arm alone. */
scw_status scwi_arm_estimate_of(scw_context *context, const scwi_arm *arm,
                                scw_step step, double level,
                                scwi_arm_estimate *out);

/* Treated and control as one arm: its two sides are the differences of the
 * control and of the treated, matched where they are halves. Both must be
 * paired. `table` as in scwi_arm_match. */
scw_status scwi_control_view(scw_context *context, const scw_table *table,
                             scwi_compared compared, scwi_arm *out);
#endif
