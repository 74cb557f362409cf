/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Parts of the budget of one quantity. */
#ifndef SCWI_BUDGET_PARTS_H
#define SCWI_BUDGET_PARTS_H

#include "model.h"
#include "notes.h"
#include "scatterwise/bench_budget.h"

/* Two results beside each other. */
scw_status scwi_budget_two(scw_context *context, const scw_bench *bench,
                           const scwi_bench_compiled *model,
                           scw_two_results *out);

/* The answer in words. */
scw_status scwi_budget_sentence(scw_context *context,
                                const scw_quantity_budget *of, double level,
                                char **out);

/* Whether any input is. */
bool scwi_budget_uncertain(const scw_budget *budget);

/* "1", the unit of a plain ratio, is not printed. */
const char *scwi_shown_unit(const char *unit);

/* What a reader must know beside the figures. */
scw_status scwi_budget_notes(scw_context *context, const scw_bench *bench,
                             const scwi_bench_compiled *model,
                             const scw_settings *settings,
                             const scw_quantity_budget *of,
                             scwi_notes *notes);

#endif
