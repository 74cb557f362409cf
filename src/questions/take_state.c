/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the readings taken so far say, and what that means for going on. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "anytime.h"
#include "arm_estimate.h"
#include "creep.h"
#include "figure.h"
#include "friction.h"
#include "intervals.h"
#include "memory.h"
#include "stand_out.h"
#include "table_facts.h"
#include "take_inside.h"
#include "take_notes.h"
#include "top_up.h"

/* The values that the figures are about, in reading order. */
typedef struct view {
  scw_context *context;
  const scw_take *take;
  scw_take_state *out;
  scwi_table_facts facts;
  size_t *after, n_after;  /* what counts, first readings only */
  scwi_arm arm;            /* of a change */
  scwi_values values;      /* readings, spot means or differences */
  scwi_sample sample;
  scwi_moments moments;
  double rounding;         /* half-width that the display adds at every look */
  double sides;            /* see scwi_display */
} view;

static scw_status copy(scw_context *context, const char *text, char **out) {
  text = text ? text : "";
  return scwi_copy_text(context, text, strlen(text), out);
}

/* ---- what was taken ---- */

static scw_status tell_last(view *v) {
  const scw_take *take = v->take;
  scw_take_state *out = v->out;
  const scwi_taken *last = scwi_take_find(take, 0);
  const char *next;
  out->taken_back = take->taken_back;
  out->undone = take->undone;
  out->readings = take->n_taken - take->taken_back;
  for (size_t i = 0; i < take->n_taken; i++)
    out->read_again += !take->taken[i].gone && take->taken[i].replaces;
  out->last = last ? (size_t)last->reading.order : 0;
  scw_status status =
      copy(v->context, last ? last->text : "", &out->last_reading);
  if (!status)
    status = copy(v->context, last ? last->spot : "", &out->last_spot);
  if (!status) status = copy(v->context, take->form.unit, &out->unit);
  if (!status)
    status = scwi_take_next(v->context, take, &next, &out->spots_left);
  return status ? status : copy(v->context, next, &out->next_spot);
}

static scw_status list_after(view *v) {
  size_t n = scw_table_size(v->take->table);
  scw_status status = SCWI_ALLOCATE(v->context, n, &v->after);
  for (size_t i = v->take->baseline; i < n && !status; i++)
    if (scw_table_readings(v->take->table)[i].replaces == SCW_NO_LABEL)
      v->after[v->n_after++] = i;
  return status;
}

/* ---- the values ---- */

/* Pairs in the order in which their spots were read now. */
typedef struct pair {
  size_t after, before;
} pair;

static int by_after(const void *left, const void *right) {
  const pair *a = left, *b = right;
  return (a->after > b->after) - (a->after < b->after);
}

static scw_status differences(view *v) {
  scwi_arm *arm = &v->arm;
  pair *pairs;
  scw_status status = SCWI_ALLOCATE(v->context, arm->n_pairs, &pairs);
  if (status) return status;
  for (size_t i = 0; i < arm->n_pairs; i++)
    pairs[i] = (pair){arm->pair_after[i], arm->pair_before[i]};
  qsort(pairs, arm->n_pairs, sizeof *pairs, by_after);
  for (size_t i = 0; i < arm->n_pairs; i++) {
    arm->pair_after[i] = pairs[i].after;
    arm->pair_before[i] = pairs[i].before;
  }
  free(pairs);
  return scwi_arm_differences(v->context, arm, &v->values);
}

static scw_status make_arm(view *v) {
  const scw_take *take = v->take;
  return scwi_arm_of(v->context, take->table, &v->facts, take->before,
                     take->n_before, v->after, v->n_after, 1, &v->arm);
}

static scw_status make_values(view *v) {
  if (v->n_after == 0) return SCW_OK;
  scw_status status = v->take->baseline ? make_arm(v) : SCW_OK;
  if (status) return status;
  if (!v->out->paired)
    status = scwi_values_of(v->context, v->take->table, &v->facts.decimals,
                            v->after, v->n_after, 1, &v->values);
  else if (v->arm.paired)
    status = differences(v);
  if (!status && v->values.n) {
    v->sample = scwi_values_sample(&v->values, v->out->step);
    v->moments = scwi_moments_of(&v->sample);
  }
  v->out->n = v->values.n;
  return status;
}

/* ---- the figures ---- */

static void no_figures(scw_take_state *out, scw_presence why) {
  double level = out->settings.level;
  out->mean = out->sd = scwi_missing(why);
  out->interval = out->anytime = scwi_no_interval(why, level);
}

static scw_status of_one_set(view *v) {
  scw_take_state *out = v->out;
  scwi_uncertainty u;
  double level = out->settings.level;
  out->mean = scwi_figure(v->moments.mean);
  v->rounding = out->step.size / 2;
  out->anytime = scwi_anytime_interval(v->moments, v->rounding, level, out->g);
  scw_presence state = scwi_uncertainty_of_mean(v->moments, out->step, &u);
  out->interval = scwi_no_interval(state, level);
  return state == SCW_PRESENT ? scwi_t_interval(v->context, v->moments.mean, u,
                                                level, &out->interval)
                              : SCW_OK;
}

static scw_status of_pairs(view *v) {
  scw_take_state *out = v->out;
  scwi_arm_estimate estimate;
  double level = out->settings.level;
  scw_status status = scwi_arm_estimate_of(v->context, &v->arm, out->step,
                                           level, &estimate);
  if (status) return status;
  out->mean = estimate.change.estimate;
  out->interval = estimate.change.interval;
  v->sides = estimate.comparison.sides;
  v->rounding = out->step.size;
  out->anytime = scwi_anytime_interval(v->moments, v->rounding, level, out->g);
  out->e_value =
      scwi_anytime_e_value(v->moments, 0, v->rounding, out->g);
  return SCW_OK;
}

/* Without pairs only the new readings are looked at again and again; the
 * baseline was looked at once. Each side gets half of alpha: the anytime
 * interval of the new mean less the t interval of the old one. */
static scw_status of_sides(view *v) {
  scw_take_state *out = v->out;
  double level = out->settings.level, each = (1 + level) / 2;
  scwi_arm_estimate estimate;
  scwi_uncertainty u;
  scw_interval before = {0};
  scw_status status = scwi_arm_estimate_of(v->context, &v->arm, out->step,
                                           level, &estimate);
  if (status) return status;
  out->mean = estimate.change.estimate;
  out->interval = estimate.change.interval;
  v->rounding = out->step.size / 2;
  scwi_sample sample = scwi_values_sample(&v->arm.before, out->step);
  scwi_moments old = scwi_moments_of(&sample);
  scw_presence state = scwi_uncertainty_of_mean(old, out->step, &u);
  scw_interval now =
      scwi_anytime_interval(v->moments, v->rounding, each, out->g);
  if (state == SCW_PRESENT) state = now.state;
  out->anytime = scwi_no_interval(state, level);
  if (state != SCW_PRESENT) return SCW_OK;
  status = scwi_t_interval(v->context, old.mean, u, each, &before);
  out->anytime =
      scwi_interval(now.low - before.high, now.high - before.low, level);
  return status;
}

static scw_status make_figures(view *v) {
  scw_take_state *out = v->out;
  if (v->values.n == 0) {
    no_figures(out, SCW_TOO_FEW);
    return SCW_OK;
  }
  no_figures(out, SCW_ONE_READING);
  if (v->moments.n > 1) out->sd = scwi_figure(v->moments.sd);
  return out->paired       ? of_pairs(v)
         : out->change     ? of_sides(v)
                           : of_one_set(v);
}

/* By how much the spot read last changed. */
static void tell_change(view *v) {
  const scwi_taken *last = scwi_take_find(v->take, 0);
  v->out->last_change = scwi_missing(SCW_NOT_COMPUTED);
  for (size_t i = 0; last && v->out->paired && i < v->values.n; i++)
    if (v->values.spot[i] == last->reading.spot)
      v->out->last_change = scwi_figure(v->values.x[i]);
}

/* ---- the rules ---- */

/* What the display leaves in a mean of values with this SD, as a standard
 * uncertainty. */
static double display_left(const view *v, double sd) {
  double q = v->out->step.size;
  if (!v->out->paired) return scwi_rounding_left(sd, q);
  return sqrt(fmax(fmax(q * q / 6 - 2 * sd * sd / 3, v->sides * v->sides), 0));
}

static scw_status top_up(view *v) {
  scw_take_state *out = v->out;
  size_t m = v->take->options.readings;
  double level = out->settings.level;
  out->top_up_total = scwi_missing(SCW_TOO_FEW);
  out->top_up = scwi_no_interval(SCW_TOO_FEW, level);
  if (v->values.n < m) return SCW_OK;
  scwi_sample first = v->sample;
  first.n = m;
  double sd = scwi_moments_of(&first).sd;
  scw_status status =
      scwi_top_up_total(v->context, sd, m, level, v->take->options.half_width,
                        &out->top_up_total);
  if (status) return status;
  return scwi_top_up_interval(v->context, v->moments.mean, v->moments.n, sd, m,
                              display_left(v, sd), level, &out->top_up);
}

static bool is_inside(scw_interval interval, double half_width) {
  return interval.state == SCW_PRESENT &&
         (interval.high - interval.low) / 2 <= half_width;
}

static scw_advice judge_anytime(const view *v) {
  const scw_take_options *asked = &v->take->options;
  const scw_take_state *out = v->out;
  if (asked->half_width > 0) {
    if (v->rounding >= asked->half_width) return SCW_ADVICE_NEVER;
    return is_inside(out->anytime, asked->half_width) ? SCW_ADVICE_STOP
                                                      : SCW_ADVICE_GO_ON;
  }
  switch (out->verdict) {
    case SCW_CHANGED:
    case SCW_CHANGED_BUT_SMALL:
    case SCW_NO_CHANGE_BEYOND_MARGIN:
      return SCW_ADVICE_STOP;
    default:
      return SCW_ADVICE_GO_ON;
  }
}

static scw_advice judge_top_up(const view *v) {
  scw_figure total = v->out->top_up_total;
  if (total.state == SCW_TOO_MANY) return SCW_ADVICE_NEVER;
  if (!scwi_present(total) || (double)v->out->n < total.value)
    return SCW_ADVICE_GO_ON;
  return is_inside(v->out->top_up, v->take->options.half_width) ||
                 v->out->top_up.state == SCW_NO_SCATTER
             ? SCW_ADVICE_STOP
             : SCW_ADVICE_NEVER;
}

static scw_advice judge(const view *v) {
  switch (v->take->options.rule) {
    case SCW_TAKE_PLAN:
      return v->out->n >= v->take->options.readings ? SCW_ADVICE_STOP
                                                    : SCW_ADVICE_GO_ON;
    case SCW_TAKE_TOP_UP: return judge_top_up(v);
    case SCW_TAKE_ANYTIME: return judge_anytime(v);
    default: return SCW_ADVICE_NONE;
  }
}

static scw_status advise(view *v) {
  scw_take_state *out = v->out;
  double margin = v->take->options.margin;
  scw_status status = SCW_OK;
  out->rule = v->take->options.rule;
  out->top_up_total = scwi_missing(SCW_NOT_COMPUTED);
  out->top_up = scwi_no_interval(SCW_NOT_COMPUTED, out->settings.level);
  if (out->rule == SCW_TAKE_TOP_UP) status = top_up(v);
  if (status) return status;
  out->verdict = SCW_NO_VERDICT;
  if (out->change)
    out->verdict = scwi_verdict(
        out->rule == SCW_TAKE_ANYTIME  ? out->anytime
        : out->rule == SCW_TAKE_TOP_UP ? out->top_up
                                       : out->interval,
        margin > 0 ? scwi_figure(margin) : scwi_missing(SCW_NO_MARGIN));
  out->advice = judge(v);
  bool listed = v->take->n_places || out->paired;
  if (out->advice == SCW_ADVICE_GO_ON && listed && out->spots_left == 0)
    out->advice = SCW_ADVICE_NO_MORE;
  out->stop = out->advice != SCW_ADVICE_GO_ON && out->advice != SCW_ADVICE_NONE;
  return scwi_take_sentence(v->context, v->take, v->rounding, out);
}

/* ---- what to be aware of ---- */

static scw_status notes(view *v) {
  scwi_notes found = {0};
  scwi_workings workings = {0};
  scw_summary *summary = NULL; /* large */
  scw_status status = SCWI_ALLOCATE(v->context, 1, &summary);
  if (!status && v->values.n >= 3) {
    status = scwi_workings_of(v->context, &v->sample, &workings);
    if (!status)
      status = scwi_stand_out(v->context, &workings, v->out->settings.stand_out,
                              v->out->settings.candidates,
                              &summary->stand_out);
    if (!status)
      status = scwi_creep(v->context, &workings, v->out->settings.level,
                          &summary->creep);
    scwi_workings_free(&workings);
  }
  if (!status)
    status = scwi_take_notes(v->context, v->take, v->out, &v->values, &v->arm,
                             summary, &found);
  if (!status && scwi_is_friction(v->take->form.quantity))
    status = scwi_friction_caution(v->context, &found);
  free(summary);
  v->out->notes = found.note;
  v->out->n_notes = found.n;
  return status;
}

scw_status scw_take_state_of(scw_context *context, const scw_take *take,
                             scw_take_state *out) {
  view v = {.context = context, .take = take, .out = out};
  *out = (scw_take_state){.settings = take->settings,
                          .g = take->options.g,
                          .by_spot = take->form.spots,
                          .change = take->baseline > 0,
                          .paired = scwi_take_is_paired(take),
                          .e_value = {0, SCW_NOT_COMPUTED}};
  scw_status status = tell_last(&v);
  if (!status && scw_table_size(take->table))
    status = scwi_table_facts_of(context, take->table, &take->settings,
                                 &v.facts);
  out->step = v.facts.step;
  if (!status) status = list_after(&v);
  if (!status) status = make_values(&v);
  if (!status) status = make_figures(&v);
  if (!status) status = advise(&v);
  if (!status) status = notes(&v);
  if (!status) tell_change(&v);
  scwi_table_facts_free(&v.facts);
  scwi_arm_free(&v.arm);
  scwi_values_free(&v.values);
  free(v.after);
  if (status) scw_take_state_free(out);
  return status;
}

void scw_take_state_free(scw_take_state *state) {
  free(state->unit);
  free(state->last_spot);
  free(state->last_reading);
  free(state->sentence);
  free(state->next_spot);
  scwi_notes_free(state->notes, state->n_notes);
  *state = (scw_take_state){0};
}
