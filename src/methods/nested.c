/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "nested.h"

#include "component.h"
#include "figure.h"
#include "intervals.h"
#include "mean_squares.h"

/* Mean squares are per reading in the report, and per group mean inside: a
 * level's `per_group` turns one into the other. */
static scw_status component_at(scw_context *context, const scwi_tree *tree,
                               const scwi_mean_squares *squares, size_t d,
                               const scwi_limit_setting *setting,
                               scw_component *out) {
  size_t last = squares->levels - 1, n = 1;
  double per_group = d < last ? 1 / squares->share[d][last] : 1;
  scwi_square_term terms[SCWI_SQUARE_TERMS] = {
      {1 / per_group, per_group * squares->square[d], squares->df[d]}};
  for (size_t j = d + 1; j <= last; j++)
    if (squares->less[d][j] != 0)
      terms[n++] = (scwi_square_term){-squares->less[d][j], squares->square[j],
                                      squares->df[j]};
  return scwi_component_of(context, setting, terms, n,
                           tree->groups[tree->level[d]], out);
}

static scw_status components(scw_context *context, const scwi_tree *tree,
                             const scwi_mean_squares *squares,
                             scwi_limits_memo *memo, scw_nested *out) {
  scwi_limit_setting setting = {out->level, scwi_unscaled(&tree->centre, 1),
                                memo};
  scw_component *all[SCW_LEVEL_COUNT];
  scw_status status = SCW_OK;
  for (size_t l = 0; l < SCW_LEVEL_COUNT; l++) {
    all[l] = &out->component[l];
    *all[l] = scwi_no_component(tree->state[l], tree->groups[l], out->level);
  }
  for (size_t d = 0; d < squares->levels && status == SCW_OK; d++)
    status =
        component_at(context, tree, squares, d, &setting, all[tree->level[d]]);
  if (squares->levels) out->total_sd = scwi_share_out(all, SCW_LEVEL_COUNT);
  return status;
}

/* Readings that repeat within a display step show the step as much as their
 * scatter: measured, the interval of their SD then holds the truth less often
 * than it says. The levels above it hold. */
static const double steps_to_trust = 0.75;

static void mark_coarse(const scwi_sample *sample, scw_nested *out) {
  scw_component *lowest = &out->component[out->lowest];
  if (out->levels)
    lowest->approximate = lowest->sd.value < steps_to_trust * sample->step.size;
}

/* Why a mean without scatter has no uncertainty; else its uncertainty. What
 * the display step leaves counts by the scatter of all readings. */
static scw_presence uncertainty(const scwi_tree *tree,
                                const scwi_mean_squares *squares,
                                scwi_uncertainty *out) {
  const scwi_sample *sample = tree->centre.sample;
  double sd = scwi_unscaled(&tree->centre, scwi_scaled_sd(&tree->centre));
  scwi_moments all = {tree->n, 0, sd};
  if (tree->n < 2 || sd <= 0)
    return scwi_uncertainty_of_mean(all, sample->step, out);
  double root = sqrt(squares->square[0] / (squares->df[0] + 1));
  scwi_uncertainty scatter = {scwi_unscaled(&tree->centre, root),
                              squares->df[0]};
  scwi_uncertainty shown = {scwi_rounding_left(sd, sample->step.size),
                            INFINITY};
  *out = shown.u > 0 ? scwi_uncertainty_sum(scatter, shown) : scatter;
  return out->u > 0 ? SCW_PRESENT : SCW_NO_SCATTER;
}

static scw_status mean_of(scw_context *context, const scwi_tree *tree,
                          const scwi_mean_squares *squares, double level,
                          scw_estimate *out) {
  scwi_uncertainty u;
  double mean = scwi_mean_value(tree, tree->mean[0][0]);
  scw_presence state = uncertainty(tree, squares, &u);
  out->estimate = scwi_figure(mean);
  out->standard_uncertainty = out->df = scwi_missing(state);
  out->p = scwi_missing(SCW_NOT_COMPUTED);
  out->interval = scwi_no_interval(state, level);
  if (state != SCW_PRESENT) return SCW_OK;
  out->standard_uncertainty = scwi_figure(u.u);
  out->df = isfinite(u.df) ? scwi_figure(u.df) : scwi_missing(SCW_UNBOUNDED);
  return scwi_t_interval(context, mean, u, level, &out->interval);
}

scw_status scwi_nested(scw_context *context, const scwi_sample *sample,
                       const scwi_level_labels *labels, double level,
                       scwi_limits_memo *memo, scw_nested *out) {
  scwi_tree tree;
  scwi_mean_squares squares;
  *out = (scw_nested){.n = sample->n,
                      .level = level,
                      .total_sd = scwi_missing(SCW_ONE_READING)};
  scw_status status = scwi_tree_of(context, sample, labels, &tree);
  if (status == SCW_OK) status = scwi_mean_squares_of(context, &tree, &squares);
  if (status == SCW_OK) {
    out->levels = squares.levels;
    out->balanced = tree.balanced;
    out->top = squares.levels ? tree.level[0] : SCW_LEVEL_REPEAT;
    out->lowest = squares.levels ? tree.level[squares.levels - 1] : out->top;
    status = components(context, &tree, &squares, memo, out);
    mark_coarse(sample, out);
  }
  if (status == SCW_OK)
    status = mean_of(context, &tree, &squares, level, &out->mean);
  scwi_tree_free(&tree);
  return status;
}
