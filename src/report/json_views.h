/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCWI_JSON_VIEWS_H
#define SCWI_JSON_VIEWS_H

#include "json_parts.h"
#include "scatterwise/change.h"

/* Estimate, uncertainty, df, interval and p as one object. */
scwi_json *scwi_json_estimate(const scw_estimate *estimate);

/* permutation, hodges_lehmann, sd_ratio, tost and the break-even figures. */
void scwi_json_views(scwi_json *to, const scw_change_report *change);

/* "control": null without one. */
void scwi_json_control(scwi_json *to, const scw_change_report *change);

/* "scatter": the entry of a bench that was used; null without one. */
void scwi_json_scatter(scwi_json *to, const scw_bench *bench,
                       const scw_bench_scatter *entry);

/* "bank": the change judged on it; null where none was asked for. */
void scwi_json_bank(scwi_json *to, const scw_bank_view *bank);

/* "bench" of all results: the quantity used; "bench" of one change: what the
 * instruments add. Null without a bench's model. */
void scwi_json_model(scwi_json *to, const scw_change_result *result);
void scwi_json_instruments(scwi_json *to, const scw_change_result *result,
                           const scw_instruments *instruments);

/* "tile": null without tile readings. */
void scwi_json_tile(scwi_json *to, const scw_tile *tile);

#endif
