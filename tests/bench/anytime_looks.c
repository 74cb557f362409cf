/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Looking after every reading from 2 to 200: how many runs ever show an interval
 * that excludes the true value? anytime_looks [RUNS [SEED]]. Prints a CSV: the
 * design (the mean of readings, or of spot-wise differences of two readings),
 * the display step in units of the SD of one reading (0: none), and the share of
 * runs that had excluded the truth by the 10th, 50th and 200th value, by the
 * interval that holds at every look and by the plain t interval with its display
 * term. The true value lies anywhere between two steps; 95 %, g = 1. */
#include <stdio.h>
#include <stdlib.h>

#include "anytime.h"
#include "draw.h"

enum { LOOKS = 200, MARKS = 3 };
static const size_t mark_at[MARKS] = {10, 50, LOOKS};
static const double level = 0.95;

typedef struct cell {
  bool paired;
  double step; /* in SD */
} cell;

/* How many runs had excluded the truth by each mark. */
typedef struct tally {
  long anytime[MARKS], t[MARKS];
} tally;

static void must(scw_context *context, scw_status status) {
  if (status == SCW_OK) return;
  fprintf(stderr, "anytime_looks: %s\n", scw_context_message(context));
  exit(1);
}

/* What a display in steps of `step` shows. */
static double shown(double value, double step) {
  return step > 0 ? nearbyint(value / step) * step : value;
}

static double take(draw *d, const cell *c, double truth) {
  double after = shown(truth + draw_normal(d), c->step);
  if (!c->paired) return after;
  /* The spot itself lies anywhere; the truth is the change. */
  double spot = 20 * draw_uniform(d);
  return shown(spot + truth + draw_normal(d), c->step) -
         shown(spot + draw_normal(d), c->step);
}

/* t(0.975, n-1), worked out once. */
static double t_of(scw_context *context, size_t n) {
  static double known[LOOKS + 1];
  scw_interval unit;
  if (known[n] == 0) {
    must(context, scwi_t_interval(context, 0,
                                  (scwi_uncertainty){1, (double)n - 1}, level,
                                  &unit));
    known[n] = unit.high;
  }
  return known[n];
}

static bool t_excludes(scw_context *context, const cell *c, scwi_moments m,
                       double truth) {
  scwi_uncertainty u =
      c->paired
          ? scwi_difference_uncertainty(m.sd, m.n, (scwi_display){c->step, 0})
          : scwi_mean_uncertainty(m.sd, m.n, c->step);
  if (!(u.u > 0)) return false; /* no interval */
  double distance = fabs(m.mean - truth);
  if (u.df <= (double)m.n - 1) return distance > t_of(context, m.n) * u.u;
  scw_interval interval;
  must(context, scwi_t_interval(context, m.mean, u, level, &interval));
  return truth < interval.low || truth > interval.high;
}

static bool anytime_excludes(const cell *c, scwi_moments m, double truth) {
  scw_interval interval = scwi_anytime_interval(
      m, c->paired ? c->step : c->step / 2, level, SCWI_ANYTIME_G);
  return interval.state == SCW_PRESENT &&
         (truth < interval.low || truth > interval.high);
}

static void count(long by[MARKS], size_t first) {
  for (int i = 0; i < MARKS; i++)
    by[i] += first != 0 && first <= mark_at[i];
}

static void one_run(scw_context *context, draw *d, const cell *c, tally *out) {
  double truth = draw_uniform(d) * (c->step > 0 ? c->step : 1);
  double mean = 0, squares = 0;
  size_t anytime = 0, t = 0; /* the first look that excludes */
  for (size_t n = 1; n <= LOOKS && !(anytime && t); n++) {
    double x = take(d, c, truth), away = x - mean;
    mean += away / (double)n;
    squares += away * (x - mean);
    if (n < 2) continue;
    /* Running sums leave dust where all readings are the same. */
    double sd = squares > 1e-20 ? sqrt(squares / (double)(n - 1)) : 0;
    scwi_moments m = {n, mean, sd};
    if (!anytime && anytime_excludes(c, m, truth)) anytime = n;
    if (!t && t_excludes(context, c, m, truth)) t = n;
  }
  count(out->anytime, anytime);
  count(out->t, t);
}

static void measure(scw_context *context, draw *d, const cell *c, long runs) {
  tally all = {{0}, {0}};
  for (long r = 0; r < runs; r++) one_run(context, d, c, &all);
  printf("%s,%g", c->paired ? "paired" : "mean", c->step);
  for (int i = 0; i < MARKS; i++)
    printf(",%.4f", (double)all.anytime[i] / (double)runs);
  for (int i = 0; i < MARKS; i++)
    printf(",%.4f", (double)all.t[i] / (double)runs);
  putchar('\n');
  fflush(stdout);
}

int main(int argc, char **argv) {
  long runs = argc > 1 ? strtol(argv[1], NULL, 10) : 20000;
  draw d = {argc > 2 ? strtoull(argv[2], NULL, 10) : 20250817};
  const double steps[] = {0, 0.5, 1, 2, 3, 5, 10};
  scw_context *context;
  if (scw_context_new(&context) != SCW_OK) return 1;
  printf("design,step_in_sd,anytime_by_10,anytime_by_50,anytime_by_200,"
         "t_by_10,t_by_50,t_by_200\n");
  for (int paired = 0; paired < 2; paired++)
    for (size_t i = 0; i < sizeof steps / sizeof *steps; i++) {
      cell c = {paired != 0, steps[i]};
      measure(context, &d, &c, runs);
    }
  scw_context_free(context);
  return 0;
}
