/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Paragraphs that several reports share. */
#ifndef SCWI_TEXT_PARTS_H
#define SCWI_TEXT_PARTS_H

#include "inputs.h"
#include "sheet.h"

/* Decimals of a set's figures: two significant digits of the standard
 * uncertainty, or the digits of `value` where there is none. */
int scwi_decimals_of(scw_figure uncertainty, scw_figure value);

/* The notes, one below the other. */
void scwi_sheet_notes(scwi_sheet *sheet, const scw_note *notes, size_t n);

/* Notes of several sets or products, each told once with those it is about. */
typedef struct scwi_note_owner {
  const char *label;
  const scw_note *notes;
  size_t n;
} scwi_note_owner;
void scwi_sheet_notes_of(scwi_sheet *sheet, size_t owners, const void *from,
                         scwi_note_owner (*owner)(const void *from, size_t i));

/* "reading" or, where spot means are used, "value". */
const char *scwi_reading_word(const scw_set_report *set);

/* The place of the p-th used value in its whole set, as the user counts. */
size_t scwi_place_in_set(const scw_set_report *set, size_t place);
/* Its line in the file; 0 when not known. */
size_t scwi_line_of_place(const scw_set_report *set, size_t place);

/* Is this row of the plan's table the plan itself? */
bool scwi_plan_chosen(const scw_plan_result *result, const scw_plan_row *row);

/* The count a plan is about: spots when paired, else readings per side. */
scw_figure scwi_plan_count(const scw_plan_result *result,
                           const scw_plan_row *row);

/* Method settings on one line: those named by the flags. */
enum {
  SCWI_SET_STAND_OUT = 1,
  SCWI_SET_TOLERANCE = 2, /* the content of the tolerance interval */
  SCWI_SET_POWER = 4,
  SCWI_SET_ASSURANCE = 8,
  SCWI_SET_AT_LEAST = 16
};
void scwi_sheet_settings(scwi_sheet *sheet, const scw_settings *settings,
                         unsigned which, const char *more);

/* Writes the finished page and frees it. */
scw_status scwi_sheet_send(scw_context *context, scwi_sheet *sheet,
                           scw_sink sink);

#endif
