/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a tester must know about the scatter found. */
#include <math.h>
#include <string.h>

#include "figure.h"
#include "panel_words.h"
#include "words.h"

static scw_status note_units(scw_context *context,
                             const scwi_panel_units *units,
                             const scw_panel_part *part, scwi_notes *notes) {
  if (part->spots == 1 && part->design == SCW_PANEL_NESTED)
    return scwi_note(context, notes, "one_spot",
                     "All readings are of one spot: its repeats say nothing "
                     "about the rest of the panel.");
  if (!units->spots && part->design == SCW_PANEL_NESTED && part->readings > 1)
    return scwi_note(context, notes, "assumes_one_reading_per_spot",
                     "No spot column: every reading is taken as another spot. "
                     "With spots and repeats named, their scatter can be told "
                     "apart.");
  if (part->spots > 1 && part->most_repeats == 1)
    return scwi_note(context, notes, "no_repeats",
                     "Every spot was read once: what scatters from spot to "
                     "spot cannot be told from what scatters at a spot. Read "
                     "some spots again.");
  return SCW_OK;
}

/* The lowest level against the display. */
static scw_status note_step(scw_context *context,
                            const scwi_panel_frame *frame,
                            const scw_panel_part *part, scwi_notes *notes) {
  const scw_step *step = &frame->facts->step;
  const scw_panel_component *lowest = &part->component[part->n_components - 1];
  scwi_text text = {0};
  if (part->n_components == 0 || !(step->size > 0)) return SCW_OK;
  if (!scwi_present(lowest->figures.sd) ||
      lowest->figures.sd.value >= step->size)
    return SCW_OK;
  scwi_text_add(&text, "The display step of ");
  scwi_say_given(&text, step->size, frame->facts->unit);
  scwi_text_format(&text, " is larger than the SD of the %s: rounding alone "
                          "gives ",
                   scwi_panel_plural(lowest->level));
  scwi_say_digits(&text, step->size / sqrt(12), 2, frame->facts->unit);
  scwi_text_add(&text, ", so that SD says more about the display than about "
                       "the panel.");
  return scwi_note_take(context, notes, "display_limits", &text);
}

static scw_status note_balance(scw_context *context,
                               const scw_panel_part *part, scwi_notes *notes) {
  if (part->balanced || part->nested == NULL) return SCW_OK;
  if (part->design == SCW_PANEL_CROSSED)
    return scwi_note(context, notes, "unbalanced",
                     "Not every operator read every spot equally often: the "
                     "intervals are approximate.");
  if (part->nested->levels < 2) return SCW_OK;
  return scwi_note(context, notes, "unbalanced",
                   "Not everything was read equally often: intervals are "
                   "approximate, and restricted maximum likelihood stands "
                   "beside them.");
}

static scw_status note_operators(scw_context *context,
                                 const scw_panel_part *part,
                                 scwi_notes *notes) {
  const scw_crossed *crossed = part->crossed;
  if (part->n_by == 1)
    return scwi_note(context, notes, "one_operator",
                     "One operator only: what another would add is not known.");
  if (!crossed || crossed->state != SCW_EMPTY_CELLS) return SCW_OK;
  if (part->n_components && !strcmp(part->component[0].level, "operator"))
    return scwi_note(context, notes, "own_spots",
                     "Each operator read spots of their own, so what "
                     "operators and their parts of the panel differ by cannot "
                     "be told apart. Let all read the same spots.");
  return scwi_note(context, notes, "empty_cells",
                   "%zu combinations of operator and spot were not read: "
                   "operators are left out of the scatter. Let all of them "
                   "read the same spots.",
                   crossed->empty_cells);
}

static scw_status note_positions(scw_context *context,
                                 const scwi_panel_units *units,
                                 const scw_panel_part *part,
                                 scwi_notes *notes) {
  if (part->positions == SCW_POSITIONS_NONE) return SCW_OK;
  if (units->n_panels > 1)
    return scwi_note(context, notes, "place_one_panel",
                     "Place is looked at on one panel at a time: --each "
                     "panel.");
  if (part->positions == SCW_POSITIONS_SPOTS)
    return scwi_note(context, notes, "grid_from_labels",
                     "The spots' labels are taken as a grid: the letter is "
                     "the row, the number the column, one apart each.");
  return SCW_OK;
}

static scw_status note_neighbours(scw_context *context,
                                  const scwi_panel_frame *frame,
                                  const scw_panel_part *part,
                                  scwi_notes *notes) {
  const scw_estimate *mean = &part->neighbours_mean;
  scwi_text text = {0};
  if (!part->neighbours || !scwi_present(part->effective_spots) ||
      !scwi_present(mean->standard_uncertainty) ||
      !scwi_present(part->place->plain.standard_uncertainty))
    return SCW_OK;
  scwi_text_format(&text,
                   "The %zu spots say as much about panels like this one as ",
                   part->place->used);
  scwi_say_digits(&text, part->effective_spots.value, 2, "");
  scwi_text_add(&text, " that lie far apart: there the standard uncertainty of "
                       "the mean is ");
  scwi_say_digits(&text, mean->standard_uncertainty.value, 2,
                  frame->facts->unit);
  scwi_text_add(&text, " rather than ");
  scwi_say_digits(&text, part->place->plain.standard_uncertainty.value, 2,
                  frame->facts->unit);
  scwi_text_add(&text, ", and its interval is rough. For this very panel, spots "
                       "spread over it need no such correction.");
  if (scwi_present(part->place->gradient.p))
    scwi_text_add(&text, " The gradient's p takes the spots as unrelated and can "
                         "be too small.");
  return scwi_note_take(context, notes, "neighbours_resemble", &text);
}

scw_status scwi_panel_notes(scw_context *context,
                            const scwi_panel_frame *frame,
                            const scwi_panel_units *units,
                            const scw_panel_part *part, scwi_notes *notes) {
  scw_status status = note_units(context, units, part, notes);
  if (!status) status = note_step(context, frame, part, notes);
  if (!status) status = note_balance(context, part, notes);
  if (!status) status = note_operators(context, part, notes);
  if (!status) status = note_positions(context, units, part, notes);
  if (!status) status = note_neighbours(context, frame, part, notes);
  return status;
}
