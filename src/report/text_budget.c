/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Budgets as text: the answer, the inputs, what would help, the trials. */
#include <math.h>
#include <string.h>

#include "figure.h"
#include "grid.h"
#include "number_text.h"
#include "number_words.h"
#include "reports.h"
#include "text_parts.h"
#include "wording.h"

/* The unit of a plain ratio is not printed. */
static const char *unit_of(const scw_quantity_budget *of) {
  return strcmp(of->quantity->unit, "1") ? of->quantity->unit : "";
}

static void put(scwi_text *text, double value, int digits, const char *unit) {
  scwi_put_digits(text, value, digits);
  if (*unit) scwi_text_format(text, SCWI_TIE "%s", unit);
}

static void put_share(scwi_text *text, double share) {
  bool little = share > 0 && share < 0.005;
  scwi_text_format(text, "%s%d" SCWI_TIE "%%", little ? "<" : "",
                   little ? 1 : (int)floor(100 * share + 0.5));
}

static void digits_cell(scwi_grid *grid, double value, int digits) {
  char number[SCWI_NUMBER_SIZE];
  scwi_grid_cell(grid, scwi_significant_text(value, digits, number));
}

/* A cell from a text, which is emptied. */
static void text_cell(scwi_grid *grid, scwi_text *text) {
  if (text->failed) grid->cells.failed = true;
  scwi_grid_cell(grid, text->data);
  scwi_text_clear(text);
}

enum { KNOWN = 1, EFFECT = 2 }; /* halves of the table */

/* What is known of the input. */
static void add_known(scwi_grid *grid, const scw_budget_line *line,
                      scwi_text *text) {
  double u = line->standard_uncertainty;
  scwi_grid_cell(grid, scw_budget_kind_text(line->kind));
  scwi_grid_fixed(grid, line->estimate, scwi_decimals_for(u, line->estimate));
  if (!(u > 0)) {
    scwi_grid_blanks(grid, 2);
    return;
  }
  digits_cell(grid, u, 2);
  if (scwi_present(line->df)) scwi_word_df(text, line->df.value);
  text_cell(grid, text);
}

/* What it does to the result. */
static void add_effect(scwi_grid *grid, const scw_budget_line *line,
                       scwi_text *text) {
  if (!(line->standard_uncertainty > 0)) {
    scwi_grid_blanks(grid, 3);
    return;
  }
  digits_cell(grid, line->sensitivity, 3);
  digits_cell(grid, line->contribution, 2);
  if (scwi_present(line->share)) put_share(text, line->share.value);
  text_cell(grid, text);
}

/* "pull (g)". */
static void add_name(scwi_grid *grid, const scw_bench_input *input,
                     scwi_text *text) {
  const char *unit = input->unit;
  scwi_text_add(text, input->given.name);
  if (*unit && strcmp(unit, "1")) scwi_text_format(text, " (%s)", unit);
  text_cell(grid, text);
}

static void fill(scwi_grid *grid, const scw_quantity_budget *of, int halves) {
  scwi_text text = {0};
  for (size_t i = 0; i < of->budget.n_lines; i++) {
    const scw_budget_line *line = &of->budget.lines[i];
    add_name(grid, of->input[i], &text);
    if (halves & KNOWN) add_known(grid, line, &text);
    if (halves & EFFECT) add_effect(grid, line, &text);
  }
  scwi_text_free(&text);
}

#define INPUT_COLUMN {"input", SCWI_LEFT, 0, false, 0}
#define KNOWN_COLUMNS                                                          \
  {"known as", SCWI_LEFT, 2, false, 0}, {"estimate", SCWI_POINT, 2, false, 0}, \
      {"st. unc.", SCWI_POINT, 2, false, 0}, {"df", SCWI_POINT, 2, false, 0}
#define EFFECT_COLUMNS                                                         \
  {"slope", SCWI_POINT, 2, false, 0}, {"adds", SCWI_POINT, 2, false, 0},       \
      {"share", SCWI_RIGHT, 2, false, 0}

#define GRID_OF(list)                                                          \
  { .columns = list, .n_columns = sizeof list / sizeof *list }

/* On one page, or its two halves one below the other. */
static void inputs_table(scwi_sheet *sheet, const scw_quantity_budget *of) {
  static const scwi_column whole[] = {INPUT_COLUMN, KNOWN_COLUMNS,
                                      EFFECT_COLUMNS};
  static const scwi_column known[] = {INPUT_COLUMN, KNOWN_COLUMNS};
  static const scwi_column effect[] = {INPUT_COLUMN, EFFECT_COLUMNS};
  scwi_grid grid = GRID_OF(whole), first = GRID_OF(known),
            second = GRID_OF(effect);
  if (!of->budget.n_lines) return;
  fill(&grid, of, KNOWN | EFFECT);
  scwi_sheet_gap(sheet);
  if (scwi_grid_fits(&grid)) {
    scwi_sheet_grid(sheet, &grid);
  } else {
    scwi_text_free(&grid.cells);
    fill(&first, of, KNOWN);
    fill(&second, of, EFFECT);
    scwi_sheet_grid(sheet, &first);
    scwi_sheet_gap(sheet);
    scwi_sheet_grid(sheet, &second);
  }
  scwi_sheet_gap(sheet);
}

/* Inputs that are correlated, group after group. */
static void together(scwi_sheet *sheet, const scw_budget *budget) {
  scwi_text *text = &sheet->scratch;
  for (size_t g = 1; g <= budget->n_lines; g++) {
    size_t n = 0;
    for (size_t i = 0; i < budget->n_lines; i++)
      if (budget->lines[i].group == g)
        scwi_text_format(text, "%s%s", n++ ? ", " : text->length ? "; " : "",
                         budget->lines[i].name);
  }
  scwi_sheet_labelled_scratch(sheet, "correlated");
}

static void help(scwi_sheet *sheet, const scw_quantity_budget *of) {
  enum { LITTLE = 5 }; /* per cent: not worth the work */
  const scw_budget *budget = &of->budget;
  const char *unit = unit_of(of);
  scwi_text *text = &sheet->scratch;
  size_t i = budget->most_help;
  if (!scwi_present(budget->standard_uncertainty)) return;
  if (i >= budget->n_lines) {
    scwi_sheet_labelled(sheet, "helps most",
                        "no single input: none known exactly would help");
    return;
  }
  const scw_budget_line *line = &budget->lines[i];
  if (!scwi_present(line->if_perfect)) return;
  double u = budget->standard_uncertainty.value;
  if (line->if_perfect.value > u * (1 - LITTLE / 100.0)) {
    scwi_text_add(text, "no single input: with the best of them known exactly "
                        "the standard uncertainty would still be ");
    put(text, line->if_perfect.value, 2, unit);
  } else if (line->if_perfect.value < u * 1e-9) {
    scwi_text_format(text, "%s; nothing else counts", line->name);
  } else {
    scwi_text_format(text, "%s; were it known exactly the standard uncertainty "
                           "would be ",
                     line->name);
    put(text, line->if_perfect.value, 2, unit);
    scwi_text_add(text, " instead of ");
    put(text, u, 2, unit);
  }
  if (scwi_present(of->more_readings) &&
      of->more_readings.value < u * (1 - LITTLE / 100.0)) {
    scwi_text_add(text, "; with twice as many readings about ");
    put(text, of->more_readings.value, 2, unit);
  }
  scwi_sheet_labelled_scratch(sheet, "helps most");
}

static void put_interval(scwi_text *text, scw_interval interval, double width,
                         const char *unit) {
  scwi_put_range(text, interval.low, interval.high,
                 scwi_decimals_for(width, interval.high));
  if (*unit) scwi_text_format(text, SCWI_TIE "%s", unit);
}

static const char *agreement_words(scw_agreement agreement) {
  switch (agreement) {
    case SCW_AGREES:
      return "; the law of propagation agrees with them";
    case SCW_DIFFERS:
      return "; the law of propagation differs from them";
    case SCW_AGREEMENT_UNDECIDED:
      return "; too few to say whether the law of propagation holds";
    default:
      return "; they cannot judge the law of propagation";
  }
}

static void put_moments(scwi_text *text, const scw_monte_carlo *trials,
                        const char *unit) {
  double width = (trials->symmetric.high - trials->symmetric.low) / 2;
  int decimals = scwi_decimals_for(width, trials->median.value);
  if (scwi_present(trials->mean)) {
    scwi_text_add(text, "mean ");
    scwi_put_fixed(text, trials->mean.value, decimals);
    scwi_text_add(text, ", ");
  }
  scwi_text_add(text, "median ");
  scwi_put_fixed(text, trials->median.value, decimals);
  if (scwi_present(trials->sd)) {
    scwi_text_add(text, ", SD ");
    put(text, trials->sd.value, 2, unit);
  }
}

static void trials_lines(scwi_sheet *sheet, const scw_quantity_budget *of) {
  const scw_monte_carlo *trials = &of->trials;
  const char *unit = unit_of(of);
  scwi_text *text = &sheet->scratch;
  char seed[SCWI_NUMBER_SIZE];
  if (!of->has_trials) return;
  if (trials->symmetric.state == SCW_PRESENT) {
    double width = (trials->symmetric.high - trials->symmetric.low) / 2;
    put_moments(text, trials, unit);
    scwi_sheet_labelled_scratch(sheet, "by trials");
    scwi_word_percent(text, trials->symmetric.level);
    scwi_text_add(text, " in ");
    put_interval(text, trials->symmetric, width, unit);
    scwi_text_add(text, ", as much left out at either end");
    scwi_sheet_labelled_scratch(sheet, "");
    scwi_word_percent(text, trials->shortest.level);
    scwi_text_add(text, " in ");
    put_interval(text, trials->shortest, width, unit);
    scwi_text_add(text, ", the shortest such interval");
    scwi_sheet_labelled_scratch(sheet, "");
  }
  scwi_text_format(text, "%zu trials, seed %s%s", trials->trials,
                   scwi_whole_text(trials->seed, seed),
                   agreement_words(trials->agreement));
  scwi_sheet_labelled_scratch(
      sheet, trials->symmetric.state == SCW_PRESENT ? "" : "by trials");
}

static void put_limits(scwi_text *text, const scw_conformance *limits,
                       const char *unit) {
  bool low = isfinite(limits->low), high = isfinite(limits->high);
  scwi_text_add(text, low && high ? "from " : low ? "above " : "below ");
  if (low) scwi_put_short(text, limits->low, 6);
  if (low && high) scwi_text_add(text, " to ");
  if (high) scwi_put_short(text, limits->high, 6);
  if (*unit) scwi_text_format(text, SCWI_TIE "%s", unit);
}

static void put_acceptance(scwi_text *text, const scw_conformance *limits,
                           const char *unit) {
  bool low = scwi_present(limits->accept_low);
  bool high = scwi_present(limits->accept_high);
  if (!scwi_present(limits->guard)) {
    scwi_text_add(text, "; no figure conforms with probability ");
    scwi_put_short(text, limits->wanted, 6);
    return;
  }
  int decimals = scwi_decimals_for(limits->guard.value, 0);
  scwi_text_add(text, "; accept ");
  scwi_text_add(text, low && high ? "from " : low ? "from " : "up to ");
  if (low) scwi_put_fixed(text, limits->accept_low.value, decimals);
  if (low && high) scwi_text_add(text, " to ");
  if (high) scwi_put_fixed(text, limits->accept_high.value, decimals);
  if (low && !high) scwi_text_add(text, " up");
  if (*unit) scwi_text_format(text, SCWI_TIE "%s", unit);
  scwi_text_add(text, " for a probability of ");
  scwi_put_short(text, limits->wanted, 6);
  scwi_text_add(text, " (guard band ");
  put(text, limits->guard.value, 2, unit);
  scwi_text_add(text, ")");
}

static void limits_line(scwi_sheet *sheet, const scw_quantity_budget *of) {
  const scw_conformance *limits = &of->conformance;
  const char *unit = unit_of(of);
  scwi_text *text = &sheet->scratch;
  if (!of->has_limits || !scwi_present(limits->probability)) return;
  double p = limits->probability.value;
  scwi_text_add(text, "the probability that it lies ");
  put_limits(text, limits, unit);
  scwi_text_add(text, " is ");
  if (p > 0.9999)
    scwi_text_add(text, "above 0.9999");
  else if (p < 0.0001)
    scwi_text_add(text, "below 0.0001");
  else
    scwi_put_fixed(text, p, p > 0.999 || p < 0.01 ? 4 : 3);
  put_acceptance(text, limits, unit);
  scwi_sheet_labelled_scratch(sheet, "within limits");
}

static void add_pair(scwi_grid *grid, const char *label, scw_figure one,
                     scw_figure two, double times, const char *unit,
                     const char *cancel) {
  scwi_text text = {0};
  scwi_grid_cell(grid, label);
  put(&text, one.value * times, 2, unit);
  text_cell(grid, &text);
  put(&text, two.value * times, 2, unit);
  text_cell(grid, &text);
  scwi_grid_cell(grid, cancel && *cancel ? cancel : "nothing");
  scwi_text_free(&text);
}

/* Two results beside each other. */
static void two_lines(scwi_sheet *sheet, const scw_quantity_budget *of) {
  static const scwi_column columns[] = {
      {NULL, SCWI_LEFT, 0, false, 0},
      {"same bench", SCWI_POINT, 2, false, 0},
      {"two benches", SCWI_POINT, 2, false, 0},
      {"cancels on the same bench", SCWI_LEFT, 2, false, 0}};
  const scw_two_results *two = &of->two;
  scwi_grid grid = GRID_OF(columns);
  if (two->state != SCW_PRESENT) return;
  scwi_sheet_gap(sheet);
  scwi_text_format(&sheet->scratch,
                   "Two such results with %s a tenth apart; standard "
                   "uncertainty of their",
                   two->moved);
  scwi_sheet_hanging(sheet, "", 0, sheet->scratch.data);
  if (sheet->scratch.failed) sheet->text.failed = true;
  scwi_text_clear(&sheet->scratch);
  add_pair(&grid, "  difference", two->difference_one_meter,
           two->difference_two_meters, 1, unit_of(of),
           two->cancel_in_difference);
  if (scwi_present(two->ratio_one_meter))
    add_pair(&grid, "  ratio", two->ratio_one_meter, two->ratio_two_meters, 100,
             "%", two->cancel_in_ratio);
  scwi_sheet_grid(sheet, &grid);
  if (of->quantity->measures == SCW_MEASURES_GLOSS)
    scwi_sheet_hanging(sheet, "", 0,
                       "Results at two angles are not compared: a series never "
                       "mixes angles.");
}

static void quantity(scwi_sheet *sheet, const scw_quantity_budget *of) {
  scwi_sheet_gap(sheet);
  scwi_sheet_answer(sheet, of->sentence);
  if (!of->why_not) {
    scwi_sheet_gap(sheet);
    scwi_text_format(&sheet->scratch, "%s = %s", of->quantity->name,
                     of->quantity->model);
    scwi_sheet_labelled_scratch(sheet, "model");
    inputs_table(sheet, of);
    together(sheet, &of->budget);
    help(sheet, of);
    trials_lines(sheet, of);
    limits_line(sheet, of);
    two_lines(sheet, of);
  }
  scwi_sheet_gap(sheet);
  scwi_sheet_notes(sheet, of->notes, of->n_notes);
}

static void settings(scwi_sheet *sheet, const scw_bench_budget *result) {
  const scw_trials_options *trials = &result->options.trials;
  scwi_text more = {0};
  if (result->options.no_trials)
    scwi_text_add(&more, ", no trials");
  else if (trials->trials)
    scwi_text_format(&more, ", %zu trials", trials->trials);
  else
    scwi_text_format(&more, ", trials until %d digit%s stand%s", trials->digits,
                     trials->digits == 1 ? "" : "s",
                     trials->digits == 1 ? "s" : "");
  scwi_text_add(&more, ", second order told above 5 %");
  if (more.failed) sheet->text.failed = true;
  scwi_sheet_settings(sheet, &result->settings, 0, more.data);
  scwi_text_free(&more);
}

scw_status scwi_text_budget(scw_context *context,
                            const scw_bench_budget *result,
                            const scwi_inputs *inputs,
                            scw_report_options options, scw_sink sink) {
  scwi_sheet sheet = {.options = options};
  for (size_t i = 0; i < result->n_quantities; i++)
    quantity(&sheet, &result->quantities[i]);
  scwi_sheet_gap(&sheet);
  scwi_sheet_notes(&sheet, result->notes, result->n_notes);
  scwi_sheet_gap(&sheet);
  scwi_sheet_inputs(&sheet, inputs, (scw_step){0}, NULL);
  scwi_sheet_labelled(&sheet, "columns",
                      "st. unc.: standard uncertainty; df: degrees of freedom; "
                      "slope: change of the result for one unit of the input "
                      "(sensitivity coefficient); adds: slope times standard "
                      "uncertainty (contribution); share: part of the "
                      "variance.");
  settings(&sheet, result);
  return scwi_sheet_send(context, &sheet, sink);
}
