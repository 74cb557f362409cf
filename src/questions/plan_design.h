/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Beyond one number a side: unequal sides. */
#ifndef SCWI_PLAN_DESIGN_H
#define SCWI_PLAN_DESIGN_H

#include "comparison.h"
#include "notes.h"
#include "scatterwise/plan.h"

/* SCW_BAD_ARGUMENT for ratios and combinations that make no sense. */
scw_status scwi_check_plan_design(scw_context *context,
                                  const scw_plan_request *request);

/* Fills split, where it is asked for. */
scw_status scwi_plan_design(scw_context *context,
                            const scwi_comparison *comparison,
                            scw_plan_result *out);

scw_status scwi_note_plan_design(scw_context *context,
                                 const scw_plan_result *result,
                                 scwi_notes *notes);
#endif
