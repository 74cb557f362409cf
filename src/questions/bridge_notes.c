/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a reader of the bridge must know beside the answer. */
#include <math.h>

#include "bridge_inside.h"
#include "figure.h"
#include "friction.h"
#include "words.h"

/* Evidence needed before a note speaks. */
static const double note_significance = 0.05;

/* Readings of an item that are not as many as expected, on either side. */
static scw_status note_counts(scw_context *context,
                              const scw_bridge_result *result,
                              scwi_notes *notes) {
  size_t expect = result->settings.expect, other = 0;
  for (size_t k = 0; k < result->n_items; k++) {
    const scw_bridge_item *item = &result->item[k];
    other += item->n_old && item->n_old != expect;
    other += item->n_new && item->n_new != expect;
  }
  if (!expect || !other) return SCW_OK;
  return scwi_note(context, notes, "count_differs",
                   "%zu readings of an item by a method were expected, %zu "
                   "time%s there are more or fewer.",
                   expect, other, other == 1 ? "" : "s");
}

static scw_status note_items(scw_context *context,
                             const scwi_bridge_frame *frame,
                             const scw_bridge_result *result,
                             scwi_notes *notes) {
  scw_status status = SCW_OK;
  if (!frame->named)
    status = scwi_note(context, notes, "items_not_named",
                       "No column says which item was read, so nothing is "
                       "paired and all readings are taken as those of one "
                       "baseline. Add a column item.");
  for (size_t i = 0; i < result->n_unmatched && !status; i++)
    status = scwi_note(context, notes, "unmatched", "%s: it takes no part.",
                       result->unmatched[i]);
  if (!status && frame->again)
    status = scwi_note(context, notes, "read_again",
                       "%zu readings that replace earlier ones are not counted: "
                       "a reading taken again is a choice, and the first ones "
                       "stand.",
                       frame->again);
  if (!status && result->pairs && result->baselines.items)
    status = scwi_note(context, notes, "baselines_apart",
                       "%zu baseline%s looked at apart: bias, limits and line "
                       "are those of the products.",
                       result->baselines.items,
                       result->baselines.items == 1 ? " is" : "s are");
  return status;
}

static scw_status note_ratio(scw_context *context,
                             const scwi_bridge_frame *frame,
                             const scw_bridge_result *result,
                             scwi_notes *notes) {
  scw_status status = SCW_OK;
  if (result->pairs < 3) return SCW_OK;
  if (result->error_ratio_origin == SCW_RATIO_ASSUMED)
    status = scwi_note(context, notes, "error_ratio_assumed",
                       "Both methods are taken to scatter alike (error ratio "
                       "1): the items have no repeats on both that would tell. "
                       "Repeat readings, or give --error-ratio.");
  if (!status && frame->uneven)
    status = scwi_note(context, notes, "uneven_repeats",
                       "Products differ in their numbers of readings but count "
                       "alike: intervals are approximate.");
  return status;
}

static scw_status note_shape(scw_context *context,
                             const scwi_bridge_frame *frame,
                             const scw_bridge_result *result,
                             scwi_notes *notes) {
  scw_status status = SCW_OK;
  for (size_t i = 0; i < result->stand_out.n_flags && !status; i++) {
    const scw_flag *flag = &result->stand_out.flags[i];
    scwi_text text = {0};
    scwi_text_format(&text, "%s stands out: its difference of ",
                     result->item[frame->item[flag->place - 1]].label);
    scwi_say_given(&text, flag->reading, result->unit);
    scwi_text_add(&text, " lies ");
    scwi_say_digits(&text, fabs(flag->distance_sd), 2, NULL);
    scwi_text_add(&text, " SD from the mean difference. It is kept: look "
                         "whether something happened to it, or whether that "
                         "kind of product responds differently.");
    status = scwi_note_take(context, notes, "stands_out", &text);
  }
  if (!status && scwi_present(result->shape.shapiro_p) &&
      result->shape.shapiro_p.value < note_significance)
    status = scwi_note(context, notes, "not_normal",
                       "The differences do not look normal (Shapiro-Wilk): the "
                       "limits of agreement lean on that.");
  return status;
}

static scw_status note_trend(scw_context *context,
                             const scw_bridge_result *result,
                             scwi_notes *notes) {
  scw_status status = SCW_OK;
  if (scwi_present(result->trend.p) &&
      result->trend.p.value < note_significance)
    status = scwi_note(context, notes, "difference_moves_with_level",
                       "The difference moves with the level, so one bias and "
                       "one pair of limits do not hold for the whole range; the "
                       "line does.");
  if (!status && !result->weighted && scwi_present(result->grows_p) &&
      result->grows_p.value < note_significance &&
      result->grows_s.value > 0)
    status = scwi_note(context, notes, "scatter_grows",
                       "Differences scatter more at higher levels: --weighted "
                       "takes the scatter to grow with the level.");
  return status;
}

/* Which old results were not converted, and what their uncertainty holds. */
static scw_status note_converted(scw_context *context,
                                 const scwi_bridge_frame *frame,
                                 const scw_bridge_result *result,
                                 scwi_notes *notes) {
  size_t beyond = 0, given = 0;
  scw_status status = SCW_OK;
  for (size_t i = 0; i < result->n_converted; i++) {
    beyond += result->converted[i].value.state == SCW_EXTRAPOLATED;
    given += scwi_present(result->converted[i].old_u);
  }
  if (beyond) {
    scwi_text text = {0};
    scwi_text_format(&text, "%zu old result%s not converted: beyond ", beyond,
                     beyond == 1 ? " is" : "s are");
    scwi_say_given(&text, result->range_low.value, NULL);
    scwi_text_add(&text, " to ");
    scwi_say_given(&text, result->range_high.value, result->unit);
    scwi_text_add(&text, " no product was run on both, and the line may bend "
                         "there.");
    status = scwi_note_take(context, notes, "extrapolated", &text);
  }
  if (!status && given && !(frame->of_old.df > 0))
    status = scwi_note(context, notes, "old_scatter_counted_twice",
                       "The old method has no repeats here, so its own scatter "
                       "is in the scatter about the line as well as in the "
                       "uncertainty given for an old result: the converted "
                       "uncertainty is rather too large.");
  return status;
}

static scw_status note_display(scw_context *context,
                               const scw_bridge_result *result,
                               scwi_notes *notes) {
  const scw_bridge_line *line = scwi_bridge_used(result);
  double slope = scwi_present(line->slope) ? line->slope.value : 0;
  if (!scwi_present(line->scatter) ||
      line->scatter.value >=
          result->step.size * sqrt(1 / 12.0) * hypot(1, slope))
    return SCW_OK;
  return scwi_note(context, notes, "display_limits",
                   "The products scatter less about the line than the display "
                   "steps alone would make them: converted results carry the "
                   "steps' uncertainty instead.");
}

static scw_status note_fences(scw_context *context,
                              const scw_bridge_result *result,
                              scwi_notes *notes) {
  if (!result->fenced || result->n_fences == 0) return SCW_OK;
  return scwi_note(context, notes, "fenced",
                   "Scores from before and after a fence are not put side by "
                   "side until the bridge carries them: comparable as they "
                   "stand, or after conversion, within a margin.");
}

scw_status scwi_bridge_notes(scw_context *context,
                             const scwi_bridge_frame *frame,
                             const scw_bridge_result *result,
                             scwi_notes *notes) {
  scw_status status = note_items(context, frame, result, notes);
  if (!status) status = note_counts(context, result, notes);
  if (!status) status = note_ratio(context, frame, result, notes);
  if (!status) status = note_shape(context, frame, result, notes);
  if (!status) status = note_trend(context, result, notes);
  if (!status) status = note_converted(context, frame, result, notes);
  if (!status) status = note_display(context, result, notes);
  if (!status) status = note_fences(context, result, notes);
  if (!status && scwi_is_friction(result->quantity))
    status = scwi_friction_caution(context, notes);
  return status;
}
