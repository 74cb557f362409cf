/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the intervals and verdicts deliver: honesty [SETS [SEED]]. For every
 * condition, number of readings and design it measures
 *   coverage      share of 95 % intervals that hold the truth
 *   false_change  share of "changed" where nothing changed (no margin)
 *   false_size    share of claims about the margin (by more, by less, not by as
 *                 much) where the true change is the margin itself, so that
 *                 every such claim is false
 * with their Monte Carlo standard errors. A reading is
 *   level + place of the spot + drift over the side + scatter,
 * the scatter of SD 1 before and `ratio` after, shown in whole display steps.
 * Places scatter with SD 2 from spot to spot; pairs see the same spot twice. */
#include <stdio.h>
#include <stdlib.h>

#include "control.h"
#include "draw.h"
#include "two_sample.h"
#include "verdict.h"

enum { MOST = 20, PLACES = 2, LEVELS = 50 };
#define MARGIN 1.5

typedef struct condition {
  const char *name;
  double ratio; /* SD after over SD before */
  double step;  /* display step; 0: continuous */
  double drift; /* over the readings of the after side, in SDs */
  double near;  /* correlation of neighbouring scatter */
  bool skew;    /* exponential scatter instead of normal */
} condition;

typedef struct bench {
  scw_context *context;
  draw random;
  const condition *with;
  size_t n;
} bench;

static void must(scw_context *context, scw_status status) {
  if (status == SCW_OK) return;
  fprintf(stderr, "honesty: %s\n", scw_context_message(context));
  exit(1);
}

static double scatter_draw(bench *b) {
  if (b->with->skew) return -log(draw_uniform(&b->random)) - 1;
  return draw_normal(&b->random);
}

/* One side of readings, shown; `place` is null where every reading is at a new
 * spot of its own. */
static scwi_moments side_of(bench *b, double level, const double *place,
                            double sd, double drift, double *x) {
  double near = b->with->near, last = scatter_draw(b);
  for (size_t i = 0; i < b->n; i++) {
    double here = place ? place[i] : PLACES * draw_normal(&b->random);
    if (i)
      last = near * last + sqrt(1 - near * near) * scatter_draw(b);
    x[i] = level + here + sd * last +
           drift * (double)i / (double)(b->n > 1 ? b->n - 1 : 1);
    if (b->with->step > 0) x[i] = b->with->step * rint(x[i] / b->with->step);
  }
  scwi_sample sample = {.n = b->n, .x = x};
  return scwi_moments_of(&sample);
}

static double base_level(bench *b) {
  return LEVELS * draw_uniform(&b->random);
}

/* The mean of one set on an even panel: the figure of `readings`. */
static scw_estimate one_mean(bench *b, double change) {
  double x[MOST], even[MOST] = {0}, level = base_level(b);
  scwi_moments m = side_of(b, level + change, even, 1, b->with->drift, x);
  scw_estimate e;
  must(b->context,
       scwi_estimate(b->context, m.mean - level,
                     scwi_mean_uncertainty(m.sd, m.n, b->with->step), 0.95,
                     &e));
  return e;
}

static scw_estimate unpaired(bench *b, double change) {
  double x[MOST], even[MOST] = {0}, level = base_level(b);
  scwi_moments before = side_of(b, level, even, 1, 0, x);
  scwi_moments after =
      side_of(b, level + change, even, b->with->ratio, b->with->drift, x);
  scw_estimate e;
  must(b->context, scwi_welch(b->context, before, after, b->with->step,
                              b->with->step, 0.95, &e));
  return e;
}

static scw_estimate paired_sd(bench *b, double change, double ratio,
                              double drift) {
  double before[MOST], after[MOST], d[MOST], place[MOST];
  double level = base_level(b), q = b->with->step;
  for (size_t i = 0; i < b->n; i++) place[i] = PLACES * draw_normal(&b->random);
  scwi_moments mb = side_of(b, level, place, 1, 0, before);
  scwi_moments ma = side_of(b, level + change, place, ratio, drift, after);
  for (size_t i = 0; i < b->n; i++) {
    d[i] = after[i] - before[i];
    if (q > 0) d[i] = q * rint(d[i] / q);
  }
  scwi_sample sample = {.n = b->n, .x = d};
  scwi_display display = {
      q, hypot(scwi_rounding_left(mb.sd, q), scwi_rounding_left(ma.sd, q))};
  scw_estimate e;
  must(b->context, scwi_paired(b->context, &sample, display, 0.95, &e));
  return e;
}

static scw_estimate paired(bench *b, double change) {
  return paired_sd(b, change, b->with->ratio, b->with->drift);
}

/* Treated less control, both paired by spot; the drift is the meter's and so
 * on both. */
static scw_estimate control(bench *b, double change) {
  scw_estimate treated =
      paired_sd(b, change, b->with->ratio, b->with->drift);
  scw_estimate bare = paired_sd(b, 0, 1, b->with->drift), e;
  must(b->context, scwi_control(b->context, &treated, &bare, 0.95, &e));
  return e;
}

typedef scw_estimate (*design)(bench *b, double change);

static bool holds(const scw_estimate *e, double truth) {
  return e->interval.state == SCW_PRESENT && e->interval.low <= truth &&
         truth <= e->interval.high;
}

static bool claims_size(const scw_estimate *e) {
  scw_verdict v =
      scwi_verdict(e->interval, (scw_figure){MARGIN, SCW_PRESENT});
  return v == SCW_CHANGED || v == SCW_CHANGED_BUT_SMALL ||
         v == SCW_NO_CHANGE_BEYOND_MARGIN;
}

static double error_of(double share, long sets) {
  return sqrt(share * (1 - share) / (double)sets);
}

static void measure(bench *b, const char *name, design one, long sets) {
  long held = 0, changed = 0, sized = 0;
  for (long s = 0; s < sets; s++) {
    scw_estimate same = one(b, 0), moved = one(b, MARGIN);
    held += holds(&moved, MARGIN);
    changed += !holds(&same, 0);
    sized += claims_size(&moved);
  }
  double c = (double)held / (double)sets, f = (double)changed / (double)sets,
         z = (double)sized / (double)sets;
  printf("%s,%s,%zu,%.4f,%.4f,%.4f,%.4f,%.4f,%.4f\n", b->with->name, name,
         b->n, c, error_of(c, sets), f, error_of(f, sets), z,
         error_of(z, sets));
  fflush(stdout);
}

int main(int argc, char **argv) {
  static const condition conditions[] = {
      {"normal", 1, 0, 0, 0, false},
      {"SD ratio 3", 3, 0, 0, 0, false},
      {"SD ratio 10", 10, 0, 0, 0, false},
      {"display step 0.1 SD", 1, 0.1, 0, 0, false},
      {"display step 0.5 SD", 1, 0.5, 0, 0, false},
      {"display step 1 SD", 1, 1, 0, 0, false},
      {"display step 2 SD", 1, 2, 0, 0, false},
      {"skewed scatter", 1, 0, 0, 0, true},
      {"skewed and SD ratio 3", 3, 0, 0, 0, true},
      {"drift of 1 SD", 1, 0, 1, 0, false},
      {"drift of 3 SD", 1, 0, 3, 0, false},
      {"neighbours correlated 0.3", 1, 0, 0, 0.3, false},
      {"neighbours correlated 0.7", 1, 0, 0, 0.7, false}};
  static const struct {
    const char *name;
    design one;
  } designs[] = {{"mean", one_mean},
                 {"unpaired", unpaired},
                 {"paired", paired},
                 {"control", control}};
  static const size_t sizes[] = {3, 5, 10, 20};
  long sets = argc > 1 ? strtol(argv[1], NULL, 10) : 40000;
  bench b = {.random = {argc > 2 ? strtoull(argv[2], NULL, 10) : 20260301}};
  if (scw_context_new(&b.context) != SCW_OK) return 1;
  printf("condition,design,n,coverage,coverage_se,false_change,"
         "false_change_se,false_size,false_size_se\n");
  for (size_t c = 0; c < sizeof conditions / sizeof *conditions; c++)
    for (size_t d = 0; d < sizeof designs / sizeof *designs; d++)
      for (size_t k = 0; k < sizeof sizes / sizeof *sizes; k++) {
        b.with = &conditions[c];
        b.n = sizes[k];
        measure(&b, designs[d].name, designs[d].one, sets);
      }
  scw_context_free(b.context);
  return 0;
}
