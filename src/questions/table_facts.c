/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "table_facts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "display_step.h"
#include "sets.h"

/* Inputs may leave the unit unsaid, but not contradict each other. */
static scw_status one_unit(scw_context *context, const scw_table *table,
                           scwi_table_facts *out) {
  out->unit = out->quantity = "";
  for (size_t i = 0; i < scw_table_inputs(table); i++) {
    const scw_input *input = scw_table_input(table, i);
    if (i == 0) out->name = input->name;
    if (input->quantity && !*out->quantity) out->quantity = input->quantity;
    if (!input->unit || !*input->unit) continue;
    if (*out->unit && strcmp(out->unit, input->unit))
      return scwi_fail_at(context, SCW_BAD_INPUT, input->name, 0, 0,
                          "readings in %s beside readings in %s: bring both "
                          "to one unit first",
                          input->unit, out->unit);
    out->unit = input->unit;
  }
  return SCW_OK;
}

static const char *geometry_of(const scw_table *table, size_t index) {
  const scw_reading *reading = &scw_table_readings(table)[index];
  if (reading->geometry != SCW_NO_LABEL)
    return scw_table_label(table, reading->geometry);
  const scw_input *input =
      scw_table_input(table, scw_table_input_of(table, index));
  return input->geometry ? input->geometry : "";
}

scw_status scwi_fail_geometries(scw_context *context, const char *name,
                                size_t line, const char *geometry,
                                const char *before) {
  return scwi_fail_at(
      context, SCW_BAD_INPUT, name, line, 0,
      "a reading at %s degrees among readings at %s degrees: gloss at two "
      "angles is never compared; split the file by angle",
      geometry, before);
}

static scw_status one_geometry(scw_context *context, const scw_table *table,
                               scwi_table_facts *out) {
  const char *seen = "";
  for (size_t i = 0; i < scw_table_size(table); i++) {
    const char *geometry = geometry_of(table, i);
    if (!*geometry || !strcmp(geometry, seen)) continue;
    if (*seen)
      return scwi_fail_geometries(
          context, scw_table_input(table, scw_table_input_of(table, i))->name,
          scw_table_readings(table)[i].line, geometry, seen);
    seen = geometry;
  }
  out->geometry = seen;
  return SCW_OK;
}

static scw_step step_of(const scwi_table_decimals *decimals, size_t n,
                        const scw_settings *settings) {
  if (settings->step.origin == SCW_STEP_GIVEN) return settings->step;
  if (!decimals->ticks) return (scw_step){0, SCW_STEP_NOT_KNOWN};
  return scwi_display_step(decimals->ticks, n, decimals->digits);
}

scw_status scwi_table_facts_of(scw_context *context, const scw_table *table,
                               const scw_settings *settings,
                               scwi_table_facts *out) {
  *out = (scwi_table_facts){.name = ""};
  scw_status status = one_unit(context, table, out);
  if (!status && scw_table_size(table) == 0)
    status = scwi_fail_at(context, SCW_BAD_INPUT, out->name, 0, 0,
                          "no readings found; give one number per line, or "
                          "name the column with --reading");
  if (!status) status = one_geometry(context, table, out);
  if (!status)
    status = scwi_table_ticks(context, table, &out->decimals.ticks,
                              &out->decimals.digits);
  if (!status) out->step = step_of(&out->decimals, scw_table_size(table),
                                   settings);
  if (status) scwi_table_facts_free(out);
  return status;
}

void scwi_table_facts_free(scwi_table_facts *facts) {
  free(facts->decimals.ticks);
  facts->decimals.ticks = NULL;
}

scw_step scwi_step_over(scw_step step, double divisor) {
  step.size /= fabs(divisor);
  return step;
}
