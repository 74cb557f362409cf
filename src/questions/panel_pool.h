/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The scatter within the sets of a table, pooled. */
#ifndef SCWI_PANEL_POOL_H
#define SCWI_PANEL_POOL_H

#include "notes.h"
#include "scatterwise/panel.h"
#include "table_facts.h"

/* Fills pool and set_label of `out`; sets are those of scw_readings, spots
 * count by their means. Notes name the sets that do not belong. */
scw_status scwi_panel_pool(scw_context *context, const scw_table *table,
                           const scwi_table_facts *facts,
                           scw_panel_result *out, scwi_notes *notes);

/* What the pool says, in a sentence. */
scw_status scwi_panel_pool_sentence(scw_context *context,
                                    const scw_panel_result *result,
                                    char **out);

#endif
