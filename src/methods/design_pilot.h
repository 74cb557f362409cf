/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a pilot's scatter to that of a design. */
#ifndef SCWI_DESIGN_PILOT_H
#define SCWI_DESIGN_PILOT_H

#include "design.h"
#include "sample.h"
#include "tree.h"

/* The scatter of readings under labels, split into levels; upper limits at
 * `assurance`, above 0.5. */
scw_status scwi_scatter_of(scw_context *context, const scwi_sample *sample,
                           const scwi_level_labels *labels, double assurance,
                           scw_plan_scatter *out);

/* What of a pilot's scatter a design meets, component for component:
 *   one mean, two sides    all of it
 *   pairs, pilot of differences          all of it
 *   control half, pilot of differences   all but the sessions, which both
 *                                        halves share
 *   pairs, pilot of one side   sessions and repeats twice; panels cancel;
 *                              spots cancel, or stay twice (`uncancelled`)
 *   control half, pilot of one side   the same without the sessions
 * `upper`: at the upper limits. Components below zero count as none. */
scwi_design_scatter scwi_design_scatter_of(scwi_design_form form,
                                           const scw_plan_scatter *pilot,
                                           bool upper, bool uncancelled);

/* Degrees of freedom of the pilot's estimate of a unit's variance
 * (Satterthwaite 1946, Biometrics 2, 110-114, on the mean squares), at least
 * 1. `met` comes from scwi_design_scatter_of at the estimates. */
double scwi_design_pilot_df(const scw_plan_scatter *pilot,
                            const scwi_design_scatter *met,
                            const scwi_design *design);
#endif
