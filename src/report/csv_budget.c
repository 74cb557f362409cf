/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Budgets as CSV: a row for each input, the figures of the quantity repeated
 * beside them. */
#include "csv_table.h"
#include "reports.h"

static void row(scwi_csv *csv, const scw_quantity_budget *of,
                const scw_bench_quantity *quantity,
                const scw_budget_line *line) {
  const scw_budget *budget = &of->budget;
  scw_figure estimate = {budget->estimate,
                         of->why_not ? SCW_NO_VALUE : SCW_PRESENT};
  scwi_csv_text(csv, "quantity", quantity->name);
  scwi_csv_text(csv, "unit", quantity->unit);
  scwi_csv_figure(csv, "estimate", estimate);
  scwi_csv_figure(csv, "standard_uncertainty", budget->standard_uncertainty);
  scwi_csv_figure(csv, "df", budget->df);
  scwi_csv_figure(csv, "k", budget->k);
  scwi_csv_figure(csv, "expanded", budget->expanded);
  scwi_csv_ends(csv, "low", "high", budget->interval);
  scwi_csv_ends(csv, "trials_low", "trials_high", of->trials.symmetric);
  scwi_csv_ends(csv, "shortest_low", "shortest_high", of->trials.shortest);
  scwi_csv_text(csv, "agrees",
                of->has_trials ? scw_agreement_code(of->trials.agreement)
                               : NULL);
  csv->prefix = "input_";
  scwi_csv_text(csv, "name", line->name);
  scwi_csv_text(csv, "kind",
                line->name ? scw_budget_kind_code(line->kind) : NULL);
  scwi_csv_number(csv, "estimate", line->estimate);
  scwi_csv_number(csv, "standard_uncertainty", line->standard_uncertainty);
  scwi_csv_figure(csv, "df", line->df);
  scwi_csv_number(csv, "sensitivity", line->sensitivity);
  scwi_csv_number(csv, "contribution", line->contribution);
  scwi_csv_figure(csv, "share", line->share);
  scwi_csv_figure(csv, "if_perfect", line->if_perfect);
  csv->prefix = NULL;
  scwi_csv_row(csv);
}

scw_status scwi_csv_budget(scw_context *context,
                           const scw_bench_budget *result, scw_sink sink) {
  static const scw_budget_line no_line = {.name = NULL};
  static const scw_bench_quantity no_quantity = {.name = NULL};
  static const scw_quantity_budget nothing = {.why_not = NULL};
  scwi_csv csv = scwi_csv_start(context, sink);
  row(&csv, &nothing, &no_quantity, &no_line);
  for (size_t q = 0; q < result->n_quantities && !csv.status; q++) {
    const scw_quantity_budget *of = &result->quantities[q];
    if (!of->budget.n_lines) row(&csv, of, of->quantity, &no_line);
    for (size_t i = 0; i < of->budget.n_lines && !csv.status; i++)
      row(&csv, of, of->quantity, &of->budget.lines[i]);
  }
  return scwi_csv_end(&csv);
}
