/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The scatter of a panel as text: one part in full, several as a table. */
#include "text_panel.h"

#include <math.h>
#include <string.h>

#include "figure.h"
#include "figure_rows.h"
#include "grid.h"
#include "number_text.h"
#include "number_words.h"
#include "reports.h"
#include "wording.h"

void scwi_word_short(scwi_text *text, double value, const char *unit) {
  scwi_put_digits(text, value, 2);
  if (unit && *unit) scwi_text_format(text, SCWI_TIE "%s", unit);
}

void scwi_word_level(scwi_text *text, const scw_panel_component *component,
                     bool counted) {
  if (!strcmp(component->level, "interaction"))
    scwi_text_add(text, "operators by spots");
  else if (counted)
    scwi_word_count(text, component->figures.groups, component->level);
  else
    scwi_text_format(text, "%ss", component->level);
}

/* "not distinguishable from zero, at most 0.31 GU", or why it is not told. */
static void remark(scwi_text *text, const scw_panel_component *component,
                   bool lowest, const char *unit) {
  const scw_component *figures = &component->figures;
  if (figures->state != SCW_PRESENT) {
    scwi_text_add(text, scw_presence_text(figures->state));
    return;
  }
  if (!lowest && !figures->distinguishable) {
    scwi_text_add(text, "not distinguishable from zero");
    if (scwi_present(figures->at_most)) {
      scwi_text_add(text, ", at most ");
      scwi_word_short(text, figures->at_most.value, unit);
    }
  }
  if (!scwi_present(component->reml_sd)) return;
  scwi_word_join(text, "; ");
  scwi_text_add(text, "REML ");
  if (component->reml_at_zero)
    scwi_text_add(text, "0");
  else
    scwi_word_short(text, component->reml_sd.value, unit);
}

static void word_share(scwi_text *text, double share) {
  bool little = share > 0 && share < 0.005, most = share > 0.995 && share < 1;
  scwi_text_format(text, "%s%d %%", little ? "<" : most ? ">" : "",
                   little ? 1 : most ? 99 : (int)(100 * share + 0.5));
}

static void add_component(scwi_grid *grid, const scw_panel_part *part,
                          size_t i, const char *unit) {
  const scw_panel_component *component = &part->component[i];
  const scw_component *figures = &component->figures;
  scwi_text label = {0}, words = {0}, share = {0};
  int decimals = scwi_decimals_of(
      scwi_present(figures->sd) && figures->sd.value > 0 ? figures->sd
                                                         : figures->at_most,
      figures->sd);
  scwi_word_level(&label, component, true);
  remark(&words, component, i + 1 == part->n_components, unit);
  if (scwi_present(figures->share))
    word_share(&share, figures->share.value);
  if (label.failed || words.failed || share.failed) grid->cells.failed = true;
  scwi_grid_cell(grid, label.data);
  scwi_grid_figure(grid, figures->sd, decimals);
  scwi_grid_range(grid, figures->interval, decimals);
  scwi_grid_cell(grid, share.data);
  scwi_grid_cell(grid, words.data);
  scwi_text_free(&label);
  scwi_text_free(&words);
  scwi_text_free(&share);
}

static void components(scwi_sheet *sheet, const scw_panel_part *part,
                       const char *unit) {
  scwi_text heading = {0};
  scwi_text_format(&heading, *unit ? "SD (%s)" : "SD", unit);
  const scwi_column columns[] = {
      {"scatter from", SCWI_LEFT, 0, false, 14},
      {heading.data ? heading.data : "SD", SCWI_POINT, 2, false, 0},
      {"interval", SCWI_POINT, 3, true, 0},
      {NULL, SCWI_LEFT, 1, false, 0},
      {NULL, SCWI_POINT, 1, false, 0},
      {"share", SCWI_RIGHT, 3, false, 0},
      {NULL, SCWI_LEFT, 3, true, 0}};
  scwi_grid grid = {.columns = columns,
                    .n_columns = sizeof columns / sizeof *columns};
  for (size_t i = 0; i < part->n_components; i++)
    add_component(&grid, part, i, unit);
  if (part->n_components > 1 && scwi_present(part->total_sd)) {
    scwi_grid_cell(&grid, "one reading");
    scwi_grid_figure(&grid, part->total_sd,
                     scwi_decimals_of(part->total_sd, part->total_sd));
    scwi_grid_blanks(&grid, 5);
  }
  if (heading.failed) sheet->text.failed = true;
  if (part->n_components) scwi_sheet_gap(sheet);
  scwi_sheet_grid(sheet, &grid);
  scwi_text_free(&heading);
}

static void mean(scwi_sheet *sheet, const scw_panel_part *part,
                 const char *unit, scwi_figure_rows *rows) {
  const scw_estimate *found = &part->mean;
  int decimals =
      scwi_decimals_of(found->standard_uncertainty, found->estimate);
  scwi_text words = {0};
  if (found->interval.state == SCW_PRESENT) {
    scwi_word_percent(&words, found->interval.level);
    scwi_text_add(&words, " interval");
  }
  if (scwi_present(found->df)) {
    scwi_word_join(&words, ", ");
    scwi_word_df(&words, found->df.value);
    scwi_text_add(&words, " df");
  }
  *rows = scwi_figure_rows_start(unit);
  scwi_figure_rows_add(rows, (scwi_figure_row){.label = "mean",
                                               .value = &found->estimate,
                                               .interval = &found->interval,
                                               .decimals = decimals,
                                               .remark = words.data});
  scwi_figure_rows_add(
      rows, (scwi_figure_row){.label = "uncertainty",
                              .value = &found->standard_uncertainty,
                              .decimals = decimals,
                              .remark = "standard, of the mean"});
  if (words.failed) sheet->text.failed = true;
  scwi_sheet_figure_rows(sheet, rows);
  scwi_text_free(&words);
}

/* "twice the spots 0.098 GU, twice the repeats 0.14 GU". */
static void worth(scwi_sheet *sheet, const scw_panel_part *part,
                  const char *unit) {
  scwi_text *text = &sheet->scratch;
  for (size_t i = 0; i < part->n_components; i++) {
    const scw_panel_component *component = &part->component[i];
    if (!scwi_present(component->twice)) continue;
    scwi_text_add(text, text->length ? ", with twice the "
                                     : "the uncertainty of the mean with "
                                       "twice the ");
    scwi_word_level(text, component, false);
    scwi_text_add(text, " ");
    scwi_word_short(text, component->twice.value, unit);
  }
  scwi_sheet_labelled_scratch(sheet, "what buys");
  if (!scwi_present(part->repeats_worth)) return;
  scwi_text_add(text, "where a spot costs as much as a repeat, ");
  scwi_word_count(text, (unsigned long long)(part->repeats_worth.value + 0.5),
                  "reading");
  scwi_text_add(text, " a spot is best");
  scwi_sheet_labelled_scratch(sheet, "");
}

/* The same where operators and spots are not taken to act on each other. */
static void without_interaction(scwi_sheet *sheet, const scw_panel_part *part,
                                const char *unit) {
  const scw_crossed_model *model = &part->crossed->without;
  const struct {
    const char *word;
    scw_figure sd;
  } parts[] = {{"operators ", model->operators.sd},
               {", spots ", model->spots.sd},
               {", repeats ", model->repeats.sd}};
  if (part->crossed->with.interaction.state != SCW_PRESENT) return;
  for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
    if (!scwi_present(parts[i].sd)) continue;
    scwi_text_add(&sheet->scratch, parts[i].word);
    scwi_word_short(&sheet->scratch, parts[i].sd.value, unit);
  }
  if (sheet->scratch.length)
    scwi_text_add(&sheet->scratch,
                  " (SD), were operators and spots not to act on each other");
  scwi_sheet_labelled_scratch(sheet, "without it");
}

static void one_part(scwi_sheet *sheet, const scw_panel_result *result) {
  const scw_panel_part *part = &result->parts[0];
  scwi_figure_rows rows;
  scwi_sheet_answer(sheet, part->sentence);
  components(sheet, part, result->unit);
  mean(sheet, part, result->unit, &rows);
  scwi_sheet_gap(sheet);
  worth(sheet, part, result->unit);
  if (part->design == SCW_PANEL_CROSSED)
    without_interaction(sheet, part, result->unit);
  scwi_sheet_operators(sheet, part, result->unit);
  scwi_sheet_place(sheet, part, result->unit);
  if (result->pool.sets > 1) scwi_sheet_pool(sheet, result);
  scwi_sheet_missing(sheet, &rows);
  scwi_sheet_gap(sheet);
  scwi_sheet_notes(sheet, part->notes, part->n_notes);
}

static const scw_component *find(const scw_panel_part *part,
                                 const char *level) {
  for (size_t i = 0; i < part->n_components; i++)
    if (!strcmp(part->component[i].level, level))
      return &part->component[i].figures;
  return NULL;
}

static void add_sd(scwi_grid *grid, const scw_component *component) {
  char number[SCWI_NUMBER_SIZE];
  bool there = component && scwi_present(component->sd);
  scwi_grid_cell(grid, there ? scwi_significant_text(component->sd.value, 2,
                                                     number)
                             : NULL);
}

static void add_part(scwi_grid *grid, const scw_panel_part *part) {
  const scw_component *lowest = find(part, "repeat");
  int decimals =
      scwi_decimals_of(part->mean.standard_uncertainty, part->mean.estimate);
  scwi_grid_cell(grid, part->label);
  scwi_grid_whole(grid, part->readings);
  scwi_grid_figure(grid, part->mean.estimate, decimals);
  scwi_grid_range(grid, part->mean.interval, decimals);
  add_sd(grid, find(part, "panel") ? find(part, "panel") : find(part, "set"));
  add_sd(grid, find(part, "session"));
  add_sd(grid, find(part, "spot"));
  add_sd(grid, lowest ? lowest : find(part, "reading"));
}

static scwi_note_owner notes_of_part(const void *from, size_t i) {
  const scw_panel_part *part = (const scw_panel_part *)from + i;
  return (scwi_note_owner){part->label, part->notes, part->n_notes};
}

enum { MOST_PARTS = 30 };

static void many_parts(scwi_sheet *sheet, const scw_panel_result *result) {
  const char *const part = result->options.each ? "panel" : "part";
  const scwi_column columns[] = {
      {part, SCWI_LEFT, 0, false, 0},  {"n", SCWI_RIGHT, 2, false, 0},
      {"mean", SCWI_POINT, 2, false, 0}, {"interval", SCWI_POINT, 2, true, 0},
      {NULL, SCWI_LEFT, 1, false, 0},    {NULL, SCWI_POINT, 1, false, 0},
      {"panels", SCWI_POINT, 2, false, 0}, {"sessions", SCWI_POINT, 2, false, 0},
      {"spots", SCWI_POINT, 2, false, 0}, {"repeats", SCWI_POINT, 2, false, 0}};
  scwi_grid grid = {.columns = columns,
                    .n_columns = sizeof columns / sizeof *columns};
  size_t shown = result->n_parts < MOST_PARTS ? result->n_parts : MOST_PARTS;
  scwi_sheet_answer(sheet, result->sentence);
  scwi_sheet_gap(sheet);
  for (size_t i = 0; i < shown; i++) add_part(&grid, &result->parts[i]);
  scwi_sheet_grid(sheet, &grid);
  scwi_sheet_gap(sheet);
  scwi_text_add(&sheet->scratch, "the mean of each");
  if (*result->unit) scwi_text_format(&sheet->scratch, " in %s", result->unit);
  scwi_text_add(&sheet->scratch, " with its ");
  scwi_word_percent(&sheet->scratch, result->settings.level);
  scwi_text_add(&sheet->scratch, " interval, and the SD that panels, sessions, "
                                 "spots and repeats (or single readings) add");
  scwi_sheet_labelled_scratch(sheet, "columns");
  if (shown < result->n_parts) {
    scwi_text_format(&sheet->scratch, "%zu more are left out here; --csv and "
                                      "--json hold them all",
                     result->n_parts - shown);
    scwi_sheet_labelled_scratch(sheet, "");
  }
  scwi_sheet_pool(sheet, result);
  scwi_sheet_gap(sheet);
  scwi_sheet_notes_of(sheet, result->n_parts, result->parts, notes_of_part);
}

scw_status scwi_text_panel(scw_context *context, const scw_panel_result *result,
                           const scwi_inputs *inputs,
                           scw_report_options options, scw_sink sink) {
  scwi_sheet sheet = {.options = options};
  if (result->n_parts == 1)
    one_part(&sheet, result);
  else
    many_parts(&sheet, result);
  scwi_sheet_notes(&sheet, result->notes, result->n_notes);
  scwi_sheet_gap(&sheet);
  scwi_sheet_inputs(&sheet, inputs, result->step, result->unit);
  scwi_sheet_settings(&sheet, &result->settings, 0, NULL);
  return scwi_sheet_send(context, &sheet, sink);
}
