/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An audit as CSV: one row for each claim. */
#include "csv_table.h"
#include "figure.h"
#include "reports.h"
#include "text.h"

static void stated(scwi_csv *csv, const char *name, scw_stated number) {
  scwi_csv_figure(csv, name, number.has ? scwi_figure(number.value)
                                        : scwi_missing(SCW_NOT_COMPUTED));
}

static void row(scwi_csv *csv, const scw_claim *claim) {
  scwi_text faults = {0};
  for (size_t i = 0; i < claim->n_faults; i++)
    scwi_text_format(&faults, "%s%s", i ? " " : "",
                     scw_fault_code(claim->faults[i]));
  scwi_csv_text(csv, "id", claim->id);
  scwi_csv_whole(csv, "line", claim->line);
  scwi_csv_text(csv, "product", claim->product);
  scwi_csv_text(csv, "unit", claim->unit);
  stated(csv, "stated_change", claim->stated.change);
  stated(csv, "stated_points", claim->stated.points);
  scwi_csv_figure(csv, "points", claim->recomputed.points);
  scwi_csv_text(csv, "faults", faults.data ? faults.data : "");
  scwi_csv_text(csv, "design", scw_claim_design_code(claim->design));
  scwi_csv_figure(csv, "estimate", claim->change.estimate);
  scwi_csv_figure(csv, "standard_uncertainty",
                  claim->change.standard_uncertainty);
  scwi_csv_figure(csv, "df", claim->change.df);
  scwi_csv_ends(csv, "low", "high", claim->change.interval);
  scwi_csv_figure(csv, "p", claim->change.p);
  scwi_csv_figure(csv, "q_value", claim->q_value);
  scwi_csv_figure(csv, "p_holm", claim->p_holm);
  scwi_csv_figure(csv, "break_even_sd", claim->break_even_sd);
  scwi_csv_figure(csv, "break_even_baseline_u", claim->break_even_baseline_u);
  scwi_csv_text(csv, "verdict", scw_claim_verdict_code(claim->verdict));
  scwi_csv_figure(csv, "settle_more", claim->settle.more);
  scwi_csv_text(csv, "sentence", claim->sentence);
  if (faults.failed) csv->cells.failed = true;
  scwi_text_free(&faults);
  scwi_csv_row(csv);
}

scw_status scwi_csv_audit(scw_context *context, const scw_audit *audit,
                          scw_sink sink) {
  scwi_csv csv = scwi_csv_start(context, sink);
  size_t n = scw_audit_summary_of(audit).claims;
  scw_status status = SCW_OK;
  for (size_t i = 0; (i < n || csv.header) && !status && !csv.status;) {
    scw_claim claim;
    status = scw_audit_claim(context, audit, i, &claim);
    if (status) break;
    bool named = csv.header;
    row(&csv, &claim);
    scw_claim_free(&claim);
    if (!named) i++;
  }
  scw_status ended = scwi_csv_end(&csv);
  return status ? status : ended;
}
