/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bridge as CSV: one row. With old results converted: a row for each. */
#include "csv_table.h"
#include "figure.h"
#include "reports.h"

static void add_line(scwi_csv *csv, const scw_bridge_line *line) {
  scwi_csv_figure(csv, "slope", line->slope);
  scwi_csv_ends(csv, "slope_low", "slope_high", line->slope_interval);
  scwi_csv_figure(csv, "intercept", line->intercept);
  scwi_csv_ends(csv, "intercept_low", "intercept_high",
                line->intercept_interval);
  scwi_csv_figure(csv, "scatter", line->scatter);
}

static void bridge_row(scwi_csv *csv, const scw_bridge_result *result) {
  scwi_csv_text(csv, "comparable", scw_comparable_code(result->comparable));
  scwi_csv_text(csv, "convertible", scw_comparable_code(result->convertible));
  scwi_csv_text(csv, "unit", result->unit);
  scwi_csv_whole(csv, "pairs", result->pairs);
  scwi_csv_figure(csv, "bias", result->bias.estimate);
  scwi_csv_figure(csv, "standard_uncertainty",
                  result->bias.standard_uncertainty);
  scwi_csv_figure(csv, "df", result->bias.df);
  scwi_csv_ends(csv, "low", "high", result->bias.interval);
  scwi_csv_text(csv, "verdict", scw_verdict_code(result->verdict));
  scwi_csv_figure(csv, "agreement_sd", result->agreement.sd);
  scwi_csv_figure(csv, "agreement_low", result->agreement.low);
  scwi_csv_ends(csv, "agreement_low_low", "agreement_low_high",
                result->agreement.low_interval);
  scwi_csv_figure(csv, "agreement_high", result->agreement.high);
  scwi_csv_ends(csv, "agreement_high_low", "agreement_high_high",
                result->agreement.high_interval);
  add_line(csv, result->weighted ? &result->weighted_line : &result->line);
  scwi_csv_number(csv, "error_ratio", result->error_ratio);
  scwi_csv_figure(csv, "conversion_uncertainty",
                  result->conversion_uncertainty);
  scwi_csv_figure(csv, "planned_products", result->planned_products);
  scwi_csv_figure(csv, "baseline_difference",
                  result->baselines.difference.estimate);
  scwi_csv_ends(csv, "baseline_low", "baseline_high",
                result->baselines.difference.interval);
  scwi_csv_text(csv, "baseline_verdict",
                scw_verdict_code(result->baselines.verdict));
  scwi_csv_text(csv, "sentence", result->sentence);
  scwi_csv_row(csv);
}

static void converted_row(scwi_csv *csv, const scw_converted *of) {
  scwi_csv_text(csv, "product", of->product);
  scwi_csv_number(csv, "old", of->old_value);
  scwi_csv_figure(csv, "old_uncertainty", of->old_u);
  scwi_csv_figure(csv, "value", of->value);
  scwi_csv_figure(csv, "standard_uncertainty", of->standard_uncertainty);
  scwi_csv_figure(csv, "df", of->df);
  scwi_csv_ends(csv, "low", "high", of->interval);
  scwi_csv_row(csv);
}

scw_status scwi_csv_bridge(scw_context *context,
                           const scw_bridge_result *result, scw_sink sink) {
  static const scw_converted none = {.product = NULL};
  scwi_csv csv = scwi_csv_start(context, sink);
  if (result->n_converted) {
    converted_row(&csv, &none);
    for (size_t i = 0; i < result->n_converted && !csv.status; i++)
      converted_row(&csv, &result->converted[i]);
  } else {
    bridge_row(&csv, result);
    bridge_row(&csv, result);
  }
  return scwi_csv_end(&csv);
}
