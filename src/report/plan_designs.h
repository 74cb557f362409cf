/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Designs of a plan in every format. */
#ifndef SCWI_REPORT_DESIGNS_H
#define SCWI_REPORT_DESIGNS_H

#include "csv_table.h"
#include "scatterwise/plan.h"
#include "sheet.h"
#include "stream.h"

/* Table of the designs, and what they were made from. */
void scwi_sheet_designs(scwi_sheet *sheet, const scw_plan_result *result);
void scwi_sheet_scatter(scwi_sheet *sheet, const scw_plan_result *result);

/* Members of results: scatter, designs, and the cheapest by other scatters. */
void scwi_stream_designs(scwi_stream *stream, const scw_plan_result *result);

/* One row for each design. */
scw_status scwi_csv_designs(scw_context *context, const scw_plan_result *result,
                            scw_sink sink);

#endif
