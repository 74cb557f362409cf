/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is left of before, in percent, as a line. */
#include "figure.h"
#include "number_words.h"
#include "text_change.h"
#include "text_parts.h"
#include "wording.h"

static void put_percent(scwi_text *text, double value, int decimals) {
  scwi_word_quantity(text, value, decimals, "%");
}

static void put_ends(scwi_text *text, double low, double high, int decimals) {
  scwi_word_quantity(text, low, decimals, NULL);
  scwi_text_add(text, " to ");
  put_percent(text, high, decimals);
}

static void put_level(scwi_text *text, double level) {
  scwi_text_add(text, " at ");
  scwi_word_percent(text, level);
  scwi_text_add(text, " (Fieller)");
}

/* Beyond one of two ends; one of them may not exist. */
static void put_outside(scwi_text *text, const scw_ratio *r, int decimals) {
  if (scwi_present(r->low)) {
    put_percent(text, r->low.value, decimals);
    scwi_text_add(text, " or less");
  }
  if (scwi_present(r->low) && scwi_present(r->high))
    scwi_text_add(text, ", or ");
  if (scwi_present(r->high)) {
    put_percent(text, r->high.value, decimals);
    scwi_text_add(text, " or more");
  }
  scwi_text_add(text, ", since the mean before may be zero");
}

static void put_set(scwi_text *text, const scw_ratio *r, int decimals) {
  bool between = r->set == SCW_RATIO_BETWEEN && scwi_present(r->low) &&
                 scwi_present(r->high);
  if (between)
    put_ends(text, r->low.value, r->high.value, decimals);
  else
    scwi_text_add(text, "no interval");
  put_level(text, r->delta.level);
  if (between) return;
  scwi_text_add(text, ": ");
  if (r->set == SCW_RATIO_OUTSIDE)
    put_outside(text, r, decimals);
  else if (r->set == SCW_RATIO_EVERYTHING)
    scwi_text_add(text,
                  "both means may be zero, and any percentage is "
                  "possible");
  else
    scwi_text_add(text, "it has no limit on one side");
}

void scwi_sheet_retention(scwi_sheet *sheet, const scw_change_report *change,
                          bool named) {
  const scw_ratio *r = &change->retention;
  scwi_text *text = &sheet->scratch;
  if (r->estimate.state == SCW_NOT_COMPUTED) return;
  int decimals = scwi_decimals_of(r->standard_uncertainty, r->estimate);
  if (named && change->product) scwi_text_format(text, "%s: ", change->product);
  if (scwi_present(r->estimate)) {
    put_percent(text, r->estimate.value, decimals);
    scwi_text_add(text, ", ");
  }
  if (r->state == SCW_PRESENT) {
    put_set(text, r, decimals);
  } else {
    scwi_text_format(text, "no interval: %s", scw_presence_text(r->state));
  }
  bool beside = r->state == SCW_PRESENT && r->set == SCW_RATIO_BETWEEN;
  if (beside && r->delta.state == SCW_PRESENT) {
    scwi_text_add(text, "; ");
    put_ends(text, r->delta.low, r->delta.high, decimals);
    scwi_text_add(text, " by logarithms");
  }
  scwi_sheet_labelled_scratch(sheet, "left of before");
}
