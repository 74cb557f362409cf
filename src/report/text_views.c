/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stands beside a change, a line each: where its df come from, the same
 * change without a normal curve, the scatter of the sides, what would settle
 * it. */
#include "figure.h"
#include "number_words.h"
#include "text_change.h"
#include "wording.h"

static void degrees_of_freedom(scwi_sheet *sheet,
                               const scw_change_report *change) {
  scwi_text *text = &sheet->scratch;
  const char *origin = change->df_origin;
  scw_figure df = change->change.df;
  if (!scwi_present(df) && df.state != SCW_UNBOUNDED) return;
  if (scwi_present(df)) scwi_word_df(text, df.value);
  if (origin && *origin)
    scwi_text_format(text, "%s%s", text->length ? ": " : "", origin);
  scwi_sheet_labelled_scratch(sheet, "df");
}

/* How often shuffling alone does as much; nothing where it always would. */
static void shuffling(scwi_sheet *sheet, const scw_permutation *found) {
  scwi_text *text = &sheet->scratch;
  if (!scwi_present(found->p)) return;
  if (scwi_present(found->smallest_p) && found->smallest_p.value >= 1) return;
  scwi_word_p(text, found->p);
  if (scwi_present(found->smallest_p)) {
    bool least = found->p.value <= found->smallest_p.value;
    scwi_text_add(text, least ? ", the least" : "; ");
    if (!least) scwi_put_p(text, found->smallest_p.value);
    scwi_text_add(text, least ? " that these readings can give"
                              : " is the least that these readings can give");
  }
  scwi_sheet_labelled_scratch(sheet, "by shuffling");
}

static void scatter_ratio(scwi_sheet *sheet, const scw_sd_ratio *found) {
  scwi_text *text = &sheet->scratch;
  if (found->interval.state != SCW_PRESENT) return;
  scwi_put_digits(text, found->ratio.value, 2);
  scwi_text_add(text, " (");
  scwi_put_digits(text, found->interval.low, 2);
  scwi_text_add(text, " to ");
  scwi_put_digits(text, found->interval.high, 2);
  scwi_text_add(text, ")");
  scwi_sheet_labelled_scratch(sheet, "SD after/before");
}

static void inside_margin(scwi_sheet *sheet, const scw_tost *tost) {
  scwi_text *text = &sheet->scratch;
  if (!scwi_present(tost->p)) return;
  scwi_word_p(text, tost->p);
  scwi_text_add(text, " (two one-sided tests; inside below ");
  scwi_put_short(text, tost->level, 3);
  scwi_text_add(text, ")");
  scwi_sheet_labelled_scratch(sheet, "inside margin");
}

/* The answer says it in full; here is the chance. Where nothing would settle
 * it, the answer has said why. */
static void settle(scwi_sheet *sheet, const scw_settle *settle) {
  scwi_text *text = &sheet->scratch;
  if (!scwi_present(settle->more) || !scwi_present(settle->total)) return;
  scwi_word_count(text, (unsigned long long)settle->more.value,
                  settle->per_spot ? "more spot" : "more reading");
  scwi_text_add(text, settle->per_spot ? " (" : " on each side (");
  scwi_put_short(text, settle->total.value, 12);
  scwi_text_add(text, " in all), ");
  scwi_word_chance(text, settle->chance);
  scwi_sheet_labelled_scratch(sheet, "to settle it");
}

void scwi_sheet_views(scwi_sheet *sheet, const scw_change_report *change) {
  degrees_of_freedom(sheet, change);
  shuffling(sheet, &change->permutation);
  scatter_ratio(sheet, &change->sd_ratio);
  inside_margin(sheet, &change->tost);
  settle(sheet, &change->settle);
}
