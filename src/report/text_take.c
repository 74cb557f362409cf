/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Live taking as text: a few lines for each reading. */
#include <math.h>
#include <string.h>

#include "figure.h"
#include "number_text.h"
#include "number_words.h"
#include "take_reports.h"
#include "text_parts.h"
#include "wording.h"

enum { HANG = 4 };

static const char *thing(const scw_take_state *state) {
  return state->paired ? "spot pair" : state->by_spot ? "spot" : "reading";
}

/* Decimals by a quarter of the narrower interval, which is near two of the
 * uncertainty; by the SD without one. */
static int decimals_of(const scw_take_state *state) {
  double u = 0;
  if (state->interval.state == SCW_PRESENT)
    u = (state->interval.high - state->interval.low) / 4;
  else if (scwi_present(state->sd))
    u = state->sd.value;
  double value = scwi_present(state->mean) ? state->mean.value : 0;
  if (u <= 0 && state->step.size > 0) u = state->step.size / 4;
  return scwi_decimals_for(u, value);
}

static void add_range(scwi_text *text, const char *lead, scw_interval interval,
                      int decimals) {
  scwi_text_add(text, lead);
  if (interval.state == SCW_PRESENT) {
    scwi_put_range(text, interval.low, interval.high, decimals);
  } else {
    scwi_text_add(text, interval.state == SCW_UNBOUNDED ? "no limit yet"
                                                        : "none yet");
  }
}

/* "mean 87.51 GU, SD 0.23, 7 readings; 95 % 87.30 to 87.72, at every look
 * 87.11 to 87.91". */
static void add_figures(scwi_text *text, const scw_take_state *state) {
  int decimals = decimals_of(state);
  if (!scwi_present(state->mean) || state->n < 2) return;
  bool plus = state->change && state->mean.value > 0;
  scwi_text_add(text, state->change ? "change " : "mean ");
  if (plus) scwi_text_add(text, "+");
  scwi_word_quantity(text, state->mean.value, decimals, state->unit);
  if (scwi_present(state->sd)) {
    scwi_text_add(text, ", SD" SCWI_TIE);
    scwi_put_digits(text, state->sd.value, 2);
  }
  scwi_text_add(text, ", ");
  scwi_word_count(text, state->n, thing(state));
  scwi_text_add(text, "; ");
  scwi_word_percent(text, state->settings.level);
  add_range(text, ": ", state->interval, decimals);
  add_range(text, "; at every look ", state->anytime, decimals);
}

static const char *verb_of(scw_take_event event) {
  switch (event) {
    case SCW_TAKEN_AGAIN: return "read again, ";
    case SCW_TAKEN_MARK: return "marked, ";
    default: return "";
  }
}

/* " 7  spot 12  87.4 GU  (+0.6)". */
static void add_reading(scwi_text *text, scw_take_event event,
                        const scw_take_state *state) {
  scwi_text_add(text, verb_of(event));
  if (*state->last_spot) scwi_text_format(text, "spot %s, ", state->last_spot);
  scwi_text_add(text, state->last_reading);
  if (*state->unit) scwi_text_format(text, SCWI_TIE "%s", state->unit);
  if (!scwi_present(state->last_change)) return;
  scwi_text_add(text, state->last_change.value > 0 ? ", changed by +"
                                                   : ", changed by ");
  scwi_put_short(text, state->last_change.value, 6);
}

static bool said(const scw_take_state *before, const scw_note *note) {
  for (size_t i = 0; before && i < before->n_notes; i++)
    if (!strcmp(before->notes[i].text, note->text)) return true;
  return false;
}

static void add_notes(scwi_sheet *sheet, const scw_take_state *state,
                      const scw_take_state *before) {
  for (size_t i = 0; i < state->n_notes; i++)
    if (!said(before, &state->notes[i]))
      scwi_sheet_hanging(sheet, "  !", HANG, state->notes[i].text);
}

static void add_scratch(scwi_sheet *sheet, const char *lead) {
  if (sheet->scratch.failed) sheet->text.failed = true;
  if (sheet->scratch.length)
    scwi_sheet_hanging(sheet, lead, HANG, sheet->scratch.data);
  scwi_text_clear(&sheet->scratch);
}

static void whole_account(scwi_sheet *sheet, const scw_take_state *state) {
  scwi_word_count(&sheet->scratch, state->readings, "reading");
  scwi_text_add(&sheet->scratch, state->readings == 1 ? " counts" : " count");
  if (state->taken_back)
    scwi_text_format(&sheet->scratch, ", %zu taken back", state->taken_back);
  if (state->read_again)
    scwi_text_format(&sheet->scratch, ", %zu read again", state->read_again);
  scwi_text_add(&sheet->scratch, ".");
  if (sheet->scratch.failed) sheet->text.failed = true;
  else scwi_sheet_answer(sheet, sheet->scratch.data);
  scwi_text_clear(&sheet->scratch);
}

scw_status scwi_text_taken(scw_context *context, scw_take_event event,
                          const scw_take_state *state,
                          const scw_take_state *before,
                          scw_report_options options, scw_sink sink) {
  scwi_sheet sheet = {.options = options};
  char number[SCWI_NUMBER_SIZE];
  bool all = event == SCW_TAKEN_RESUMED || event == SCW_TAKEN_END;
  if (all) {
    whole_account(&sheet, state);
  } else if (event == SCW_TAKEN_UNDO) {
    scwi_text_format(&sheet.scratch, "reading %zu taken back", state->undone);
    add_scratch(&sheet, "<");
  } else {
    add_reading(&sheet.scratch, event, state);
    scwi_whole_text(state->last, number);
    add_scratch(&sheet, number);
  }
  add_figures(&sheet.scratch, state);
  add_scratch(&sheet, "");
  scwi_sheet_hanging(&sheet, "", HANG, state->sentence);
  add_notes(&sheet, state, all ? NULL : before);
  return scwi_sheet_send(context, &sheet, sink);
}

scw_status scwi_text_take_message(scw_context *context, const char *text,
                                  scw_report_options options, scw_sink sink) {
  scwi_sheet sheet = {.options = options};
  scwi_sheet_hanging(&sheet, "-", HANG, text);
  return scwi_sheet_send(context, &sheet, sink);
}
