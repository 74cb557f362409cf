/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A score as JSON. */
#include "figure.h"
#include "json_panel.h"
#include "json_parts.h"
#include "reports.h"

static scwi_json *part_of(const scw_score_result *result,
                          const scw_scored_part *part) {
  const scw_rule *rule = &result->rules[part->rule];
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "rule", rule->name);
  scwi_json_text(to, "kind", scw_rule_kind_code(rule->kind));
  scwi_json_number(to, "weight", part->weight);
  scwi_json_whole(to, "n", part->n);
  scwi_json_figure(to, "quantity", part->quantity);
  scwi_json_ends(to, "quantity_low", "quantity_high", part->quantity_interval);
  scwi_json_figure(to, "points", part->points);
  scwi_json_ends(to, "low", "high", part->interval);
  scwi_json_figure(to, "rounded", part->published);
  return to;
}

static scwi_json *places_of(const scw_scored_product *product) {
  scwi_json *to = scwi_json_object();
  scwi_json_count(to, "low", product->place_low);
  scwi_json_count(to, "high", product->place_high);
  scwi_json_count(to, "of", product->of);
  return to;
}

static scwi_json *product_of(const scw_score_result *result,
                             const scw_scored_product *product) {
  scwi_json *to = scwi_json_object(), *parts = scwi_json_array();
  scwi_json *chances = scwi_json_array(), *tied = scwi_json_array();
  scwi_json_text(to, "product", product->label);
  scwi_json_text(to, "category",
                 *product->category ? product->category : NULL);
  for (size_t i = 0; i < result->score->n_parts; i++)
    scwi_json_add(parts, NULL, part_of(result, &product->part[i]));
  scwi_json_add(to, "parts", parts);
  scwi_json_figure(to, "points", product->points);
  scwi_json_ends(to, "low", "high", product->interval);
  scwi_json_figure(to, "rounded", product->published);
  scwi_json_add(to, "places", places_of(product));
  for (size_t i = 0; product->chance && i < product->of; i++)
    scwi_json_number(chances, NULL, product->chance[i]);
  scwi_json_add(to, "chance_of_place", chances);
  for (size_t i = 0; i < product->n_tied; i++)
    scwi_json_text(tied, NULL, result->product[product->tied[i]].label);
  scwi_json_add(to, "tied_with", tied);
  return to;
}

scw_status scwi_json_score(scw_context *context, const scw_score_result *result,
                           const scwi_inputs *inputs, scw_sink sink) {
  scwi_stream stream = {context, sink, SCW_OK};
  scwi_json *head = scwi_json_object();
  scwi_json_text(head, "sentence", result->sentence);
  scwi_json_text(head, "score", result->score->name);
  scwi_json_bool(head, "within_category", result->score->within_category);
  scwi_json_whole(head, "trials", result->trials);
  scwi_json_whole(head, "seed", (size_t)result->settings.seed);
  scwi_json_begin(&stream, "score", inputs,
                  scwi_json_settings(&result->settings));
  scwi_stream_json_members(&stream, head);
  scwi_stream_text(&stream, ",\n\"products\":[");
  for (size_t i = 0; i < result->n_products && !stream.status; i++)
    scwi_json_item(&stream, i, product_of(result, &result->product[i]));
  scwi_stream_text(&stream, "]");
  scwi_json_end(&stream, result->notes, result->n_notes);
  return stream.status;
}
