/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "panel_part.h"

#include <math.h>
#include <stdlib.h>

#include "figure.h"
#include "memory.h"
#include "notes.h"
#include "panel_words.h"
#include "precision.h"
#include "reml.h"

scwi_sample scwi_panel_sample(const scwi_panel_frame *frame,
                              const scwi_panel_readings *readings) {
  return (scwi_sample){
      .n = readings->n,
      .x = readings->x,
      .ticks = readings->ticks,
      .tick_size = pow(10, -frame->facts->decimals.digits),
      .step = frame->facts->step};
}

static void add_component(scw_panel_part *out, const char *level,
                          const scw_component *figures) {
  if (figures->state == SCW_NOT_COMPUTED) return;
  out->component[out->n_components++] = (scw_panel_component){
      .level = level,
      .figures = *figures,
      .reml_sd = scwi_missing(SCW_NOT_COMPUTED),
      .twice = scwi_missing(SCW_NOT_COMPUTED)};
}

/* Levels by their names; operators may stand at the top. */
static void take_nested(const scwi_panel_units *units, const char *top,
                        scw_panel_part *out) {
  const char *const names[SCW_LEVEL_COUNT] = {
      top, "session", "spot",
      units->spots || out->design == SCW_PANEL_PRECISION ? "repeat" : "reading"};
  const scw_nested *nested = out->nested;
  for (size_t l = 0; l < SCW_LEVEL_COUNT; l++) {
    size_t at = out->n_components;
    add_component(out, names[l], &nested->component[l]);
    if (!out->reml || at == out->n_components) continue;
    out->component[at].reml_sd = out->reml->sd[l];
    out->component[at].reml_at_zero = out->reml->at_zero[l];
  }
  out->balanced = nested->balanced;
  out->total_sd = nested->total_sd;
  out->mean = nested->mean;
}

/* The interaction is left out of the answer only where nothing tells it. */
static void take_crossed(const scwi_panel_units *units, scw_panel_part *out) {
  const scw_crossed *crossed = out->crossed;
  bool told = crossed->with.interaction.state == SCW_PRESENT;
  const scw_crossed_model *model = told ? &crossed->with : &crossed->without;
  double total = 0;
  add_component(out, "operator", &model->operators);
  add_component(out, units->name, &model->spots);
  add_component(out, "interaction", &model->interaction);
  add_component(out, "repeat", &model->repeats);
  for (size_t i = 0; i < out->n_components; i++) {
    scw_figure sd = out->component[i].figures.sd;
    total = scwi_present(sd) ? hypot(total, sd.value) : total;
  }
  out->balanced = crossed->balanced;
  out->total_sd = scwi_figure(total);
  out->mean = crossed->mean;
}

/* Mean squares, and likelihood beside them where the design has gaps. */
static scw_status fit_nested(scw_context *context,
                             const scwi_panel_frame *frame,
                             const scwi_panel_readings *readings,
                             const scwi_level_labels *labels, scw_panel_part *out) {
  scwi_sample sample = scwi_panel_sample(frame, readings);
  double level = frame->settings->level;
  scw_status status = SCWI_ALLOCATE(context, 1, &out->nested);
  if (!status)
    status = scwi_nested(context, &sample, labels, level, frame->memo,
                         out->nested);
  if (status || out->nested->balanced || out->nested->levels < 2)
    return status;
  status = SCWI_ALLOCATE(context, 1, &out->reml);
  if (!status) status = scwi_reml(context, &sample, labels, level, out->reml);
  return status;
}

/* Operators at the top, where each read spots of his own and there is but one
 * panel. */
static bool operators_on_top(const scwi_panel_units *units,
                             const uint32_t *operator_of,
                             const scw_panel_part *part) {
  return part->design != SCW_PANEL_CROSSED && part->n_by > 1 &&
         units->n_panels == 1 &&
         (part->design == SCW_PANEL_PRECISION ||
          scwi_panel_own_spots(units, operator_of));
}

static scw_status take_apart(scw_context *context,
                             const scwi_panel_frame *frame,
                             const scwi_panel_readings *readings,
                             const scwi_panel_units *units,
                             const uint32_t *operator_of,
                             scw_panel_part *out) {
  bool on_top = operators_on_top(units, operator_of, out);
  bool precision = out->design == SCW_PANEL_PRECISION;
  scwi_level_labels labels = {{NULL}};
  if (on_top || units->panels)
    labels.label[SCW_LEVEL_PANEL] = on_top ? operator_of : readings->panel;
  if (units->sessions && !precision)
    labels.label[SCW_LEVEL_SESSION] = readings->session;
  if (units->spots && !precision)
    labels.label[SCW_LEVEL_SPOT] = readings->spot;
  scw_status status = fit_nested(context, frame, readings, &labels, out);
  if (status) return status;
  if (out->design == SCW_PANEL_CROSSED)
    take_crossed(units, out);
  else
    take_nested(units, on_top ? "operator" : frame->parts->unit_name, out);
  return SCW_OK;
}

static void count(const scwi_panel_frame *frame,
                  const scwi_panel_readings *readings,
                  const scwi_panel_units *units, scw_panel_part *out) {
  out->readings = readings->n;
  out->panels = units->panels ? units->n_panels : 0;
  out->sessions = units->sessions ? units->n_sessions : 0;
  out->spots = units->spots ? units->n : 0;
  out->least_repeats = units->spots ? units->least : 1;
  out->most_repeats = units->spots ? units->most : 1;
  out->positions = frame->parts->positions;
  out->letter_rows = frame->parts->letter_rows;
  out->letter_columns = frame->parts->letter_columns;
}

scw_status scwi_panel_part(scw_context *context, const scwi_panel_frame *frame,
                           size_t part, scw_panel_part *out) {
  scwi_panel_readings readings = scwi_panel_part_at(frame->parts, part);
  scwi_panel_units units;
  uint32_t *operator_of = NULL;
  *out = (scw_panel_part){.label = frame->parts->label[part]};
  frame->parts->label[part] = NULL;
  scw_status status = scwi_panel_units_of(context, &readings,
                                          frame->parts->unit_name, &units);
  if (!status) status = SCWI_ALLOCATE(context, readings.n, &operator_of);
  if (!status) {
    count(frame, &readings, &units, out);
    if (units.operators)
      status = scwi_panel_operators(context, frame, &readings, &units,
                                    operator_of, out);
  }
  if (!status)
    status = take_apart(context, frame, &readings, &units, operator_of, out);
  if (!status) {
    scwi_panel_worth(out);
    status = scwi_panel_place(context, frame, &readings, &units, out);
  }
  if (!status) status = scwi_panel_words(context, frame, &units, out);
  free(operator_of);
  scwi_panel_units_free(&units);
  return status;
}

void scwi_panel_part_free(scw_panel_part *part) {
  for (size_t i = 0; i < part->n_by; i++) free(part->by[i].label);
  if (part->precision) scwi_precision_free(part->precision);
  free(part->label);
  free(part->sentence);
  free(part->nested);
  free(part->reml);
  free(part->crossed);
  free(part->precision);
  free(part->place);
  free(part->by);
  free(part->length_unit);
  scwi_notes_free(part->notes, part->n_notes);
  *part = (scw_panel_part){0};
}
