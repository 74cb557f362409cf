/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An audit as text: the answer, the claims sorted by what was found, what to
 * re-measure first, ranks, baselines, what changed. */
#include <string.h>

#include "figure.h"
#include "grid.h"
#include "number_text.h"
#include "number_words.h"
#include "reports.h"
#include "text_parts.h"
#include "wording.h"

enum { SHORT_LIST = 8 };

typedef struct page {
  scw_context *context;
  scw_status status;
  scwi_sheet sheet;
  const scw_audit *audit;
  bool all;
} page;

/* How many of n entries are shown. */
static size_t shown(const page *to, size_t n) {
  return to->all || n <= SHORT_LIST + 1 ? n : SHORT_LIST;
}

static void say_rest(page *to, size_t n) {
  if (shown(to, n) == n) return;
  scwi_text_format(&to->sheet.scratch, "... and %zu more; --all shows them.",
                   n - shown(to, n));
  scwi_sheet_hanging(&to->sheet, "", 0, to->sheet.scratch.data);
  scwi_sheet_clear_scratch(&to->sheet);
}

static void heading(page *to, const char *words, size_t n) {
  scwi_sheet_gap(&to->sheet);
  scwi_text_format(&to->sheet.scratch, "%s (%zu)", words, n);
  scwi_sheet_answer(&to->sheet, to->sheet.scratch.data);
  scwi_sheet_clear_scratch(&to->sheet);
}

static int decimals_of(const scw_claim *claim) {
  return scwi_decimals_of(claim->change.standard_uncertainty,
                          claim->change.estimate);
}

static void put_condition(scwi_text *text, const scw_claim *claim) {
  bool baseline = claim->design == SCW_BY_BASELINE;
  scw_figure figure =
      baseline ? claim->break_even_baseline_u : claim->break_even_sd;
  scwi_text_add(text, baseline ? "if the baseline is good to "
                               : "if the SD was below ");
  scwi_put_digits(text, figure.value, 2);
  if (claim->bank_sd.state != SCW_PRESENT || baseline) return;
  scwi_text_add(text, "; your bench: ");
  scwi_put_digits(text, claim->bank_sd.low, 2);
  scwi_text_add(text, " to ");
  scwi_put_digits(text, claim->bank_sd.high, 2);
}

static void put_q(scwi_text *text, const scw_claim *claim) {
  double q = claim->q_value.value;
  scwi_text_add(text, q < 0.0001 ? "q below" SCWI_TIE "0.0001" : "q" SCWI_TIE);
  if (q >= 0.0001) scwi_put_digits(text, q, 2);
}

static void put_within(scwi_text *text, const scw_claim *claim) {
  if (scwi_present(claim->q_value)) {
    put_q(text, claim);
  } else if (claim->design == SCW_BY_BASELINE) {
    scwi_text_add(text, "even were the baseline exact");
  } else {
    scwi_text_add(text, "no larger than the display steps");
  }
  if (!scwi_present(claim->settle.more)) return;
  scwi_text_format(text, ", about %zu more %s",
                   (size_t)claim->settle.more.value,
                   !claim->settle.per_spot          ? "a side"
                   : claim->settle.more.value == 1 ? "spot"
                                                    : "spots");
}

static void put_remark(scwi_text *text, const scw_claim *claim) {
  switch (claim->verdict) {
    case SCW_CLAIM_BEYOND:
      put_q(text, claim);
      break;
    case SCW_CLAIM_ONLY_IF: put_condition(text, claim); break;
    case SCW_CLAIM_WITHIN: put_within(text, claim); break;
    case SCW_CLAIM_DISAGREES:
      for (size_t i = 0; i < claim->n_faults; i++)
        scwi_text_format(text, "%s%s", i ? "; " : "",
                         scw_fault_text(claim->faults[i]));
      break;
    default: scwi_text_add(text, scw_claim_design_text(claim->design));
  }
}

static void add_row(scwi_grid *grid, const scw_claim *claim) {
  scwi_text text = {0};
  bool judged = claim->change.interval.state == SCW_PRESENT;
  scwi_text_format(&text, "%zu", claim->line);
  scwi_grid_cell(grid, claim->id);
  scwi_grid_cell(grid, claim->line ? text.data : NULL);
  scwi_grid_figure(grid, claim->change.estimate, decimals_of(claim));
  if (judged)
    scwi_grid_range(grid, claim->change.interval, decimals_of(claim));
  else
    scwi_grid_blanks(grid, 3);
  if (text.failed) grid->cells.failed = true;
  scwi_text_clear(&text);
  put_remark(&text, claim);
  scwi_grid_cell(grid, text.data);
  if (text.failed) grid->cells.failed = true;
  scwi_text_free(&text);
}

static size_t count(const scw_audit *audit, scw_claim_verdict verdict) {
  scw_audit_summary s = scw_audit_summary_of(audit);
  switch (verdict) {
    case SCW_CLAIM_BEYOND: return s.beyond;
    case SCW_CLAIM_ONLY_IF: return s.only_if;
    case SCW_CLAIM_WITHIN: return s.within;
    case SCW_CLAIM_DISAGREES: return s.figures_disagree;
    default: return s.not_judged;
  }
}

static void section(page *to, scw_claim_verdict verdict, const char *words) {
  static const scwi_column columns[] = {
      {"claim", SCWI_LEFT, 0, false, 5},   {"line", SCWI_RIGHT, 2, false, 4},
      {"change", SCWI_POINT, 2, false, 0}, {"interval", SCWI_POINT, 2, true, 0},
      {NULL, SCWI_LEFT, 1, false, 0},      {NULL, SCWI_POINT, 1, false, 0},
      {NULL, SCWI_LEFT, 3, false, 0}};
  scwi_grid grid = {.columns = columns,
                    .n_columns = sizeof columns / sizeof *columns};
  size_t n = count(to->audit, verdict), left = shown(to, n);
  if (!n || to->status) return;
  heading(to, words, n);
  for (size_t i = 0; left && !to->status; i++) {
    scw_claim claim;
    if (scw_audit_verdict(to->audit, i) != verdict) continue;
    to->status = scw_audit_claim(to->context, to->audit, i, &claim);
    if (to->status) break;
    add_row(&grid, &claim);
    scw_claim_free(&claim);
    left--;
  }
  scwi_sheet_grid(&to->sheet, &grid);
  say_rest(to, n);
}

/* Slips that leave the change to be judged are named apart. */
static void slips(page *to) {
  scw_audit_summary s = scw_audit_summary_of(to->audit);
  size_t n = s.with_faults - s.figures_disagree, left = shown(to, n);
  if (!n || to->status) return;
  heading(to, "Slips beside a change that could be judged", n);
  for (size_t i = 0; left && i < s.claims && !to->status; i++) {
    scw_claim claim;
    if (scw_audit_verdict(to->audit, i) == SCW_CLAIM_DISAGREES) continue;
    to->status = scw_audit_claim(to->context, to->audit, i, &claim);
    if (to->status) return;
    scwi_text *text = &to->sheet.scratch;
    for (size_t k = 0; k < claim.n_faults; k++)
      scwi_text_format(text, "%s%s", k ? "; " : "",
                       scw_fault_text(claim.faults[k]));
    if (claim.n_faults && scwi_present(claim.recomputed.published) &&
        claim.stated.points.has) {
      scwi_text_add(text, ": ");
      scwi_put_short(text, claim.stated.points.value, 6);
      scwi_text_add(text, " stated, ");
      scwi_put_short(text, claim.recomputed.published.value, 6);
      scwi_text_add(text, " by the rule");
    }
    if (claim.n_faults && claim.line)
      scwi_text_format(text, " (line %zu)", claim.line);
    if (claim.n_faults) scwi_sheet_labelled_scratch(&to->sheet, claim.id);
    left -= claim.n_faults > 0;
    scw_claim_free(&claim);
  }
  say_rest(to, n);
}

/* A claim's id beside text that is in scratch. */
static void labelled(page *to, size_t index) {
  scw_claim claim;
  if (!to->status)
    to->status = scw_audit_claim(to->context, to->audit, index, &claim);
  if (to->status) return;
  scwi_sheet_labelled_scratch(&to->sheet, claim.id);
  scw_claim_free(&claim);
}

static void work(page *to) {
  const scw_audit_work *of;
  size_t n = scw_audit_work_list(to->audit, &of);
  if (!n) return;
  heading(to, "What re-measuring would settle, cheapest first", n);
  for (size_t i = 0; i < shown(to, n) && !to->status; i++) {
    bool spots = of[i].settle.per_spot, one = of[i].settle.more.value == 1;
    scwi_text_format(&to->sheet.scratch, "about %zu more %s, %zu in all",
                     (size_t)of[i].settle.more.value,
                     one ? (spots ? "spot" : "reading a side")
                         : (spots ? "spots" : "readings a side"),
                     (size_t)of[i].settle.total.value);
    labelled(to, of[i].claim);
  }
  say_rest(to, n);
}

static void ranks(page *to) {
  const scw_audit_rank *of;
  size_t n = scw_audit_ranks(to->audit, &of), kept = 0, listed = 0;
  for (size_t i = 0; i < n; i++)
    kept += of[i].low > 1 || of[i].high < of[i].of;
  if (!n) return;
  heading(to, "Places that claims could hold, all pairs considered", n);
  if (!kept) {
    scwi_sheet_hanging(&to->sheet, "", 0,
                       "No rank survives: every claim could hold any place "
                       "among those it can be compared with.");
    return;
  }
  for (size_t i = 0; i < n && listed < shown(to, kept) && !to->status; i++) {
    if (of[i].low == 1 && of[i].high == of[i].of) continue;
    scwi_text *text = &to->sheet.scratch;
    if (of[i].low == of[i].high)
      scwi_text_format(text, "place %zu of %zu", of[i].low, of[i].of);
    else
      scwi_text_format(text, "places %zu to %zu of %zu", of[i].low, of[i].high,
                       of[i].of);
    labelled(to, of[i].claim);
    listed++;
  }
  say_rest(to, kept);
  if (kept < n) {
    scwi_text_format(&to->sheet.scratch, "The other %zu could hold any place.",
                     n - kept);
    scwi_sheet_hanging(&to->sheet, "", 0, to->sheet.scratch.data);
    scwi_sheet_clear_scratch(&to->sheet);
  }
}

static void put_slope(scwi_text *text, const scw_audit_baseline *of) {
  scw_interval ends = of->per_year.interval;
  scw_figure u = of->per_year.standard_uncertainty;
  if (ends.state != SCW_PRESENT) {
    scwi_text_add(text, scw_presence_text(ends.state));
    return;
  }
  bool drifts = ends.low > 0 || ends.high < 0;
  int decimals = scwi_decimals_for(u.value, ends.high);
  scwi_text_add(text, drifts ? "drifts by " : "no drift shown: ");
  scwi_put_range(text, ends.low, ends.high, decimals);
  scwi_text_format(text, " a year over %zu claims, %s to %s", of->claims,
                   of->first, of->last);
}

static void baselines(page *to) {
  const scw_audit_baseline *of;
  size_t n = scw_audit_baselines(to->audit, &of);
  if (!n) return;
  heading(to, "Baselines over their dates", n);
  for (size_t i = 0; i < shown(to, n); i++) {
    scwi_text label = {0};
    scwi_text_format(&label, "%s%s%s", of[i].panel,
                     *of[i].panel && *of[i].meter ? " " : "", of[i].meter);
    if (*of[i].method)
      scwi_text_format(&to->sheet.scratch, "%s: ", of[i].method);
    put_slope(&to->sheet.scratch, &of[i]);
    scwi_sheet_labelled_scratch(&to->sheet,
                                label.length ? label.data : "all");
    if (label.failed) to->sheet.text.failed = true;
    scwi_text_free(&label);
  }
  say_rest(to, n);
}

static void differences(page *to) {
  const scw_audit_difference *of;
  size_t n = scw_audit_differences(to->audit, &of);
  if (!n) return; /* nothing changed, or nothing to compare with */
  heading(to, "Changed since the earlier audit", n);
  for (size_t i = 0; i < shown(to, n); i++) {
    scwi_text *text = &to->sheet.scratch;
    if (!*of[i].was || !*of[i].is)
      scwi_text_add(text, of[i].why);
    else
      scwi_text_format(text, "%s, was %s: %s", of[i].is, of[i].was, of[i].why);
    scwi_sheet_labelled_scratch(&to->sheet, of[i].id);
  }
  say_rest(to, n);
}

scw_status scwi_text_audit(scw_context *context, const scw_audit *audit,
                           const scwi_inputs *inputs, bool all,
                           scw_report_options options, scw_sink sink) {
  page to = {context, SCW_OK, {.options = options}, audit, all};
  const scw_note *notes;
  size_t n = scw_audit_notes(audit, &notes);
  bool brief = scw_audit_options_of(audit)->brief;
  scwi_sheet_answer(&to.sheet, scw_audit_sentence(audit));
  if (!brief) {
    section(&to, SCW_CLAIM_BEYOND, "Beyond the scatter on file");
    section(&to, SCW_CLAIM_ONLY_IF, "Stand only if");
    section(&to, SCW_CLAIM_WITHIN, "Within the scatter: not shown, not refuted");
    section(&to, SCW_CLAIM_DISAGREES,
            "Figures do not agree: check n, step, transcription");
    section(&to, SCW_CLAIM_NOT_JUDGED, "Cannot be judged");
    slips(&to);
  }
  work(&to);
  ranks(&to);
  baselines(&to);
  differences(&to);
  scwi_sheet_gap(&to.sheet);
  scwi_sheet_notes(&to.sheet, notes, n);
  scwi_sheet_gap(&to.sheet);
  scwi_sheet_inputs(&to.sheet, inputs, (scw_step){0, SCW_STEP_UNSET}, "");
  scwi_sheet_settings(&to.sheet, scw_audit_settings(audit), SCWI_SET_POWER,
                      NULL);
  if (to.status) {
    scwi_sheet_free(&to.sheet);
    return to.status;
  }
  return scwi_sheet_send(context, &to.sheet, sink);
}
