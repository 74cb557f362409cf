/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the intervals beside that of the mean deliver at 95 %: other_intervals
 * [SETS [SEED]]. One set: the interval of the SD, the next reading, where 95 %
 * of the spots lie (the share of sets whose limits do hold 95 %). Two sides
 * that differ by 1.5 SD: the SD ratio, and the change by ranks, unpaired and
 * paired; an interval by ranks that cannot be given at this n is left empty.
 * Scatter of SD 1, normal or exponential, shown in whole display steps.
 * Standard error at 20,000 sets: 0.0015 at 0.95. */
#include <stdio.h>
#include <stdlib.h>

#include "draw.h"
#include "hodges_lehmann.h"
#include "intervals.h"
#include "sd_ratio.h"

enum { MOST = 20, KINDS = 6 };
#define SHIFT 1.5

typedef struct bench {
  scw_context *context;
  draw random;
  size_t n;
  double step; /* 0: continuous */
  bool skew;
} bench;

static void must(scw_context *context, scw_status status) {
  if (status == SCW_OK) return;
  fprintf(stderr, "other_intervals: %s\n", scw_context_message(context));
  exit(1);
}

/* Mean 0, SD 1. */
static double scatter_draw(bench *b) {
  return b->skew ? -log(draw_uniform(&b->random)) - 1
                 : draw_normal(&b->random);
}

static double below(const bench *b, double x) {
  if (b->skew) return x < -1 ? 0 : 1 - exp(-(x + 1));
  return 0.5 * erfc(-x / sqrt(2));
}

static double shown(const bench *b, double x) {
  return b->step > 0 ? b->step * rint(x / b->step) : x;
}

static void side_of(bench *b, double level, double *x) {
  for (size_t i = 0; i < b->n; i++) x[i] = shown(b, level + scatter_draw(b));
}

static bool holds(scw_interval interval, double truth) {
  return interval.state == SCW_PRESENT && interval.low <= truth &&
         truth <= interval.high;
}

typedef struct tally {
  long held[KINDS], given[KINDS];
} tally;

static void count(tally *t, int kind, scw_interval interval, bool held) {
  t->given[kind] += interval.state == SCW_PRESENT;
  t->held[kind] += held;
}

static void one_set(bench *b, tally *t) {
  double x[MOST], level = 50 * draw_uniform(&b->random);
  scw_summary s = {.step = {b->step, SCW_STEP_GIVEN}};
  side_of(b, level, x);
  scwi_sample sample = {.n = b->n, .x = x};
  must(b->context, scwi_intervals(b->context, scwi_moments_of(&sample), 0.95,
                                  0.95, &s));
  scw_interval spots = s.tolerance.interval;
  double next = shown(b, level + scatter_draw(b));
  double inside = below(b, spots.high - level) - below(b, spots.low - level);
  count(t, 0, s.sd_interval, holds(s.sd_interval, 1));
  count(t, 1, s.prediction, holds(s.prediction, next));
  count(t, 2, spots, spots.state == SCW_PRESENT && inside >= 0.95);
}

static void two_sides(bench *b, tally *t) {
  double x[MOST], y[MOST], d[MOST], level = 50 * draw_uniform(&b->random);
  scwi_sample before = {.n = b->n, .x = x}, after = {.n = b->n, .x = y};
  scwi_sample differences = {.n = b->n, .x = d};
  scw_hodges_lehmann ranks, pairs;
  scw_sd_ratio ratio;
  side_of(b, level, x);
  side_of(b, level + SHIFT, y);
  for (size_t i = 0; i < b->n; i++) d[i] = y[i] - x[i];
  must(b->context, scwi_sd_ratio(b->context, scwi_moments_of(&before),
                                 scwi_moments_of(&after), 0.95, &ratio));
  must(b->context, scwi_hodges_lehmann_unpaired(b->context, &before, &after,
                                                0.95, &ranks));
  must(b->context,
       scwi_hodges_lehmann_paired(b->context, &differences, 0.95, &pairs));
  count(t, 3, ratio.interval, holds(ratio.interval, 1));
  count(t, 4, ranks.interval, holds(ranks.interval, SHIFT));
  count(t, 5, pairs.interval, holds(pairs.interval, SHIFT));
}

static void measure(bench *b, const char *name, long sets) {
  tally t = {{0}, {0}};
  for (long s = 0; s < sets; s++) {
    one_set(b, &t);
    two_sides(b, &t);
  }
  printf("%s,%zu", name, b->n);
  for (int k = 0; k < KINDS; k++)
    if (t.given[k])
      printf(",%.4f", (double)t.held[k] / (double)t.given[k]);
    else
      printf(",");
  printf("\n");
  fflush(stdout);
}

int main(int argc, char **argv) {
  static const struct {
    const char *name;
    double step;
    bool skew;
  } conditions[] = {{"normal", 0, false},
                    {"display step 0.1 SD", 0.1, false},
                    {"display step 0.5 SD", 0.5, false},
                    {"display step 1 SD", 1, false},
                    {"skewed scatter", 0, true}};
  static const size_t sizes[] = {3, 5, 10, 20};
  long sets = argc > 1 ? strtol(argv[1], NULL, 10) : 20000;
  bench b = {.random = {argc > 2 ? strtoull(argv[2], NULL, 10) : 20260401}};
  if (scw_context_new(&b.context) != SCW_OK) return 1;
  printf("condition,n,sd,next_reading,spots,sd_ratio,ranks_unpaired,"
         "ranks_paired\n");
  for (size_t c = 0; c < sizeof conditions / sizeof *conditions; c++)
    for (size_t k = 0; k < sizeof sizes / sizeof *sizes; k++) {
      b.n = sizes[k];
      b.step = conditions[c].step;
      b.skew = conditions[c].skew;
      measure(&b, conditions[c].name, sets);
    }
  scw_context_free(b.context);
  return 0;
}
