/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was measured of each product, and the points each rule makes of it. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "arm_estimate.h"
#include "arm_forms.h"
#include "fieller.h"
#include "figure.h"
#include "intervals.h"
#include "memory.h"
#include "products.h"
#include "retention.h"
#include "rule_points.h"
#include "score_inside.h"
#include "two_sample.h"

/* One rule of the score and the table it takes its readings from. */
typedef struct part_run {
  scwi_score_run *run;
  const scw_rule *rule;
  size_t part;           /* of the score */
  const scw_table *table;
  scwi_table_facts facts;
  scwi_products products;
  scw_step step;
  int baseline;          /* place in `measured`, or SCWI_NOT_MEASURED */
  scwi_moments baseline_moments;
} part_run;

/* ---- products ---- */

static scw_status product_of(scw_context *context, scwi_score_run *run,
                             const char *name, size_t *out) {
  size_t parts = run->score->n_parts;
  int32_t label;
  scw_status status =
      scwi_labels_intern(context, &run->names, name, strlen(name), &label);
  if (status) return status;
  *out = (size_t)label;
  if (*out < run->n) return SCW_OK;
  status = SCWI_RESERVE(context, run->n + 1, &run->scored, &run->capacity);
  if (status) return status;
  scwi_scored *to = &run->scored[run->n];
  *to = (scwi_scored){.category = ""};
  status = SCWI_ALLOCATE(context, parts, &to->part);
  if (!status) status = SCWI_ALLOCATE(context, parts, &to->draw);
  if (!status) status = SCWI_ALLOCATE(context, parts, &to->state);
  run->n++; /* freed with the run, whatever is there of it */
  for (size_t i = 0; i < parts && !status; i++) {
    to->draw[i] = (scwi_standing_part){
        .rule = &run->rules[run->score->part[i].rule],
        .weight = run->score->part[i].weight,
        .before = SCWI_NOT_MEASURED, .after = SCWI_NOT_MEASURED};
    to->part[i] = (scw_scored_part){
        .rule = run->score->part[i].rule,
        .weight = run->score->part[i].weight,
        .quantity = scwi_missing(SCW_NOT_COMPUTED),
        .points = scwi_missing(SCW_NOT_COMPUTED),
        .published = scwi_missing(SCW_NOT_COMPUTED),
        .quantity_interval =
            scwi_no_interval(SCW_NOT_COMPUTED, run->settings.level),
        .interval = scwi_no_interval(SCW_NOT_COMPUTED, run->settings.level)};
  }
  return status;
}

static scw_status add_measured(scw_context *context, scwi_score_run *run,
                               double estimate, scwi_uncertainty u, int *out) {
  scw_status status = SCWI_RESERVE(context, run->n_measured + 1, &run->measured,
                                   &run->measured_capacity);
  if (status) return status;
  *out = (int)run->n_measured;
  run->measured[run->n_measured++] = (scwi_measured){estimate, u};
  return SCW_OK;
}

/* ---- one part of one product ---- */

static scwi_uncertainty u_of(const scw_estimate *estimate) {
  return (scwi_uncertainty){
      estimate->standard_uncertainty.value,
      scwi_present(estimate->df) ? estimate->df.value : INFINITY};
}

static void set_points(const part_run *p, double before, double after,
                       scw_scored_part *out) {
  out->points = out->quantity;
  if (!scwi_present(out->quantity)) return;
  out->points = scwi_figure(scwi_rule_points(p->rule, out->quantity.value));
  out->interval = scwi_rule_image(p->rule, out->quantity_interval);
  out->published = scwi_rule_published(p->rule, before, after).points;
}

/* A rule's quantity that is drawn as one number. */
static scw_status drawn_whole(scw_context *context, const part_run *p,
                              const scw_estimate *quantity, scwi_scored *to) {
  to->part[p->part].quantity = quantity->estimate;
  to->part[p->part].quantity_interval = quantity->interval;
  to->state[p->part] = quantity->interval.state;
  if (quantity->interval.state != SCW_PRESENT) return SCW_OK;
  return add_measured(context, p->run, quantity->estimate.value,
                      u_of(quantity), &to->draw[p->part].after);
}

/* Two sides that are drawn apart. */
static scw_status drawn_apart(scw_context *context, const part_run *p,
                              int before, scwi_moments after,
                              scwi_scored *to) {
  scwi_uncertainty u = scwi_mean_uncertainty(after.sd, after.n, p->step.size);
  to->draw[p->part].before = before;
  return add_measured(context, p->run, after.mean, u, &to->draw[p->part].after);
}

/* `factor`: 100 for a ratio that is no percent yet. */
static void take_ratio(const scw_ratio *ratio, double factor, double level,
                       scw_scored_part *out) {
  out->quantity = ratio->estimate;
  if (scwi_present(out->quantity)) out->quantity.value *= factor;
  out->quantity_interval = scwi_no_interval(
      ratio->state == SCW_PRESENT ? SCW_UNBOUNDED : ratio->state, level);
  if (ratio->state == SCW_PRESENT && ratio->set == SCW_RATIO_BETWEEN)
    out->quantity_interval = scwi_interval(factor * ratio->low.value,
                                           factor * ratio->high.value, level);
}

static scw_status change_part(scw_context *context, const part_run *p,
                              const scwi_arm *arm, scwi_scored *to) {
  scwi_arm_estimate found;
  scw_scored_part *out = &to->part[p->part];
  double level = p->run->settings.level;
  scw_status status =
      scwi_arm_estimate_of(context, arm, p->step, level, &found);
  if (status) return status;
  if (arm->one_spot)
    found.change = scwi_bare_estimate(found.change.estimate.value, SCW_ONE_SPOT,
                                      level);
  out->n = found.n_after;
  status = drawn_whole(context, p, &found.change, to);
  if (!status)
    set_points(p, scwi_arm_mean(arm, false), scwi_arm_mean(arm, true), out);
  return status;
}

/* Percent of before, drawn as one number of first order. */
static scw_status percent_part(scw_context *context, const part_run *p,
                               const scwi_arm *arm, scwi_scored *to) {
  scw_scored_part *out = &to->part[p->part];
  const scwi_compared sides = {.arm = arm};
  scwi_arm_estimate found;
  scw_ratio ratio = {0};
  double level = p->run->settings.level;
  scw_status status =
      scwi_arm_estimate_of(context, arm, p->step, level, &found);
  if (!status)
    status = scwi_retention(context, &sides, &found, level, &ratio);
  if (status) return status;
  out->n = found.n_after;
  take_ratio(&ratio, 1, level, out);
  if (arm->one_spot)
    out->quantity_interval = scwi_no_interval(SCW_ONE_SPOT, level);
  to->state[p->part] = out->quantity_interval.state;
  if (to->state[p->part] == SCW_PRESENT)
    status = add_measured(context, p->run, out->quantity.value,
                          (scwi_uncertainty){ratio.standard_uncertainty.value,
                                             ratio.df.value},
                          &to->draw[p->part].after);
  if (!status)
    set_points(p, scwi_arm_mean(arm, false), scwi_arm_mean(arm, true), out);
  return status;
}

/* Against a baseline that all products share. */
static scw_status shared_part(scw_context *context, const part_run *p,
                              scwi_moments after, scwi_scored *to) {
  scw_scored_part *out = &to->part[p->part];
  double level = p->run->settings.level, step = p->step.size;
  scwi_moments before = p->baseline_moments;
  scw_estimate change;
  scw_ratio ratio;
  scw_status status;
  out->n = after.n;
  if (p->rule->kind == SCW_RULE_PERCENT) {
    scwi_two_means means = scwi_means_apart(before, step, after, step);
    status = scwi_ratio_of_means(context, &means, level, &ratio);
    if (!status) take_ratio(&ratio, 100, level, out);
  } else {
    status = scwi_welch(context, before, after, step, step, level, &change);
    out->quantity = change.estimate;
    out->quantity_interval = change.interval;
  }
  to->state[p->part] = out->quantity_interval.state;
  if (!status && to->state[p->part] == SCW_PRESENT)
    status = drawn_apart(context, p, p->baseline, after, to);
  if (!status) set_points(p, before.mean, after.mean, out);
  return status;
}

/* Of the unit: readings, spots, or panels where there are several. */
static scw_status moments_of(scw_context *context, const part_run *p,
                             const size_t *index, size_t n,
                             scwi_moments *out) {
  scwi_arm arm = {0};
  *out = (scwi_moments){0};
  if (n == 0) return SCW_OK;
  scw_status status = scwi_arm_of(context, p->table, &p->facts, index, n, index,
                                  n, 1, &arm);
  if (!status && arm.after.n) {
    scwi_sample sample = scwi_values_sample(&arm.after, p->step);
    *out = scwi_moments_of(&sample);
  }
  scwi_arm_free(&arm);
  return status;
}

static scw_status mean_part(scw_context *context, const part_run *p,
                            scwi_moments m, scwi_scored *to) {
  double level = p->run->settings.level;
  scwi_uncertainty u = {0, 0};
  scw_presence state = m.n ? scwi_uncertainty_of_mean(m, p->step, &u)
                           : SCW_TOO_FEW;
  scw_estimate mean = scwi_bare_estimate(m.mean, state, level);
  scw_status status = SCW_OK;
  if (state == SCW_PRESENT)
    status = scwi_estimate(context, m.mean, u, level, &mean);
  to->part[p->part].n = m.n;
  if (!status) status = drawn_whole(context, p, &mean, to);
  if (!status) set_points(p, 0, m.mean, &to->part[p->part]);
  return status;
}

static scw_status check_marks(scw_context *context, const part_run *p,
                              const scwi_product *product) {
  const scw_reading *readings = scw_table_readings(p->table);
  double least = (p->rule->low - p->rule->offset) / p->rule->points *
                 p->rule->per;
  double most = (p->rule->high - p->rule->offset) / p->rule->points *
                p->rule->per;
  for (size_t i = 0; i < product->n_after; i++) {
    const scw_reading *r = &readings[product->after[i]];
    if (r->value < fmin(least, most) || r->value > fmax(least, most))
      return scwi_fail_at(context, SCW_BAD_INPUT, p->facts.name, r->line,
                          r->column,
                          "a mark outside the scale of the rule '%s'; correct "
                          "the cell, or the rule's low and high",
                          p->rule->name);
  }
  return SCW_OK;
}

static scw_status score_product(scw_context *context, const part_run *p,
                                const scwi_product *product) {
  size_t place;
  bool sides = p->rule->kind == SCW_RULE_DIFFERENCE ||
               p->rule->kind == SCW_RULE_PERCENT;
  scw_status status = product_of(
      context, p->run, scwi_product_name(p->table, product), &place);
  if (status) return status;
  scwi_scored *to = &p->run->scored[place];
  int32_t kind = product->n_after
                     ? scw_table_readings(p->table)[product->after[0]].kind
                     : SCW_NO_LABEL;
  if (kind != SCW_NO_LABEL) to->category = scw_table_label(p->table, kind);
  if (!sides || p->baseline != SCWI_NOT_MEASURED) {
    scwi_moments m;
    if (p->rule->kind == SCW_RULE_MARKS)
      status = check_marks(context, p, product);
    if (!status)
      status = moments_of(context, p, product->after, product->n_after, &m);
    if (status) return status;
    return sides ? shared_part(context, p, m, to)
                 : mean_part(context, p, m, to);
  }
  if (!product->n_before || !product->n_after) return SCW_OK; /* named later */
  scwi_arm_forms forms = {0};
  status = scwi_arm_forms_of(context, p->table, &p->facts, product, 1, false,
                             &forms);
  if (!status)
    status = p->rule->kind == SCW_RULE_PERCENT
                 ? percent_part(context, p, &forms.first, to)
                 : change_part(context, p, &forms.first, to);
  scwi_arm_forms_free(&forms);
  return status;
}

/* ---- one part ---- */

static scw_status take_baseline(scw_context *context, part_run *p) {
  const scwi_product *base = &p->products.control;
  const char *name = p->rule->baseline;
  scwi_moments m;
  if (!*name) return SCW_OK;
  scw_status status =
      moments_of(context, p, base->after, base->n_after, &m);
  p->baseline_moments = m;
  if (!status && m.n < 2)
    return scwi_fail_at(context, SCW_BAD_INPUT, p->facts.name, 0, 0,
                        "the baseline '%s' of the rule '%s' has %zu readings; "
                        "its scatter needs two or more",
                        name, p->rule->name, m.n);
  p->run->shared_baseline = true;
  if (status) return status;
  return add_measured(context, p->run, m.mean,
                      scwi_mean_uncertainty(m.sd, m.n, p->step.size),
                      &p->baseline);
}

static scw_status check_unit(scw_context *context, const part_run *p) {
  if (!*p->rule->unit || !*p->facts.unit ||
      !strcmp(p->rule->unit, p->facts.unit) ||
      p->rule->kind == SCW_RULE_PERCENT)
    return SCW_OK;
  return scwi_fail_at(context, SCW_BAD_INPUT, p->facts.name, 0, 0,
                      "the readings are in %s, the rule '%s' is made for %s; "
                      "bring both to one unit",
                      p->facts.unit, p->rule->name, p->rule->unit);
}

static scw_status read_part(scw_context *context, part_run *p) {
  bool sides = p->rule->kind == SCW_RULE_DIFFERENCE ||
               p->rule->kind == SCW_RULE_PERCENT;
  const char *baseline = *p->rule->baseline ? p->rule->baseline : NULL;
  bool all_after = !sides || baseline;
  scw_status status = scwi_table_facts_of(context, p->table, &p->run->settings,
                                          &p->facts);
  p->step = p->facts.step;
  if (!status) status = check_unit(context, p);
  if (!status)
    status = scwi_products_of(context, p->table, baseline, all_after,
                              &p->products);
  if (status == SCW_BAD_ARGUMENT)
    status = scwi_fail_at(context, SCW_BAD_INPUT, p->facts.name, 0, 0,
                          "no product and no panel is called '%s', which is "
                          "the baseline of the rule '%s'",
                          p->rule->baseline, p->rule->name);
  if (!status) status = take_baseline(context, p);
  for (size_t i = 0; i < p->products.n && !status; i++)
    status = score_product(context, p, &p->products.product[i]);
  scwi_products_free(&p->products);
  scwi_table_facts_free(&p->facts);
  return status;
}

/* The word that a table's readings go by. */
static const char *word_of(const scw_score_table *table) {
  if (table->reading) return table->reading;
  const scw_input *input = scw_table_input(table->table, 0);
  const char *header = input->role_column[SCW_ROLE_READING];
  return *input->quantity ? input->quantity : header ? header : "";
}

static bool fits(const scw_score_table *table, const scw_rule *rule) {
  const char *word = word_of(table);
  size_t n = strlen(rule->reading);
  if (table->reading && !strcmp(word, rule->name)) return true;
  return scwi_same_letters(word, rule->reading, strlen(word) < n ? strlen(word) + 1 : n) &&
         (!word[n] || word[n] == ' ' || word[n] == '(' || word[n] == '[');
}

static scw_status find_table(scw_context *context, const scwi_score_run *run,
                             const scw_rule *rule,
                             const scw_score_table **out) {
  *out = NULL;
  for (size_t i = 0; i < run->n_tables; i++) {
    if (!fits(&run->tables[i], rule)) continue;
    if (*out)
      return scwi_fail(context, SCW_BAD_INPUT,
                       "%s and %s both hold readings for the rule '%s'; give "
                       "one, or name what they hold (READING=FILE)",
                       scw_table_input((*out)->table, 0)->name,
                       scw_table_input(run->tables[i].table, 0)->name,
                       rule->name);
    *out = &run->tables[i];
  }
  if (*out) return SCW_OK;
  if (run->n_tables == 1 && run->score->n_parts == 1) {
    *out = run->tables;
    return SCW_OK;
  }
  return scwi_fail(context, SCW_BAD_INPUT,
                   "no file holds readings for the rule '%s', which takes "
                   "'%s'; head the readings so, or name the file: %s=FILE",
                   rule->name, rule->reading, rule->reading);
}

/* ---- ladders ---- */

static size_t ladders(const scwi_score_run *run) {
  size_t n = 0;
  for (size_t i = 0; i < run->score->n_parts; i++)
    n += run->rules[run->score->part[i].rule].kind == SCW_RULE_LADDER;
  return n;
}

static scw_status ladder_of(scw_context *context, scwi_score_run *run,
                            const scw_look *look, size_t part) {
  const scw_rule *rule = &run->rules[run->score->part[part].rule];
  const char *file = scw_table_input(run->options.looks->account, 0)->name;
  size_t place;
  scw_status status = product_of(context, run, look->product, &place);
  if (status) return status;
  scwi_scored *to = &run->scored[place];
  scw_scored_part *out = &to->part[part];
  if (to->state[part] == SCW_PRESENT)
    return scwi_fail_at(context, SCW_BAD_INPUT, file, look->line, 0,
                        "a second row for '%s'; give one for each product and "
                        "rule",
                        look->product);
  double level = run->settings.level;
  to->state[part] = SCW_PRESENT;
  to->draw[part].ok_at = look->ok_at;
  to->draw[part].gone_by = look->gone_by;
  out->n = 1;
  out->quantity = scwi_figure(look->ok_at);
  double most = scwi_ladder_reach(rule, look->ok_at, look->gone_by);
  out->quantity_interval = (scw_interval){
      look->ok_at, isfinite(look->gone_by) ? look->gone_by : look->ok_at, level,
      isfinite(look->gone_by) ? SCW_PRESENT : SCW_UNBOUNDED};
  out->points = scwi_figure(scwi_rule_points(rule, look->ok_at));
  out->published = out->points;
  out->interval = scwi_rule_image(
      rule, scwi_interval(look->ok_at, most, level));
  return SCW_OK;
}

static scw_status take_looks(scw_context *context, scwi_score_run *run) {
  const scw_looks *looks = run->options.looks;
  size_t several = ladders(run);
  scw_status status = SCW_OK;
  for (size_t i = 0; looks && i < looks->n && !status; i++) {
    const scw_look *look = &looks->look[i];
    bool found = false;
    for (size_t k = 0; k < run->score->n_parts && !status; k++) {
      const scw_rule *rule = &run->rules[run->score->part[k].rule];
      if (rule->kind != SCW_RULE_LADDER ||
          (*look->rule ? strcmp(look->rule, rule->name) : several > 1))
        continue;
      found = true;
      status = ladder_of(context, run, look, k);
    }
    if (!status && !found)
      status = scwi_fail_at(
          context, SCW_BAD_INPUT, scw_table_input(looks->account, 0)->name,
          look->line, 0,
          several ? "the row does not say which ladder of the score it is for; "
                    "add a column rule with the rule's name"
                  : "the score has no ladder that looks could be for");
  }
  return status;
}

/* A file that no rule of the score takes is a slip, not an extra. */
static scw_status check_used(scw_context *context, const scwi_score_run *run) {
  bool only = run->n_tables == 1 && run->score->n_parts == 1;
  for (size_t i = 0; i < run->n_tables && !only; i++) {
    bool used = false;
    for (size_t k = 0; k < run->score->n_parts && !used; k++) {
      const scw_rule *rule = &run->rules[run->score->part[k].rule];
      used = rule->kind != SCW_RULE_LADDER && fits(&run->tables[i], rule);
    }
    if (!used)
      return scwi_fail_at(context, SCW_BAD_INPUT,
                          scw_table_input(run->tables[i].table, 0)->name, 0, 0,
                          "no rule of the score '%s' takes readings of '%s'; "
                          "leave the file out, or say what it holds "
                          "(READING=FILE)",
                          run->score->name, word_of(&run->tables[i]));
  }
  return SCW_OK;
}

scw_status scwi_score_parts(scw_context *context, scwi_score_run *run) {
  scw_status status = SCW_OK;
  for (size_t i = 0; i < run->score->n_parts && !status; i++) {
    part_run p = {.run = run, .part = i, .baseline = SCWI_NOT_MEASURED,
                  .rule = &run->rules[run->score->part[i].rule]};
    const scw_score_table *table;
    if (p.rule->kind == SCW_RULE_LADDER) continue;
    status = find_table(context, run, p.rule, &table);
    if (status) break;
    p.table = table->table;
    status = read_part(context, &p);
  }
  if (!status && ladders(run) && !run->options.looks)
    status = scwi_fail(context, SCW_BAD_INPUT,
                       "the score has a ladder, but no file of looks (product, "
                       "ok at, gone by) was given");
  if (!status) status = check_used(context, run);
  return status ? status : take_looks(context, run);
}

void scwi_score_run_free(scwi_score_run *run) {
  for (size_t i = 0; i < run->n; i++) {
    free(run->scored[i].part);
    free(run->scored[i].draw);
    free(run->scored[i].state);
  }
  free(run->scored);
  free(run->measured);
  scwi_labels_free(&run->names);
  scwi_notes_free(run->notes.note, run->notes.n);
}
