/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "inputs.h"

#include <string.h>

#include "number_words.h"
#include "wording.h"

enum { HASH_PREFIX = 12 };

static const scw_input *only_input(const void *source, size_t index) {
  (void)index;
  return source;
}

scwi_inputs scwi_inputs_of_one(const scw_input *input) {
  return (scwi_inputs){input ? 1 : 0, only_input, input};
}

size_t scwi_reasons(const scw_input *input,
                    scwi_reason_count reasons[SCWI_MOST_REASONS]) {
  size_t n = 0;
  for (size_t i = 0; i < input->n_not_used; i++) {
    const scw_not_used *entry = &input->not_used[i];
    const char *reason = entry->reason ? entry->reason : "other";
    size_t r = 0;
    while (r < n && strcmp(reasons[r].reason, reason) != 0)
      r++;
    if (r == SCWI_MOST_REASONS) {
      r = SCWI_MOST_REASONS - 1;
      reasons[r].reason = "other";
    } else if (r == n) {
      reasons[n++] = (scwi_reason_count){reason, 0, entry->line};
    }
    reasons[r].count++;
  }
  return n;
}

/* "not used: line 14 (summary line), 3 missing from line 7 on". */
static void add_not_used(scwi_text *text, const scw_input *input) {
  scwi_reason_count reasons[SCWI_MOST_REASONS];
  size_t n = scwi_reasons(input, reasons);
  for (size_t r = 0; r < n; r++) {
    scwi_text_add(text, r ? ", " : "; not used: ");
    if (reasons[r].count > 1)
      scwi_text_format(text, "%zu %s from line %zu on", reasons[r].count,
                       reasons[r].reason, reasons[r].first_line);
    else
      scwi_text_format(text, "line" SCWI_TIE "%zu (%s)", reasons[r].first_line,
                       reasons[r].reason);
  }
}

static const char *separator_word(char separator) {
  switch (separator) {
    case ',':
      return "comma";
    case ';':
      return "semicolon";
    case '\t':
      return "tab";
    case ' ':
      return "blanks";
    default:
      return "none";
  }
}

static void add_format(scwi_text *text, const scw_input *input) {
  if (input->shape && *input->shape)
    scwi_text_format(text, "; read as %s", input->shape);
  if (input->separator)
    scwi_text_format(text, ", separator %s%s", separator_word(input->separator),
                     input->separator_given ? " (given)" : "");
  if (input->decimal_mark)
    scwi_text_format(text, ", decimal %s%s",
                     input->decimal_mark == ',' ? "comma" : "point",
                     input->decimal_mark_given ? " (given)" : "");
}

static void add_step(scwi_text *text, scw_step step, const char *unit) {
  static const char *const origins[] = {
      [SCW_STEP_GIVEN] = "given",
      [SCW_STEP_INFERRED] = "found in the file",
      [SCW_STEP_ASSUMED] = "taken from the digits"};
  if (step.origin == SCW_STEP_NOT_KNOWN) {
    scwi_text_add(text, "; display step not known");
  } else if (step.origin == SCW_STEP_GIVEN && step.size == 0) {
    scwi_text_add(text, "; no display step (given)");
  } else if (step.origin != SCW_STEP_UNSET &&
             (unsigned)step.origin < sizeof origins / sizeof *origins) {
    scwi_text_add(text, "; display step ");
    scwi_put_short(text, step.size, 4);
    if (unit && *unit) scwi_text_format(text, SCWI_TIE "%s", unit);
    scwi_text_format(text, " (%s)", origins[step.origin]);
  }
}

/* Merged cells leave empty labels below the first. */
static void add_carried(scwi_text *text, const scw_input *input) {
  if (input->labels_carried == 0) return;
  scwi_text_add(text, "; ");
  scwi_word_count(text, input->labels_carried, "empty label");
  scwi_text_add(text, " read as the one above");
  if (input->labels_carried_line)
    scwi_text_format(text, " (first on line" SCWI_TIE "%zu)",
                     input->labels_carried_line);
}

static void add_input(scwi_text *text, const scw_input *input) {
  scwi_text_add(text, input->name ? input->name : "input");
  if (!strcmp(input->shape ? input->shape : "", "bench file")) return;
  scwi_text_add(text, ": ");
  scwi_word_count(text, input->rows, "row");
  if (strcmp(input->shape ? input->shape : "", "named columns") != 0) {
    scwi_text_add(text, ", ");
    scwi_word_count(text, input->used, "reading");
    scwi_text_add(text, " used");
  }
  add_not_used(text, input);
  add_carried(text, input);
  add_format(text, input);
}

void scwi_sheet_inputs(scwi_sheet *sheet, const scwi_inputs *inputs,
                       scw_step step, const char *unit) {
  scwi_text *text = &sheet->scratch;
  for (size_t i = 0; i < inputs->n; i++) {
    const scw_input *input = inputs->at(inputs->source, i);
    if (!input) continue;
    scwi_text_clear(text);
    add_input(text, input);
    if (i == 0) add_step(text, step, unit);
    if (input->sha256[0])
      scwi_text_format(text, "; sha256 %.*s", HASH_PREFIX, input->sha256);
    scwi_text_add(text, ".");
    scwi_sheet_labelled_scratch(sheet, i == 0 ? "read from" : "and");
  }
}
