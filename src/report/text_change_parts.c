/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "text_change.h"
#include "text_set.h"

const char *scwi_verdict_label(scw_verdict verdict) {
  switch (verdict) {
    case SCW_CHANGED:
      return "changed";
    case SCW_CHANGED_SIZE_UNCLEAR:
      return "changed, size unclear";
    case SCW_CHANGED_BUT_SMALL:
      return "changed, but small";
    case SCW_NO_CHANGE_BEYOND_MARGIN:
      return "within the margin";
    case SCW_CONDITIONAL:
      return "conditional";
    case SCW_CANNOT_TELL:
      return "cannot tell";
    default:
      return "no verdict";
  }
}

int scwi_decimals_of_change(const scw_estimate *change) {
  return scwi_decimals_of(change->standard_uncertainty, change->estimate);
}

void scwi_sheet_unmatched(scwi_sheet *sheet, const scw_change_report *change,
                          bool named, const char *label) {
  for (size_t i = 0; i < change->n_unmatched && change->unmatched; i++) {
    if (named && change->product)
      scwi_text_format(&sheet->scratch, "%s: ", change->product);
    scwi_text_add(&sheet->scratch,
                  change->unmatched[i] ? change->unmatched[i] : "");
    scwi_sheet_labelled_scratch(sheet, i ? "" : label);
  }
}

/* What stands out on a side: "K1 before: value 3 ...". */
static void side_stand_out(scwi_sheet *sheet, const char *product,
                           const char *side, const scw_set_report *set) {
  if (set->summary.stand_out.n_flags == 0) return;
  scwi_text name = {0};
  if (product && *product) scwi_text_format(&name, "%s ", product);
  scwi_text_add(&name, side);
  if (name.failed) sheet->text.failed = true;
  scwi_sheet_stand_out(sheet, set, name.data);
  scwi_text_free(&name);
}

void scwi_sheet_side_stand_outs(scwi_sheet *sheet, const char *product,
                                const scw_change_report *change) {
  side_stand_out(sheet, product, "before", &change->before);
  side_stand_out(sheet, product, "after", &change->after);
}
