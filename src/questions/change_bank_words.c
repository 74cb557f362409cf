/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "change_bank_words.h"

#include "change_words.h"
#include "figure.h"
#include "words.h"

scw_change_report scwi_as_told(const scw_change_report *report) {
  scw_change_report told = *report;
  if (report->bank.state != SCW_PRESENT || !report->bank.alone) return told;
  told.change = report->bank.change;
  told.family_interval = report->bank.family_interval;
  told.break_even_baseline_u = report->bank.break_even_baseline_u;
  told.break_even_sd = scwi_missing(SCW_NOT_COMPUTED);
  return told;
}

bool scwi_bank_differs(const scw_change_report *report) {
  const scw_bank_view *bank = &report->bank;
  return bank->state == SCW_PRESENT && !bank->alone &&
         bank->verdict != bank->own_verdict;
}

/* `as_size` leaves out the sign of a fall that the words have named. */
static void say_interval(scwi_text *text, const scw_change_report *report,
                         const scw_estimate *estimate, scw_interval of_family,
                         bool as_size) {
  bool family = of_family.state == SCW_PRESENT;
  scw_interval interval = family ? of_family : estimate->interval;
  if (as_size && interval.high < 0)
    interval = (scw_interval){-interval.high, -interval.low, interval.level,
                              interval.state};
  double u = scwi_present(estimate->standard_uncertainty)
                 ? estimate->standard_uncertainty.value
                 : 0;
  scwi_text_add(text, "(");
  scwi_say_percent(text, estimate->interval.level);
  scwi_text_add(text, family ? " family interval " : " interval ");
  scwi_say_interval(text, interval, u, report->unit);
  scwi_text_add(text, ")");
}

void scwi_say_both_verdicts(scwi_text *text,
                            const scw_change_report *report) {
  const scw_bank_view *bank = &report->bank;
  scwi_text_format(text, "the readings' own scatter says \"%s\" ",
                   scwi_verdict_words(bank->own_verdict, report->design));
  say_interval(text, report, &report->change, report->family_interval, false);
  scwi_text_format(text, ", the scatter bank says \"%s\" ",
                   scwi_verdict_words(bank->verdict, report->design));
  say_interval(text, report, &bank->change, bank->family_interval, false);
}

static bool tells_a_move(scw_verdict verdict) {
  return verdict == SCW_CHANGED || verdict == SCW_CHANGED_SIZE_UNCLEAR ||
         verdict == SCW_CHANGED_BUT_SMALL;
}

void scwi_say_bank_agrees(scwi_text *text, const scw_change_report *report) {
  const scw_bank_view *bank = &report->bank;
  if (bank->state != SCW_PRESENT || scwi_bank_differs(report)) return;
  if (bank->alone) {
    scwi_text_add(text, ", by the scatter bank alone");
    return;
  }
  scwi_text_add(text, "; the scatter bank agrees ");
  say_interval(text, report, &bank->change, bank->family_interval,
               tells_a_move(report->verdict));
}
