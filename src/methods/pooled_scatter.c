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

/* The search for sets apart. */
typedef struct search {
  const scwi_moments *set;
  scw_pooled_set *out;
  double scale, step;
  size_t n, left;  /* sets; of these, judged and not yet put aside */
  bool *aside;     /* no longer among the others */
  share *others;   /* of each set */
  double *p;       /* against the others; NaN: nothing to compare */
} search;

/* What the sets other than each one add up to: sums from both ends, since
 * taking one from the total loses digits where it is most of it. */
static void sum_others(search *s) {
  share front = {0}, back = {0};
  for (size_t i = 0; i < s->n; i++) {
    s->others[i] = front;
    if (s->aside[i]) continue;
    share one = share_of(&s->set[i], s->scale);
    front = (share){front.squares + one.squares, front.df + one.df};
  }
  for (size_t i = s->n; i-- > 0;) {
    s->others[i].squares += back.squares;
    s->others[i].df += back.df;
    if (s->aside[i]) continue;
    share one = share_of(&s->set[i], s->scale);
    back = (share){back.squares + one.squares, back.df + one.df};
  }
}

static double others_sd(const search *s, size_t i) {
  share others = s->others[i];
  return others.df > 0 ? s->scale * sqrt(others.squares / others.df) : 0;
}

/* p of every set left; returns the one with the smallest, n without any. */
static size_t judge_sets(search *s) {
  size_t least = s->n;
  sum_others(s);
  for (size_t i = 0; i < s->n; i++) {
    double rest = others_sd(s, i), df = s->others[i].df;
    s->p[i] = NAN;
    if (s->aside[i] || s->set[i].n < 2 || df <= 0) continue;
    if (rest <= 0 && s->step <= 0) continue;
    s->p[i] = against_others(&s->set[i], rest, df, s->step);
    if (least == s->n || s->p[i] < s->p[least]) least = i;
  }
  return least;
}

static void take_p(scw_pooled_set *set, double adjusted, double significance) {
  set->p = adjusted > 0 ? scwi_figure(adjusted)
                        : scwi_missing(SCW_OUT_OF_RANGE);
  set->apart = adjusted < significance;
}

/* One set after the other, the most apart first, while it is apart among those
 * left (Bonferroni) and more than half of the sets belong. */
static void put_aside(search *s, double significance) {
  double highest = 0;
  size_t most = s->left ? (s->left - 1) / 2 : 0, least = judge_sets(s);
  for (size_t taken = 0; taken < most && least < s->n; taken++) {
    double adjusted = fmin(1, (double)s->left * s->p[least]);
    if (!(adjusted < significance)) break;
    highest = fmax(highest, adjusted);
    take_p(&s->out[least], highest, significance);
    s->aside[least] = true;
    s->left--;
    least = judge_sets(s);
  }
}

/* The sets still among the others: Holm over these. */
static scw_status judge_rest(scw_context *context, search *s,
                             double significance) {
  double *p = NULL;
  size_t k = 0;
  scw_status status = SCWI_ALLOCATE(context, s->n, &p);
  for (size_t i = 0; i < s->n && status == SCW_OK; i++)
    if (!s->aside[i] && s->set[i].n >= 2) p[k++] = s->p[i];
  if (status == SCW_OK) status = scwi_holm(context, p, k);
  for (size_t i = 0, at = 0; i < s->n && status == SCW_OK; i++) {
    if (s->aside[i] || s->set[i].n < 2) continue;
    if (!isnan(p[at])) take_p(&s->out[i], p[at], significance);
    at++;
  }
  free(p);
  return status;
}

static scw_status find_apart(scw_context *context, const scwi_moments *set,
                             size_t n, scw_pool *out) {
  search s = {.set = set, .out = out->set, .scale = largest_sd(set, n),
              .step = out->step.size, .n = n, .left = out->sets};
  scw_status status = SCWI_ALLOCATE(context, n, &s.aside);
  if (status == SCW_OK) status = SCWI_ALLOCATE(context, n, &s.others);
  if (status == SCW_OK) status = SCWI_ALLOCATE(context, n, &s.p);
  if (status == SCW_OK) {
    put_aside(&s, out->significance);
    status = judge_rest(context, &s, out->significance);
  }
  for (size_t i = 0; i < n && status == SCW_OK; i++) {
    double rest = others_sd(&s, i);
    out->n_apart += out->set[i].apart;
    if (set[i].n >= 2 && rest > 0)
      out->set[i].ratio = scwi_figure(set[i].sd / rest);
  }
  free(s.aside);
  free(s.others);
  free(s.p);
  return status;
}

/* Why a set has no ratio or p, should it get none. */
static scw_presence why_not_judged(size_t n, size_t sets) {
  return n < 2 ? SCW_ONE_READING : sets < 2 ? SCW_TOO_FEW : SCW_NO_SCATTER;
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
  for (size_t i = 0; i < n; i++)
    out->set[i].ratio = out->set[i].p =
        scwi_missing(why_not_judged(set[i].n, out->sets));
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
  out->interval = scwi_no_interval(SCW_NO_SCATTER, level);
  if (pooled.u <= 0) return SCW_OK;
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
