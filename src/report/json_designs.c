/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Designs as JSON and CSV. */
#include "json_parts.h"
#include "plan_designs.h"

static const char *const levels[SCW_LEVEL_COUNT] = {"panel", "session", "spot",
                                                    "repeat"};

static scwi_json *scatter_of(const scw_plan_scatter *scatter) {
  scwi_json *to = scwi_json_object(), *list = scwi_json_array();
  scwi_json_number(to, "assurance", scatter->assurance);
  scwi_json_bool(to, "of_differences", scatter->of_differences);
  scwi_json_bool(to, "balanced", scatter->balanced);
  scwi_json_whole(to, "unmatched", scatter->unmatched);
  for (int level = 0; level < SCW_LEVEL_COUNT; level++) {
    scwi_json *one = scwi_json_object();
    scwi_json_text(one, "level", levels[level]);
    scwi_json_whole(one, "groups", scatter->groups[level]);
    scwi_json_figure(one, "variance", scatter->variance[level]);
    scwi_json_figure(one, "variance_upper", scatter->upper[level]);
    scwi_json_figure(one, "df", scatter->df[level]);
    scwi_json_add(list, NULL, one);
  }
  scwi_json_add(to, "components", list);
  return to;
}

static scwi_json *figures_of(const scw_design_figures *figures) {
  scwi_json *to = scwi_json_object();
  scwi_json_figure(to, "half_width", figures->half_width);
  scwi_json_figure(to, "detectable", figures->detectable);
  scwi_json_figure(to, "power", figures->power);
  return to;
}

static scwi_json *design_of(const scw_plan_design *design) {
  scwi_json *to = scwi_json_object();
  scwi_json_figure(to, "panels", design->panels);
  scwi_json_figure(to, "sessions", design->sessions);
  scwi_json_figure(to, "spots", design->spots);
  scwi_json_figure(to, "repeats", design->repeats);
  scwi_json_figure(to, "readings", design->readings);
  scwi_json_figure(to, "cost", design->cost);
  scwi_json_figure(to, "df", design->df);
  scwi_json_figure(to, "half_width", design->at_estimate.half_width);
  scwi_json_figure(to, "detectable", design->at_estimate.detectable);
  scwi_json_figure(to, "power", design->at_estimate.power);
  scwi_json_figure(to, "expected_power", design->expected);
  scwi_json_add(to, "at_upper_limit", figures_of(&design->at_upper_limit));
  scwi_json_add(to, "uncancelled", figures_of(&design->uncancelled));
  return to;
}

void scwi_stream_designs(scwi_stream *stream, const scw_plan_result *result) {
  scwi_stream_text(stream, ",\n\"scatter\":");
  scwi_stream_json(stream, scatter_of(&result->scatter));
  scwi_stream_text(stream, ",\n\"designs\":[");
  for (size_t i = 0; i < result->n_designs && !stream->status; i++)
    scwi_json_item(stream, i, design_of(&result->designs[i]));
  scwi_stream_text(stream, "],\n\"design_upper\":");
  scwi_stream_json(stream, design_of(&result->design_upper));
  scwi_stream_text(stream, ",\n\"design_uncancelled\":");
  scwi_stream_json(stream, design_of(&result->design_uncancelled));
}

static void put_figures(scwi_csv *csv, const char *prefix,
                        const scw_design_figures *figures) {
  csv->prefix = prefix;
  scwi_csv_figure(csv, "half_width", figures->half_width);
  scwi_csv_figure(csv, "detectable", figures->detectable);
  scwi_csv_figure(csv, "power", figures->power);
  csv->prefix = NULL;
}

static void put_design(scwi_csv *csv, const scw_plan_design *design) {
  scwi_csv_figure(csv, "panels", design->panels);
  scwi_csv_figure(csv, "sessions", design->sessions);
  scwi_csv_figure(csv, "spots", design->spots);
  scwi_csv_figure(csv, "repeats", design->repeats);
  scwi_csv_figure(csv, "readings", design->readings);
  scwi_csv_figure(csv, "cost", design->cost);
  scwi_csv_figure(csv, "df", design->df);
  put_figures(csv, NULL, &design->at_estimate);
  scwi_csv_figure(csv, "expected_power", design->expected);
  put_figures(csv, "upper_", &design->at_upper_limit);
  put_figures(csv, "uncancelled_", &design->uncancelled);
  scwi_csv_row(csv);
}

scw_status scwi_csv_designs(scw_context *context, const scw_plan_result *result,
                            scw_sink sink) {
  scwi_csv csv = scwi_csv_start(context, sink);
  const scw_plan_design none = {.cost = {0}};
  put_design(&csv, &none);
  for (size_t i = 0; i < result->n_designs && !csv.status; i++)
    put_design(&csv, &result->designs[i]);
  return scwi_csv_end(&csv);
}
