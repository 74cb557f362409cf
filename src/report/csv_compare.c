/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A comparison of several products as CSV: one row for each comparison. */
#include "csv_table.h"
#include "reports.h"

static void row(scwi_csv *csv, const scw_compare_result *result,
                const scw_product_comparison *one) {
  scwi_csv_text(csv, "product", result->product[one->product].label);
  scwi_csv_text(csv, "against", result->product[one->against].label);
  scwi_csv_text(csv, "unit", result->unit);
  scwi_csv_figure(csv, "estimate", one->alone.estimate);
  scwi_csv_figure(csv, "standard_uncertainty", one->alone.standard_uncertainty);
  scwi_csv_figure(csv, "df", one->alone.df);
  scwi_csv_ends(csv, "low", "high", one->interval);
  scwi_csv_figure(csv, "p", one->alone.p);
  scwi_csv_figure(csv, "p_adjusted", one->p_adjusted);
  scwi_csv_text(csv, "verdict", scw_verdict_code(one->verdict));
  scwi_csv_figure(csv, "settle_more", one->settle.more);
  scwi_csv_row(csv);
}

scw_status scwi_csv_compare(scw_context *context,
                            const scw_compare_result *result, scw_sink sink) {
  scwi_csv csv = scwi_csv_start(context, sink);
  row(&csv, result, &result->comparison[0]);
  for (size_t i = 0; i < result->n_comparisons; i++)
    row(&csv, result, &result->comparison[i]);
  return scwi_csv_end(&csv);
}
