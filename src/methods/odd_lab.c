/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "odd_lab.h"

#include "distributions.h"
#include "figure.h"
#include "outlier_limits.h"

/* ISO 5725-2 marks at both. */
static const double usual = 0.05, strict = 0.01;

scw_status scwi_cochran_limit(scw_context *context, size_t p, double df,
                              double alpha, double *out) {
  double others = (double)p - 1, f;
  scw_status status =
      scwi_f_upper_quantile(context, alpha / (double)p, df, others * df, &f);
  *out = 1 / (1 + others / f);
  return status;
}

scw_status scwi_mandel_h_limit(scw_context *context, size_t p, double alpha,
                               double *out) {
  double n = (double)p, t;
  scw_status status = scwi_t_quantile(context, alpha / 2, n - 2, &t);
  *out = (n - 1) / sqrt(n) / sqrt(1 + (n - 2) / (t * t));
  return status;
}

scw_status scwi_mandel_k_limit(scw_context *context, double df, double df_all,
                               double alpha, double *out) {
  double f;
  scw_status status =
      scwi_f_upper_quantile(context, alpha, df, df_all - df, &f);
  *out = sqrt(df_all / (df + (df_all - df) / f));
  return status;
}

scw_status scwi_k_limits(scw_context *context, double df, double df_all,
                         scw_lab *lab) {
  lab->k_limit = lab->k_limit_strict =
      scwi_missing(df < 1 ? SCW_ONE_READING : SCW_TOO_FEW);
  if (df < 1 || df_all <= df) return SCW_OK;
  double at_usual, at_strict;
  scw_status status =
      scwi_mandel_k_limit(context, df, df_all, usual, &at_usual);
  if (status == SCW_OK)
    status = scwi_mandel_k_limit(context, df, df_all, strict, &at_strict);
  if (status != SCW_OK) return status;
  lab->k_limit = scwi_figure(at_usual);
  lab->k_limit_strict = scwi_figure(at_strict);
  return SCW_OK;
}

static scw_odd_one nobody(scw_presence why) {
  scw_figure missing = scwi_missing(why);
  return (scw_odd_one){missing, missing, missing, missing, 0};
}

static scw_status cochran_limits(scw_context *context, const scwi_lab_sums *s,
                                 scw_odd_one *out) {
  double at_usual, at_strict, df = s->n[0] - 1;
  scw_status status =
      scwi_cochran_limit(context, s->labs, df, usual, &at_usual);
  if (status == SCW_OK)
    status = scwi_cochran_limit(context, s->labs, df, strict, &at_strict);
  if (status != SCW_OK) return status;
  out->limit = scwi_figure(at_usual);
  out->limit_strict = scwi_figure(at_strict);
  return SCW_OK;
}

scw_status scwi_odd_variance(scw_context *context, const scwi_lab_sums *s,
                             scw_odd_one *out) {
  double least = 2, largest = 0, sum = 0, repeated = 0;
  bool equal = true;
  size_t lab = 0;
  *out = nobody(s->within > 0 ? SCW_TOO_FEW : SCW_NO_SCATTER);
  for (size_t i = 0; i < s->labs && s->within > 0; i++) {
    double df = s->n[i] - 1, others = s->df_within - df;
    equal = equal && s->n[i] == s->n[0];
    if (df < 1) continue;
    double variance = s->squares[i] / df, share = s->squares[i] / s->within;
    double p = others > 0 ? scwi_beta_upper(share, df / 2, others / 2) : 1;
    repeated++;
    sum += variance;
    if (p > least || (p == least && variance <= largest)) continue;
    least = p;
    largest = variance;
    lab = i;
  }
  if (repeated < 2) return SCW_OK;
  scw_figure no_limit = scwi_missing(SCW_NOT_COMPUTED);
  *out = (scw_odd_one){scwi_figure(largest / sum),
                       scwi_figure(fmin(1, repeated * least)), no_limit,
                       no_limit, lab};
  return equal ? cochran_limits(context, s, out) : SCW_OK;
}

static scw_status mean_limits(scw_context *context, size_t p,
                              scw_precision *out) {
  double value[4];
  scw_status status = scwi_grubbs_limit(context, p, usual, &value[0]);
  if (status == SCW_OK)
    status = scwi_grubbs_limit(context, p, strict, &value[1]);
  if (status == SCW_OK)
    status = scwi_mandel_h_limit(context, p, usual, &value[2]);
  if (status == SCW_OK)
    status = scwi_mandel_h_limit(context, p, strict, &value[3]);
  if (status != SCW_OK) return status;
  out->grubbs.limit = scwi_figure(value[0]);
  out->grubbs.limit_strict = scwi_figure(value[1]);
  out->h_limit = scwi_figure(value[2]);
  out->h_limit_strict = scwi_figure(value[3]);
  return SCW_OK;
}

enum { MOST_LABS = 100000 };

scw_status scwi_odd_mean(scw_context *context, const scwi_lab_sums *s,
                         scw_precision *out) {
  scw_presence why = s->labs < 3           ? SCW_TOO_FEW
                     : s->labs > MOST_LABS ? SCW_TOO_MANY
                                           : SCW_NO_SCATTER;
  out->grubbs = nobody(why);
  out->h_limit = out->h_limit_strict = scwi_missing(why);
  if (why != SCW_NO_SCATTER || s->sd_of_means <= 0) return SCW_OK;
  size_t lab = 0;
  for (size_t i = 1; i < s->labs; i++)
    if (fabs(s->apart[i]) > fabs(s->apart[lab])) lab = i;
  double n = (double)s->labs, p;
  double g = fmin(fabs(s->apart[lab]) / s->sd_of_means, (n - 1) / sqrt(n));
  scw_status status = scwi_grubbs_p(context, s->labs, g, &p);
  if (status != SCW_OK) return status;
  out->grubbs.statistic = scwi_figure(g);
  out->grubbs.p = scwi_figure(p);
  out->grubbs.lab = lab;
  return mean_limits(context, s->labs, out);
}
