/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A plan from the scatter of a bench. */
#ifndef SCWI_PLAN_BANK_H
#define SCWI_PLAN_BANK_H

#include "context.h"
#include "scatterwise/plan.h"
#include "text.h"

/* With out->request.bench: finds the entry and plans as from a pilot of its
 * df + 1 readings. A plan has no readings to be like, so what is not said is
 * what all entries of the panel type agree on. */
scw_status scwi_take_bank(scw_context *context, const char *unit,
                          scw_plan_result *out);

/* "a bank of 20 sets (80 degrees of freedom)". */
void scwi_say_bank(scwi_text *text, const scw_bench_scatter *entry);

#endif
