/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A spot list in words. */
#include <math.h>

#include "figure.h"
#include "notes.h"
#include "spots.h"
#include "words.h"

enum { MOVED = 200 }; /* as many spots are spread freely */

static void say_length(scwi_text *text, const scw_layout_result *list,
                       double length) {
  scwi_say_given(text, length, list->length_unit);
}

/* To the last digit of the places. */
static void say_distance(scwi_text *text, const scw_layout_result *list,
                         double distance) {
  double tick = list->resolution;
  say_length(text, list, rint(distance / tick) * tick);
}

static void say_panel(scwi_text *text, const scw_layout_result *list) {
  size_t panels = list->request.panels;
  if (panels > 1) scwi_text_format(text, "each of %zu panels", panels);
  else scwi_text_add(text, "a panel");
  scwi_text_add(text, " of ");
  scwi_say_given(text, list->request.width, NULL);
  scwi_text_add(text, " x ");
  say_length(text, list, list->request.height);
}

static void say_fits(scwi_text *text, const scw_layout_result *list) {
  if (scwi_present(list->fits) && list->fits.value < (double)list->request.spots)
    scwi_text_format(text, ": that many do not fit, %zu do",
                     (size_t)list->fits.value);
  else if (list->request.layout != SCW_LAYOUT_SPREAD)
    scwi_text_add(text, ": spread them (--layout spread)");
}

scw_status scwi_spots_sentence(scw_context *context, scw_layout_result *out) {
  scwi_text text = {0};
  scwi_say_count(&text, out->request.spots, "spot");
  scwi_text_add(&text, " on ");
  say_panel(&text, out);
  if (scwi_present(out->nearest)) {
    scwi_text_add(&text, ", the nearest two ");
    say_distance(&text, out, out->nearest.value);
    scwi_text_add(&text, " apart");
  }
  if (!out->possible) {
    scwi_text_add(&text, " and not ");
    say_length(&text, out, out->request.apart);
    say_fits(&text, out);
  }
  scwi_text_add(&text, ".");
  return scwi_text_take(context, &text, &out->sentence);
}

/* " on panel 2 the left half is the control, on panel 1 the right half ..." */
static void say_halves(scwi_text *text, const scw_layout_result *list) {
  bool wide = list->request.width >= list->request.height;
  size_t each = list->request.spots;
  for (int first = 1; first >= 0; first--) {
    size_t named = 0;
    for (size_t i = 0; i < list->n_spots; i += each) {
      if (list->spots[i].control != (bool)first) continue;
      if (list->request.panels > 1)
        scwi_text_format(text, named++ ? ", %zu" : " on panel %zu",
                         list->spots[i].panel);
      else
        named = 1;
    }
    if (!named) continue;
    const char *half = first ? (wide ? "left" : "lower")
                             : (wide ? "right" : "upper");
    scwi_text_format(text, " the %s half is the control%s", half,
                     list->request.panels > 1 && first ? "," : ".");
  }
}

static scw_status note_halves(scw_context *context,
                              const scw_layout_result *list,
                              scwi_notes *notes) {
  scwi_text text = {0};
  scwi_text_add(&text, "By lot");
  say_halves(&text, list);
  scwi_text_add(&text, " The spots of one number mirror each other, so the "
                       "halves make pairs (change --control ");
  scwi_text_add(&text, list->control_code);
  scwi_text_add(&text, " --paired-halves).");
  if (list->request.blind)
    scwi_text_format(&text, " Key: %s is treated, %s is the control; the "
                            "template does not say so. Keep this page from "
                            "whoever reads.",
                     list->treated_code, list->control_code);
  return scwi_note_take(context, notes, list->request.blind ? "key" : "halves",
                        &text);
}

scw_status scwi_spots_notes(scw_context *context, scw_layout_result *out) {
  const scw_layout_request *request = &out->request;
  scwi_notes notes = {0};
  scw_status status = SCW_OK;
  if (request->halves) status = note_halves(context, out, &notes);
  if (!status && request->margin == 0)
    status = scwi_note(context, &notes, "no_margin",
                       "No margin is kept free: edges differ from the rest of "
                       "a panel, and the meter needs room (--margin-from-edge "
                       "D).");
  size_t field = request->halves ? request->spots / 2 : request->spots;
  if (!status && request->layout == SCW_LAYOUT_SPREAD && field > MOVED)
    status = scwi_note(context, &notes, "regular",
                       "So many spots are laid in regular rows; up to %d are "
                       "spread freely.",
                       MOVED);
  out->notes = notes.note;
  out->n_notes = notes.n;
  return status;
}
