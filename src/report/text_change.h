/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Changes as text: what one product and a family of them share. */
#ifndef SCWI_TEXT_CHANGE_H
#define SCWI_TEXT_CHANGE_H

#include "sheet.h"

/* "changed", "cannot tell": a verdict as a remark. */
const char *scwi_verdict_label(scw_verdict verdict);

int scwi_decimals_of_change(const scw_estimate *change);

/* df, shuffling, scatter, margin and what would settle it, a line each. */
void scwi_sheet_views(scwi_sheet *sheet, const scw_change_report *change);

/* The scatter bank and how the readings compare; nothing without one. */
void scwi_sheet_bank(scwi_sheet *sheet, const scw_change_report *change,
                     const scw_bench_scatter *entry);

/* What the instruments add, what cancels; nothing without a bench's model.
 * `named`: the heading says to which product. */
void scwi_sheet_instruments(scwi_sheet *sheet, const scw_change_report *change,
                            bool named);

/* "hull white (gloss at 60 degrees, meter M2), 2026-03-14". */
void scwi_put_entry(scwi_text *text, const scw_bench_scatter *entry);

/* What is left of before; nothing where nobody asked. `named`: it says whose. */
void scwi_sheet_retention(scwi_sheet *sheet, const scw_change_report *change,
                          bool named);

/* Spots without a partner; `named`: each line says whose spot it is. */
void scwi_sheet_unmatched(scwi_sheet *sheet, const scw_change_report *change,
                          bool named, const char *label);

/* What stands out before and after; `product` may be null. */
void scwi_sheet_side_stand_outs(scwi_sheet *sheet, const char *product,
                                const scw_change_report *change);

/* Several products: the answer for all, a line each, their sentences. */
void scwi_sheet_family(scwi_sheet *sheet, const scw_change_result *result);

#endif
