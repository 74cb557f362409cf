/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pooled_scatter.h"

#include <stdlib.h>

#include "distributions.h"
#include "figure.h"
#include "homogeneity.h"
#include "intervals.h"
#include "memory.h"
#include "multiplicity.h"
#include "sum.h"

static double largest_sd(const scwi_moments *set, size_t n) {
  double largest = 0;
  for (size_t i = 0; i < n; i++)
    if (set[i].n >= 2) largest = fmax(largest, set[i].sd);
  return largest;
}

/* A set's sum of squares in units of `scale`, and its degrees of freedom. */
typedef struct share {
  double squares, df;
} share;

static share share_of(const scwi_moments *set, double scale) {
  double df = set->n < 2 ? 0 : (double)set->n - 1;
  double size = df > 0 && scale > 0 ? set->sd / scale : 0;
  return (share){df * size * size, df};
}

scwi_uncertainty scwi_pooled_sd(const scwi_moments *set, size_t n) {
  double scale = largest_sd(set, n);
  scwi_sum squares = {0};
  double df = 0;
  for (size_t i = 0; i < n; i++) {
    share one = share_of(&set[i], scale);
    scwi_sum_add(&squares, one.squares);
    df += one.df;
  }
  if (df <= 0) return (scwi_uncertainty){0, 0};
  return (scwi_uncertainty){scale * sqrt(scwi_sum_of(squares) / df), df};
}

/* Two-sided p of a set against the pooled SD of the others, at its weakest
 * over what the display may hide: a reading lies within half a step of what
 * was shown, which moves an SD by at most (q/2) sqrt(n/(n-1)), and the others
 * scatter at least as rounding does, q/sqrt(12). */
static double against_others(const scwi_moments *set, double others,
                             double df_others, double step) {
  double n = (double)set->n, df = n - 1;
  double moved = step / 2 * sqrt(n / df);
  double high = (set->sd + moved) / others;
  double floor = fmax(others, step / sqrt(12));
  double low = fmax(0, set->sd - moved) / floor;
  double p_small = others > 0 ? scwi_f_cdf(high * high, df, df_others) : 1;
  double p_large = scwi_f_upper(low * low, df, df_others);
  return fmin(1, 2 * fmin(p_small, p_large));
}

/* What the sets other than each one add up to: sums from both ends, since
 * taking one from the total loses digits where it is most of it. */
static scw_status others_of(scw_context *context, const scwi_moments *set,
                            size_t n, double scale, share **out) {
  share front = {0}, back = {0};
  scw_status status = SCWI_ALLOCATE(context, n, out);
  for (size_t i = 0; i < n && status == SCW_OK; i++) {
    share one = share_of(&set[i], scale);
    (*out)[i] = front;
    front = (share){front.squares + one.squares, front.df + one.df};
  }
  for (size_t i = n; i-- > 0 && status == SCW_OK;) {
    share one = share_of(&set[i], scale);
    (*out)[i].squares += back.squares;
    (*out)[i].df += back.df;
    back = (share){back.squares + one.squares, back.df + one.df};
  }
  return status;
}

/* NaN, and the reason in `set`, where there is nothing to compare. */
static double judge(const scwi_moments *m, share others, double scale,
                    double step, scw_pooled_set *set) {
  scw_presence why = m->n < 2        ? SCW_ONE_READING
                     : others.df <= 0 ? SCW_TOO_FEW
                                      : SCW_NO_SCATTER;
  set->ratio = set->p = scwi_missing(why);
  if (m->n < 2 || others.df <= 0) return NAN;
  double rest = scale * sqrt(others.squares / others.df);
  if (rest > 0) set->ratio = scwi_figure(m->sd / rest);
  if (rest <= 0 && step <= 0) return NAN;
  return against_others(m, rest, others.df, step);
}

static scw_status find_apart(scw_context *context, const scwi_moments *set,
                             size_t n, scw_pool *out) {
  double scale = largest_sd(set, n), *p = NULL;
  share *others = NULL;
  size_t judged = 0;
  scw_status status = others_of(context, set, n, scale, &others);
  if (status == SCW_OK) status = SCWI_ALLOCATE(context, n, &p);
  for (size_t i = 0; i < n && status == SCW_OK; i++) {
    p[judged] = judge(&set[i], others[i], scale, out->step.size, &out->set[i]);
    judged += set[i].n >= 2; /* the family: sets that can be judged */
  }
  if (status == SCW_OK) status = scwi_holm(context, p, judged);
  for (size_t i = 0, at = 0; i < n && status == SCW_OK; i++) {
    if (set[i].n < 2) continue;
    double adjusted = p[at++];
    if (isnan(adjusted)) continue;
    out->set[i].p = adjusted > 0 ? scwi_figure(adjusted)
                                 : scwi_missing(SCW_OUT_OF_RANGE);
    out->set[i].apart = adjusted < out->significance;
    out->n_apart += out->set[i].apart;
  }
  free(p);
  free(others);
  return status;
}

static void list_sets(const scwi_moments *set, size_t n, scw_pool *out) {
  for (size_t i = 0; i < n; i++) {
    bool scatters = set[i].n >= 2;
    out->set[i].n = set[i].n;
    out->set[i].mean = set[i].n ? scwi_figure(set[i].mean)
                                : scwi_missing(SCW_TOO_FEW);
    out->set[i].sd =
        scatters ? scwi_figure(set[i].sd) : scwi_missing(SCW_ONE_READING);
    out->sets += scatters;
    out->alike += scatters && set[i].sd <= 0;
  }
}

static scw_status pool_moments(scw_context *context, const scwi_moments *set,
                               size_t n, double level, scw_pool *out) {
  scwi_uncertainty pooled = scwi_pooled_sd(set, n);
  list_sets(set, n, out);
  out->sd = out->df = scwi_missing(SCW_ONE_READING);
  out->interval = scwi_no_interval(SCW_ONE_READING, level);
  scw_status status = scwi_bartlett(context, set, n, &out->bartlett);
  if (status == SCW_OK) status = find_apart(context, set, n, out);
  if (status != SCW_OK || pooled.df <= 0) return status;
  out->sd = scwi_figure(pooled.u);
  out->df = scwi_figure(pooled.df);
  out->step_decides = pooled.u < out->step.size / 2;
  return scwi_sd_interval(context, pooled.u, pooled.df, level, &out->interval);
}

scw_status scwi_pool(scw_context *context, const scwi_sample *set, size_t n,
                     double level, double significance, scw_pool *out) {
  scwi_moments *moments = NULL;
  *out = (scw_pool){.n_sets = n, .significance = significance};
  if (n) out->step = set[0].step;
  scw_status status = SCWI_ALLOCATE(context, n, &moments);
  if (status == SCW_OK) status = SCWI_ALLOCATE(context, n, &out->set);
  for (size_t i = 0; i < n && status == SCW_OK; i++)
    if (set[i].n) moments[i] = scwi_moments_of(&set[i]);
  if (status == SCW_OK) status = pool_moments(context, moments, n, level, out);
  if (status == SCW_OK)
    status = scwi_levene(context, set, n, SCWI_ABOUT_MEAN, &out->levene);
  if (status == SCW_OK)
    status = scwi_levene(context, set, n, SCWI_ABOUT_MEDIAN,
                         &out->brown_forsythe);
  free(moments);
  if (status != SCW_OK) scwi_pool_free(out);
  return status;
}

void scwi_pool_free(scw_pool *pool) {
  free(pool->set);
  *pool = (scw_pool){0};
}
