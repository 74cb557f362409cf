/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "reml.h"

#include "figure.h"
#include "intervals.h"
#include "mean_squares.h"
#include "reml_search.h"

typedef struct fit {
  const scwi_tree *tree;
  scwi_likelihood likelihood;
  scwi_likelihood_at at;
  double variance[SCWI_TREE_DEPTH];
  double unit; /* of the likelihood, in the unit of the readings */
} fit;

/* From the mean squares, away from 0. */
static scw_status start(scw_context *context, fit *f) {
  scwi_mean_squares squares;
  double square_unit = f->likelihood.unit * f->likelihood.unit;
  scw_status status = scwi_mean_squares_of(context, f->tree, &squares);
  if (status != SCW_OK) return status;
  double rest = squares.square[f->tree->depth] / square_unit;
  for (size_t d = 0; d <= f->tree->depth; d++)
    f->variance[d] =
        fmax(scwi_variance_at(&squares, d) / square_unit, 0.1 * rest);
  return SCW_OK;
}

static void take_components(const fit *f, scw_reml *out) {
  double total = 0;
  for (size_t d = 0; d <= f->tree->depth; d++)
    total += f->variance[d];
  for (size_t d = 0; d <= f->tree->depth; d++) {
    scw_plan_level l = f->tree->level[d];
    out->sd[l] = scwi_figure(f->unit * sqrt(f->variance[d]));
    out->share[l] = scwi_figure(f->variance[d] / total);
    out->at_zero[l] = f->variance[d] <= 0;
  }
  double n = (double)f->tree->n, two_pi = 6.283185307179586477;
  double constants = (n - 1) * (log(two_pi) + 2 * log(f->unit));
  /* log |V| has log n for each lowest group, log var(mean) beside it */
  for (size_t g = 0; g < f->tree->count[f->tree->depth]; g++) {
    const size_t *first = f->tree->first[f->tree->depth] + g;
    constants += log((double)(first[1] - first[0]));
  }
  out->log_likelihood = scwi_figure(-(f->at.deviance.value + constants) / 2);
}

/* 2 g^2 / var(g) for g = var(mean) at the variances found. Below 0.5
 * the t distribution tells nothing any more. */
static scw_figure satterthwaite(const fit *f) {
  const scwi_jet *g = &f->at.mean_variance;
  size_t n = f->tree->depth + 1;
  double inverse[SCWI_JET_SLOPES][SCWI_JET_SLOPES], variance = 0;
  for (size_t i = 0; i < n; i++)
    if (f->variance[i] <= 0) return scwi_missing(SCW_AT_ZERO);
  if (!scwi_inverse_curves(&f->at.deviance, n, inverse))
    return scwi_missing(SCW_FLAT);
  for (size_t i = 0; i < n; i++)
    for (size_t j = 0; j < n; j++)
      variance += 2 * inverse[i][j] * g->slope[i] * g->slope[j];
  double df = 2 * g->value * g->value / variance;
  return df >= 0.5 ? scwi_figure(df) : scwi_missing(SCW_FLAT);
}

static scw_status take_mean(scw_context *context, const fit *f, double level,
                            scw_reml *out) {
  const scwi_sample *sample = f->tree->centre.sample;
  scwi_group_mean top = f->tree->mean[0][0];
  double left = scwi_rounding_left(
      scwi_unscaled(&f->tree->centre, f->likelihood.unit), sample->step.size);
  scwi_uncertainty u = {f->unit * sqrt(f->at.mean_variance.value), INFINITY};
  scw_figure df = satterthwaite(f);
  if (scwi_present(df)) u.df = df.value;
  if (left > 0) u = scwi_uncertainty_sum(u, (scwi_uncertainty){left, INFINITY});
  top.offset += f->at.mean * f->likelihood.unit;
  scw_estimate *mean = &out->mean;
  mean->estimate = scwi_figure(scwi_mean_value(f->tree, top));
  mean->standard_uncertainty = scwi_figure(u.u);
  mean->p = scwi_missing(SCW_NOT_COMPUTED);
  mean->df = scwi_present(df) ? scwi_figure(u.df) : df;
  mean->interval = scwi_no_interval(mean->df.state, level);
  if (!scwi_present(mean->df)) return SCW_OK;
  return scwi_t_interval(context, mean->estimate.value, u, level,
                         &mean->interval);
}

static scw_status fit_all(scw_context *context, fit *f, double level,
                          scw_reml *out) {
  scw_status status = scwi_likelihood_of(context, f->tree, &f->likelihood);
  f->unit = scwi_unscaled(&f->tree->centre, f->likelihood.unit);
  if (status == SCW_OK) status = start(context, f);
  if (status == SCW_OK)
    status = scwi_reml_search(context, &f->likelihood, f->variance, &f->at,
                              &out->steps);
  if (status == SCW_OK) {
    out->state = SCW_PRESENT;
    take_components(f, out);
    status = take_mean(context, f, level, out);
  }
  scwi_likelihood_free(&f->likelihood);
  return status;
}

static scw_reml none(scw_presence why, double level) {
  scw_figure missing = scwi_missing(why);
  scw_reml out = {.state = why,
                  .mean = {missing, missing, missing, missing,
                           scwi_no_interval(why, level)},
                  .log_likelihood = missing};
  for (size_t l = 0; l < SCW_LEVEL_COUNT; l++)
    out.sd[l] = out.share[l] = missing;
  return out;
}

scw_status scwi_reml(scw_context *context, const scwi_sample *sample,
                     const scwi_level_labels *labels, double level, scw_reml *out) {
  scwi_tree tree;
  *out = none(SCW_TOO_FEW, level);
  scw_status status = scwi_tree_of(context, sample, labels, &tree);
  if (status == SCW_OK && tree.depth > 0) {
    *out = none(SCW_NO_SCATTER, level);
    fit f = {.tree = &tree};
    if (tree.spread[tree.depth] > 0) {
      for (size_t l = 0; l < SCW_LEVEL_COUNT; l++)
        if (tree.state[l] != SCW_PRESENT)
          out->sd[l] = out->share[l] = scwi_missing(tree.state[l]);
      status = fit_all(context, &f, level, out);
    }
  }
  scwi_tree_free(&tree);
  return status;
}
