/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "take_notes.h"

#include "figure.h"
#include "number_words.h"
#include "words.h"

/* "Reading 7, 85.1 GU," or "Spot 3, +1.4 GU,": what a value is of. */
static void say_value(scwi_text *text, const scw_take *take,
                      const scw_take_state *state, const scwi_values *values,
                      size_t place) {
  int32_t spot = values->spot[place - 1];
  if (spot != SCW_NO_LABEL)
    scwi_text_format(text, "Spot %s, ", scw_table_label(take->table, spot));
  else
    scwi_text_format(text, "Reading %zu, ", values->line[place - 1]);
  if (state->paired && values->x[place - 1] > 0) scwi_text_add(text, "+");
  scwi_say_given(text, values->x[place - 1], state->unit);
}

static scw_status stand_outs(scw_context *context, const scw_take *take,
                             const scw_take_state *state,
                             const scwi_values *values,
                             const scw_stand_out *found, scwi_notes *out) {
  scw_status status = SCW_OK;
  for (size_t i = 0; i < found->n_flags && !status; i++) {
    const scw_flag *flag = &found->flags[i];
    scwi_text text = {0};
    say_value(&text, take, state, values, flag->place);
    scwi_text_add(&text, state->paired ? " of change, stands out from the other "
                                         "changes"
                                       : ", stands out");
    if (scwi_present(flag->p)) {
      scwi_text_add(&text, " (p ");
      scwi_put_p(&text, flag->p.value);
      scwi_text_add(&text, ")");
    }
    scwi_text_add(&text, ": look at the spot now, while you can. It counts "
                         "until you take it back for a reason.");
    status = scwi_note_take(context, out, "stands_out", &text);
  }
  return status;
}

static scw_status creep(scw_context *context, const scw_take_state *state,
                        const scw_creep *found, scwi_notes *out) {
  scwi_text text = {0};
  if (!found->creeping) return SCW_OK;
  scwi_text_add(&text, state->paired ? "The changes creep: between "
                                     : "The readings creep: between ");
  scwi_put_digits(&text, found->slope_interval.low, 2);
  scwi_text_add(&text, " and ");
  scwi_say_digits(&text, found->slope_interval.high, 2, state->unit);
  scwi_text_add(&text, " from one to the next. Is the meter warming up, or are "
                       "you walking towards an edge?");
  return scwi_note_take(context, out, "creep", &text);
}

/* Spots read now that the baseline does not have. */
static scw_status strangers(scw_context *context, const scw_take *take,
                            const scw_take_state *state, const scwi_arm *arm,
                            scwi_notes *out) {
  scwi_text text = {0};
  size_t n = 0;
  for (size_t i = 0; state->paired && i < arm->after.n; i++) {
    bool paired = false;
    for (size_t k = 0; k < arm->n_pairs && !paired; k++)
      paired = arm->pair_after[k] == i;
    if (paired) continue;
    scwi_text_format(&text, "%s%s", n++ ? ", " : "",
                     scw_table_label(take->table, arm->after.spot[i]));
  }
  scw_status status = scwi_text_status(context, &text);
  if (n && !status)
    status = scwi_note(context, out, "not_read_before",
                       "Not read before, and so no part of the change: spot%s "
                       "%s.",
                       n == 1 ? "" : "s", text.data);
  scwi_text_free(&text);
  return status;
}

static scw_status counts(scw_context *context, const scw_take_state *state,
                         scwi_notes *out) {
  scw_status status = SCW_OK;
  if (state->read_again)
    status = scwi_note(context, out, "read_again",
                       "%zu read again: both are kept, and the first reading "
                       "counts.",
                       state->read_again);
  if (!status && state->taken_back)
    status = scwi_note(context, out, "taken_back",
                       "%zu taken back: kept with the reason, and not counted.",
                       state->taken_back);
  return status;
}

static scw_status display(scw_context *context, const scw_take_state *state,
                          scwi_notes *out) {
  if (state->step.origin == SCW_STEP_NOT_KNOWN && state->readings)
    return scwi_note(context, out, "step_unknown",
                     "The display step cannot be told from these readings; "
                     "give it with --step.");
  if (state->anytime.state == SCW_NO_SCATTER && state->n > 1)
    return scwi_note(context, out, "no_scatter",
                     "All %s so far are the same: they say nothing yet about "
                     "how far the next may lie.",
                     state->paired ? "changes" : "readings");
  return SCW_OK;
}

scw_status scwi_take_notes(scw_context *context, const scw_take *take,
                           const scw_take_state *state,
                           const scwi_values *values, const scwi_arm *arm,
                           const scw_summary *summary, scwi_notes *out) {
  scw_status status = stand_outs(context, take, state, values,
                                 &summary->stand_out, out);
  if (!status) status = creep(context, state, &summary->creep, out);
  if (!status) status = strangers(context, take, state, arm, out);
  if (!status) status = display(context, state, out);
  if (!status) status = counts(context, state, out);
  return status;
}
