/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Several products for the judges, see figures_filter.h. */
#include <stdlib.h>

#include "all_pairs.h"
#include "analysis_of_variance.h"
#include "best_of.h"
#include "blocks.h"
#include "figures_filter.h"
#include "many_to_one.h"
#include "multiplicity.h"

enum { MOST_GROUPS = 100 };

static scwi_entry entry_of(const readings *r) {
  scwi_moments m = scwi_moments_of(&r->sample);
  return (scwi_entry){.estimate = m.mean,
                      .u = scwi_mean_uncertainty(m.sd, m.n, 0),
                      .state = SCW_PRESENT,
                      .sd = m.sd,
                      .sd_df = (double)m.n - 1,
                      .weight = 1 / (double)m.n,
                      .sides = 1};
}

static size_t take_entries(char **rest, scwi_entry *entries,
                           scwi_moments *moments) {
  static readings r;
  size_t k = take_count(rest);
  for (size_t i = 0; i < k; i++) {
    take_readings(rest, &r);
    entries[i] = entry_of(&r);
    moments[i] = scwi_moments_of(&r.sample);
  }
  return k;
}

/* Of each comparison: difference, u, df, own p, adjusted p, low, high. */
static void say_all(const scwi_adjusted *found, size_t n, size_t skip) {
  double values[7 * MOST_GROUPS];
  size_t at = 0;
  for (size_t i = 0; i < n; i++) {
    const scwi_adjusted *a = &found[i];
    if (i == skip) continue;
    values[at++] = shown(a->own.estimate);
    values[at++] = shown(a->own.standard_uncertainty);
    values[at++] = shown(a->own.df);
    values[at++] = shown(a->own.p);
    values[at++] = shown(a->p);
    values[at++] = a->interval.low;
    values[at++] = a->interval.high;
  }
  say(values, at);
}

/* LEVEL EQUAL CONTROL k groups; CONTROL from 0, k for all pairs */
static void compare(scw_context *context, char *rest) {
  double level = take_number(&rest);
  bool equal = take_count(&rest) > 0;
  size_t control = take_count(&rest);
  scwi_entry entries[MOST_GROUPS];
  scwi_moments moments[MOST_GROUPS];
  static scwi_adjusted found[MOST_GROUPS * MOST_GROUPS];
  size_t k = take_entries(&rest, entries, moments);
  if (control < k)
    must(context, scwi_many_to_one(context, entries, k, control, equal, level,
                                   found));
  else
    must(context, scwi_all_pairs(context, entries, k, equal, level, found));
  say_all(found, control < k ? k : k * (k - 1) / 2,
          control < k ? control : MOST_GROUPS * MOST_GROUPS);
}

/* LEVEL EQUAL CONTROL k m values, product by product */
static void blocks(scw_context *context, char *rest) {
  double level = take_number(&rest), value[MOST_READINGS];
  bool equal = take_count(&rest) > 0;
  size_t control = take_count(&rest);
  scwi_blocks b = {value, take_count(&rest), 0, 0, 1};
  b.spots = take_count(&rest);
  static scwi_adjusted found[MOST_GROUPS * MOST_GROUPS];
  for (size_t i = 0; i < b.products * b.spots; i++) value[i] = take_number(&rest);
  must(context, scwi_blocks_compare(context, &b, control, equal, level, found));
  say_all(found,
          control < b.products ? b.products
                               : b.products * (b.products - 1) / 2,
          control < b.products ? control : MOST_GROUPS * MOST_GROUPS);
}

/* k groups: F, df, df, p of both analyses */
static void anova(scw_context *context, char *rest) {
  scwi_entry entries[MOST_GROUPS];
  scwi_moments moments[MOST_GROUPS];
  size_t k = take_entries(&rest, entries, moments);
  (void)context;
  scw_f_test one = scwi_one_way(moments, k), welch = scwi_welch_one_way(moments, k);
  double values[] = {shown(one.f),     shown(one.df_between),
                     shown(one.df_within), shown(one.p),
                     shown(welch.f),   shown(welch.df_between),
                     shown(welch.df_within), shown(welch.p)};
  say(values, 8);
}

/* p1 p2 ...: Holm's, then Benjamini and Hochberg's */
static void adjust(scw_context *context, char *rest) {
  static readings r;
  double values[2 * MOST_READINGS];
  take_readings(&rest, &r);
  size_t n = r.sample.n;
  for (size_t i = 0; i < n; i++) values[i] = values[n + i] = r.x[i];
  must(context, scwi_holm(context, values, n));
  must(context, scwi_benjamini_hochberg(context, values + n, n));
  say(values, 2 * n);
}

/* u1 u2 ...: lead over the second and over the rest's mean */
static void best(scw_context *context, char *rest) {
  static readings r;
  (void)context;
  take_readings(&rest, &r);
  scwi_best_of b = scwi_best_of_alike(r.x, r.sample.n);
  double values[] = {shown(b.over_second), shown(b.over_rest)};
  say(values, 2);
}

int main(void) {
  static const verb verbs[] = {{"compare", compare}, {"blocks", blocks},
                               {"anova", anova},     {"adjust", adjust},
                               {"best", best}};
  return answer_lines(verbs, sizeof verbs / sizeof *verbs);
}
