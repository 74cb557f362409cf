/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Everything about one claim, from what was kept of it. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "audit_inside.h"
#include "baseline.h"
#include "codes.h"
#include "comparison.h"
#include "decimal.h"
#include "figure.h"
#include "intervals.h"
#include "memory.h"
#include "rule_points.h"
#include "settle.h"
#include "two_sample.h"

SCWI_CODE_FUNCTION(scw_claim_verdict_code, scw_claim_verdict, SCW_CLAIM_LIST,
                   SCWI_KEY, SCW_CLAIM_VERDICT_END, "unknown")
SCWI_CODE_FUNCTION(scw_fault_code, scw_fault, SCW_FAULT_LIST, SCWI_KEY_OF_3,
                   SCW_FAULT_END, "unknown")
SCWI_CODE_FUNCTION(scw_fault_text, scw_fault, SCW_FAULT_LIST, SCWI_TEXT_OF_3,
                   SCW_FAULT_END, "unknown")
SCWI_CODE_FUNCTION(scw_claim_design_code, scw_claim_design,
                   SCW_CLAIM_DESIGN_LIST, SCWI_KEY_OF_3, SCW_CLAIM_DESIGN_END,
                   "unknown")
SCWI_CODE_FUNCTION(scw_claim_design_text, scw_claim_design,
                   SCW_CLAIM_DESIGN_LIST, SCWI_TEXT_OF_3, SCW_CLAIM_DESIGN_END,
                   "unknown")

scw_claim_verdict scwi_claim_verdict_of(const scw_audit *audit,
                                        const scwi_judged *judged,
                                        uint32_t faults, double q) {
  if (scwi_is_grave(faults)) return SCW_CLAIM_DISAGREES;
  if (judged->by_p)
    return q <= 1 - audit->settings.level ? SCW_CLAIM_BEYOND : SCW_CLAIM_WITHIN;
  if (judged->design > SCW_BY_POINTS) return SCW_CLAIM_NOT_JUDGED;
  return judged->stands ? SCW_CLAIM_ONLY_IF : SCW_CLAIM_WITHIN;
}

static scw_status take_faults(scw_context *context, uint32_t faults,
                              scw_claim *out) {
  scw_status status = SCWI_ALLOCATE(context, SCW_FAULT_END, &out->faults);
  for (int i = 0; i < SCW_FAULT_END && !status; i++)
    if (faults & (1U << i)) out->faults[out->n_faults++] = (scw_fault)i;
  return status;
}

/* The row's unit, else that of the headings. */
static const char *unit_of(const scw_audit *audit, const scwi_facts *facts) {
  const scw_input *input = scw_audit_input(audit);
  const char *own = facts->text[SCWI_OF_UNIT];
  return *own || !input ? own : input->unit;
}

static void take_texts(const scw_audit *audit, const scwi_facts *facts,
                       scw_claim *out) {
  out->product = facts->text[SCWI_OF_PRODUCT];
  out->category = facts->text[SCWI_OF_CATEGORY];
  out->date = facts->text[SCWI_OF_DATE];
  out->rule = facts->rule ? facts->rule->name : facts->text[SCWI_OF_RULE];
  out->method = facts->text[SCWI_OF_METHOD];
  out->geometry = facts->text[SCWI_OF_GEOMETRY];
  out->unit = unit_of(audit, facts);
  for (int side = 0; side < 2; side++) {
    out->panel[side] = facts->text[SCWI_OF_PANEL + side];
    out->meter[side] = facts->text[SCWI_OF_METER + side];
    out->session[side] = facts->text[SCWI_OF_SESSION + side];
  }
}

static scw_status name(scw_context *context, const scwi_record *record,
                       scw_claim *out) {
  char room[32];
  out->id = record->id;
  if (!*out->id) out->id = out->product;
  if (*out->id) return SCW_OK;
  int n = snprintf(room, sizeof room, "row %zu", out->line);
  scw_status status = scwi_copy_text(context, room, (size_t)n, &out->memory);
  out->id = status ? "" : out->memory;
  return status;
}

static void take_stated(const scwi_record *r, const scwi_facts *facts,
                        scw_claim_stated *out) {
  *out = (scw_claim_stated){.standard_error = r->standard_error,
                            .change = r->change,
                            .points = r->points};
  for (int side = 0; side < 2; side++) {
    out->mean[side] = r->mean[side];
    out->scatter[side] = r->scatter[side];
    out->n[side] = r->n[side];
    out->step[side] = facts->step[side] > 0 ? scwi_figure(facts->step[side])
                                            : scwi_missing(SCW_STEP_UNKNOWN);
  }
}

static scw_figure mean_on_file(const scwi_record *r, int side) {
  if (r->readings[side].n) return scwi_figure(r->readings[side].mean);
  return r->mean[side].has ? scwi_figure(r->mean[side].value)
                           : scwi_missing(SCW_NOT_COMPUTED);
}

static void take_points(const scw_rule *rule, scw_figure before,
                        scw_figure after, scw_figure change,
                        scw_claim_recomputed *out) {
  out->points = out->published = scwi_missing(SCW_NOT_COMPUTED);
  if (!rule || rule->kind == SCW_RULE_LADDER) return;
  bool sides = scwi_present(before) && scwi_present(after);
  if (sides) {
    scw_figure quantity = scwi_rule_quantity(rule, before.value, after.value);
    if (scwi_present(quantity))
      out->points = scwi_figure(scwi_rule_points(rule, quantity.value));
    out->published =
        scwi_rule_published(rule, before.value, after.value).points;
  } else if (rule->kind == SCW_RULE_DIFFERENCE && scwi_present(change)) {
    out->points = scwi_figure(scwi_rule_points(rule, change.value));
    out->published = scwi_figure(
        scwi_rule_published_image(rule, change.value, change.value).low);
  }
}

static void recompute(const scwi_record *r, const scwi_facts *facts,
                      scw_claim_recomputed *out) {
  for (int side = 0; side < 2; side++) {
    const scwi_record_side *own = &r->readings[side];
    out->n[side] = own->n;
    out->mean[side] =
        own->n ? scwi_figure(own->mean) : scwi_missing(SCW_NOT_COMPUTED);
    out->sd[side] = own->n > 1    ? scwi_figure(own->sd)
                    : own->n == 1 ? scwi_missing(SCW_ONE_READING)
                                  : scwi_missing(SCW_NOT_COMPUTED);
  }
  scw_figure before = mean_on_file(r, 0), after = mean_on_file(r, 1);
  out->change = scwi_missing(SCW_NOT_COMPUTED);
  if (r->paired)
    out->change = scwi_figure(r->paired_change);
  else if (scwi_present(before) && scwi_present(after))
    out->change =
        scwi_figure(scwi_decimal_difference(after.value, before.value));
  scw_figure change = scwi_present(out->change) ? out->change
                      : r->change.has ? scwi_figure(r->change.value)
                                      : out->change;
  take_points(facts->rule, before, after, change, out);
}

static scw_status by_p(scw_context *context, const scw_audit *audit,
                       const scwi_kept *kept, const scwi_judged *judged,
                       scw_claim *out) {
  scw_status status =
      scwi_estimate(context, judged->change.value, judged->u,
                    audit->settings.level, &out->change);
  /* a p that only the display step makes has no q either */
  bool family = !isnan(kept->q) && scwi_present(out->change.p);
  out->q_value = family ? scwi_figure(kept->q) : scwi_missing(SCW_NOT_COMPUTED);
  out->p_holm =
      family ? scwi_figure(kept->holm) : scwi_missing(SCW_NOT_COMPUTED);
  return status;
}

static scw_status break_even(scw_context *context, const scw_audit *audit,
                             const scwi_judged *judged, scw_claim *out) {
  return scwi_break_even_sd(context, judged->change.value, judged->n[0],
                            judged->n[1], judged->step[0], judged->step[1],
                            audit->settings.level, &out->break_even_sd);
}

static scw_status against_baseline(scw_context *context, const scw_audit *audit,
                                   const scwi_judged *judged, scw_claim *out) {
  scw_against_number against;
  scw_status status =
      scwi_against_number_at(context, judged->change.value, judged->u,
                             judged->step[0], audit->settings.level, &against);
  out->break_even_baseline_u = against.break_even_u;
  return status;
}

/* What no verdict by p covers: conditions, and what the bench says. */
static scw_status conditions(scw_context *context, const scw_audit *audit,
                             const scwi_judged *judged, scw_claim *out) {
  scw_status status = SCW_OK;
  bool sides = judged->n[0] && judged->n[1] && judged->n[0] + judged->n[1] > 2;
  if (judged->design == SCW_BY_BASELINE)
    status = against_baseline(context, audit, judged, out);
  else if (sides && (judged->design == SCW_BY_BREAK_EVEN ||
                     judged->design == SCW_BY_POINTS ||
                     judged->design == SCW_BY_BANK))
    status = break_even(context, audit, judged, out);
  if (!status && audit->scatter)
    status = scwi_sd_interval(context, audit->bank.sd, audit->bank.df,
                              audit->settings.level, &out->bank_sd);
  return status;
}

static scw_status settle(scw_context *context, const scw_audit *audit,
                         const scwi_judged *judged, scw_claim *out) {
  out->settle = (scw_settle){scwi_missing(SCW_NOT_COMPUTED),
                             scwi_missing(SCW_NOT_COMPUTED), false,
                             audit->settings.power};
  if (out->verdict == SCW_CLAIM_BEYOND) {
    out->settle.total = out->settle.more = scwi_missing(SCW_SETTLED);
    return SCW_OK;
  }
  if (!judged->by_p || audit->options.brief ||
      out->verdict != SCW_CLAIM_WITHIN)
    return SCW_OK;
  const scwi_comparison comparison = {
      .paired = judged->design == SCW_BY_PAIRS,
      .sd_before = judged->sd[0],
      .sd_after = judged->sd[1],
      .step = fmax(judged->step[0], judged->step[1]),
      .level = audit->settings.level};
  return scwi_settle(context, &comparison, judged->change.value,
                     scwi_missing(SCW_NO_MARGIN), judged->n[0], judged->n[1],
                     audit->settings.power, &out->settle);
}

scw_status scw_audit_claim(scw_context *context, const scw_audit *audit,
                           size_t index, scw_claim *out) {
  const scwi_kept *kept = &audit->kept[index];
  const scwi_facts *facts = scwi_facts_of(audit, index);
  scwi_record record;
  scwi_judged judged;
  *out = (scw_claim){
      .line = kept->line,
      .change = scwi_bare_estimate(NAN, SCW_NOT_COMPUTED,
                                   audit->settings.level),
      .q_value = scwi_missing(SCW_NOT_COMPUTED),
      .p_holm = scwi_missing(SCW_NOT_COMPUTED),
      .bank_sd = scwi_no_interval(SCW_NOT_COMPUTED, audit->settings.level)};
  scwi_audit_record_of(audit, index, &record);
  scwi_audit_judge(audit, &record, facts, &judged);
  uint32_t faults = scwi_audit_faults(&record, facts);
  out->design = judged.design;
  out->change.estimate = judged.change;
  out->verdict = scwi_claim_verdict_of(audit, &judged, faults, kept->q);
  take_texts(audit, facts, out);
  take_stated(&record, facts, &out->stated);
  recompute(&record, facts, &out->recomputed);
  scw_status status = name(context, &record, out);
  if (!status) status = take_faults(context, faults, out);
  if (!status && judged.by_p) status = by_p(context, audit, kept, &judged, out);
  if (!status) status = conditions(context, audit, &judged, out);
  if (!status) status = settle(context, audit, &judged, out);
  if (!status) status = scwi_claim_sentence(context, audit, out);
  if (status) scw_claim_free(out);
  return status;
}

void scw_claim_free(scw_claim *claim) {
  free(claim->faults);
  free(claim->sentence);
  free(claim->memory);
  *claim = (scw_claim){0};
}
