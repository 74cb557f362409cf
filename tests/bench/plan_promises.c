/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether plans keep what they promise: plan_promises [TRIALS [SEED]].
 *
 * settle: draws whole comparisons of the size scwi_settle asks for and counts
 * verdicts other than cannot_tell; promised: at least 0.80, and less with one
 * reading fewer. limits: how often the upper limits of the spot and repeat
 * variance lie above the true ones; promised: the assurance. */
#include <stdio.h>
#include <stdlib.h>

#include "draw.h"
#include "figure.h"
#include "planning.h"
#include "spot_components.h"
#include "two_sample.h"

enum { MOST = 512 };

static void must(scw_context *context, scw_status status) {
  if (status == SCW_OK) return;
  fprintf(stderr, "plan_promises: %s\n", scw_context_message(context));
  exit(1);
}

static scwi_moments side(draw *random, size_t n, double mean, double sd) {
  double x[MOST];
  scwi_sample sample = {.n = n, .x = x};
  for (size_t i = 0; i < n; i++)
    x[i] = mean + sd * draw_normal(random);
  return scwi_moments_of(&sample);
}

static bool told(scw_context *context, draw *random, const scwi_comparison *c,
                 size_t n, double change, scw_figure margin) {
  scw_estimate e;
  if (c->paired) {
    scwi_moments m = side(random, n, change, c->sd_before);
    must(context, scwi_estimate(context, m.mean,
                                scwi_difference_uncertainty(
                                    m.sd, n, (scwi_display){c->step, 0}),
                                c->level, &e));
  } else {
    must(context, scwi_welch(context, side(random, n, 0, c->sd_before),
                             side(random, n, change, c->sd_after), c->step,
                             c->step, c->level, &e));
  }
  return scwi_verdict(e.interval, margin) != SCW_CANNOT_TELL;
}

static double share_told(scw_context *context, draw *random,
                         const scwi_comparison *c, size_t n, double change,
                         scw_figure margin, long trials) {
  long count = 0;
  for (long i = 0; i < trials; i++)
    count += told(context, random, c, n, change, margin);
  return (double)count / (double)trials;
}

static void settle(scw_context *context, draw *random, long trials) {
  static const struct {
    scwi_comparison c;
    double change, margin;
  } cases[] = {
      {{true, 1, 0, 0, 0.95, 0}, 0.5, 0},  {{true, 1, 0, 0, 0.95, 0}, 0.2, 0.6},
      {{true, 1, 0, 0, 0.95, 0}, 0, 0.5},  {{true, 1, 0, 0, 0.95, 0}, 0.8, 0.5},
      {{false, 1, 1, 0, 0.95, 0}, 0.7, 0}, {{false, 1, 3, 0, 0.95, 0}, 1.5, 0},
      {{false, 1, 3, 0, 0.95, 0}, 0.5, 2}, {{false, 0.5, 0.5, 0, 0.9, 0}, 0.9, 0},
      {{false, 1, 1, 0, 0.95, 0}, 2.2, 0}};
  printf(
      "paired,sd_before,sd_after,level,change,margin,n,told,told_n_less_1\n");
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    const scwi_comparison *c = &cases[i].c;
    scw_figure margin = cases[i].margin > 0 ? scwi_figure(cases[i].margin)
                                            : scwi_missing(SCW_NO_MARGIN);
    scw_settle s;
    must(context,
         scwi_settle(context, c, cases[i].change, margin, 3, 3, 0.8, &s));
    size_t n = (size_t)s.total.value;
    printf(
        "%d,%g,%g,%g,%g,%g,%zu,%.4f,%.4f\n", c->paired, c->sd_before,
        c->sd_after, c->level, cases[i].change, cases[i].margin, n,
        share_told(context, random, c, n, cases[i].change, margin, trials),
        share_told(context, random, c, n - 1, cases[i].change, margin, trials));
  }
}

static void limits(scw_context *context, draw *random, size_t spots,
                   double spot_variance, double assurance, long trials) {
  enum { REPEATS = 3 };
  double x[MOST], spot_sd = sqrt(spot_variance);
  long spot = 0, repeat = 0;
  for (long i = 0; i < trials; i++) {
    scw_spot_components c;
    for (size_t s = 0; s < spots; s++) {
      double mean = spot_sd * draw_normal(random);
      for (size_t r = 0; r < REPEATS; r++)
        x[s * REPEATS + r] = mean + draw_normal(random);
    }
    must(context,
         scwi_spot_components(context, x, spots, REPEATS, assurance, &c));
    spot += c.spot_upper.value >= spot_variance;
    repeat += c.repeat_upper.value >= 1;
  }
  printf("%zu,%g,%g,%.4f,%.4f\n", spots, spot_variance, assurance,
         (double)spot / (double)trials, (double)repeat / (double)trials);
}

int main(int argc, char **argv) {
  long trials = argc > 1 ? strtol(argv[1], NULL, 10) : 100000;
  draw random = {argc > 2 ? strtoull(argv[2], NULL, 10) : 20250819};
  scw_context *context;
  if (scw_context_new(&context) != SCW_OK) return 1;
  settle(context, &random, trials);
  printf(
      "\nspots,spot_variance_over_repeat_variance,assurance,"
      "spot_limit_holds,repeat_limit_holds\n");
  for (size_t spots = 3; spots <= 12; spots *= 2)
    for (int k = 0; k < 8; k++)
      limits(context, &random, spots, (double[]){0.01, 0.1, 1, 10}[k % 4],
             k < 4 ? 0.8 : 0.95, trials);
  scw_context_free(context);
  return 0;
}
