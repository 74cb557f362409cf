/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The JSON report of changes. */
#include "fields.h"
#include "figure.h"
#include "json_parts.h"
#include "json_views.h"
#include "reports.h"

scwi_json *scwi_json_estimate(const scw_estimate *estimate) {
  scwi_json *to = scwi_json_object();
  scw_presence state = estimate->interval.state;
  scwi_json_figure(to, "estimate", estimate->estimate);
  scwi_json_figure(to, "standard_uncertainty", estimate->standard_uncertainty);
  scwi_json_figure(to, "df", estimate->df);
  scwi_json_number(to, "level", estimate->interval.level);
  scwi_json_figure(to, "low", (scw_figure){estimate->interval.low, state});
  scwi_json_figure(to, "high", (scw_figure){estimate->interval.high, state});
  scwi_json_figure(to, "p", estimate->p);
  return to;
}

static void add_detectable(scwi_json *to, scw_figure change, double power) {
  scwi_json *object = scwi_json_object();
  scwi_json_figure(object, "change", change);
  scwi_json_number(object, "power", power);
  scwi_json_add(to, "detectable", object);
}

static void add_settle(scwi_json *to, const scw_settle *settle) {
  scwi_json *object = scwi_json_object();
  scwi_json_figure(object, "total", settle->total);
  scwi_json_figure(object, "more", settle->more);
  scwi_json_text(object, "per", scwi_settle_per(settle));
  scwi_json_number(object, "chance", settle->chance);
  scwi_json_add(to, "settle", object);
}

/* The change with other readings, and what the verdict would be. */
static scwi_json *judged(const scw_estimate *estimate, scw_verdict verdict) {
  scwi_json *object = scwi_json_estimate(estimate);
  scwi_json_text(object, "verdict", scw_verdict_code(verdict));
  return object;
}

/* The same with some readings set aside. */
static void add_without(scwi_json *to, const char *key, bool has,
                        const scw_estimate *estimate, scw_verdict verdict) {
  if (has)
    scwi_json_add(to, key, judged(estimate, verdict));
  else
    scwi_json_null(to, key);
}

static void add_read_again(scwi_json *to, const scw_change_report *change) {
  if (!change->has_repicked) {
    scwi_json_null(to, "with_read_again");
    return;
  }
  scwi_json *object =
      judged(&change->with_repicked, change->verdict_with_repicked);
  scwi_json_whole(object, "n", change->repicked);
  scwi_json_add(to, "with_read_again", object);
}

static void add_unmatched(scwi_json *to, const scw_change_report *change) {
  scwi_json *array = scwi_json_array();
  for (size_t i = 0; i < change->n_unmatched; i++)
    scwi_json_text(array, NULL, change->unmatched[i]);
  scwi_json_add(to, "unmatched", array);
}

static void add_family(scwi_json *to, const scw_change_report *change,
                       size_t size) {
  if (size < 2) {
    scwi_json_null(to, "family");
    return;
  }
  scwi_json *object = scwi_json_object();
  scwi_json_whole(object, "size", size);
  scwi_json_interval(object, "interval", change->family_interval);
  scwi_json_figure(object, "p", change->family_p);
  scwi_json_text(object, "alone_verdict",
                 scw_verdict_code(change->alone_verdict));
  scwi_json_add(to, "family", object);
}

/* What is left of before, in percent. */
static void add_retention(scwi_json *to, const scw_ratio *ratio) {
  if (ratio->estimate.state == SCW_NOT_COMPUTED) {
    scwi_json_null(to, "retention");
    return;
  }
  scwi_json *object = scwi_json_object();
  bool found = ratio->state == SCW_PRESENT;
  scwi_json_figure(object, "estimate", ratio->estimate);
  scwi_json_figure(object, "standard_uncertainty",
                   ratio->standard_uncertainty);
  scwi_json_figure(object, "df", ratio->df);
  scwi_json_number(object, "level", ratio->delta.level);
  scwi_json_text(object, "set", found ? scw_ratio_set_code(ratio->set) : NULL);
  scwi_json_figure(object, "low", ratio->low);
  scwi_json_figure(object, "high", ratio->high);
  scwi_json_interval(object, "delta", ratio->delta);
  scwi_json_add(to, "retention", object);
}

static scwi_json *change_of(const scw_change_result *result,
                            const scw_change_report *change) {
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "product", change->product);
  scwi_json_text(to, "unit", change->unit);
  scwi_json_text(to, "design", scw_design_code(change->design));
  scwi_json_add(to, "change", scwi_json_estimate(&change->change));
  scwi_json_text(to, "df_origin", change->df_origin);
  scwi_json_figure(to, "margin", change->margin);
  scwi_json_text(to, "verdict", scw_verdict_code(change->verdict));
  scwi_json_text(to, "sentence", change->sentence);
  add_detectable(to, change->detectable, result->settings.power);
  add_settle(to, &change->settle);
  scwi_json_add(to, "before", scwi_json_set(&change->before));
  scwi_json_add(to, "after", scwi_json_set(&change->after));
  scwi_json_figure(to, "difference_sd", change->difference_sd);
  scwi_json_count(to, "pairs", change->pairs);
  add_unmatched(to, change);
  add_without(to, "without_flagged", change->has_without_flagged,
              &change->without_flagged, change->verdict_without_flagged);
  add_without(to, "without_first", change->has_without_first,
              &change->without_first, change->verdict_without_first);
  add_read_again(to, change);
  add_family(to, change, result->n_changes);
  scwi_json_views(to, change);
  scwi_json_bank(to, &change->bank);
  scwi_json_instruments(to, result, &change->instruments);
  add_retention(to, &change->retention);
  scwi_json_control(to, change);
  scwi_json_tile(to, &change->tile);
  scwi_json_notes(to, "notes", change->notes, change->n_notes);
  return to;
}

/* The baseline somebody gave; what was not said of it is null. */
static scwi_json *baseline_of(const scw_given_side *given) {
  scwi_json *to = scwi_json_object();
  scwi_json_number(to, "mean", given->mean);
  if (given->has_sd)
    scwi_json_number(to, "sd", given->sd);
  else
    scwi_json_null(to, "sd");
  scwi_json_count(to, "n", given->n);
  if (given->step > 0)
    scwi_json_number(to, "step", given->step);
  else
    scwi_json_null(to, "step");
  return to;
}

static void add_references(scwi_json *to, const scw_change_options *options) {
  scwi_json_text(to, "control", options->control);
  scwi_json_bool(to, "paired_halves", options->paired_halves);
  if (options->has_baseline)
    scwi_json_add(to, "baseline", baseline_of(&options->baseline));
  else
    scwi_json_null(to, "baseline");
  if (options->has_tile)
    scwi_json_number(to, "tile", options->tile);
  else
    scwi_json_null(to, "tile");
}

static scwi_json *change_settings(const scw_change_result *result) {
  const scw_change_options *options = &result->options;
  scwi_json *to = scwi_json_settings(&result->settings);
  scwi_json_figure(to, "margin",
                   options->margin > 0 ? scwi_figure(options->margin)
                                       : scwi_missing(SCW_NO_MARGIN));
  if (options->has_block)
    scwi_json_number(to, "block", options->block);
  else
    scwi_json_null(to, "block");
  scwi_json_text(to, "block_unit",
                 options->has_block ? options->block_unit : NULL);
  add_references(to, options);
  scwi_json_scatter(to, options->bench, result->scatter);
  scwi_json_model(to, result);
  return to;
}

scw_status scwi_json_change(scw_context *context,
                            const scw_change_result *result,
                            const scwi_inputs *inputs, scw_sink sink) {
  scwi_stream stream = {context, sink, SCW_OK};
  scwi_json_begin(&stream, "change", inputs, change_settings(result));
  scwi_stream_text(
      &stream, result->friction ? "\"friction\":true," : "\"friction\":false,");
  scwi_stream_text(&stream, "\"changes\":[");
  for (size_t i = 0; i < result->n_changes && !stream.status; i++)
    scwi_json_item(&stream, i, change_of(result, &result->changes[i]));
  scwi_stream_text(&stream, "]");
  scwi_json_end(&stream, result->notes, result->n_notes);
  return stream.status;
}
