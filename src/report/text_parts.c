/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "text_parts.h"

#include <string.h>

#include "figure.h"
#include "number_text.h"
#include "wording.h"
#include "write.h"

int scwi_decimals_of(scw_figure uncertainty, scw_figure value) {
  return scwi_decimals_for(scwi_present(uncertainty) ? uncertainty.value : 0,
                           scwi_present(value) ? value.value : 0);
}

void scwi_sheet_notes(scwi_sheet *sheet, const scw_note *notes, size_t n) {
  for (size_t i = 0; i < n; i++)
    scwi_sheet_note(sheet, notes[i].text);
}

enum { MOST_NOTES = 24, MOST_LABELS = 3 };

typedef struct shared_note {
  const scw_note *note;
  const char *labels[MOST_LABELS];
  size_t owners;
} shared_note;

static bool same_note(const scw_note *a, const scw_note *b) {
  return a->text && b->text && strcmp(a->text, b->text) == 0;
}

/* Adds to the list, or to the owners of an equal note; false when full. */
static bool share(shared_note *shared, size_t *n, const scw_note *note,
                  const char *label) {
  size_t i = 0;
  while (i < *n && !same_note(shared[i].note, note))
    i++;
  if (i == MOST_NOTES) return false;
  if (i == *n) shared[(*n)++] = (shared_note){.note = note};
  if (shared[i].owners < MOST_LABELS)
    shared[i].labels[shared[i].owners] = label ? label : "";
  shared[i].owners++;
  return true;
}

/* "K1, K2 and 4 more: ..." */
static void print_shared(scwi_sheet *sheet, const shared_note *shared,
                         size_t owners) {
  scwi_text *text = &sheet->scratch;
  for (size_t l = 0; l < MOST_LABELS && l < shared->owners; l++)
    if (shared->owners < owners)
      scwi_text_format(text, "%s%s", l ? ", " : "", shared->labels[l]);
  if (shared->owners == owners)
    scwi_text_add(text, "All");
  else if (shared->owners > MOST_LABELS)
    scwi_text_format(text, " and %zu more", shared->owners - MOST_LABELS);
  scwi_text_format(text, ": %s", shared->note->text);
  if (!text->failed) scwi_sheet_note(sheet, text->data);
  if (text->failed) sheet->text.failed = true;
  scwi_text_clear(text);
}

void scwi_sheet_notes_of(scwi_sheet *sheet, size_t owners, const void *from,
                         scwi_note_owner (*owner)(const void *from, size_t i)) {
  shared_note shared[MOST_NOTES];
  size_t n = 0, untold = 0;
  for (size_t o = 0; o < owners; o++) {
    scwi_note_owner of = owner(from, o);
    for (size_t i = 0; i < of.n; i++)
      if (!share(shared, &n, &of.notes[i], of.label)) untold++;
  }
  for (size_t i = 0; i < n; i++)
    print_shared(sheet, &shared[i], owners);
  if (untold) {
    scwi_text_format(&sheet->scratch,
                     "%zu more notes are left out here; --json holds them all.",
                     untold);
    if (!sheet->scratch.failed) scwi_sheet_note(sheet, sheet->scratch.data);
    scwi_text_clear(&sheet->scratch);
  }
}

const char *scwi_reading_word(const scw_set_report *set) {
  return set->spots ? "value" : "reading";
}

size_t scwi_place_in_set(const scw_set_report *set, size_t place) {
  bool known = set->places && place >= 1 && place <= set->summary.n;
  return known ? set->places[place - 1] : place;
}

size_t scwi_line_of_place(const scw_set_report *set, size_t place) {
  bool known = set->lines && place >= 1 && place <= set->summary.n;
  return known ? set->lines[place - 1] : 0;
}

scw_figure scwi_plan_count(const scw_plan_result *result,
                           const scw_plan_row *row) {
  return result->request.paired ? row->spots : row->readings_per_side;
}

bool scwi_plan_chosen(const scw_plan_result *result, const scw_plan_row *row) {
  scw_figure here = scwi_plan_count(result, row);
  scw_figure chosen = scwi_plan_count(result, &result->plan);
  return result->possible && scwi_present(here) && scwi_present(chosen) &&
         here.value == chosen.value;
}

static void add_share(scwi_text *text, const char *what, double share) {
  scwi_text_add(text, what);
  scwi_word_percent(text, share);
}

void scwi_sheet_settings(scwi_sheet *sheet, const scw_settings *settings,
                         unsigned which, const char *more) {
  scwi_text *text = &sheet->scratch;
  if (!(settings->level > 0)) return;
  scwi_text_clear(text);
  add_share(text, "level ", settings->level);
  if (which & SCWI_SET_STAND_OUT)
    add_share(text, ", stand-outs at ", settings->stand_out);
  if (which & SCWI_SET_TOLERANCE) {
    add_share(text, ", range for ", settings->content);
    scwi_text_add(text, " of the spots");
  }
  if (which & SCWI_SET_POWER) add_share(text, ", power ", settings->power);
  if (which & SCWI_SET_ASSURANCE)
    add_share(text, ", assurance ", settings->assurance);
  if (which & SCWI_SET_AT_LEAST) scwi_text_add(text, ", at least 3 readings");
  if (more) scwi_text_add(text, more);
  scwi_text_add(text, ".");
  scwi_sheet_labelled_scratch(sheet, "settings");
}

scw_status scwi_sheet_send(scw_context *context, scwi_sheet *sheet,
                           scw_sink sink) {
  scw_status status = scwi_text_status(context, &sheet->text);
  if (!status && sheet->text.length)
    status = scwi_write(context, sink, sheet->text.data, sheet->text.length);
  scwi_sheet_free(sheet);
  return status;
}
