/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the instruments add to a change, in a few lines: what cancels, what
 * remains, and what comes of both. */
#include "figure.h"
#include "number_words.h"
#include "text_change.h"
#include "wording.h"

static void put_u(scwi_text *text, double u, const char *unit) {
  scwi_put_digits(text, u, 2);
  if (unit && *unit) scwi_text_format(text, SCWI_TIE "%s", unit);
}

/* "gauge_zero (0.0058 on each value)": shared, and gone from the change. */
static void cancelled(scwi_sheet *sheet, const scw_change_report *change) {
  scwi_text *text = &sheet->scratch;
  const scw_instruments *of = &change->instruments;
  for (size_t i = 0; i < of->n_inputs; i++) {
    if (!of->input[i].cancels) continue;
    scwi_word_join(text, ", ");
    scwi_text_format(text, "%s (", of->input[i].name);
    put_u(text, of->input[i].one_side, change->unit);
    scwi_text_add(text, " in each value)");
  }
  scwi_sheet_labelled_scratch(sheet, "cancels");
}

static const char *how_shared(const scw_instrument *input) {
  if (input->same) return "shared, acts on the change only";
  return input->shared == SCW_SHARED_NOT_SAID ? "not said to be shared"
                                              : "not shared";
}

static void remaining(scwi_sheet *sheet, const scw_change_report *change) {
  scwi_text *text = &sheet->scratch;
  const scw_instruments *of = &change->instruments;
  bool first = true;
  for (size_t i = 0; i < of->n_inputs; i++) {
    const scw_instrument *input = &of->input[i];
    if (!(input->contribution > 0)) continue;
    scwi_text_format(text, "%s ", input->name);
    put_u(text, input->contribution, change->unit);
    scwi_text_format(text, " (%s)", how_shared(input));
    scwi_sheet_labelled_scratch(sheet, first ? "remains" : "");
    first = false;
  }
}

/* "scatter 0.0061, instruments 0.0043, both 0.0075". */
static void both(scwi_sheet *sheet, const scw_change_report *change) {
  scwi_text *text = &sheet->scratch;
  const scw_instruments *of = &change->instruments;
  scw_figure sum = change->change.standard_uncertainty;
  if (!scwi_present(sum)) return;
  scwi_text_add(text, "scatter ");
  put_u(text, of->scatter.standard_uncertainty.value, change->unit);
  scwi_text_add(text, ", instruments ");
  if (of->standard_uncertainty.value > 0)
    put_u(text, of->standard_uncertainty.value, change->unit);
  else
    scwi_text_add(text, "nothing");
  scwi_text_add(text, ", both ");
  put_u(text, sum.value, change->unit);
  scwi_sheet_labelled_scratch(sheet, "uncertainty");
}

static void verdicts(scwi_sheet *sheet, const scw_change_report *change) {
  scw_verdict with = change->verdict;
  if (change->instruments.scatter_verdict == with) return;
  scwi_text_format(&sheet->scratch,
                   "by the scatter alone \"%s\", with the instruments \"%s\"",
                   scwi_verdict_label(change->instruments.scatter_verdict),
                   scwi_verdict_label(with));
  scwi_sheet_labelled_scratch(sheet, "verdicts");
}

void scwi_sheet_instruments(scwi_sheet *sheet, const scw_change_report *change,
                            bool named) {
  if (change->instruments.n_inputs == 0) return;
  scwi_sheet_gap(sheet);
  scwi_text_add(&sheet->scratch, "What the instruments add");
  if (named && change->product)
    scwi_text_format(&sheet->scratch, " to %s", change->product);
  if (sheet->scratch.failed) sheet->text.failed = true;
  scwi_sheet_hanging(sheet, "", 0, sheet->scratch.data);
  scwi_text_clear(&sheet->scratch);
  cancelled(sheet, change);
  remaining(sheet, change);
  both(sheet, change);
  verdicts(sheet, change);
}
