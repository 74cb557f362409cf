/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Operators who all read the same spots are crossed with them; operators who
 * each read one thing several times give its precision. */
#include <stdlib.h>
#include <string.h>

#include "crossed.h"
#include "figure.h"
#include "memory.h"
#include "moments.h"
#include "panel_part.h"
#include "precision.h"

/* The operators' labels in the order they first appear. */
typedef struct names {
  uint32_t *label; /* as in the readings: 0 for none */
  size_t n, capacity;
} names;

static scw_status number_operators(scw_context *context,
                                   const scwi_panel_readings *readings,
                                   names *found, uint32_t *operator_of) {
  scw_status status = SCW_OK;
  for (size_t i = 0; i < readings->n && !status; i++) {
    size_t at = i ? operator_of[i - 1] : 0;
    if (i == 0 || found->label[at] != readings->by[i])
      for (at = 0; at < found->n && found->label[at] != readings->by[i]; at++)
        ;
    if (at == found->n) {
      status =
          SCWI_RESERVE(context, at + 1, &found->label, &found->capacity);
      if (!status) found->label[found->n++] = readings->by[i];
    }
    operator_of[i] = (uint32_t)at;
  }
  return status;
}

static scw_status name_operators(scw_context *context, const scw_table *table,
                                 const names *found, scw_panel_part *out) {
  scw_status status = SCWI_ALLOCATE(context, found->n, &out->by);
  for (size_t o = 0; o < found->n && !status; o++) {
    const char *text = found->label[o] == 0
                           ? "(not named)"
                           : scw_table_label(table,
                                             (int32_t)found->label[o] - 1);
    status =
        scwi_copy_text(context, text, strlen(text), &out->by[o].label);
    if (!status) out->n_by++;
  }
  return status;
}

static scw_status mean_operators(scw_context *context,
                                 const scwi_panel_frame *frame,
                                 const scwi_panel_readings *readings,
                                 const uint32_t *operator_of,
                                 scw_panel_part *out) {
  scwi_sample sample = scwi_panel_sample(frame, readings);
  double *x = NULL;
  scw_status status = SCWI_ALLOCATE(context, readings->n, &x);
  for (size_t o = 0; o < out->n_by && !status; o++) {
    scwi_sample own = {.x = x, .tick_size = 1, .step = sample.step};
    for (size_t i = 0; i < readings->n; i++)
      if (operator_of[i] == o) x[own.n++] = readings->x[i];
    out->by[o].n = own.n;
    out->by[o].mean = scwi_figure(scwi_moments_of(&own).mean);
  }
  free(x);
  return status;
}

bool scwi_panel_own_spots(const scwi_panel_units *units,
                          const uint32_t *operator_of) {
  for (size_t u = 0; u < units->n; u++)
    for (size_t i = units->first[u]; i < units->first[u + 1]; i++)
      if (operator_of[units->order[i]] != operator_of[units->order[units->first[u]]])
        return false;
  return true;
}

static scw_status cross(scw_context *context, const scwi_panel_frame *frame,
                        const scwi_panel_readings *readings,
                        const scwi_panel_units *units,
                        const uint32_t *operator_of, scw_panel_part *out) {
  scwi_sample sample = scwi_panel_sample(frame, readings);
  scw_status status = SCWI_ALLOCATE(context, 1, &out->crossed);
  if (!status)
    status = scwi_crossed(context, &sample, operator_of, units->unit_of,
                          frame->settings->level, out->crossed);
  if (!status && out->crossed->state == SCW_PRESENT)
    out->design = SCW_PANEL_CROSSED;
  return status;
}

static scw_status weigh(scw_context *context, const scwi_panel_frame *frame,
                        const scwi_panel_readings *readings,
                        const uint32_t *operator_of, scw_panel_part *out) {
  scwi_sample sample = scwi_panel_sample(frame, readings);
  scw_status status = SCWI_ALLOCATE(context, 1, &out->precision);
  if (!status)
    status = scwi_precision(context, &sample, operator_of, out->n_by,
                            frame->settings->level, out->precision);
  if (!status && out->precision->state == SCW_PRESENT)
    out->design = SCW_PANEL_PRECISION;
  return status;
}

scw_status scwi_panel_operators(scw_context *context,
                                const scwi_panel_frame *frame,
                                const scwi_panel_readings *readings,
                                const scwi_panel_units *units,
                                uint32_t *operator_of, scw_panel_part *out) {
  names found = {0};
  scw_status status = number_operators(context, readings, &found, operator_of);
  if (!status) status = name_operators(context, frame->table, &found, out);
  if (!status)
    status = mean_operators(context, frame, readings, operator_of, out);
  free(found.label);
  if (status || out->n_by < 2) return status;
  bool one_thing = units->n == 1 ||
                   (!units->spots && !units->sessions && !units->panels);
  return one_thing
             ? weigh(context, frame, readings, operator_of, out)
             : cross(context, frame, readings, units, operator_of, out);
}
