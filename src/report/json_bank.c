/* SPDX-License-Identifier: GPL-3.0-or-later */
/* JSON of the scatter bank: which entry was used, and the change judged on
 * it. */
#include "json_views.h"

void scwi_json_scatter(scwi_json *to, const scw_bench *bench,
                       const scw_bench_scatter *entry) {
  if (!entry) {
    scwi_json_null(to, "scatter");
    return;
  }
  scwi_json *object = scwi_json_object();
  scwi_json_text(object, "file", bench ? bench->name : NULL);
  scwi_json_text(object, "sha256", bench ? bench->sha256 : NULL);
  scwi_json_text(object, "panel_type", entry->panel_type);
  scwi_json_text(object, "quantity", entry->quantity);
  scwi_json_text(object, "unit", entry->unit);
  scwi_json_text(object, "geometry", entry->geometry);
  scwi_json_text(object, "meter", entry->meter);
  scwi_json_number(object, "sd", entry->sd);
  scwi_json_number(object, "df", entry->df);
  scwi_json_count(object, "sets", entry->sets);
  scwi_json_text(object, "date", entry->date);
  scwi_json_add(to, "scatter", object);
}

void scwi_json_bank(scwi_json *to, const scw_bank_view *bank) {
  if (bank->state == SCW_NOT_COMPUTED) {
    scwi_json_null(to, "bank");
    return;
  }
  scwi_json *object = scwi_json_object();
  bool judged = bank->state == SCW_PRESENT;
  scwi_json_bool(object, "judged", judged);
  scwi_json_text(object, "why_not",
                 judged ? NULL : scw_presence_code(bank->state));
  scwi_json_number(object, "sd", bank->sd);
  scwi_json_number(object, "df", bank->df);
  if (judged) {
    scwi_json_add(object, "change", scwi_json_estimate(&bank->change));
    if (bank->family_interval.state != SCW_NOT_COMPUTED)
      scwi_json_interval(object, "family_interval", bank->family_interval);
    scwi_json_text(object, "verdict", scw_verdict_code(bank->verdict));
  }
  scwi_json_text(object, "own_verdict", scw_verdict_code(bank->own_verdict));
  if (judged) {
    scwi_json_bool(object, "alone", bank->alone);
    scwi_json_figure(object, "break_even_baseline_u",
                     bank->break_even_baseline_u);
    scwi_json_figure(object, "own_sd", bank->own_sd);
    scwi_json_figure(object, "own_df", bank->own_df);
    scwi_json_figure(object, "f", bank->f);
    scwi_json_figure(object, "f_p", bank->f_p);
  }
  scwi_json_add(to, "bank", object);
}
