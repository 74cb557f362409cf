/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Budgets as JSON. */
#include <math.h>
#include <stdio.h>

#include "figure.h"
#include "json_panel.h"
#include "json_parts.h"
#include "reports.h"

static void add_seed(scwi_json *to, unsigned long long seed) {
  char text[24]; /* 64 bits, more than a JSON number carries everywhere */
  snprintf(text, sizeof text, "%llu", seed);
  scwi_json_text(to, "seed", text);
}

static scwi_json *line_of(const scw_budget_line *line,
                          const scw_bench_input *input) {
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "name", line->name);
  scwi_json_text(to, "unit", *input->unit ? input->unit : NULL);
  scwi_json_number(to, "estimate", line->estimate);
  scwi_json_number(to, "standard_uncertainty", line->standard_uncertainty);
  scwi_json_figure(to, "df", line->df);
  scwi_json_text(to, "kind", scw_budget_kind_code(line->kind));
  scwi_json_number(to, "sensitivity", line->sensitivity);
  scwi_json_number(to, "contribution", line->contribution);
  scwi_json_figure(to, "share", line->share);
  scwi_json_figure(to, "if_perfect", line->if_perfect);
  scwi_json_count(to, "group", line->group);
  return to;
}

static scwi_json *lines_of(const scw_quantity_budget *of) {
  scwi_json *to = scwi_json_array();
  for (size_t i = 0; i < of->budget.n_lines; i++)
    scwi_json_add(to, NULL, line_of(&of->budget.lines[i], of->input[i]));
  return to;
}

static scwi_json *second_order_of(const scw_second_order *second) {
  scwi_json *to = scwi_json_object();
  scwi_json_number(to, "variance", second->variance);
  scwi_json_figure(to, "part", second->part);
  scwi_json_bool(to, "matters", second->matters);
  scwi_json_figure(to, "standard_uncertainty", second->standard_uncertainty);
  scwi_json_number(to, "shift", second->shift);
  return to;
}

static scwi_json *trials_of(const scw_monte_carlo *trials) {
  scwi_json *to = scwi_json_object();
  scwi_json_whole(to, "trials", trials->trials);
  add_seed(to, trials->seed);
  scwi_json_whole(to, "digits", (unsigned long long)trials->digits);
  scwi_json_bool(to, "adaptive", trials->adaptive);
  scwi_json_bool(to, "settled", trials->settled);
  scwi_json_whole(to, "failed", trials->failed);
  scwi_json_figure(to, "mean", trials->mean);
  scwi_json_figure(to, "sd", trials->sd);
  scwi_json_figure(to, "median", trials->median);
  scwi_json_interval(to, "symmetric", trials->symmetric);
  scwi_json_interval(to, "shortest", trials->shortest);
  scwi_json_figure(to, "mean_error", trials->mean_error);
  scwi_json_figure(to, "sd_error", trials->sd_error);
  scwi_json_figure(to, "low_error", trials->low_error);
  scwi_json_figure(to, "high_error", trials->high_error);
  scwi_json_number(to, "tolerance", trials->tolerance);
  scwi_json_figure(to, "d_low", trials->d_low);
  scwi_json_figure(to, "d_high", trials->d_high);
  scwi_json_text(to, "agrees", scw_agreement_code(trials->agreement));
  return to;
}

static scw_figure limit_of(double limit) {
  return isfinite(limit) ? (scw_figure){limit, SCW_PRESENT}
                         : (scw_figure){0, SCW_UNBOUNDED};
}

static scwi_json *limits_of(const scw_conformance *limits) {
  scwi_json *to = scwi_json_object();
  scwi_json_figure(to, "low", limit_of(limits->low));
  scwi_json_figure(to, "high", limit_of(limits->high));
  scwi_json_number(to, "wanted", limits->wanted);
  scwi_json_figure(to, "probability", limits->probability);
  scwi_json_figure(to, "accept_low", limits->accept_low);
  scwi_json_figure(to, "accept_high", limits->accept_high);
  scwi_json_figure(to, "guard", limits->guard);
  return to;
}

static scwi_json *pair_of(scw_figure one, scw_figure two, const char *cancel) {
  scwi_json *to = scwi_json_object();
  scwi_json_figure(to, "one_meter", one);
  scwi_json_figure(to, "two_meters", two);
  scwi_json_text(to, "cancel", cancel);
  return to;
}

static scwi_json *two_of(const scw_two_results *two) {
  scwi_json *to = scwi_json_object();
  scwi_json_number(to, "apart", two->apart);
  scwi_json_text(to, "moved", two->moved);
  scwi_json_add(to, "difference",
                pair_of(two->difference_one_meter, two->difference_two_meters,
                        two->cancel_in_difference));
  scwi_json_add(to, "ratio",
                pair_of(two->ratio_one_meter, two->ratio_two_meters,
                        two->cancel_in_ratio));
  return to;
}

/* What is not there is null; a child that memory ran out for is a failure. */
static void add_parts(scwi_json *to, const scw_quantity_budget *of) {
  if (of->why_not)
    scwi_json_null(to, "second_order");
  else
    scwi_json_add(to, "second_order", second_order_of(&of->budget.second_order));
  if (of->has_trials)
    scwi_json_add(to, "monte_carlo", trials_of(&of->trials));
  else
    scwi_json_null(to, "monte_carlo");
  if (of->has_limits)
    scwi_json_add(to, "conformance", limits_of(&of->conformance));
  else
    scwi_json_null(to, "conformance");
  if (of->two.state == SCW_PRESENT)
    scwi_json_add(to, "two_results", two_of(&of->two));
  else
    scwi_json_null(to, "two_results");
}

static scwi_json *quantity_of(const scw_quantity_budget *of) {
  const scw_budget *budget = &of->budget;
  scwi_json *to = scwi_json_object();
  scw_figure estimate = {budget->estimate,
                         of->why_not ? SCW_NO_VALUE : SCW_PRESENT};
  scwi_json_text(to, "name", of->quantity->name);
  scwi_json_text(to, "unit", of->quantity->unit);
  scwi_json_text(to, "measures", scw_measures_code(of->quantity->measures));
  scwi_json_text(to, "model", of->quantity->model);
  scwi_json_text(to, "sentence", of->sentence);
  scwi_json_figure(to, "estimate", estimate);
  scwi_json_figure(to, "standard_uncertainty", budget->standard_uncertainty);
  scwi_json_figure(to, "df", budget->df);
  scwi_json_figure(to, "k", budget->k);
  scwi_json_figure(to, "expanded", budget->expanded);
  scwi_json_ends(to, "low", "high", budget->interval);
  scwi_json_add(to, "inputs", lines_of(of));
  scwi_json_text(to, "most_help",
                 budget->most_help < budget->n_lines
                     ? budget->lines[budget->most_help].name
                     : NULL);
  scwi_json_figure(to, "more_readings", of->more_readings);
  add_parts(to, of);
  scwi_json_notes(to, "notes", of->notes, of->n_notes);
  return to;
}

static scwi_json *settings_of(const scw_bench_budget *result) {
  scwi_json *to = scwi_json_settings(&result->settings);
  scwi_json_count(to, "trials", result->options.trials.trials);
  scwi_json_bool(to, "no_trials", result->options.no_trials);
  scwi_json_whole(to, "digits",
                  (unsigned long long)result->options.trials.digits);
  scwi_json_number(to, "second_order", 0.05);
  return to;
}

scw_status scwi_json_budget(scw_context *context,
                            const scw_bench_budget *result,
                            const scwi_inputs *inputs, scw_sink sink) {
  scwi_stream stream = {context, sink, SCW_OK};
  scwi_json_begin(&stream, "budget", inputs, settings_of(result));
  scwi_stream_text(&stream, "\"quantities\":[");
  for (size_t i = 0; i < result->n_quantities && !stream.status; i++)
    scwi_json_item(&stream, i, quantity_of(&result->quantities[i]));
  scwi_stream_text(&stream, "]");
  scwi_json_end(&stream, result->notes, result->n_notes);
  return stream.status;
}
