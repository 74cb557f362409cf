/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A comparison of several products as JSON. */
#include "fields.h"
#include "figure.h"
#include "json_panel.h"
#include "json_parts.h"
#include "reports.h"

static void add_estimate(scwi_json *to, const scw_estimate *estimate) {
  scwi_json_figure(to, "estimate", estimate->estimate);
  scwi_json_figure(to, "standard_uncertainty", estimate->standard_uncertainty);
  scwi_json_figure(to, "df", estimate->df);
}

static scwi_json *product_of(const scw_compare_product *product) {
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "product", product->label);
  add_estimate(to, &product->figure);
  scwi_json_ends(to, "low", "high", product->figure.interval);
  scwi_json_figure(to, "sd", product->sd);
  scwi_json_count(to, "n_before", product->n[0]);
  scwi_json_whole(to, "n_after", product->n[1]);
  scwi_json_bool(to, "paired", product->paired);
  return to;
}

static scwi_json *settle_of(const scw_settle *settle) {
  scwi_json *to = scwi_json_object();
  scwi_json_figure(to, "total", settle->total);
  scwi_json_figure(to, "more", settle->more);
  scwi_json_text(to, "per", scwi_settle_per(settle));
  scwi_json_number(to, "chance", settle->chance);
  return to;
}

static scwi_json *comparison_of(const scw_compare_result *result,
                                const scw_product_comparison *one) {
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "product", result->product[one->product].label);
  scwi_json_text(to, "against", result->product[one->against].label);
  add_estimate(to, &one->alone);
  scwi_json_ends(to, "low", "high", one->interval);
  scwi_json_ends(to, "alone_low", "alone_high", one->alone.interval);
  scwi_json_figure(to, "p", one->alone.p);
  scwi_json_figure(to, "p_adjusted", one->p_adjusted);
  scwi_json_text(to, "verdict", scw_verdict_code(one->verdict));
  scwi_json_add(to, "settle", settle_of(&one->settle));
  return to;
}

static scwi_json *tied_of(const scw_compare_result *result) {
  scwi_json *all = scwi_json_array();
  for (size_t i = 0; i < result->n_products; i++) {
    const scw_compare_product *product = &result->product[i];
    scwi_json *to = scwi_json_object(), *with = scwi_json_array();
    scwi_json_text(to, "product", product->label);
    for (size_t k = 0; k < product->n_tied; k++)
      scwi_json_text(with, NULL, result->product[product->tied[k]].label);
    scwi_json_add(to, "with", with);
    scwi_json_add(all, NULL, to);
  }
  return all;
}

static scwi_json *f_test_of(const scw_f_test *test) {
  scwi_json *to = scwi_json_object();
  scwi_json_figure(to, "f", test->f);
  scwi_json_figure(to, "df_between", test->df_between);
  scwi_json_figure(to, "df_within", test->df_within);
  scwi_json_figure(to, "p", test->p);
  return to;
}

static scwi_json *best_of(const scw_compare_result *result) {
  const scw_compare_best *best = &result->best;
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "product", scwi_present(best->over_second)
                                    ? result->product[best->product].label
                                    : NULL);
  scwi_json_whole(to, "of", best->of);
  scwi_json_figure(to, "over_second", best->over_second);
  scwi_json_figure(to, "over_rest", best->over_rest);
  scwi_json_figure(to, "by_luck_over_second", best->luck_second);
  scwi_json_figure(to, "by_luck_over_rest", best->luck_rest);
  return to;
}

static scwi_json *whole(const scw_compare_result *result) {
  scwi_json *family = scwi_json_object(), *background = scwi_json_object();
  scwi_json *to = scwi_json_object();
  bool control = result->control < result->n_products;
  scwi_json_text(to, "sentence", result->sentence);
  scwi_json_text(to, "unit", result->unit);
  scwi_json_text(to, "compared", scw_compared_code(result->compared));
  scwi_json_text(to, "control",
                 control ? result->product[result->control].label : NULL);
  scwi_json_text(family, "method", scw_adjustment_code(result->method));
  scwi_json_whole(family, "size", result->n_comparisons);
  scwi_json_add(to, "family", family);
  scwi_json_figure(to, "margin", result->options.margin > 0
                                     ? scwi_figure(result->options.margin)
                                     : scwi_missing(SCW_NO_MARGIN));
  scwi_json_add(background, "one_way", f_test_of(&result->one_way));
  scwi_json_add(background, "welch", f_test_of(&result->welch_one_way));
  scwi_json_add(to, "background", background);
  scwi_json_add(to, "best", best_of(result));
  scwi_json_add(to, "untreated", scwi_json_estimate_of(&result->untreated));
  scwi_json_add(to, "tied", tied_of(result));
  return to;
}

scw_status scwi_json_compare(scw_context *context,
                             const scw_compare_result *result,
                             const scwi_inputs *inputs, scw_sink sink) {
  scwi_stream stream = {context, sink, SCW_OK};
  scwi_json_begin(&stream, "compare", inputs,
                  scwi_json_settings(&result->settings));
  scwi_stream_json_members(&stream, whole(result));
  scwi_stream_text(&stream, ",\n\"products\":[");
  for (size_t i = 0; i < result->n_products && !stream.status; i++)
    scwi_json_item(&stream, i, product_of(&result->product[i]));
  scwi_stream_text(&stream, "],\n\"comparisons\":[");
  for (size_t i = 0; i < result->n_comparisons && !stream.status; i++)
    scwi_json_item(&stream, i, comparison_of(result, &result->comparison[i]));
  scwi_stream_text(&stream, "]");
  scwi_json_end(&stream, result->notes, result->n_notes);
  return stream.status;
}
