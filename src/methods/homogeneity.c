/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "homogeneity.h"

#include <float.h>
#include <stdlib.h>

#include "distributions.h"
#include "figure.h"
#include "memory.h"
#include "pooled_scatter.h"
#include "quantiles.h"
#include "sum.h"
#include "workings.h"

static scw_homogeneity no_test(scw_presence why) {
  scw_figure none = scwi_missing(why);
  return (scw_homogeneity){none, none, none, none};
}

/* A p too small for a double is not zero. */
static scw_figure p_of(double p) {
  return p > 0 ? scwi_figure(p) : scwi_missing(SCW_OUT_OF_RANGE);
}

scw_status scwi_bartlett(scw_context *context, const scwi_moments *set,
                         size_t n, scw_homogeneity *out) {
  scwi_uncertainty pooled = scwi_pooled_sd(set, n);
  scwi_sum statistic = {0}, inverse = {0};
  size_t sets = 0;
  bool even = false;
  (void)context;
  for (size_t i = 0; i < n; i++) {
    if (set[i].n < 2) continue;
    double df = (double)set[i].n - 1;
    sets++;
    even = even || set[i].sd <= 0;
    if (even) continue;
    scwi_sum_add(&statistic, -2 * df * log(set[i].sd / pooled.u));
    scwi_sum_add(&inverse, 1 / df);
  }
  *out = no_test(sets < 2 ? SCW_TOO_FEW : SCW_NO_SCATTER);
  if (sets < 2 || even) return SCW_OK;
  double df = (double)sets - 1;
  scwi_sum_add(&inverse, -1 / pooled.df);
  double t = scwi_sum_of(statistic) / (1 + scwi_sum_of(inverse) / (3 * df));
  t = fmax(t, 0); /* equal SDs: the logarithms' rounding is left */
  out->statistic = scwi_figure(t);
  out->df1 = scwi_figure(df);
  out->df2 = scwi_missing(SCW_NOT_COMPUTED);
  out->p = p_of(scwi_chi2_upper(t, df));
  return SCW_OK;
}

/* |reading - centre| of one set, in the unit of the readings. */
static scw_status distances(scw_context *context, const scwi_sample *set,
                            scwi_levene_centre centre, double *out) {
  scwi_workings w;
  scw_status status = scwi_workings_of(context, set, &w);
  if (status != SCW_OK) return status;
  for (size_t i = 0; i < w.n; i++) {
    double away = centre == SCWI_ABOUT_MEAN ? w.deviation[i]
                                            : w.ascending[i] - w.middle;
    out[i] = scwi_unscaled(&w.centre, fabs(away));
  }
  scwi_workings_free(&w);
  return SCW_OK;
}

static double mean_of(const double *x, size_t n) {
  scwi_sum sum = {0};
  for (size_t i = 0; i < n; i++)
    scwi_sum_add(&sum, x[i]);
  return scwi_sum_of(sum) / (double)n;
}

static double squares_about(const double *x, size_t n, double centre) {
  scwi_sum sum = {0};
  for (size_t i = 0; i < n; i++)
    scwi_sum_add(&sum, (x[i] - centre) * (x[i] - centre));
  return scwi_sum_of(sum);
}

/* One-way analysis of variance of the distances z, set after set. */
static scw_homogeneity anova(double *z, size_t total, const scwi_sample *set,
                             size_t n, size_t sets) {
  double largest = 0;
  for (size_t i = 0; i < total; i++)
    largest = fmax(largest, z[i]);
  if (largest <= 0) return no_test(SCW_NO_SCATTER);
  for (size_t i = 0; i < total; i++)
    z[i] /= largest;
  double grand = mean_of(z, total);
  scwi_sum between = {0}, within = {0};
  for (size_t i = 0, at = 0; i < n; i++) {
    if (set[i].n < 2) continue;
    double mean = mean_of(z + at, set[i].n), away = mean - grand;
    scwi_sum_add(&between, (double)set[i].n * away * away);
    scwi_sum_add(&within, squares_about(z + at, set[i].n, mean));
    at += set[i].n;
  }
  double df1 = (double)sets - 1, df2 = (double)(total - sets);
  double inside = scwi_sum_of(within) / df2;
  /* what rounding of equal distances leaves */
  if (inside <= 16 * DBL_EPSILON * DBL_EPSILON) return no_test(SCW_NO_SCATTER);
  double f = scwi_sum_of(between) / df1 / inside;
  return (scw_homogeneity){scwi_figure(f), scwi_figure(df1), scwi_figure(df2),
                           p_of(scwi_f_upper(f, df1, df2))};
}

scw_status scwi_levene(scw_context *context, const scwi_sample *set, size_t n,
                       scwi_levene_centre centre, scw_homogeneity *out) {
  size_t total = 0, sets = 0, at = 0;
  double *z = NULL;
  for (size_t i = 0; i < n; i++)
    if (set[i].n >= 2) {
      total += set[i].n;
      sets++;
    }
  *out = no_test(SCW_TOO_FEW);
  if (sets < 2) return SCW_OK;
  scw_status status = SCWI_ALLOCATE(context, total, &z);
  for (size_t i = 0; i < n && status == SCW_OK; i++) {
    if (set[i].n < 2) continue;
    status = distances(context, &set[i], centre, z + at);
    at += set[i].n;
  }
  if (status == SCW_OK) *out = anova(z, total, set, n, sets);
  free(z);
  return status;
}
