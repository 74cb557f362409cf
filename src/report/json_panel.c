/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The scatter of a panel as JSON. */
#include "json_panel.h"

#include "fields.h"
#include "figure.h"
#include "reports.h"

void scwi_json_ends(scwi_json *to, const char *low, const char *high,
                    scw_interval interval) {
  scwi_json_figure(to, low, (scw_figure){interval.low, interval.state});
  scwi_json_figure(to, high, (scw_figure){interval.high, interval.state});
}

scwi_json *scwi_json_estimate_of(const scw_estimate *estimate) {
  scwi_json *to = scwi_json_object();
  scwi_json_figure(to, "estimate", estimate->estimate);
  scwi_json_figure(to, "standard_uncertainty", estimate->standard_uncertainty);
  scwi_json_figure(to, "df", estimate->df);
  scwi_json_ends(to, "low", "high", estimate->interval);
  return to;
}

/* The figures of a component; those of one that is not told are all missing. */
static void add_figures(scwi_json *to, const scw_component *found) {
  scwi_json_whole(to, "groups", found->groups);
  scwi_json_figure(to, "sd", found->sd);
  scwi_json_figure(to, "variance_raw", found->variance);
  scwi_json_ends(to, "low", "high", found->interval);
  scwi_json_figure(to, "at_most", found->at_most);
  scwi_json_figure(to, "share", found->share);
  scwi_json_bool(to, "distinguishable", found->distinguishable);
  scwi_json_figure(to, "mean_square", found->mean_square);
  scwi_json_figure(to, "df", found->df);
  scwi_json_figure(to, "f", found->f);
  scwi_json_figure(to, "f_df", found->f_df);
  scwi_json_figure(to, "p", found->p);
  scwi_json_bool(to, "approximate", found->approximate);
}

scwi_json *scwi_json_component(const char *level, const scw_component *found) {
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "level", level);
  add_figures(to, found);
  return to;
}

static scwi_json *component_of(const scw_panel_component *component,
                               bool reml) {
  scwi_json *to = scwi_json_component(component->level, &component->figures);
  if (reml) {
    scwi_json_figure(to, "reml_sd", component->reml_sd);
    scwi_json_bool(to, "reml_at_zero", component->reml_at_zero);
  }
  scwi_json_figure(to, "twice", component->twice);
  return to;
}

static scwi_json *components_of(const scw_panel_part *part) {
  scwi_json *to = scwi_json_array();
  for (size_t i = 0; i < part->n_components; i++)
    scwi_json_add(to, NULL, component_of(&part->component[i], part->reml));
  return to;
}

static scwi_json *reml_of(const scw_reml *reml) {
  scwi_json *to = scwi_json_object();
  scwi_json_add(to, "mean", scwi_json_estimate_of(&reml->mean));
  scwi_json_figure(to, "log_likelihood", reml->log_likelihood);
  return to;
}

/* What is there of a part; what is not is null. */
static void add_or_null(scwi_json *to, const char *key, bool there,
                        scwi_json *object) {
  if (there)
    scwi_json_add(to, key, object);
  else
    scwi_json_null(to, key);
}

static void add_analyses(scwi_json *to, const scw_panel_part *part) {
  add_or_null(to, "reml", part->reml, part->reml ? reml_of(part->reml) : NULL);
  add_or_null(to, "crossed", part->design == SCW_PANEL_CROSSED,
              part->design == SCW_PANEL_CROSSED
                  ? scwi_json_crossed(part->crossed)
                  : NULL);
  add_or_null(to, "precision", part->design == SCW_PANEL_PRECISION,
              part->design == SCW_PANEL_PRECISION ? scwi_json_precision(part)
                                                  : NULL);
  add_or_null(to, "place", part->place,
              part->place ? scwi_json_place(part) : NULL);
}

static void add_operators(scwi_json *to, const scw_panel_part *part) {
  scwi_json *all = scwi_json_array();
  for (size_t i = 0; i < part->n_by; i++) {
    scwi_json *one = scwi_json_object();
    scwi_json_text(one, "label", part->by[i].label);
    scwi_json_whole(one, "n", part->by[i].n);
    scwi_json_figure(one, "mean", part->by[i].mean);
    scwi_json_add(all, NULL, one);
  }
  scwi_json_add(to, "operators", all);
}

static scwi_json *part_of(const scw_panel_part *part) {
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "label", part->label);
  scwi_json_text(to, "sentence", part->sentence);
  scwi_json_text(to, "design", scw_panel_design_code(part->design));
  scwi_json_whole(to, "readings", part->readings);
  scwi_json_count(to, "panels", part->panels);
  scwi_json_count(to, "sessions", part->sessions);
  scwi_json_count(to, "spots", part->spots);
  scwi_json_count(to, "least_repeats", part->least_repeats);
  scwi_json_count(to, "most_repeats", part->most_repeats);
  scwi_json_bool(to, "balanced", part->balanced);
  scwi_json_add(to, "components", components_of(part));
  scwi_json_figure(to, "total_sd", part->total_sd);
  scwi_json_add(to, "mean", scwi_json_estimate_of(&part->mean));
  scwi_json_figure(to, "repeats_worth", part->repeats_worth);
  add_operators(to, part);
  add_analyses(to, part);
  scwi_json_notes(to, "notes", part->notes, part->n_notes);
  return to;
}

static void add_test(scwi_json *to, const char *key,
                     const scw_homogeneity *test) {
  scwi_json *object = scwi_json_object();
  scwi_json_figure(object, "statistic", test->statistic);
  scwi_json_figure(object, "df1", test->df1);
  scwi_json_figure(object, "df2", test->df2);
  scwi_json_figure(object, "p", test->p);
  scwi_json_add(to, key, object);
}

static scwi_json *bank_head(const scw_pool *pool) {
  scwi_json *to = scwi_json_object();
  scwi_json_figure(to, "sd", pool->sd);
  scwi_json_figure(to, "df", pool->df);
  scwi_json_whole(to, "sets", pool->sets);
  scwi_json_ends(to, "low", "high", pool->interval);
  scwi_json_whole(to, "apart", pool->n_apart);
  scwi_json_bool(to, "step_decides", pool->step_decides);
  add_test(to, "bartlett", &pool->bartlett);
  add_test(to, "levene", &pool->levene);
  add_test(to, "brown_forsythe", &pool->brown_forsythe);
  return to;
}

static scwi_json *set_of(const scw_pooled_set *set, const char *label) {
  scwi_json *to = scwi_json_object();
  scwi_json_text(to, "label", label);
  scwi_json_whole(to, "n", set->n);
  scwi_json_figure(to, "mean", set->mean);
  scwi_json_figure(to, "sd", set->sd);
  scwi_json_figure(to, "ratio", set->ratio);
  scwi_json_figure(to, "p", set->p);
  scwi_json_bool(to, "apart", set->apart);
  return to;
}

static void write_bank(scwi_stream *stream, const scw_panel_result *result) {
  const scw_pool *pool = &result->pool;
  scwi_stream_text(stream, ",\n\"bank\":");
  scwi_stream_json_open(stream, bank_head(pool));
  scwi_stream_text(stream, ",\"of\":[");
  for (size_t i = 0; i < pool->n_sets && !stream->status; i++)
    scwi_json_item(stream, i, set_of(&pool->set[i], result->set_label[i]));
  scwi_stream_text(stream, "]}");
}

static scwi_json *settings_of(const scw_panel_result *result) {
  scwi_json *to = scwi_json_settings(&result->settings);
  scwi_json_text(to, "each", result->options.each ? "panel" : NULL);
  return to;
}

/* The members of a single part stand in the results themselves. */
static void write_parts(scwi_stream *stream, const scw_panel_result *result) {
  if (result->n_parts == 1) {
    scwi_stream_json_members(stream, part_of(&result->parts[0]));
    return;
  }
  scwi_stream_text(stream, "\"parts\":[");
  for (size_t i = 0; i < result->n_parts && !stream->status; i++)
    scwi_json_item(stream, i, part_of(&result->parts[i]));
  scwi_stream_text(stream, "]");
}

scw_status scwi_json_panel(scw_context *context, const scw_panel_result *result,
                           const scwi_inputs *inputs, scw_sink sink) {
  scwi_stream stream = {context, sink, SCW_OK};
  scwi_json_begin(&stream, "panel", inputs, settings_of(result));
  write_parts(&stream, result);
  write_bank(&stream, result);
  scwi_json_end(&stream, result->notes, result->n_notes);
  return stream.status;
}
