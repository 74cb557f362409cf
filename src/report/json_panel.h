/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Parts of a panel's report as JSON. */
#ifndef SCWI_JSON_PANEL_H
#define SCWI_JSON_PANEL_H

#include "json_parts.h"
#include "scatterwise/panel.h"

/* The ends of an interval as two members. */
void scwi_json_ends(scwi_json *to, const char *low, const char *high,
                    scw_interval interval);
/* {"estimate", "standard_uncertainty", "df", "low", "high"} */
scwi_json *scwi_json_estimate_of(const scw_estimate *estimate);
scwi_json *scwi_json_component(const char *level, const scw_component *found);

scwi_json *scwi_json_crossed(const scw_crossed *crossed);
scwi_json *scwi_json_precision(const scw_panel_part *part);
scwi_json *scwi_json_place(const scw_panel_part *part);

#endif
