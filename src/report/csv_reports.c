/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The reports as CSV: one row per set, change or plan row. The first row is
 * made by the same visit as the others, of an empty result where there is
 * none. */
#include "csv_table.h"
#include "plan_designs.h"
#include "fields.h"
#include "figure.h"
#include "reports.h"
#include "text_parts.h"

/* "3 7": the places of the flagged readings. */
static void add_flags(scwi_csv *csv, const scw_set_report *set) {
  scwi_text places = {0};
  const scw_stand_out *found = &set->summary.stand_out;
  for (size_t i = 0; i < found->n_flags && i < SCW_MAX_CANDIDATES; i++)
    scwi_text_format(&places, "%s%zu", i ? " " : "",
                     scwi_place_in_set(set, found->flags[i].place));
  if (places.failed) csv->cells.failed = true;
  scwi_csv_text(csv, "flags", places.data);
  scwi_text_free(&places);
}

/* The codes of the notes, separated by blanks. */
static void add_notes(scwi_csv *csv, const scw_note *notes, size_t n) {
  scwi_text codes = {0};
  for (size_t i = 0; i < n; i++)
    if (notes[i].code)
      scwi_text_format(&codes, "%s%s", codes.length ? " " : "", notes[i].code);
  if (codes.failed) csv->cells.failed = true;
  scwi_csv_text(csv, "notes", codes.data);
  scwi_text_free(&codes);
}

static void add_intervals(scwi_csv *csv, const scw_summary *s) {
  scwi_csv_figure(csv, "level",
                  (scw_figure){s->interval.level, s->interval.state});
  scwi_csv_ends(csv, "low", "high", s->interval);
  scwi_csv_ends(csv, "sd_low", "sd_high", s->sd_interval);
  scwi_csv_ends(csv, "prediction_low", "prediction_high", s->prediction);
  scwi_csv_figure(csv, "tolerance_k", s->tolerance.k);
  scwi_csv_ends(csv, "tolerance_low", "tolerance_high", s->tolerance.interval);
}

static void add_order(scwi_csv *csv, const scw_summary *s) {
  scwi_csv_figure(csv, "creep_slope", s->creep.slope);
  scwi_csv_ends(csv, "creep_low", "creep_high", s->creep.slope_interval);
  scwi_csv_figure(csv, "creep_p", s->creep.p);
  scwi_csv_figure(csv, "sd_about_line", s->creep.sd_about_line);
  scwi_csv_figure(csv, "kendall_s", s->creep.kendall_s);
  scwi_csv_figure(csv, "kendall_p", s->creep.kendall_p);
  scwi_csv_figure(csv, "level_shift_size", s->level_shift.size);
  scwi_csv_figure(csv, "level_shift_p", s->level_shift.p);
}

static void add_shape(scwi_csv *csv, const scw_shape *shape) {
  scwi_csv_figure(csv, "shapiro_w", shape->shapiro_w);
  scwi_csv_figure(csv, "shapiro_p", shape->shapiro_p);
  scwi_csv_figure(csv, "anderson_darling", shape->anderson_darling);
  scwi_csv_figure(csv, "anderson_darling_p", shape->anderson_darling_p);
}

static void set_row(scwi_csv *csv, const scw_set_report *set) {
  const scw_summary *s = &set->summary;
  scwi_csv_text(csv, "set", set->label);
  scwi_csv_text(csv, "unit", set->unit);
  scwi_csv_whole(csv, "n", s->n);
  for (size_t i = 0; i < scwi_n_summary_fields; i++)
    scwi_csv_figure(csv, scwi_summary_fields[i].key,
                    scwi_field_of(s, scwi_summary_fields[i]));
  add_intervals(csv, s);
  scwi_csv_figure(csv, "step", scwi_step_figure(s->step));
  scwi_csv_text(csv, "step_origin", scwi_step_origin_code(s->step.origin));
  scwi_csv_figure(csv, "grubbs_statistic", s->stand_out.grubbs_statistic);
  scwi_csv_figure(csv, "grubbs_limit", s->stand_out.grubbs_limit);
  scwi_csv_figure(csv, "grubbs_p", s->stand_out.grubbs_p);
  add_flags(csv, set);
  add_order(csv, s);
  add_shape(csv, &s->shape);
  add_notes(csv, set->notes, set->n_notes);
  scwi_csv_text(csv, "sentence", set->sentence);
  scwi_csv_row(csv);
}

scw_status scwi_csv_readings(scw_context *context,
                             const scw_readings_result *result, scw_sink sink) {
  scwi_csv csv = scwi_csv_start(context, sink);
  const scw_set_report none = {0};
  set_row(&csv, &none);
  for (size_t i = 0; i < result->n_sets && !csv.status; i++)
    set_row(&csv, &result->sets[i]);
  return scwi_csv_end(&csv);
}

static void brief_row(scwi_csv *csv, const scw_brief_set *set) {
  scwi_csv_text(csv, "set", set->label);
  scwi_csv_whole(csv, "n", set->n);
  scwi_csv_figure(csv, "mean", set->mean);
  scwi_csv_figure(csv, "sd", set->sd);
  scwi_csv_ends(csv, "low", "high", set->interval);
  scwi_csv_row(csv);
}

scw_status scwi_csv_brief(scw_context *context, const scw_brief_result *result,
                          scw_sink sink) {
  scwi_csv csv = scwi_csv_start(context, sink);
  const scw_brief_set none = {0};
  brief_row(&csv, &none);
  for (size_t i = 0; i < result->n_sets && !csv.status; i++)
    brief_row(&csv, &result->sets[i]);
  return scwi_csv_end(&csv);
}

static void add_side(scwi_csv *csv, const char *prefix, const scw_summary *s) {
  csv->prefix = prefix;
  scwi_csv_whole(csv, "n", s->n);
  scwi_csv_figure(csv, "mean", s->mean);
  scwi_csv_figure(csv, "sd", s->sd);
  scwi_csv_figure(csv, "standard_uncertainty", s->standard_uncertainty);
  csv->prefix = NULL;
}

static void add_without(scwi_csv *csv, const char *prefix, bool has,
                        const scw_estimate *estimate, scw_verdict verdict) {
  const scw_estimate none = {0};
  const scw_estimate *from = has ? estimate : &none;
  csv->prefix = prefix;
  scwi_csv_figure(csv, "estimate", from->estimate);
  scwi_csv_ends(csv, "low", "high", from->interval);
  scwi_csv_text(csv, "verdict", has ? scw_verdict_code(verdict) : NULL);
  csv->prefix = NULL;
}

static void add_family(scwi_csv *csv, const scw_change_report *change,
                       bool several) {
  csv->prefix = "family_";
  scwi_csv_ends(csv, "low", "high", change->family_interval);
  scwi_csv_figure(csv, "p", change->family_p);
  csv->prefix = NULL;
  scwi_csv_text(csv, "alone_verdict",
                several ? scw_verdict_code(change->alone_verdict) : NULL);
}

static void add_views(scwi_csv *csv, const scw_change_report *change) {
  scwi_csv_figure(csv, "permutation_p", change->permutation.p);
  scwi_csv_figure(csv, "smallest_p", change->permutation.smallest_p);
  scwi_csv_figure(csv, "smallest_p_design",
                  change->permutation.smallest_p_design);
  scwi_csv_figure(csv, "hodges_lehmann", change->hodges_lehmann.estimate);
  scwi_csv_ends(csv, "hodges_lehmann_low", "hodges_lehmann_high",
                change->hodges_lehmann.interval);
  scwi_csv_figure(csv, "hodges_lehmann_coverage",
                  change->hodges_lehmann.coverage);
  scwi_csv_figure(csv, "sd_ratio", change->sd_ratio.ratio);
  scwi_csv_ends(csv, "sd_ratio_low", "sd_ratio_high",
                change->sd_ratio.interval);
  scwi_csv_figure(csv, "tost_p", change->tost.p);
  scwi_csv_figure(csv, "tost_level",
                  (scw_figure){change->tost.level, change->tost.p.state});
  scwi_csv_figure(csv, "break_even_sd", change->break_even_sd);
  scwi_csv_figure(csv, "break_even_baseline_u",
                  change->break_even_baseline_u);
}

static void add_bank(scwi_csv *csv, const scw_bank_view *bank) {
  bool asked = bank->state != SCW_NOT_COMPUTED;
  csv->prefix = "bank_";
  scwi_csv_figure(csv, "sd", (scw_figure){bank->sd, bank->change.estimate.state});
  scwi_csv_figure(csv, "df", (scw_figure){bank->df, bank->change.estimate.state});
  scwi_csv_figure(csv, "u", bank->change.standard_uncertainty);
  scwi_csv_ends(csv, "low", "high", bank->change.interval);
  scwi_csv_figure(csv, "p", bank->change.p);
  scwi_csv_figure(csv, "f", bank->f);
  scwi_csv_figure(csv, "f_p", bank->f_p);
  scwi_csv_text(csv, "verdict", asked ? scw_verdict_code(bank->verdict) : NULL);
  csv->prefix = NULL;
  scwi_csv_text(csv, "own_verdict",
                asked ? scw_verdict_code(bank->own_verdict) : NULL);
}

static void add_arm(scwi_csv *csv, const char *prefix,
                    const scw_estimate *change) {
  csv->prefix = prefix;
  scwi_csv_figure(csv, "change", change->estimate);
  scwi_csv_ends(csv, "low", "high", change->interval);
  csv->prefix = NULL;
}

/* What stands beside the change: its control and the tile. */
static void add_references(scwi_csv *csv, const scw_change_report *change) {
  const scw_tile *tile = &change->tile;
  scwi_csv_text(csv, "control", change->control);
  add_arm(csv, "control_", &change->control_change);
  add_arm(csv, "treated_", &change->treated_change);
  csv->prefix = "tile_";
  scwi_csv_whole(csv, "n", tile->n);
  scwi_csv_figure(csv, "assigned",
                  (scw_figure){tile->assigned, tile->difference.state});
  scwi_csv_figure(csv, "mean", tile->mean);
  scwi_csv_figure(csv, "difference", tile->difference);
  scwi_csv_figure(csv, "drift", tile->drift);
  scwi_csv_figure(csv, "difference_steps", tile->difference_steps);
  scwi_csv_figure(csv, "drift_steps", tile->drift_steps);
  csv->prefix = NULL;
}

/* What would settle it; its unit only where there is a number. */
static void add_settle(scwi_csv *csv, const scw_settle *settle) {
  bool told = scwi_present(settle->more);
  scwi_csv_figure(csv, "settle_total", settle->total);
  scwi_csv_figure(csv, "settle_more", settle->more);
  scwi_csv_text(csv, "settle_per", told ? scwi_settle_per(settle) : NULL);
}

/* The change by its scatter alone, and what the instruments add. */
static void add_instruments(scwi_csv *csv, const scw_instruments *of) {
  bool added = of->state == SCW_PRESENT;
  csv->prefix = "scatter_";
  scwi_csv_figure(csv, "u", of->scatter.standard_uncertainty);
  scwi_csv_figure(csv, "df", of->scatter.df);
  scwi_csv_ends(csv, "low", "high", of->scatter.interval);
  scwi_csv_text(csv, "verdict",
                added ? scw_verdict_code(of->scatter_verdict) : NULL);
  csv->prefix = "instruments_";
  scwi_csv_figure(csv, "u", of->standard_uncertainty);
  scwi_csv_figure(csv, "df", of->df);
  csv->prefix = NULL;
}

static void add_retention(scwi_csv *csv, const scw_ratio *ratio) {
  bool found = ratio->state == SCW_PRESENT;
  csv->prefix = "retention_";
  scwi_csv_figure(csv, "estimate", ratio->estimate);
  scwi_csv_text(csv, "set", found ? scw_ratio_set_code(ratio->set) : NULL);
  scwi_csv_figure(csv, "low", ratio->low);
  scwi_csv_figure(csv, "high", ratio->high);
  scwi_csv_ends(csv, "delta_low", "delta_high", ratio->delta);
  csv->prefix = NULL;
}

static void change_row(scwi_csv *csv, const scw_change_report *change,
                       bool several) {
  const scw_estimate *found = &change->change;
  scwi_csv_text(csv, "product", change->product);
  scwi_csv_text(csv, "unit", change->unit);
  scwi_csv_text(csv, "design", scw_design_code(change->design));
  scwi_csv_figure(csv, "estimate", found->estimate);
  scwi_csv_figure(csv, "standard_uncertainty", found->standard_uncertainty);
  scwi_csv_figure(csv, "df", found->df);
  scwi_csv_figure(csv, "level",
                  (scw_figure){found->interval.level, found->interval.state});
  scwi_csv_ends(csv, "low", "high", found->interval);
  scwi_csv_figure(csv, "p", found->p);
  scwi_csv_figure(csv, "margin", change->margin);
  scwi_csv_text(csv, "verdict", scw_verdict_code(change->verdict));
  scwi_csv_figure(csv, "detectable", change->detectable);
  add_settle(csv, &change->settle);
  add_side(csv, "before_", &change->before.summary);
  add_side(csv, "after_", &change->after.summary);
  scwi_csv_figure(csv, "difference_sd", change->difference_sd);
  scwi_csv_whole(csv, "unmatched", change->n_unmatched);
  add_without(csv, "without_flagged_", change->has_without_flagged,
              &change->without_flagged, change->verdict_without_flagged);
  add_without(csv, "without_first_", change->has_without_first,
              &change->without_first, change->verdict_without_first);
  scwi_csv_whole(csv, "read_again_n", change->repicked);
  add_without(csv, "read_again_", change->has_repicked,
              &change->with_repicked, change->verdict_with_repicked);
  add_family(csv, change, several);
  add_views(csv, change);
  add_references(csv, change);
  add_retention(csv, &change->retention);
  add_bank(csv, &change->bank);
  add_notes(csv, change->notes, change->n_notes);
  scwi_csv_text(csv, "sentence", change->sentence);
  add_instruments(csv, &change->instruments);
  scwi_csv_row(csv);
}

scw_status scwi_csv_change(scw_context *context,
                           const scw_change_result *result, scw_sink sink) {
  scwi_csv csv = scwi_csv_start(context, sink);
  const scw_change_report none = {0};
  change_row(&csv, &none, false);
  for (size_t i = 0; i < result->n_changes && !csv.status; i++)
    change_row(&csv, &result->changes[i], result->n_changes > 1);
  return scwi_csv_end(&csv);
}

static void grid_row(scwi_csv *csv, const scw_grid_row *row) {
  scwi_csv_number(csv, "effect", row->effect);
  scwi_csv_number(csv, "sd", row->sd);
  scwi_csv_figure(csv, "readings_per_side", row->readings_per_side);
  scwi_csv_figure(csv, "spots", row->spots);
  scwi_csv_row(csv);
}

scw_status scw_report_plan_grid(scw_context *context,
                                const scw_plan_grid_result *result,
                                scw_sink sink) {
  scwi_csv csv = scwi_csv_start(context, sink);
  const scw_grid_row none = {0};
  grid_row(&csv, &none);
  for (size_t i = 0; i < result->n && !csv.status; i++)
    grid_row(&csv, &result->row[i]);
  return scwi_csv_end(&csv);
}

static void plan_row(scwi_csv *csv, const scw_plan_result *result,
                     const scw_plan_row *row, bool chosen) {
  const scw_figure none = {0};
  scwi_csv_figure(csv, "readings_per_side", row->readings_per_side);
  scwi_csv_figure(csv, "spots", row->spots);
  scwi_csv_figure(csv, "half_width", row->half_width);
  scwi_csv_figure(csv, "detectable", row->detectable);
  scwi_csv_figure(csv, "power", row->power);
  scwi_csv_bool(csv, "chosen", chosen);
  scwi_csv_figure(csv, "assured", chosen ? result->assured : none);
  scwi_csv_figure(csv, "expected", chosen ? result->expected : none);
  scwi_csv_figure(csv, "top_up_total", chosen ? result->top_up_total : none);
  scwi_csv_figure(csv, "split_before", chosen ? result->split.before : none);
  scwi_csv_figure(csv, "split_after", chosen ? result->split.after : none);
  scwi_csv_row(csv);
}

scw_status scwi_csv_plan(scw_context *context, const scw_plan_result *result,
                         scw_sink sink) {
  if (result->request.scatter) return scwi_csv_designs(context, result, sink);
  scwi_csv csv = scwi_csv_start(context, sink);
  plan_row(&csv, result, &result->plan, false);
  for (size_t i = 0; i < result->n_table && i < SCW_PLAN_TABLE_ROWS; i++)
    plan_row(&csv, result, &result->table[i],
             scwi_plan_chosen(result, &result->table[i]));
  return scwi_csv_end(&csv);
}
