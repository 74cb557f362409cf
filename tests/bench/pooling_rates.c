/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How often sets that do scatter alike are said not to, and how often a wild
 * one is found: pooling_rates [POOLS [SEED]]. k normal sets of n readings shown
 * in steps of `step` (true SD 1, each set's level anywhere between two steps;
 * 0: continuous); with `wild`, the first set scatters so many times as much.
 * Prints the pooled SD over the true one (root of the mean square), the share
 * of pools whose p is below 0.05 for each test (Bartlett: of those that have
 * one, and how many have), the share with any set apart that should not be,
 * and, with a wild set, the share that name it. */
#include <stdio.h>
#include <stdlib.h>

#include "draw.h"
#include "pooled_scatter.h"

enum { MOST_SETS = 64, MOST_N = 10 };

typedef struct layout {
  size_t k, n;
  double step, wild;
} layout;

typedef struct counts {
  double squares;
  long bartlett, has_bartlett, levene, brown_forsythe, falsely, found;
} counts;

static void must(scw_context *context, scw_status status) {
  if (status == SCW_OK) return;
  fprintf(stderr, "pooling_rates: %s\n", scw_context_message(context));
  exit(1);
}

static void draw_set(draw *random, layout of, double sd, double *x,
                     int64_t *ticks) {
  double level = draw_uniform(random);
  for (size_t i = 0; i < of.n; i++) {
    double value = sd * draw_normal(random);
    ticks[i] = of.step > 0 ? llrint(level + value / of.step) : 0;
    x[i] = of.step > 0 ? of.step * (double)ticks[i] : value;
  }
}

static bool small(scw_figure p) {
  return p.state == SCW_OUT_OF_RANGE ||
         (p.state == SCW_PRESENT && p.value < 0.05);
}

static void count_pool(const scw_pool *pool, layout of, counts *to) {
  to->squares += pool->sd.value * pool->sd.value;
  to->has_bartlett += pool->bartlett.statistic.state == SCW_PRESENT;
  to->bartlett += small(pool->bartlett.p);
  to->levene += small(pool->levene.p);
  to->brown_forsythe += small(pool->brown_forsythe.p);
  bool wild = of.wild > 1 && pool->set[0].apart;
  to->found += wild;
  to->falsely += pool->n_apart > (size_t)wild;
}

static counts measure(scw_context *context, draw *random, layout of,
                      long pools) {
  static double x[MOST_SETS][MOST_N];
  static int64_t ticks[MOST_SETS][MOST_N];
  scwi_sample set[MOST_SETS];
  counts found = {0};
  for (long p = 0; p < pools; p++) {
    scw_pool pool;
    for (size_t i = 0; i < of.k; i++) {
      draw_set(random, of, i == 0 ? of.wild : 1, x[i], ticks[i]);
      set[i] = (scwi_sample){.n = of.n, .x = x[i],
                             .ticks = of.step > 0 ? ticks[i] : NULL,
                             .tick_size = of.step,
                             .step = {of.step, SCW_STEP_GIVEN}};
    }
    must(context, scwi_pool(context, set, of.k, 0.95, 0.05, &pool));
    count_pool(&pool, of, &found);
    scwi_pool_free(&pool);
  }
  return found;
}

int main(int argc, char **argv) {
  static const size_t shapes[][2] = {{5, 5}, {10, 3}, {20, 5}, {40, 5},
                                     {20, 10}};
  static const double steps[] = {0, 0.5, 1, 2, 4, 8};
  static const double wilds[] = {1, 3, 5};
  long pools = argc > 1 ? strtol(argv[1], NULL, 10) : 20000;
  draw random = {argc > 2 ? strtoull(argv[2], NULL, 10) : 20260316};
  scw_context *context;
  if (scw_context_new(&context) != SCW_OK) return 1;
  printf("sets,n,step,wild,pooled_sd,bartlett,has_bartlett,levene,"
         "brown_forsythe,falsely_apart,found\n");
  for (size_t w = 0; w < 3; w++)
    for (size_t s = 0; s < 5; s++)
      for (size_t q = 0; q < sizeof steps / sizeof *steps; q++) {
        layout of = {shapes[s][0], shapes[s][1], steps[q], wilds[w]};
        counts c = measure(context, &random, of, pools);
        double all = (double)pools;
        double with = c.has_bartlett ? (double)c.has_bartlett : 1;
        printf("%zu,%zu,%g,%g,%.3f,%.4f,%.4f,%.4f,%.4f,%.4f,%.4f\n", of.k,
               of.n, of.step, of.wild, sqrt(c.squares / all),
               (double)c.bartlett / with, (double)c.has_bartlett / all,
               (double)c.levene / all, (double)c.brown_forsythe / all,
               (double)c.falsely / all, (double)c.found / all);
      }
  scw_context_free(context);
  return 0;
}
