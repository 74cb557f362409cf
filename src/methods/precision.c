/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ISO 5725-2:1994, 7.4 (from memory): mean squares between and within, with its
 * average number of readings where laboratories differ in it. */
#include "precision.h"

#include <stdlib.h>

#include "component.h"
#include "figure.h"
#include "memory.h"
#include "odd_lab.h"
#include "sum.h"

scw_status scwi_lab_sums_of(scw_context *context, const scwi_tree *tree,
                            scwi_lab_sums *out) {
  size_t p = tree->count[1];
  const size_t *first = tree->first[1];
  *out = (scwi_lab_sums){.labs = p};
  scw_status status = SCWI_ALLOCATE(context, 3 * p, &out->n);
  if (status != SCW_OK) return status;
  out->apart = out->n + p;
  out->squares = out->apart + p;
  for (size_t i = 0; i < p; i++) {
    scwi_sum sum = {0};
    for (size_t j = first[i]; j < first[i + 1]; j++) {
      double far = scwi_mean_distance(tree, scwi_child_mean(tree, 1, j),
                                      tree->mean[1][i]);
      scwi_sum_add(&sum, far * far);
    }
    out->n[i] = (double)(first[i + 1] - first[i]);
    out->apart[i] =
        scwi_mean_distance(tree, tree->mean[1][i], tree->mean[0][0]);
    out->squares[i] = scwi_sum_of(sum);
  }
  out->within = tree->spread[1];
  out->df_within = (double)(tree->n - p);
  out->sd_of_means = sqrt(tree->spread[0] / (double)(p - 1));
  return SCW_OK;
}

/* The weighted mean, from the mean of means, and the mean square between. */
typedef struct between {
  double shift, per_lab;
  scwi_square_term square;
} between;

static between between_of(const scwi_lab_sums *s) {
  double n = 0, n2 = 0, df = (double)s->labs - 1;
  scwi_sum shift = {0}, squares = {0};
  for (size_t i = 0; i < s->labs; i++) {
    n += s->n[i];
    n2 += s->n[i] * s->n[i];
    scwi_sum_add(&shift, s->n[i] * s->apart[i]);
  }
  double mean = scwi_sum_of(shift) / n;
  for (size_t i = 0; i < s->labs; i++) {
    double far = s->apart[i] - mean;
    scwi_sum_add(&squares, s->n[i] * far * far);
  }
  double square = scwi_sum_of(squares) / df;
  return (between){mean, (n - n2 / n) / df, {1, square, df}};
}

static scw_status sds(scw_context *context, const scwi_lab_sums *s,
                      const between *b, const scwi_limit_setting *setting,
                      scw_precision *out) {
  scwi_square_term within = {1, s->within / s->df_within, s->df_within};
  scwi_square_term labs[] = {b->square, within};
  scwi_square_term both[] = {b->square, within};
  scwi_sd_limits repeat, reproduced;
  scw_component between_labs;
  labs[0].coefficient = both[0].coefficient = 1 / b->per_lab;
  labs[1].coefficient = -1 / b->per_lab;
  both[1].coefficient = 1 - 1 / b->per_lab;
  scw_status status = scwi_sd_of_terms(context, setting, &within, 1, &repeat);
  if (status == SCW_OK)
    status = scwi_sd_of_terms(context, setting, both, 2, &reproduced);
  if (status == SCW_OK)
    status =
        scwi_component_of(context, setting, labs, 2, s->labs, &between_labs);
  if (status == SCW_OK)
    status = scwi_limit_factor(context, setting->level, &out->limit_factor);
  if (status != SCW_OK) return status;
  out->f = between_labs.f;
  out->p = between_labs.p;
  out->between_variance = between_labs.variance;
  out->s_r = repeat.sd;
  out->s_l = between_labs.sd;
  out->s_R = scwi_figure(hypot(repeat.sd.value, between_labs.sd.value));
  out->s_r_interval = repeat.interval;
  out->s_R_interval = reproduced.interval;
  /* A negative component counts in the interval and not in the SD. */
  out->s_R_interval.high = fmax(out->s_R.value, reproduced.interval.high);
  out->r_limit = scwi_figure(out->limit_factor * out->s_r.value);
  out->R_limit = scwi_figure(out->limit_factor * out->s_R.value);
  return SCW_OK;
}

static scw_status list_labs(scw_context *context, const scwi_tree *tree,
                            const scwi_lab_sums *s, scw_precision *out) {
  double unit = scwi_unscaled(&tree->centre, 1);
  double s_r = sqrt(s->within / s->df_within);
  scw_status status = SCWI_ALLOCATE(context, s->labs, &out->lab);
  for (size_t i = 0; i < s->labs && status == SCW_OK; i++) {
    scw_lab *lab = &out->lab[i];
    double df = s->n[i] - 1;
    bool alone = df < 1;
    double sd = alone ? 0 : sqrt(s->squares[i] / df);
    scw_figure none = scwi_missing(alone ? SCW_ONE_READING : SCW_NO_SCATTER);
    lab->n = (size_t)s->n[i];
    lab->mean = scwi_figure(scwi_mean_value(tree, tree->mean[1][i]));
    lab->sd = alone ? none : scwi_figure(unit * sd);
    lab->h = s->sd_of_means > 0 ? scwi_figure(s->apart[i] / s->sd_of_means)
                                : scwi_missing(SCW_NO_SCATTER);
    lab->k = alone || s_r <= 0 ? none : scwi_figure(sd / s_r);
    status = scwi_k_limits(context, df, s->df_within, lab);
  }
  return status;
}

static scw_status fill(scw_context *context, const scwi_tree *tree,
                       const scwi_lab_sums *s, scw_precision *out) {
  scwi_limit_setting setting = {out->level, scwi_unscaled(&tree->centre, 1),
                                NULL};
  between b = between_of(s);
  scwi_group_mean mean = tree->mean[0][0];
  mean.offset += b.shift;
  out->mean = scwi_figure(scwi_mean_value(tree, mean));
  out->per_lab = scwi_figure(b.per_lab);
  scw_status status = sds(context, s, &b, &setting, out);
  if (status == SCW_OK) status = scwi_odd_variance(context, s, &out->cochran);
  if (status == SCW_OK) status = scwi_odd_mean(context, s, out);
  return status == SCW_OK ? list_labs(context, tree, s, out) : status;
}

static scw_precision none(const scwi_tree *tree, double level,
                          scw_presence why) {
  scw_figure missing = scwi_missing(why);
  scw_interval interval = scwi_no_interval(why, level);
  scw_odd_one nobody = {missing, missing, missing, missing, 0};
  return (scw_precision){.state = why,
                         .n = tree->n,
                         .labs = tree->groups[SCW_LEVEL_PANEL],
                         .balanced = tree->balanced,
                         .level = level,
                         .mean = missing,
                         .per_lab = missing,
                         .f = missing,
                         .p = missing,
                         .between_variance = missing,
                         .s_r = missing,
                         .s_l = missing,
                         .s_R = missing,
                         .s_r_interval = interval,
                         .s_R_interval = interval,
                         .r_limit = missing,
                         .R_limit = missing,
                         .cochran = nobody,
                         .grubbs = nobody,
                         .h_limit = missing,
                         .h_limit_strict = missing};
}

scw_status scwi_precision(scw_context *context, const scwi_sample *sample,
                          const uint32_t *lab_of, size_t labs, double level,
                          scw_precision *out) {
  scwi_level_labels labels = {{[SCW_LEVEL_PANEL] = lab_of}};
  scwi_tree tree;
  scwi_lab_sums sums = {0};
  *out = (scw_precision){.level = level};
  scw_status status = scwi_tree_of(context, sample, &labels, &tree);
  if (status == SCW_OK && tree.groups[SCW_LEVEL_PANEL] != labs)
    status = scwi_fail(context, SCW_BAD_ARGUMENT,
                       "a laboratory or operator has no reading");
  if (status == SCW_OK) {
    bool scatter = scwi_scaled_sd(&tree.centre) > 0;
    scw_presence why = tree.depth != 1 ? SCW_TOO_FEW
                       : !scatter      ? SCW_NO_SCATTER
                                       : SCW_PRESENT;
    *out = none(&tree, level, why);
    if (why == SCW_PRESENT) {
      status = scwi_lab_sums_of(context, &tree, &sums);
      if (status == SCW_OK) status = fill(context, &tree, &sums, out);
      free(sums.n);
    }
  }
  scwi_tree_free(&tree);
  if (status != SCW_OK) scwi_precision_free(out);
  return status;
}

void scwi_precision_free(scw_precision *precision) {
  free(precision->lab);
  precision->lab = NULL;
}
