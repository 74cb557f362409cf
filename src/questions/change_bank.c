/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "change_bank.h"

#include <math.h>

#include "baseline.h"
#include "figure.h"
#include "multiplicity.h"
#include "pooled_scatter.h"
#include "words.h"

static const char *first_said(const char *a, const char *b) {
  return a && *a ? a : b;
}

scw_status scwi_find_bank(scw_context *context,
                          const scw_change_options *options,
                          const scw_scatter_wanted *readings, double divisor,
                          const scw_bench_scatter **entry, scwi_bank *out) {
  const scw_scatter_wanted *asked = &options->scatter;
  scw_scatter_wanted wanted = {
      .panel_type = asked->panel_type,
      .quantity = first_said(asked->quantity, readings->quantity),
      .unit = first_said(asked->unit, readings->unit),
      .geometry = first_said(asked->geometry, readings->geometry),
      .meter = asked->meter};
  *entry = NULL;
  *out = (scwi_bank){0};
  if (!options->bench) return SCW_OK;
  scw_status status =
      scw_bench_find_scatter(context, options->bench, &wanted, entry);
  if (!status) *out = (scwi_bank){(*entry)->sd / fabs(divisor), (*entry)->df};
  return status;
}

/* The independent samples behind a change. */
typedef struct sides {
  scwi_bank_side known[4]; /* those whose number of readings is known */
  size_t n_known, unknown;
  double number_step;      /* of a number of unknown readings */
  scwi_moments moments[4]; /* those with an SD of their own */
  size_t n_moments;
} sides;

static void add_readings(const scwi_values *values, scw_step step,
                         sides *to) {
  scwi_sample sample = scwi_values_sample(values, step);
  to->known[to->n_known++] = (scwi_bank_side){values->n, step.size};
  to->moments[to->n_moments++] = scwi_moments_of(&sample);
}

static void add_side(const scw_given_side *given, const scwi_values *values,
                     scw_step step, sides *to) {
  if (!given) {
    add_readings(values, step, to);
    return;
  }
  if (given->n == 0) {
    to->unknown++;
    to->number_step = given->step;
    return;
  }
  to->known[to->n_known++] = (scwi_bank_side){given->n, given->step};
  if (given->has_sd)
    to->moments[to->n_moments++] =
        (scwi_moments){given->n, given->mean, given->sd};
}

static sides sides_of(const scwi_change_case *one) {
  const scwi_compared *all = &one->compared;
  sides found = {.n_known = 0};
  add_side(all->given_before, &all->arm->before, one->step, &found);
  add_side(all->given_after, &all->arm->after, one->step, &found);
  if (all->control) {
    add_readings(&all->control->before, one->step, &found);
    add_readings(&all->control->after, one->step, &found);
  }
  return found;
}

/* Why a bank cannot judge this design, or SCW_PRESENT. */
static scw_presence obstacle(const scwi_change_case *one, const sides *all) {
  const scwi_arm *arm = one->compared.arm, *control = one->compared.control;
  if (arm->one_spot) return SCW_ONE_SPOT;
  if (arm->panels > 1 || (control && control->panels > 1))
    return SCW_PANELS_DIFFER;
  if (arm->paired || (control && control->paired)) return SCW_PAIRS_CANCEL;
  return all->unknown > 1 ? SCW_BARE_NUMBER : SCW_PRESENT;
}

/* With both numbers of readings known, the interval decides; else how good the
 * number has to be. */
static scw_status judge(scw_context *context, double change,
                        scwi_uncertainty u, const sides *all, double level,
                        scw_figure margin, scw_estimate *estimate,
                        scw_figure *break_even, scw_verdict *verdict) {
  scw_against_number found;
  if (all->unknown == 0) {
    scw_status status = scwi_estimate(context, change, u, level, estimate);
    *verdict = scwi_verdict(estimate->interval, margin);
    return status;
  }
  scw_status status = scwi_against_number_at(context, change, u,
                                             all->number_step, level, &found);
  *estimate = found.if_exact;
  *break_even = found.break_even_u;
  *verdict = found.verdict;
  return status;
}

/* What both allow. A conditional verdict of the readings is no verdict against
 * the bank's: it waits for just what the bank says. */
static void join(scw_change_report *report) {
  scw_bank_view *bank = &report->bank;
  scw_verdict own = bank->own_verdict;
  bank->alone = report->change.interval.state != SCW_PRESENT ||
                (own == SCW_CONDITIONAL && bank->verdict != SCW_CONDITIONAL);
  if (bank->alone)
    report->verdict = bank->verdict;
  else
    report->verdict = own == bank->verdict ? own : SCW_CANNOT_TELL;
  bool told = report->verdict != SCW_CANNOT_TELL;
  if (bank->alone && told)
    report->settle.total = report->settle.more = scwi_missing(SCW_SETTLED);
  else if (!told && own != SCW_CANNOT_TELL)
    report->settle.total = report->settle.more = scwi_missing(SCW_VIEWS_DIFFER);
}

static scw_status fill(scw_context *context, const scwi_change_case *one,
                       const sides *all, scw_change_report *report) {
  scw_bank_view *bank = &report->bank;
  double change = report->change.estimate.value;
  scwi_uncertainty own = scwi_pooled_sd(all->moments, all->n_moments);
  scwi_uncertainty u =
      scwi_bank_uncertainty(*one->bank, all->known, all->n_known);
  double level = one->settings->level;
  scw_estimate answer;
  bank->own_sd = own.df > 0 ? scwi_figure(own.u) : scwi_missing(SCW_ONE_READING);
  bank->own_df =
      own.df > 0 ? scwi_figure(own.df) : scwi_missing(SCW_ONE_READING);
  scwi_bank_f(*one->bank, own, &bank->f, &bank->f_p);
  scw_status status = judge(context, change, u, all, level, report->margin,
                            &bank->change, &bank->break_even_baseline_u,
                            &bank->verdict);
  if (!status && one->family > 1)
    status = judge(context, change, u, all,
                   scwi_bonferroni_level(level, one->family), report->margin,
                   &answer, &bank->break_even_baseline_u, &bank->verdict);
  if (!status && one->family > 1) bank->family_interval = answer.interval;
  return status;
}

scw_status scwi_change_bank(scw_context *context, const scwi_change_case *one,
                            scw_change_report *report) {
  scw_bank_view *bank = &report->bank;
  if (!one->bank) return SCW_OK;
  sides all = sides_of(one);
  *bank = (scw_bank_view){.state = obstacle(one, &all),
                          .sd = one->bank->sd,
                          .df = one->bank->df,
                          .verdict = SCW_NO_VERDICT,
                          .own_verdict = report->verdict};
  if (bank->state != SCW_PRESENT) return SCW_OK;
  scw_status status = fill(context, one, &all, report);
  if (!status) join(report);
  return status;
}

scw_verdict scwi_own_verdict(const scw_change_report *report) {
  return report->bank.state == SCW_NOT_COMPUTED ? report->verdict
                                                : report->bank.own_verdict;
}

static const char *why_not(scw_presence state) {
  switch (state) {
  case SCW_PAIRS_CANCEL:
    return "The readings are paired by spot, which takes the panel's scatter "
           "out of the change; the bank holds all of that scatter and would "
           "only blur the answer. It is not used here.";
  case SCW_PANELS_DIFFER:
    return "Panels are the unit here, and how much panels differ from each "
           "other is not in a bank. It is not used here.";
  case SCW_ONE_SPOT:
    return "All readings are of one spot; a bank of the panel's scatter says "
           "nothing about it. It is not used here.";
  default:
    return "Nobody says how many readings are behind either number, so the "
           "bank has nothing to work with. It is not used here.";
  }
}

scw_status scwi_bank_notes(scw_context *context, const scwi_change_case *one,
                           const scw_change_report *report,
                           scwi_notes *notes) {
  const scw_bank_view *bank = &report->bank;
  scwi_text text = {0};
  if (!one->bank) return SCW_OK;
  if (bank->state != SCW_PRESENT)
    return scwi_note(context, notes, "bank_not_used", "%s",
                     why_not(bank->state));
  bool unlike = scwi_present(bank->f_p) ? bank->f_p.value < 1 - one->settings->level
                                        : bank->f_p.state == SCW_OUT_OF_RANGE;
  if (!unlike) return SCW_OK;
  scwi_text_add(&text, "These readings scatter ");
  scwi_text_add(&text, bank->f.value > 1 ? "more" : "less");
  scwi_text_add(&text, " than the bank says (SD ");
  scwi_say_digits(&text, bank->own_sd.value, 2, report->unit);
  scwi_text_add(&text, " against ");
  scwi_say_digits(&text, bank->sd, 2, report->unit);
  scwi_text_add(&text, "), and chance alone rarely does that: is it the same "
                       "panel type, meter and care?");
  return scwi_note_take(context, notes, "unlike_the_bank", &text);
}
