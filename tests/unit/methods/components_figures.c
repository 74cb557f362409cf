/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Answers questions about components of scatter for the judge in R. Labels
 * are numbers; three columns of them (panel, session, spot) come before the
 * readings, a column of zeros counts as absent. */
#include <math.h>

#include "crossed.h"
#include "figures_filter.h"
#include "precision.h"
#include "reml.h"

static uint32_t label[SCW_LEVEL_REPEAT][MOST_READINGS];

static void take_labels(char **rest, size_t n, uint32_t *out) {
  for (size_t i = 0; i < n; i++)
    out[i] = (uint32_t)take_count(rest);
}

/* n, the labels, and the readings with their number once more. */
static scwi_level_labels take_nested(char **rest, readings *data) {
  scwi_level_labels labels = {{NULL}};
  size_t n = take_count(rest);
  for (size_t l = 0; l < SCW_LEVEL_REPEAT; l++) {
    take_labels(rest, n, label[l]);
    if (n && label[l][0] > 0) labels.label[l] = label[l];
  }
  take_readings(rest, data);
  return labels;
}

enum { EACH = 10 };
static void list_component(const scw_component *c, double *out) {
  double values[EACH] = {shown(c->df),       shown(c->mean_square),
                         shown(c->variance), c->interval.low,
                         c->interval.high,   shown(c->at_most),
                         shown(c->share),    shown(c->f),
                         shown(c->f_df),     shown(c->p)};
  for (size_t i = 0; i < EACH; i++)
    out[i] = values[i];
}

static void list_estimate(const scw_estimate *e, double out[5]) {
  out[0] = shown(e->estimate);
  out[1] = shown(e->standard_uncertainty);
  out[2] = shown(e->df);
  out[3] = e->interval.low;
  out[4] = e->interval.high;
}

static void answer_nested(scw_context *context, char *rest) {
  static readings data;
  double level = take_number(&rest), out[SCW_LEVEL_COUNT * EACH + 5];
  scwi_level_labels labels = take_nested(&rest, &data);
  scw_nested found;
  must(context,
       scwi_nested(context, &data.sample, &labels, level, NULL, &found));
  for (size_t l = 0; l < SCW_LEVEL_COUNT; l++)
    list_component(&found.component[l], out + l * EACH);
  list_estimate(&found.mean, out + SCW_LEVEL_COUNT * EACH);
  say(out, SCW_LEVEL_COUNT * EACH + 5);
}

static void answer_reml(scw_context *context, char *rest) {
  static readings data;
  double level = take_number(&rest), out[SCW_LEVEL_COUNT + 7];
  scwi_level_labels labels = take_nested(&rest, &data);
  scw_reml found;
  must(context, scwi_reml(context, &data.sample, &labels, level, &found));
  for (size_t l = 0; l < SCW_LEVEL_COUNT; l++)
    out[l] = shown(found.sd[l]);
  list_estimate(&found.mean, out + SCW_LEVEL_COUNT);
  out[SCW_LEVEL_COUNT + 5] = shown(found.log_likelihood);
  out[SCW_LEVEL_COUNT + 6] = (double)found.steps;
  say(out, SCW_LEVEL_COUNT + 7);
}

enum { MODEL = 4 * EACH + 8 };
static void list_model(const scw_crossed_model *m, double *out) {
  double more[] = {
      shown(m->repeatability_sd),    m->repeatability.low,
      m->repeatability.high,         shown(m->reproducibility_sd),
      m->reproducibility.low,        m->reproducibility.high,
      shown(m->repeatability_limit), shown(m->reproducibility_limit)};
  list_component(&m->operators, out);
  list_component(&m->spots, out + EACH);
  list_component(&m->interaction, out + 2 * EACH);
  list_component(&m->repeats, out + 3 * EACH);
  for (size_t i = 0; i < 8; i++)
    out[4 * EACH + i] = more[i];
}

/* Operators stand in the column of panels. */
static void answer_crossed(scw_context *context, char *rest) {
  static readings data;
  double level = take_number(&rest), out[2 * MODEL + 5];
  take_nested(&rest, &data);
  scw_crossed found;
  must(context,
       scwi_crossed(context, &data.sample, label[0], label[2], level, &found));
  list_model(&found.with, out);
  list_model(&found.without, out + MODEL);
  list_estimate(&found.mean, out + 2 * MODEL);
  say(out, 2 * MODEL + 5);
}

static void list_odd(const scw_odd_one *odd, double *out) {
  double values[] = {shown(odd->statistic), shown(odd->p), shown(odd->limit),
                     shown(odd->limit_strict), (double)odd->lab};
  for (size_t i = 0; i < 5; i++)
    out[i] = values[i];
}

/* Laboratories stand in the column of panels, numbered from 1. */
static void answer_precision(scw_context *context, char *rest) {
  static readings data;
  enum { ALONE = 16, LAB = 6, MOST_LABS = 40 };
  double level = take_number(&rest), out[ALONE + 10 + 2 + LAB * MOST_LABS];
  uint32_t labs = 0;
  scw_precision found;
  take_nested(&rest, &data);
  for (size_t i = 0; i < data.sample.n; i++) {
    labs = label[0][i] > labs ? label[0][i] : labs;
    label[0][i]--;
  }
  must(context,
       scwi_precision(context, &data.sample, label[0], labs, level, &found));
  double alone[ALONE] = {shown(found.mean),
                         shown(found.per_lab),
                         shown(found.f),
                         shown(found.p),
                         shown(found.between_variance),
                         shown(found.s_r),
                         shown(found.s_l),
                         shown(found.s_R),
                         found.s_r_interval.low,
                         found.s_r_interval.high,
                         found.s_R_interval.low,
                         found.s_R_interval.high,
                         shown(found.r_limit),
                         shown(found.R_limit),
                         shown(found.h_limit),
                         shown(found.h_limit_strict)};
  for (size_t i = 0; i < ALONE; i++)
    out[i] = alone[i];
  list_odd(&found.cochran, out + ALONE);
  list_odd(&found.grubbs, out + ALONE + 5);
  for (size_t i = 0; i < labs; i++) {
    const scw_lab *lab = &found.lab[i];
    double values[LAB] = {shown(lab->mean),    shown(lab->sd),
                          shown(lab->h),       shown(lab->k),
                          shown(lab->k_limit), shown(lab->k_limit_strict)};
    for (size_t j = 0; j < LAB; j++)
      out[ALONE + 10 + i * LAB + j] = values[j];
  }
  say(out, ALONE + 10 + labs * LAB);
  scwi_precision_free(&found);
}

int main(void) {
  static const verb verbs[] = {{"nested", answer_nested},
                               {"reml", answer_reml},
                               {"crossed", answer_crossed},
                               {"precision", answer_precision}};
  return answer_lines(verbs, sizeof verbs / sizeof *verbs);
}
