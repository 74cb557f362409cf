/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 6, second half: do the old method and the new one agree? */
#include "scatterwise/bridge.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "bridge_inside.h"
#include "figure.h"
#include "memory.h"
#include "number_text.h"
#include "settings.h"

static scw_status check_number(scw_context *context, const char *what,
                               double value) {
  char text[SCWI_NUMBER_SIZE];
  if (value >= 0 && isfinite(value)) return SCW_OK;
  return scwi_fail(context, SCW_BAD_ARGUMENT,
                   "%s is %s: give a number larger than 0", what,
                   scwi_number_text(value, text));
}

static scw_status check_old(scw_context *context,
                            const scw_old_result *of_old) {
  char text[SCWI_NUMBER_SIZE];
  if (!isfinite(of_old->value))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "an old result is no number; give it in the unit of the "
                     "readings");
  if (!of_old->has_u || (of_old->u >= 0 && isfinite(of_old->u))) return SCW_OK;
  return scwi_fail(context, SCW_BAD_ARGUMENT,
                   "the standard uncertainty of an old result is %s: give 0 or "
                   "a number above it",
                   scwi_number_text(of_old->u, text));
}

static scw_status take_options(scw_context *context,
                               const scw_bridge_options *options,
                               scw_bridge_result *out) {
  scw_status status = check_number(context, "the margin", options->margin);
  if (!status)
    status = check_number(context, "the error ratio", options->error_ratio);
  for (size_t i = 0; i < options->n_convert && !status; i++)
    status = check_old(context, &options->convert[i]);
  out->margin = options->margin > 0 ? scwi_figure(options->margin)
                                    : scwi_missing(SCW_NO_MARGIN);
  out->weighted = options->weighted;
  return status;
}

static scw_status copy(scw_context *context, const char *text, char **out) {
  return scwi_copy_text(context, text, strlen(text), out);
}

static scw_status copy_facts(scw_context *context,
                             const scwi_table_facts *facts,
                             scw_bridge_result *out) {
  out->step = facts->step;
  scw_status status = copy(context, facts->unit, &out->unit);
  if (!status) status = copy(context, facts->quantity, &out->quantity);
  if (!status) status = copy(context, facts->geometry, &out->geometry);
  return status;
}

static scw_status answer(scw_context *context, scwi_bridge_frame *frame,
                         scw_bridge_result *out) {
  scwi_notes notes = {0};
  scw_status status = scwi_bridge_items(context, frame, out);
  if (!status) status = scwi_bridge_pair_up(context, frame, out);
  if (!status) status = scwi_bridge_agreement(context, frame, out);
  if (!status) status = scwi_bridge_lines(context, frame, out);
  if (!status) status = scwi_bridge_baselines_of(context, frame, out);
  if (!status) status = scwi_bridge_verdict(context, frame, out);
  if (!status) status = scwi_bridge_fences(context, frame, out);
  if (!status) status = scwi_bridge_sentence(context, frame, out);
  if (!status) status = scwi_bridge_notes(context, frame, out, &notes);
  out->notes = notes.note;
  out->n_notes = notes.n;
  return status;
}

scw_status scw_bridge(scw_context *context, const scw_table *table,
                      const scw_settings *settings,
                      const scw_bridge_options *options,
                      scw_bridge_result *out) {
  static const scw_bridge_options none;
  scwi_table_facts facts = {0};
  scwi_bridge_frame frame = {.table = table, .facts = &facts,
                             .options = options ? options : &none};
  *out = (scw_bridge_result){.n_items = 0};
  scw_status status = scwi_settings_take(context, settings, &out->settings);
  if (!status) status = take_options(context, frame.options, out);
  if (!status)
    status = scwi_table_facts_of(context, table, &out->settings, &facts);
  if (!status) status = copy_facts(context, &facts, out);
  if (!status) status = answer(context, &frame, out);
  scwi_bridge_frame_free(&frame);
  scwi_table_facts_free(&facts);
  if (status) scw_bridge_result_free(out);
  return status;
}

void scw_bridge_result_free(scw_bridge_result *result) {
  for (size_t i = 0; i < result->n_items; i++) free(result->item[i].label);
  for (size_t i = 0; i < result->n_converted; i++)
    free(result->converted[i].product);
  for (size_t i = 0; i < result->n_fences; i++) free(result->fence[i].reason);
  for (size_t i = 0; i < result->n_unmatched; i++) free(result->unmatched[i]);
  free(result->item);
  free(result->converted);
  free(result->fence);
  free(result->unmatched);
  free(result->unit);
  free(result->quantity);
  free(result->geometry);
  free(result->sentence);
  scwi_notes_free(result->notes, result->n_notes);
  *result = (scw_bridge_result){.n_items = 0};
}
