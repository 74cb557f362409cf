/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A score as CSV: one row for each product. */
#include "csv_table.h"
#include "reports.h"

static void part(scwi_csv *csv, const scw_rule *rule,
                 const scw_scored_part *of) {
  scwi_text prefix = {0};
  scwi_text_format(&prefix, "%s: ", rule->name);
  if (prefix.failed) csv->cells.failed = true;
  csv->prefix = prefix.data;
  scwi_csv_figure(csv, "quantity", of->quantity);
  scwi_csv_figure(csv, "points", of->points);
  scwi_csv_ends(csv, "low", "high", of->interval);
  scwi_csv_figure(csv, "rounded", of->published);
  csv->prefix = NULL;
  scwi_text_free(&prefix);
}

static void row(scwi_csv *csv, const scw_score_result *result,
                const scw_scored_product *product) {
  scwi_csv_text(csv, "product", product->label);
  scwi_csv_text(csv, "category", product->category);
  scwi_csv_figure(csv, "points", product->points);
  scwi_csv_ends(csv, "low", "high", product->interval);
  scwi_csv_figure(csv, "rounded", product->published);
  scwi_csv_whole(csv, "place_low", product->place_low);
  scwi_csv_whole(csv, "place_high", product->place_high);
  scwi_csv_whole(csv, "of", product->of);
  for (size_t i = 0; i < result->score->n_parts; i++)
    part(csv, &result->rules[product->part[i].rule], &product->part[i]);
  scwi_csv_row(csv);
}

scw_status scwi_csv_score(scw_context *context, const scw_score_result *result,
                          scw_sink sink) {
  scwi_csv csv = scwi_csv_start(context, sink);
  row(&csv, result, &result->product[0]);
  for (size_t i = 0; i < result->n_products; i++)
    row(&csv, result, &result->product[i]);
  return scwi_csv_end(&csv);
}
