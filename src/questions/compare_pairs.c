/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The comparisons, judged together. */
#include <math.h>
#include <stdlib.h>

#include "all_pairs.h"
#include "blocks.h"
#include "compare_inside.h"
#include "distributions.h"
#include "figure.h"
#include "many_to_one.h"
#include "memory.h"
#include "settle.h"
#include "verdict.h"

static size_t family(const scw_compare_result *out) {
  size_t n = out->n_products;
  return out->control < n ? n - 1 : n * (n - 1) / 2;
}

/* Place of spot `label` in the values; n for none. */
static size_t spot_place(const scwi_values *values, int32_t label) {
  size_t i = 0;
  while (i < values->n && values->spot[i] != label) i++;
  return i;
}

/* Spots are shared on one panel; where panels are the unit they take the place
 * of spots. */
static scw_status check_shared(scw_context *context,
                               const scwi_compare_run *run) {
  const scwi_contender *first = &run->contender[0];
  for (size_t i = 0; i < run->n; i++) {
    const scwi_contender *one = &run->contender[i];
    if (one->values.n == 0 || !one->values.by_spot)
      return scwi_fail_at(context, SCW_BAD_INPUT, run->facts.name, 0, 0,
                          "shared spots need a spot column, and every spot "
                          "read for every product (before and after, where "
                          "there are both)");
    if (one->panels < 2 && one->panel != first->panel)
      return scwi_fail_at(context, SCW_BAD_INPUT, run->facts.name, 0, 0,
                          "the products were read on different panels, so "
                          "they share no spots; leave out --shared-spots");
  }
  return SCW_OK;
}

/* value[product * spots + spot] of the spots that all products have. */
static scw_status matrix(scw_context *context, scwi_compare_run *run,
                         double **value, size_t *spots) {
  const scwi_values *first = &run->contender[0].values;
  size_t lost = 0;
  *spots = 0;
  scw_status status = check_shared(context, run);
  if (!status)
    status = SCWI_ALLOCATE(context, run->n * (first->n + 1), value);
  if (status) return status;
  for (size_t s = 0; s < first->n; s++) {
    bool everywhere = true;
    for (size_t i = 0; i < run->n && everywhere; i++) {
      const scwi_values *v = &run->contender[i].values;
      size_t at = spot_place(v, first->spot[s]);
      everywhere = at < v->n;
      if (everywhere) (*value)[i * first->n + *spots] = v->x[at];
    }
    *spots += everywhere;
  }
  for (size_t i = 0; i < run->n; i++) {
    lost += run->contender[i].values.n - *spots;
    for (size_t s = 0; s < *spots; s++) /* close the gaps, front to back */
      (*value)[i * *spots + s] = (*value)[i * first->n + s];
  }
  if (*spots < 2)
    return scwi_fail_at(context, SCW_BAD_INPUT, run->facts.name, 0, 0,
                        "fewer than two spots are shared by all products");
  if (lost)
    status = scwi_note(context, &run->notes, "spots_not_shared",
                       "%zu values are of spots that not all products were "
                       "read at, and take no part in the comparisons.",
                       lost);
  return status;
}

/* With the level of the spots taken out: the mean variance of the differences
 * is twice that of one product's figure. */
static double block_u(const scwi_adjusted *found, size_t n) {
  double sum = 0;
  size_t there = 0;
  for (size_t i = 0; i < n; i++) {
    scw_figure u = found[i].own.standard_uncertainty;
    if (!scwi_present(u)) continue;
    sum += u.value * u.value / 2;
    there++;
  }
  return there ? sqrt(sum / (double)there) : 0;
}

/* What is compared, and planned with, is the shared spots' part. */
static void take_shared(scwi_compare_run *run, const double *value,
                        size_t spots) {
  for (size_t i = 0; i < run->n; i++) {
    const scwi_sample part = {.n = spots, .x = value + i * spots};
    run->contender[i].entry.estimate = scwi_moments_of(&part).mean;
    run->contender[i].n_before = run->contender[i].n_after = spots;
  }
}

static scw_status by_blocks(scw_context *context, scwi_compare_run *run,
                            const scw_compare_result *out,
                            scwi_adjusted *found) {
  double *value = NULL;
  size_t spots;
  scw_status status = matrix(context, run, &value, &spots);
  const scwi_blocks blocks = {value, run->n, spots, run->step.size,
                              out->compared == SCW_COMPARED_CHANGES ? 2 : 1};
  if (!status)
    status = scwi_blocks_compare(context, &blocks, out->control,
                                 run->options.equal_sd, run->settings.level,
                                 found);
  if (!status) {
    size_t n = run->n > family(out) ? run->n : family(out);
    run->block_u = block_u(found, n);
    take_shared(run, value, spots);
  }
  free(value);
  return status;
}

static scw_status by_entries(scw_context *context, const scwi_compare_run *run,
                             const scw_compare_result *out,
                             scwi_adjusted *found) {
  scwi_entry *entries;
  bool equal = run->options.equal_sd;
  double level = run->settings.level;
  scw_status status = SCWI_ALLOCATE(context, run->n, &entries);
  for (size_t i = 0; i < run->n && !status; i++)
    entries[i] = run->contender[i].entry;
  if (!status && out->control < run->n)
    status = scwi_many_to_one(context, entries, run->n, out->control, equal,
                              level, found);
  else if (!status)
    status = scwi_all_pairs(context, entries, run->n, equal, level, found);
  free(entries);
  return status;
}

static scw_adjustment method_of(const scwi_compare_run *run,
                                const scw_compare_result *out) {
  bool control = out->control < out->n_products;
  if (run->options.equal_sd)
    return control ? SCW_ADJUST_DUNNETT : SCW_ADJUST_TUKEY;
  if (run->options.shared_spots) return SCW_ADJUST_HOLM;
  return control ? SCW_ADJUST_MAX_T : SCW_ADJUST_GAMES_HOWELL;
}

/* The level at which one interval alone would be as wide as the adjusted. */
static double level_alone(const scwi_adjusted *found) {
  double u = found->own.standard_uncertainty.value;
  double t = (found->interval.high - found->interval.low) / 2 / u;
  double df = scwi_present(found->own.df) ? found->own.df.value : INFINITY;
  return 1 - 2 * (isinf(df) ? scwi_normal_upper(t) : scwi_t_upper(t, df));
}

/* As one sample for planning: of pairs, or of both sides together. */
static double plan_sd(const scwi_contender *one) {
  const scwi_comparison *c = &one->plan;
  return c->paired || !one->n_before ? c->sd_before
                                     : hypot(c->sd_before, c->sd_after);
}

static size_t plan_n(const scwi_contender *one) {
  return one->n_before && one->n_before < one->n_after ? one->n_before
                                                       : one->n_after;
}

static scw_status settle(scw_context *context, const scwi_compare_run *run,
                         const scwi_adjusted *found,
                         scw_product_comparison *to) {
  const scwi_contender *one = &run->contender[to->product];
  const scwi_contender *other = &run->contender[to->against];
  scw_figure margin = run->options.margin > 0
                          ? scwi_figure(run->options.margin)
                          : scwi_missing(SCW_NO_MARGIN);
  double shown = sqrt(one->entry.sides); /* displayed values in a figure */
  scwi_comparison plan = {.sd_before = plan_sd(other), .sd_after = plan_sd(one),
                          .step = run->step.size * shown};
  to->settle = (scw_settle){.total = scwi_missing(SCW_SETTLED),
                            .more = scwi_missing(SCW_SETTLED),
                            .chance = run->settings.power};
  if (to->verdict != SCW_CANNOT_TELL) return SCW_OK;
  plan.level = level_alone(found);
  if (run->options.shared_spots) {
    size_t n = one->n_after;
    plan.paired = true;
    plan.sd_before = found->own.standard_uncertainty.value * sqrt((double)n);
    return scwi_settle(context, &plan, to->alone.estimate.value, margin, n, n,
                       run->settings.power, &to->settle);
  }
  scw_status status =
      scwi_settle(context, &plan, to->alone.estimate.value, margin,
                  plan_n(other), plan_n(one), run->settings.power, &to->settle);
  to->settle.per_spot = one->plan.paired && other->plan.paired;
  return status;
}

static scw_status take(scw_context *context, const scwi_compare_run *run,
                       size_t product, size_t against,
                       const scwi_adjusted *found, scw_compare_result *out) {
  scw_product_comparison *to = &out->comparison[out->n_comparisons++];
  scw_figure margin = run->options.margin > 0
                          ? scwi_figure(run->options.margin)
                          : scwi_missing(SCW_NO_MARGIN);
  *to = (scw_product_comparison){.product = product,
                                 .against = against,
                                 .alone = found->own,
                                 .interval = found->interval,
                                 .p_adjusted = found->p,
                                 .verdict =
                                     scwi_verdict(found->interval, margin)};
  bool differ = found->interval.state == SCW_PRESENT &&
                (found->interval.low > 0 || found->interval.high < 0);
  scw_compare_product *one = &out->product[product],
                      *other = &out->product[against];
  if (!differ) {
    one->tied[one->n_tied++] = against;
    other->tied[other->n_tied++] = product;
  }
  return settle(context, run, found, to);
}

static scw_status take_all(scw_context *context, const scwi_compare_run *run,
                           const scwi_adjusted *found,
                           scw_compare_result *out) {
  size_t n = run->n, control = out->control;
  scw_status status = SCWI_ALLOCATE(context, family(out), &out->comparison);
  for (size_t i = 0; i < n && !status && control < n; i++)
    if (i != control)
      status = take(context, run, i, control, &found[i], out);
  for (size_t i = 0; i < n && !status && control == n; i++)
    for (size_t j = i + 1; j < n && !status; j++)
      status = take(context, run, i, j, &found[scwi_pair_place(i, j, n)], out);
  return status;
}

scw_status scwi_compare_pairs(scw_context *context, scwi_compare_run *run,
                              scw_compare_result *out) {
  scwi_adjusted *found;
  size_t room = run->n > family(out) ? run->n : family(out);
  scw_status status = SCWI_ALLOCATE(context, room, &found);
  if (!status)
    status = run->options.shared_spots
                 ? by_blocks(context, run, out, found)
                 : by_entries(context, run, out, found);
  out->method = method_of(run, out);
  if (!status) status = take_all(context, run, found, out);
  free(found);
  return status;
}
