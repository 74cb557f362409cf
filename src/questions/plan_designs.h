/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Designs of panels, sessions, spots and repeats, at a cost. */
#ifndef SCWI_PLAN_DESIGNS_H
#define SCWI_PLAN_DESIGNS_H

#include "scatterwise/plan.h"
#include "text.h"

/* Keeps the pilot's scatter in the result; the SD of a single reading becomes
 * the request's. Nothing without a scatter. */
scw_status scwi_take_scatter(scw_context *context, scw_plan_result *out);

scw_status scwi_check_plan_designs(scw_context *context,
                                   const scw_plan_request *request);

/* Fills designs, possible and plan. */
scw_status scwi_plan_designs(scw_context *context, scw_plan_result *out);

scw_status scwi_note_plan_designs(scw_context *context, scw_plan_result *out);

/* "4 panels with 3 spots each, every spot read twice," and the sides. */
void scwi_say_plan_design(scwi_text *text, const scw_plan_result *result,
                          const scw_plan_design *design);

/* A second sentence for a plan that rests on pairs its pilot cannot show: what
 * it would take if pairing were of no use. Nothing for other plans. */
void scwi_say_if_nothing_cancels(scwi_text *text,
                                 const scw_plan_result *result);

/* Why none of the designs that fit will do. */
void scwi_say_no_room(scwi_text *text, const scw_plan_result *result);

#endif
