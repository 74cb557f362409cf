/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 1 as text: one set in full, several as a table. */
#include "figure.h"
#include "grid.h"
#include "reports.h"
#include "text_set.h"
#include "wording.h"

static const scwi_column set_columns[] = {
    {"set", SCWI_LEFT, 0, false, 0},   {"n", SCWI_RIGHT, 2, false, 0},
    {"mean", SCWI_POINT, 2, false, 0}, {"interval", SCWI_POINT, 2, true, 0},
    {NULL, SCWI_LEFT, 1, false, 0},    {NULL, SCWI_POINT, 1, false, 0},
    {"SD", SCWI_POINT, 2, false, 0},   {"remarks", SCWI_LEFT, 2, true, 0}};

enum { N_SET_COLUMNS = sizeof set_columns / sizeof *set_columns };

/* Flags, creep, and why a figure is missing. */
static void remarks(scwi_text *text, const scw_set_report *set) {
  const scw_summary *s = &set->summary;
  size_t flags = s->stand_out.n_flags;
  if (flags == 1)
    scwi_text_format(text, "%s %zu stands out", scwi_reading_word(set),
                     scwi_place_in_set(set, s->stand_out.flags[0].place));
  else if (flags > 1)
    scwi_text_format(text, "%zu %ss stand out", flags, scwi_reading_word(set));
  if (s->creep.creeping) {
    scwi_word_join(text, ", ");
    scwi_text_add(text, "creeping");
  }
  if (set->n_left_out) {
    scwi_word_join(text, ", ");
    scwi_text_format(text, "%zu left out", set->n_left_out);
  }
  bool told =
      s->interval.state == SCW_PRESENT || s->interval.state == SCW_NOT_COMPUTED;
  if (told) return;
  scwi_word_join(text, ", ");
  scwi_text_add(text, scw_presence_text(s->interval.state));
}

static void add_set(scwi_grid *grid, const scw_set_report *set) {
  const scw_summary *s = &set->summary;
  int decimals = scwi_decimals_of(s->standard_uncertainty, s->mean);
  scwi_text words = {0};
  remarks(&words, set);
  if (words.failed) grid->cells.failed = true;
  scwi_grid_cell(grid, set->label);
  scwi_grid_whole(grid, s->n);
  scwi_grid_figure(grid, s->mean, decimals);
  scwi_grid_range(grid, s->interval, decimals);
  scwi_grid_figure(grid, s->sd, decimals);
  scwi_grid_cell(grid, words.data);
  scwi_text_free(&words);
}

/* "4 sets: the mean of each in GU, with its 95 % interval." */
static void answer_for_many(scwi_sheet *sheet, size_t n, double level,
                            const char *unit) {
  scwi_text line = {0};
  scwi_word_count(&line, n, "set");
  scwi_text_add(&line, ": the mean of each");
  if (unit && *unit) scwi_text_format(&line, " in %s", unit);
  if (level > 0) {
    scwi_text_add(&line, ", with its ");
    scwi_word_percent(&line, level);
    scwi_text_add(&line, " interval");
  }
  scwi_text_add(&line, ".");
  if (line.failed) sheet->text.failed = true;
  scwi_sheet_answer(sheet, line.data);
  scwi_text_free(&line);
}

static scwi_note_owner notes_of_set(const void *from, size_t i) {
  const scw_set_report *set = (const scw_set_report *)from + i;
  return (scwi_note_owner){set->label, set->notes, set->n_notes};
}

/* What stands out in each set, by name, below the table. */
static void stand_outs(scwi_sheet *sheet, const scw_readings_result *result) {
  enum { MOST_SETS = 8 };
  size_t told = 0, more = 0;
  for (size_t i = 0; i < result->n_sets; i++) {
    const scw_set_report *set = &result->sets[i];
    if (set->summary.stand_out.n_flags == 0) continue;
    if (told == MOST_SETS) {
      more++;
      continue;
    }
    if (told++ == 0) scwi_sheet_gap(sheet);
    scwi_sheet_stand_out(sheet, set, set->label);
  }
  if (more == 0) return;
  scwi_text_format(&sheet->scratch, "readings stand out in %zu more sets",
                   more);
  scwi_sheet_labelled_scratch(sheet, "");
}

static void many_sets(scwi_sheet *sheet, const scw_readings_result *result) {
  scwi_grid grid = {.columns = set_columns, .n_columns = N_SET_COLUMNS};
  answer_for_many(sheet, result->n_sets, result->settings.level,
                  result->sets[0].unit);
  scwi_sheet_gap(sheet);
  for (size_t i = 0; i < result->n_sets; i++)
    add_set(&grid, &result->sets[i]);
  scwi_sheet_grid(sheet, &grid);
  stand_outs(sheet, result);
  scwi_sheet_gap(sheet);
  scwi_sheet_notes_of(sheet, result->n_sets, result->sets, notes_of_set);
}

scw_status scwi_text_readings(scw_context *context,
                              const scw_readings_result *result,
                              const scwi_inputs *inputs,
                              scw_report_options options, scw_sink sink) {
  scwi_sheet sheet = {.options = options};
  const scw_set_report *first = result->n_sets ? result->sets : NULL;
  if (result->n_sets == 1) {
    scwi_sheet_set(&sheet, first);
    scwi_sheet_gap(&sheet);
    scwi_sheet_notes(&sheet, first->notes, first->n_notes);
  } else if (first) {
    many_sets(&sheet, result);
  }
  scwi_sheet_notes(&sheet, result->notes, result->n_notes);
  scwi_sheet_gap(&sheet);
  scwi_sheet_inputs(&sheet, inputs, first ? first->summary.step : (scw_step){0},
                    first ? first->unit : NULL);
  scwi_sheet_settings(&sheet, &result->settings,
                      SCWI_SET_STAND_OUT | SCWI_SET_TOLERANCE, NULL);
  return scwi_sheet_send(context, &sheet, sink);
}

static void add_brief_set(scwi_grid *grid, const scw_brief_set *set) {
  double half = set->interval.state == SCW_PRESENT
                    ? set->interval.high / 2 - set->interval.low / 2
                    : 0;
  scw_figure spread = half > 0 ? scwi_figure(half / 2) : scwi_missing(0);
  int decimals = scwi_decimals_of(spread, set->mean);
  bool told = set->interval.state == SCW_PRESENT ||
              set->interval.state == SCW_NOT_COMPUTED;
  scwi_grid_cell(grid, set->label);
  scwi_grid_whole(grid, set->n);
  scwi_grid_figure(grid, set->mean, decimals);
  scwi_grid_range(grid, set->interval, decimals);
  scwi_grid_figure(grid, set->sd, decimals);
  scwi_grid_cell(grid, told ? "" : scw_presence_text(set->interval.state));
}

scw_status scwi_text_brief(scw_context *context, const scw_brief_result *result,
                           const scwi_inputs *inputs,
                           scw_report_options options, scw_sink sink) {
  scwi_sheet sheet = {.options = options};
  scwi_grid grid = {.columns = set_columns, .n_columns = N_SET_COLUMNS};
  double level = result->n_sets ? result->sets[0].interval.level : 0;
  answer_for_many(&sheet, result->n_sets, level, result->input.unit);
  scwi_sheet_gap(&sheet);
  for (size_t i = 0; i < result->n_sets; i++)
    add_brief_set(&grid, &result->sets[i]);
  scwi_sheet_grid(&sheet, &grid);
  scwi_sheet_gap(&sheet);
  scwi_sheet_inputs(&sheet, inputs, result->step, result->input.unit);
  return scwi_sheet_send(context, &sheet, sink);
}
