/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 3, first half: how uneven is this panel? */
#include "scatterwise/panel.h"

#include <stdlib.h>
#include <string.h>

#include "codes.h"
#include "friction.h"
#include "memory.h"
#include "notes.h"
#include "panel_part.h"
#include "panel_places.h"
#include "panel_pool.h"
#include "pooled_scatter.h"
#include "settings.h"
#include "table_facts.h"

SCWI_CODE_FUNCTION(scw_panel_design_code, scw_panel_design, SCW_PANEL_DESIGN_LIST,
                   SCWI_KEY, SCW_PANEL_DESIGN_END, "unknown")

SCWI_CODE_FUNCTION(scw_positions_code, scw_positions, SCW_POSITIONS_LIST,
                   SCWI_KEY, SCW_POSITIONS_END, "unknown")

static scw_status copy(scw_context *context, const char *text, char **out) {
  return scwi_copy_text(context, text, strlen(text), out);
}

static scw_status copy_facts(scw_context *context,
                             const scwi_table_facts *facts,
                             scw_panel_result *out) {
  out->step = facts->step;
  scw_status status = copy(context, facts->unit, &out->unit);
  if (!status) status = copy(context, facts->quantity, &out->quantity);
  if (!status) status = copy(context, facts->geometry, &out->geometry);
  return status;
}

static scw_status take_parts(scw_context *context, const scw_table *table,
                             const scwi_table_facts *facts,
                             const scwi_panel_parts *parts,
                             scw_panel_result *out) {
  scwi_limits_memo memo = {0};
  scwi_panel_frame frame = {.table = table,
                            .facts = facts,
                            .settings = &out->settings,
                            .parts = parts,
                            .memo = &memo,
                            .alone = parts->n == 1};
  char *length_unit = NULL;
  scw_status status = SCWI_ALLOCATE(context, parts->n, &out->parts);
  if (!status) status = scwi_length_unit(context, table, &length_unit);
  frame.length_unit = length_unit;
  for (size_t p = 0; p < parts->n && !status; p++) {
    out->n_parts = p + 1; /* also what a failure leaves is freed */
    status = scwi_panel_part(context, &frame, p, &out->parts[p]);
  }
  free(length_unit);
  return status;
}

static scw_status note_run(scw_context *context, const scwi_panel_parts *parts,
                           const scwi_table_facts *facts, bool each,
                           scwi_notes *notes) {
  scw_status status = SCW_OK;
  if (scwi_is_friction(facts->quantity))
    status = scwi_friction_caution(context, notes);
  if (!status && parts->tiles)
    status = scwi_note(context, notes, "tile_readings",
                       "%zu readings of the tile take no part.", parts->tiles);
  if (!status && parts->again)
    status = scwi_note(context, notes, "read_again",
                       "%zu readings that replace earlier ones are not counted: "
                       "a reading taken again is a choice, and the first ones "
                       "stand.",
                       parts->again);
  if (!status && parts->n > 1 && !each)
    status = scwi_note(context, notes, "parts_apart",
                       "Products, states and files are looked at one by one: "
                       "what differs between them is no scatter of a panel.");
  return status;
}

scw_status scw_panel(scw_context *context, const scw_table *table,
                     const scw_settings *settings,
                     const scw_panel_options *options, scw_panel_result *out) {
  scwi_table_facts facts = {0};
  scwi_panel_parts parts = {0};
  scwi_notes notes = {0};
  *out = (scw_panel_result){.n_parts = 0};
  if (options) out->options = *options;
  scw_status status = scwi_settings_take(context, settings, &out->settings);
  if (!status)
    status = scwi_table_facts_of(context, table, &out->settings, &facts);
  if (!status) status = copy_facts(context, &facts, out);
  if (!status)
    status = scwi_panel_parts_of(context, table, &facts, out->options.each,
                                 &parts);
  if (!status) status = take_parts(context, table, &facts, &parts, out);
  if (!status) status = scwi_panel_pool(context, table, &facts, out, &notes);
  if (!status && out->n_parts == 1)
    status = copy(context, out->parts[0].sentence, &out->sentence);
  else if (!status)
    status = scwi_panel_pool_sentence(context, out, &out->sentence);
  if (!status)
    status = note_run(context, &parts, &facts, out->options.each, &notes);
  out->notes = notes.note;
  out->n_notes = notes.n;
  scwi_panel_parts_free(&parts);
  scwi_table_facts_free(&facts);
  if (status) scw_panel_result_free(out);
  return status;
}

void scw_panel_result_free(scw_panel_result *result) {
  for (size_t p = 0; p < result->n_parts; p++)
    scwi_panel_part_free(&result->parts[p]);
  for (size_t i = 0; i < result->pool.n_sets; i++) free(result->set_label[i]);
  free(result->parts);
  free(result->set_label);
  free(result->unit);
  free(result->quantity);
  free(result->geometry);
  free(result->sentence);
  scwi_pool_free(&result->pool);
  scwi_notes_free(result->notes, result->n_notes);
  *result = (scw_panel_result){.n_parts = 0};
}
