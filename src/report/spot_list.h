/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the reports of a spot list share. */
#ifndef SCWI_SPOT_LIST_H
#define SCWI_SPOT_LIST_H

#include "scatterwise/report.h"
#include "sheet.h"

/* The label of the treatment column; "" without halves. */
const char *scwi_spot_treatment(const scw_layout_result *list,
                                const scw_spot *spot);

/* "x (mm)", or "x" where the unit was not said. */
void scwi_put_heading(scwi_text *text, const char *what, const char *unit);

/* The first panel as characters, its spots by their numbers. */
void scwi_spot_map(scwi_sheet *sheet, const scw_layout_result *list);

scw_status scwi_json_spots(scw_context *context, const scw_layout_result *list,
                           scw_sink sink);
scw_status scwi_csv_spots(scw_context *context, const scw_layout_result *list,
                          scw_sink sink);

#endif
