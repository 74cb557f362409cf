/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bridge as text: the answer, the figures, the items, converted results. */
#include <math.h>
#include <string.h>

#include "figure.h"
#include "figure_rows.h"
#include "grid.h"
#include "number_text.h"
#include "number_words.h"
#include "reports.h"
#include "text_parts.h"
#include "wording.h"

enum { MOST_ITEMS = 40 };

static void put(scwi_text *text, double value, const char *unit) {
  scwi_put_digits(text, value, 2);
  if (*unit) scwi_text_format(text, SCWI_TIE "%s", unit);
}

static double or_zero(scw_figure figure) {
  return scwi_present(figure) ? figure.value : 0;
}

static void figures(scwi_sheet *sheet, const scw_bridge_result *result) {
  const scw_limits_of_agreement *limits = &result->agreement;
  scwi_figure_rows rows = scwi_figure_rows_start(result->unit);
  scwi_text words = {0}, share = {0};
  int decimals = scwi_decimals_of(result->bias.standard_uncertainty,
                                  result->bias.estimate);
  scwi_text_add(&words, "new less old, mean; ");
  scwi_word_percent(&words, result->settings.level);
  scwi_text_add(&words, " intervals");
  scwi_text_add(&share, "for ");
  scwi_word_percent(&share, limits->content);
  scwi_text_add(&share, " of single differences");
  scwi_figure_rows_add(&rows, (scwi_figure_row){
                                  .label = "bias",
                                  .value = &result->bias.estimate,
                                  .interval = &result->bias.interval,
                                  .decimals = decimals,
                                  .signed_value = true,
                                  .remark = words.data});
  scwi_figure_rows_add(&rows, (scwi_figure_row){
                                  .label = "low limit",
                                  .value = &limits->low,
                                  .interval = &limits->low_interval,
                                  .decimals = decimals,
                                  .signed_value = true,
                                  .remark = share.data});
  scwi_figure_rows_add(&rows, (scwi_figure_row){
                                  .label = "high limit",
                                  .value = &limits->high,
                                  .interval = &limits->high_interval,
                                  .decimals = decimals,
                                  .signed_value = true});
  scwi_figure_rows_add(&rows, (scwi_figure_row){.label = "SD",
                                                .value = &limits->sd,
                                                .decimals = decimals,
                                                .remark = "of a single "
                                                          "difference"});
  if (words.failed || share.failed) sheet->text.failed = true;
  scwi_sheet_figure_rows(sheet, &rows);
  scwi_sheet_missing(sheet, &rows);
  scwi_text_free(&words);
  scwi_text_free(&share);
}

static void put_ends(scwi_text *text, scw_interval ends, double u) {
  if (ends.state != SCW_PRESENT) {
    scwi_text_format(text, " (interval: %s)", scw_presence_text(ends.state));
    return;
  }
  scwi_text_add(text, " (");
  scwi_put_range(text, ends.low, ends.high, scwi_decimals_for(u, ends.high));
  scwi_text_add(text, ")");
}

static void line(scwi_sheet *sheet, const scw_bridge_line *of,
                 const char *label, const char *unit) {
  scwi_text *text = &sheet->scratch;
  if (!scwi_present(of->slope)) {
    if (of->slope.state == SCW_TOO_FEW) return; /* the answer says so */
    scwi_text_add(text, scw_presence_text(of->slope.state));
  } else {
    double u = or_zero(of->slope_u), v = or_zero(of->intercept_u);
    scwi_text_add(text, "slope ");
    scwi_put_fixed(text, of->slope.value, scwi_decimals_for(u, of->slope.value));
    put_ends(text, of->slope_interval, u);
    scwi_text_add(text, ", intercept ");
    scwi_put_fixed(text, of->intercept.value,
                   scwi_decimals_for(v, of->intercept.value));
    put_ends(text, of->intercept_interval, v);
    scwi_text_add(text, ", SD about it ");
    put(text, of->scatter.value, unit);
  }
  scwi_sheet_labelled_scratch(sheet, label);
}

static void ratio(scwi_sheet *sheet, const scw_bridge_result *result) {
  scwi_text *text = &sheet->scratch;
  if (!scwi_present(result->line.slope)) return;
  scwi_put_short(text, result->error_ratio, 3);
  scwi_text_add(text, ", new over old, of the variances of a reading; ");
  if (result->error_ratio_origin == SCW_RATIO_REPEATS) {
    scwi_text_add(text, "from repeats (SD ");
    put(text, result->repeat_sd_old.value, result->unit);
    scwi_text_add(text, " old, ");
    put(text, result->repeat_sd_new.value, result->unit);
    scwi_text_add(text, " new)");
  } else {
    scwi_text_add(text, result->error_ratio_origin == SCW_RATIO_GIVEN
                            ? "as given"
                            : "assumed");
  }
  scwi_sheet_labelled_scratch(sheet, "error ratio");
}

static void conversion(scwi_sheet *sheet, const scw_bridge_result *result) {
  scwi_text *text = &sheet->scratch;
  if (!scwi_present(result->conversion_uncertainty)) return;
  scwi_text_add(text, "standard uncertainty ");
  put(text, result->conversion_uncertainty.value, result->unit);
  scwi_text_add(text, " at the mean of the products, ");
  put(text, result->conversion_uncertainty_end.value, result->unit);
  scwi_text_add(text, " at the end of their range, ");
  scwi_put_short(text, result->range_low.value, 5);
  scwi_text_add(text, " to ");
  scwi_put_short(text, result->range_high.value, 5);
  if (*result->unit) scwi_text_format(text, SCWI_TIE "%s", result->unit);
  scwi_sheet_labelled_scratch(sheet, "conversion");
}

static void trend(scwi_sheet *sheet, const scw_bridge_result *result) {
  scwi_text *text = &sheet->scratch;
  if (result->trend.interval.state != SCW_PRESENT) return;
  double u = or_zero(result->trend.standard_uncertainty);
  scwi_text_add(text, "the difference changes by ");
  scwi_put_fixed(text, result->trend.estimate.value,
                 scwi_decimals_for(u, result->trend.estimate.value));
  put_ends(text, result->trend.interval, u);
  scwi_text_add(text, " for each 1 of level");
  scwi_word_p_aside(text, result->trend.p);
  scwi_sheet_labelled_scratch(sheet, "level");
}

static void add_item(scwi_grid *grid, const scw_bridge_result *result,
                     const scw_bridge_item *item, int decimals) {
  scwi_grid_cell(grid, item->label);
  scwi_grid_whole(grid, item->n_old);
  scwi_grid_figure(grid, item->old_mean, decimals);
  scwi_grid_whole(grid, item->n_new);
  scwi_grid_figure(grid, item->new_mean, decimals);
  scwi_grid_figure(grid, item->difference, decimals);
  scwi_grid_cell(grid, item->stands_out                  ? "stands out"
                       : !item->n_old || !item->n_new   ? "not used"
                       : item->baseline && result->pairs ? "baseline"
                                                         : NULL);
}

static void items(scwi_sheet *sheet, const scw_bridge_result *result) {
  static const scwi_column columns[] = {
      {"item", SCWI_LEFT, 0, false, 14}, {"n", SCWI_RIGHT, 2, false, 0},
      {"old", SCWI_POINT, 2, false, 0},  {"n", SCWI_RIGHT, 3, false, 0},
      {"new", SCWI_POINT, 2, false, 0},  {"difference", SCWI_POINT, 3, false, 0},
      {NULL, SCWI_LEFT, 3, false, 0}};
  scwi_grid grid = {.columns = columns,
                    .n_columns = sizeof columns / sizeof *columns};
  size_t shown = result->n_items < MOST_ITEMS ? result->n_items : MOST_ITEMS;
  scw_figure sd = scwi_present(result->difference_sd)
                      ? result->difference_sd
                      : result->baselines.difference.standard_uncertainty;
  int decimals = scwi_decimals_of(
      sd, result->n_items ? result->item[0].old_mean : result->bias.estimate);
  scwi_sheet_gap(sheet);
  for (size_t i = 0; i < shown; i++)
    add_item(&grid, result, &result->item[i], decimals);
  scwi_sheet_grid(sheet, &grid);
  if (shown == result->n_items) return;
  scwi_text_format(&sheet->scratch, "%zu more are left out here; --csv and "
                                    "--json hold them all",
                   result->n_items - shown);
  scwi_sheet_labelled_scratch(sheet, "");
}

static void add_converted(scwi_grid *grid, const scw_converted *of,
                          bool named) {
  scwi_text number = {0};
  int decimals = scwi_decimals_of(of->standard_uncertainty, of->value);
  scwi_put_short(&number, of->old_value, 8);
  if (number.failed) grid->cells.failed = true;
  if (named) scwi_grid_cell(grid, of->product);
  scwi_grid_cell(grid, number.data);
  scwi_grid_figure(grid, of->value, decimals);
  scwi_grid_figure(grid, of->standard_uncertainty, decimals);
  scwi_grid_range(grid, of->interval, decimals);
  scwi_grid_cell(grid, scwi_present(of->value)
                           ? NULL
                           : scw_presence_text(of->value.state));
  scwi_text_free(&number);
}

static void converted(scwi_sheet *sheet, const scw_bridge_result *result) {
  static const scwi_column columns[] = {
      {"product", SCWI_LEFT, 0, false, 14},  {"old", SCWI_POINT, 2, false, 0},
      {"as new", SCWI_POINT, 3, false, 0},   {"st. unc.", SCWI_POINT, 2, false, 0},
      {"interval", SCWI_POINT, 3, true, 0},  {NULL, SCWI_LEFT, 1, false, 0},
      {NULL, SCWI_POINT, 1, false, 0},       {NULL, SCWI_LEFT, 3, false, 0}};
  bool named = false;
  for (size_t i = 0; i < result->n_converted; i++)
    named = named || *result->converted[i].product;
  const size_t n = sizeof columns / sizeof *columns;
  scwi_grid grid = {.columns = named ? columns : columns + 1,
                    .n_columns = named ? n : n - 1};
  if (result->n_converted == 0) return;
  scwi_sheet_gap(sheet);
  for (size_t i = 0; i < result->n_converted; i++)
    add_converted(&grid, &result->converted[i], named);
  scwi_sheet_grid(sheet, &grid);
}

static void fences(scwi_sheet *sheet, const scw_bridge_result *result) {
  for (size_t i = 0; i < result->n_fences; i++) {
    const scw_found_fence *fence = &result->fence[i];
    scwi_text_format(&sheet->scratch, "%s: %s",
                     *fence->date ? fence->date : "no date", fence->reason);
    scwi_sheet_labelled_scratch(sheet, i ? "" : "fences");
  }
}

scw_status scwi_text_bridge(scw_context *context,
                            const scw_bridge_result *result,
                            const scwi_inputs *inputs,
                            scw_report_options options, scw_sink sink) {
  scwi_sheet sheet = {.options = options};
  scwi_sheet_answer(&sheet, result->sentence);
  figures(&sheet, result);
  scwi_sheet_gap(&sheet);
  line(&sheet, &result->line, result->weighted ? "plain line" : "line",
       result->unit);
  line(&sheet, &result->weighted_line,
       result->weighted ? "line, weighted" : "weighted line", result->unit);
  ratio(&sheet, result);
  conversion(&sheet, result);
  trend(&sheet, result);
  fences(&sheet, result);
  items(&sheet, result);
  converted(&sheet, result);
  scwi_sheet_gap(&sheet);
  scwi_sheet_notes(&sheet, result->notes, result->n_notes);
  scwi_sheet_gap(&sheet);
  scwi_sheet_inputs(&sheet, inputs, result->step, result->unit);
  scwi_sheet_settings(&sheet, &result->settings,
                      SCWI_SET_STAND_OUT | SCWI_SET_ASSURANCE, NULL);
  return scwi_sheet_send(context, &sheet, sink);
}
