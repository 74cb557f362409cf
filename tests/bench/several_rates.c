/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How often any of several products that are all alike is shown to differ, at a
 * nominal 0.05: several_rates [SETS [SEED]]. Normal readings, continuous, four
 * products, the first one the control. For shared spots each spot has a level
 * of its own, SD 5. The standard error at 10,000 sets is 0.0022. */
#include <stdio.h>
#include <stdlib.h>

#include "all_pairs.h"
#include "blocks.h"
#include "draw.h"
#include "figure.h"
#include "many_to_one.h"

enum { PRODUCTS = 4, PAIRS = 6, MOST = 20 };

typedef struct layout {
  const char *name;
  size_t n[PRODUCTS];
} layout;

typedef struct scatter {
  const char *name;
  double sd[PRODUCTS];
} scatter;

typedef enum method { MAX_T, DUNNETT, GAMES_HOWELL, TUKEY, HOLM, BLOCKS } method;
static const char *const method_names[] = {
    "max_t",        "dunnett", "games_howell",
    "tukey_kramer", "holm",    "blocks_equal_sd"};
enum { N_METHODS = sizeof method_names / sizeof *method_names };

static scwi_entry entry_of(const double *x, size_t n) {
  scwi_moments m = scwi_moments_of(&(scwi_sample){.n = n, .x = x});
  return (scwi_entry){.estimate = m.mean,
                      .u = scwi_mean_uncertainty(m.sd, n, 0),
                      .state = SCW_PRESENT,
                      .sd = m.sd,
                      .sd_df = (double)n - 1,
                      .weight = 1 / (double)n,
                      .sides = 1};
}

static bool any_apart(const scwi_adjusted *found, size_t n) {
  for (size_t i = 0; i < n; i++)
    if (found[i].interval.state == SCW_PRESENT &&
        (found[i].interval.low > 0 || found[i].interval.high < 0))
      return true;
  return false;
}

/* Adjusted is never sharper than alone: most sets need no adjusted figure. */
static bool worth_it(scw_context *context, const scwi_entry *entries,
                     bool pairs, bool pooled) {
  for (size_t i = 1; i < PRODUCTS; i++)
    for (size_t j = 0; j < (pairs ? i : 1); j++) {
      scw_estimate own;
      if (scwi_entry_difference(context, &entries[i], &entries[j], pooled,
                                0.95, &own))
        exit(1);
      if (own.p.value < 0.05) return true;
    }
  return false;
}

static bool errs_apart(scw_context *context, method how,
                       double x[PRODUCTS][MOST], const size_t *n) {
  scwi_entry entries[PRODUCTS], pooled[PRODUCTS];
  scwi_adjusted found[PAIRS] = {{.interval = {.state = SCW_NOT_COMPUTED}}};
  bool pairs = how == GAMES_HOWELL || how == TUKEY;
  bool equal = how == DUNNETT || how == TUKEY;
  scw_status status;
  for (size_t i = 0; i < PRODUCTS; i++) entries[i] = entry_of(x[i], n[i]);
  scwi_pool_entries(entries, PRODUCTS, pooled);
  if (!worth_it(context, equal ? pooled : entries, pairs, equal)) return false;
  status = pairs ? scwi_all_pairs(context, entries, PRODUCTS, equal, 0.95, found)
                 : scwi_many_to_one(context, entries, PRODUCTS, 0, equal, 0.95,
                                    found);
  if (status) exit(1);
  return any_apart(found, pairs ? PAIRS : PRODUCTS);
}

/* No limit of abs(t) at 0.05 lies below 1.96. */
static bool worth_it_by_spot(const double *value, size_t n) {
  double mean[PRODUCTS] = {0}, left = 0, low = 0, high = 0;
  for (size_t p = 0; p < PRODUCTS; p++)
    for (size_t s = 0; s < n; s++)
      mean[p] += (value[p * n + s] - value[s]) / (double)n;
  for (size_t s = 0; s < n; s++) {
    double own[PRODUCTS], middle = 0;
    for (size_t p = 0; p < PRODUCTS; p++) {
      own[p] = value[p * n + s] - value[s] - mean[p];
      middle += own[p] / PRODUCTS;
    }
    for (size_t p = 0; p < PRODUCTS; p++)
      left += (own[p] - middle) * (own[p] - middle);
  }
  for (size_t p = 0; p < PRODUCTS; p++) {
    low = fmin(low, mean[p]);
    high = fmax(high, mean[p]);
  }
  double df = (double)(PRODUCTS - 1) * (double)(n - 1);
  return high - low > 1.96 * sqrt(left / df * 2 / (double)n);
}

static bool errs_by_spot(scw_context *context, method how,
                         double x[PRODUCTS][MOST], size_t n) {
  double value[PRODUCTS * MOST];
  scwi_adjusted found[PAIRS];
  for (size_t i = 0; i < PRODUCTS; i++)
    for (size_t s = 0; s < n; s++) value[i * n + s] = x[i][s];
  if (how == BLOCKS && !worth_it_by_spot(value, n)) return false;
  const scwi_blocks blocks = {value, PRODUCTS, n, 0, 1};
  if (scwi_blocks_compare(context, &blocks, PRODUCTS, how == BLOCKS, 0.95,
                          found))
    exit(1);
  return any_apart(found, PAIRS);
}

static double rate(scw_context *context, draw *random, method how,
                   const layout *of, const scatter *with, long sets) {
  long wrong = 0;
  bool spots = how == HOLM || how == BLOCKS;
  for (long s = 0; s < sets; s++) {
    double x[PRODUCTS][MOST], level[MOST];
    for (size_t i = 0; i < MOST; i++) level[i] = spots ? 5 * draw_normal(random) : 0;
    for (size_t p = 0; p < PRODUCTS; p++)
      for (size_t i = 0; i < of->n[p]; i++)
        x[p][i] = level[i] + with->sd[p] * draw_normal(random);
    wrong += spots ? errs_by_spot(context, how, x, of->n[0])
                   : errs_apart(context, how, x, of->n);
  }
  return (double)wrong / (double)sets;
}

int main(int argc, char **argv) {
  static const layout layouts[] = {
      {"3 each", {3, 3, 3, 3}},       {"4 each", {4, 4, 4, 4}},
      {"5 each", {5, 5, 5, 5}},       {"10 each", {10, 10, 10, 10}},
      {"20 each", {20, 20, 20, 20}},  {"3 5 10 20", {3, 5, 10, 20}},
      {"20 10 5 3", {20, 10, 5, 3}}};
  static const scatter scatters[] = {{"1 1 1 1", {1, 1, 1, 1}},
                                     {"3 1 1 1", {3, 1, 1, 1}},
                                     {"1 1 1 3", {1, 1, 1, 3}},
                                     {"1 1.5 2 3", {1, 1.5, 2, 3}}};
  long sets = argc > 1 ? strtol(argv[1], NULL, 10) : 10000;
  draw random = {argc > 2 ? strtoull(argv[2], NULL, 10) : 20260411};
  scw_context *context;
  if (scw_context_new(&context) != SCW_OK) return 1;
  printf("method,readings,sds,rate\n");
  for (int how = 0; how < N_METHODS; how++)
    for (size_t l = 0; l < sizeof layouts / sizeof *layouts; l++)
      for (size_t s = 0; s < sizeof scatters / sizeof *scatters; s++) {
        const layout *of = &layouts[l];
        if ((how == HOLM || how == BLOCKS) && of->n[0] != of->n[1]) continue;
        printf("%s,%s,%s,%.4f\n", method_names[how], of->name, scatters[s].name,
               rate(context, &random, (method)how, of, &scatters[s], sets));
        fflush(stdout);
      }
  scw_context_free(context);
  return 0;
}
