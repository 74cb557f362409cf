/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bridge as JSON. */
#include "fields.h"
#include "figure.h"
#include "json_panel.h"
#include "json_parts.h"
#include "reports.h"

static scwi_json *line_of(const scw_bridge_line *line) {
  scwi_json *to = scwi_json_object(), *jackknife = scwi_json_object();
  scwi_json_figure(to, "slope", line->slope);
  scwi_json_figure(to, "slope_uncertainty", line->slope_u);
  scwi_json_ends(to, "slope_low", "slope_high", line->slope_interval);
  scwi_json_figure(to, "intercept", line->intercept);
  scwi_json_figure(to, "intercept_uncertainty", line->intercept_u);
  scwi_json_ends(to, "intercept_low", "intercept_high",
                 line->intercept_interval);
  scwi_json_figure(to, "scatter", line->scatter);
  scwi_json_figure(jackknife, "slope_uncertainty", line->jackknife_slope_u);
  scwi_json_ends(jackknife, "slope_low", "slope_high", line->jackknife_slope);
  scwi_json_figure(jackknife, "intercept_uncertainty",
                   line->jackknife_intercept_u);
  scwi_json_ends(jackknife, "intercept_low", "intercept_high",
                 line->jackknife_intercept);
  scwi_json_add(to, "jackknife", jackknife);
  return to;
}

static scwi_json *agreement_of(const scw_limits_of_agreement *limits) {
  scwi_json *to = scwi_json_object();
  scwi_json_number(to, "content", limits->content);
  scwi_json_figure(to, "sd", limits->sd);
  scwi_json_figure(to, "df", limits->df);
  scwi_json_figure(to, "low", limits->low);
  scwi_json_interval(to, "low_interval", limits->low_interval);
  scwi_json_figure(to, "high", limits->high);
  scwi_json_interval(to, "high_interval", limits->high_interval);
  return to;
}

static scwi_json *items_of(const scw_bridge_result *result) {
  scwi_json *all = scwi_json_array();
  for (size_t i = 0; i < result->n_items; i++) {
    const scw_bridge_item *item = &result->item[i];
    scwi_json *one = scwi_json_object();
    scwi_json_text(one, "item", item->label);
    scwi_json_bool(one, "baseline", item->baseline);
    scwi_json_whole(one, "n_old", item->n_old);
    scwi_json_whole(one, "n_new", item->n_new);
    scwi_json_figure(one, "old", item->old_mean);
    scwi_json_figure(one, "new", item->new_mean);
    scwi_json_figure(one, "difference", item->difference);
    scwi_json_bool(one, "stands_out", item->stands_out);
    scwi_json_whole(one, "line", item->line);
    scwi_json_add(all, NULL, one);
  }
  return all;
}

static scwi_json *fences_of(const scw_bridge_result *result) {
  scwi_json *all = scwi_json_array();
  for (size_t i = 0; i < result->n_fences; i++) {
    scwi_json *one = scwi_json_object();
    scwi_json_text(one, "date",
                   *result->fence[i].date ? result->fence[i].date : NULL);
    scwi_json_text(one, "reason", result->fence[i].reason);
    scwi_json_bool(one, "found", result->fence[i].found);
    scwi_json_add(all, NULL, one);
  }
  return all;
}

static scwi_json *converted_of(const scw_bridge_result *result) {
  scwi_json *all = scwi_json_array();
  for (size_t i = 0; i < result->n_converted; i++) {
    const scw_converted *of = &result->converted[i];
    scwi_json *one = scwi_json_object();
    scwi_json_text(one, "product", *of->product ? of->product : NULL);
    scwi_json_number(one, "old", of->old_value);
    scwi_json_figure(one, "old_uncertainty", of->old_u);
    scwi_json_figure(one, "value", of->value);
    scwi_json_figure(one, "standard_uncertainty", of->standard_uncertainty);
    scwi_json_figure(one, "df", of->df);
    scwi_json_ends(one, "low", "high", of->interval);
    scwi_json_add(all, NULL, one);
  }
  return all;
}

static scwi_json *baselines_of(const scw_bridge_baselines *of) {
  scwi_json *to = scwi_json_estimate_of(&of->difference);
  scwi_json_whole(to, "items", of->items);
  scwi_json_whole(to, "n_old", of->n_old);
  scwi_json_whole(to, "n_new", of->n_new);
  scwi_json_bool(to, "paired", of->paired);
  scwi_json_text(to, "verdict", scw_verdict_code(of->verdict));
  scwi_json_figure(to, "tost_p", of->tost.p);
  return to;
}

static void add_bias(scwi_json *to, const scw_bridge_result *result) {
  scwi_json_whole(to, "pairs", result->pairs);
  scwi_json_figure(to, "bias", result->bias.estimate);
  scwi_json_figure(to, "standard_uncertainty",
                   result->bias.standard_uncertainty);
  scwi_json_figure(to, "df", result->bias.df);
  scwi_json_ends(to, "low", "high", result->bias.interval);
  scwi_json_figure(to, "p", result->bias.p);
  scwi_json_figure(to, "margin", result->margin);
  scwi_json_text(to, "verdict", scw_verdict_code(result->verdict));
  scwi_json_figure(to, "tost_p", result->tost.p);
  scwi_json_figure(to, "difference_sd", result->difference_sd);
  scwi_json_figure(to, "repeat_sd_old", result->repeat_sd_old);
  scwi_json_figure(to, "repeat_df_old", result->repeat_df_old);
  scwi_json_figure(to, "repeat_sd_new", result->repeat_sd_new);
  scwi_json_figure(to, "repeat_df_new", result->repeat_df_new);
  scwi_json_add(to, "agreement", agreement_of(&result->agreement));
}

static void add_line(scwi_json *to, const scw_bridge_result *result) {
  const scw_bridge_line *used =
      result->weighted ? &result->weighted_line : &result->line;
  scwi_json_figure(to, "slope", used->slope);
  scwi_json_ends(to, "slope_low", "slope_high", used->slope_interval);
  scwi_json_figure(to, "intercept", used->intercept);
  scwi_json_ends(to, "intercept_low", "intercept_high",
                 used->intercept_interval);
  scwi_json_bool(to, "weighted", result->weighted);
  scwi_json_number(to, "error_ratio", result->error_ratio);
  scwi_json_text(to, "error_ratio_origin",
                 scw_ratio_origin_code(result->error_ratio_origin));
  scwi_json_add(to, "line", line_of(&result->line));
  scwi_json_add(to, "weighted_line", line_of(&result->weighted_line));
  scwi_json_figure(to, "range_low", result->range_low);
  scwi_json_figure(to, "range_high", result->range_high);
  scwi_json_figure(to, "conversion_uncertainty",
                   result->conversion_uncertainty);
  scwi_json_figure(to, "conversion_uncertainty_end",
                   result->conversion_uncertainty_end);
  scwi_json_figure(to, "conversion_half_width",
                   result->conversion_half_width);
}

static void add_checks(scwi_json *to, const scw_bridge_result *result) {
  scwi_json *trend = scwi_json_estimate_of(&result->trend);
  scwi_json *growth = scwi_json_object();
  scwi_json_figure(trend, "p", result->trend.p);
  scwi_json_add(to, "trend", trend);
  scwi_json_figure(growth, "kendall_s", result->grows_s);
  scwi_json_figure(growth, "p", result->grows_p);
  scwi_json_add(to, "scatter_grows", growth);
  scwi_json_figure(to, "shapiro_w", result->shape.shapiro_w);
  scwi_json_figure(to, "shapiro_p", result->shape.shapiro_p);
}

static scwi_json *bridge_of(const scw_bridge_result *result) {
  scwi_json *to = scwi_json_object(), *unmatched = scwi_json_array();
  scwi_json_text(to, "sentence", result->sentence);
  scwi_json_text(to, "comparable", scw_comparable_code(result->comparable));
  scwi_json_text(to, "convertible", scw_comparable_code(result->convertible));
  scwi_json_bool(to, "fenced", result->fenced);
  scwi_json_text(to, "unit", result->unit);
  scwi_json_text(to, "quantity", result->quantity);
  scwi_json_text(to, "geometry", result->geometry);
  scwi_json_figure(to, "step", scwi_step_figure(result->step));
  add_bias(to, result);
  add_line(to, result);
  add_checks(to, result);
  scwi_json_figure(to, "planned_products", result->planned_products);
  scwi_json_figure(to, "planned_products_assured", result->planned_assured);
  scwi_json_add(to, "baselines", baselines_of(&result->baselines));
  scwi_json_add(to, "fences", fences_of(result));
  scwi_json_add(to, "converted", converted_of(result));
  scwi_json_add(to, "items", items_of(result));
  for (size_t i = 0; i < result->n_unmatched; i++)
    scwi_json_text(unmatched, NULL, result->unmatched[i]);
  scwi_json_add(to, "unmatched", unmatched);
  return to;
}

scw_status scwi_json_bridge(scw_context *context,
                            const scw_bridge_result *result,
                            const scwi_inputs *inputs, scw_sink sink) {
  scwi_stream stream = {context, sink, SCW_OK};
  scwi_json_begin(&stream, "bridge", inputs,
                  scwi_json_settings(&result->settings));
  scwi_stream_text(&stream, "\"bridge\":");
  scwi_stream_json(&stream, bridge_of(result));
  scwi_json_end(&stream, result->notes, result->n_notes);
  return stream.status;
}
