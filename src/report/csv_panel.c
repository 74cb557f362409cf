/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The scatter of a panel as CSV: a row for each part, the same columns in every
 * file. */
#include <string.h>

#include "csv_table.h"
#include "figure.h"
#include "reports.h"

static const scw_component *find(const scw_panel_part *part, const char *level,
                                 const char *other) {
  for (size_t i = 0; i < part->n_components; i++)
    if (!strcmp(part->component[i].level, level) ||
        (other && !strcmp(part->component[i].level, other)))
      return &part->component[i].figures;
  return NULL;
}

static void add_level(scwi_csv *csv, const char *level,
                      const scw_component *found) {
  static const scw_component none = {.state = SCW_NOT_COMPUTED};
  char prefix[24];
  size_t length = strlen(level);
  if (!found) found = &none;
  memcpy(prefix, level, length);
  memcpy(prefix + length, "_", 2);
  csv->prefix = prefix;
  scwi_csv_figure(csv, "sd", found->sd);
  scwi_csv_ends(csv, "low", "high", found->interval);
  scwi_csv_figure(csv, "variance_raw", found->variance);
  scwi_csv_figure(csv, "share", found->share);
  csv->prefix = NULL;
}

static void add_levels(scwi_csv *csv, const scw_panel_part *part) {
  static const char *const levels[][2] = {
      {"panel", "set"},     {"session", NULL},     {"operator", NULL},
      {"spot", NULL},       {"interaction", NULL}, {"repeat", "reading"}};
  for (size_t i = 0; i < sizeof levels / sizeof *levels; i++)
    add_level(csv, levels[i][0], find(part, levels[i][0], levels[i][1]));
}

static void add_place(scwi_csv *csv, const scw_panel_part *part) {
  static const scw_place none = {.used = 0};
  const scw_place *place = part->place ? part->place : &none;
  scwi_csv_figure(csv, "gradient_x", place->gradient.x.estimate);
  scwi_csv_figure(csv, "gradient_y", place->gradient.y.estimate);
  scwi_csv_figure(csv, "gradient_p", place->gradient.p);
  scwi_csv_figure(csv, "moran_i", place->moran.i);
  scwi_csv_figure(csv, "moran_p", place->moran.p);
  scwi_csv_figure(csv, "range", part->range);
  scwi_csv_figure(csv, "effective_spots", part->effective_spots);
}

static void add_limits(scwi_csv *csv, const scw_panel_part *part) {
  scw_figure r = {0}, R = {0};
  if (part->design == SCW_PANEL_PRECISION) {
    r = part->precision->r_limit;
    R = part->precision->R_limit;
  } else if (part->design == SCW_PANEL_CROSSED) {
    const scw_crossed *crossed = part->crossed;
    bool told = crossed->with.interaction.state == SCW_PRESENT;
    const scw_crossed_model *model = told ? &crossed->with : &crossed->without;
    r = model->repeatability_limit;
    R = model->reproducibility_limit;
  }
  scwi_csv_figure(csv, "repeatability_limit", r);
  scwi_csv_figure(csv, "reproducibility_limit", R);
}

static void part_row(scwi_csv *csv, const scw_panel_part *part,
                     const char *unit) {
  scwi_csv_text(csv, "part", part->label);
  scwi_csv_text(csv, "unit", unit);
  scwi_csv_text(csv, "design", scw_panel_design_code(part->design));
  scwi_csv_whole(csv, "readings", part->readings);
  scwi_csv_whole(csv, "panels", part->panels);
  scwi_csv_whole(csv, "sessions", part->sessions);
  scwi_csv_whole(csv, "spots", part->spots);
  scwi_csv_whole(csv, "operators", part->n_by);
  scwi_csv_bool(csv, "balanced", part->balanced);
  scwi_csv_figure(csv, "mean", part->mean.estimate);
  scwi_csv_figure(csv, "standard_uncertainty", part->mean.standard_uncertainty);
  scwi_csv_figure(csv, "df", part->mean.df);
  scwi_csv_ends(csv, "low", "high", part->mean.interval);
  scwi_csv_figure(csv, "total_sd", part->total_sd);
  add_levels(csv, part);
  add_limits(csv, part);
  add_place(csv, part);
  scwi_csv_text(csv, "sentence", part->sentence);
  scwi_csv_row(csv);
}

scw_status scwi_csv_panel(scw_context *context, const scw_panel_result *result,
                          scw_sink sink) {
  static const scw_panel_part none = {.n_components = 0};
  scwi_csv csv = scwi_csv_start(context, sink);
  part_row(&csv, &none, NULL);
  for (size_t i = 0; i < result->n_parts && !csv.status; i++)
    part_row(&csv, &result->parts[i], result->unit);
  return scwi_csv_end(&csv);
}
