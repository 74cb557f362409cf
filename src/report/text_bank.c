/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the scatter bank holds and how the readings' own scatter compares. */
#include <math.h>

#include "figure.h"
#include "number_words.h"
#include "text_change.h"
#include "wording.h"

void scwi_put_entry(scwi_text *text, const scw_bench_scatter *entry) {
  scwi_text_format(text, "%s (%s", entry->panel_type, entry->quantity);
  if (*entry->geometry)
    scwi_text_format(text, " at %s degrees", entry->geometry);
  if (*entry->meter) scwi_text_format(text, ", meter %s", entry->meter);
  scwi_text_format(text, "), %s", entry->date);
}

/* "SD 0.62 GU, df 80, from 20 sets of hull white (gloss at 60 degrees), ...". */
static void held(scwi_sheet *sheet, const scw_change_report *change,
                 const scw_bench_scatter *entry) {
  scwi_text *text = &sheet->scratch;
  scwi_text_add(text, "SD ");
  scwi_put_digits(text, change->bank.sd, 3);
  if (change->unit && *change->unit)
    scwi_text_format(text, " %s", change->unit);
  scwi_text_add(text, ", df ");
  scwi_word_df(text, change->bank.df);
  scwi_text_add(text, ", from ");
  scwi_word_count(text, entry->sets, "set");
  scwi_text_add(text, " of ");
  scwi_put_entry(text, entry);
  scwi_sheet_labelled_scratch(sheet, "scatter bank");
}

void scwi_sheet_bank(scwi_sheet *sheet, const scw_change_report *change,
                     const scw_bench_scatter *entry) {
  scwi_text *text = &sheet->scratch;
  const scw_bank_view *bank = &change->bank;
  if (bank->state == SCW_NOT_COMPUTED || !entry) return;
  held(sheet, change, entry);
  if (bank->state != SCW_PRESENT || !scwi_present(bank->f)) return;
  scwi_put_digits(text, sqrt(bank->f.value), 2);
  scwi_text_add(text, " (F test with df ");
  scwi_word_df(text, bank->own_df.value);
  scwi_text_add(text, " and ");
  scwi_word_df(text, bank->df);
  scwi_text_add(text, ", ");
  scwi_word_p(text, bank->f_p);
  scwi_text_add(text, ")");
  scwi_sheet_labelled_scratch(sheet, "own SD/bank");
  scwi_text_format(text, "by own scatter \"%s\", by the bank \"%s\"",
                   bank->alone ? "no verdict"
                               : scwi_verdict_label(bank->own_verdict),
                   scwi_verdict_label(bank->verdict));
  scwi_sheet_labelled_scratch(sheet, "verdicts");
}
