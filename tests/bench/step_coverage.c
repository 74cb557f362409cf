/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How often the 95 % interval of a mean holds the true value when a display
 * rounds the readings: step_coverage [SETS [SEED]]. The true value lies
 * anywhere between two steps. Prints n, the true SD in steps, the share of
 * intervals that hold with the step term and without it (a set of equal
 * readings then has an interval of no width). */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "distributions.h"
#include "moments.h"

static unsigned long long state;

static double uniform(void) {
  state ^= state << 13;
  state ^= state >> 7;
  state ^= state << 17;
  return ((double)(state * 0x2545F4914F6CDD1DULL >> 11) + 0.5) * 0x1p-53;
}

static double normal(void) {
  return sqrt(-2 * log(uniform())) * cos(6.283185307179586477 * uniform());
}

static void must(scw_context *context, scw_status status) {
  if (status == SCW_OK) return;
  fprintf(stderr, "step_coverage: %s\n", scw_context_message(context));
  exit(1);
}

static bool holds(scw_context *context, scwi_moments m, double step,
                  double truth) {
  scw_interval interval;
  scwi_uncertainty u = scwi_mean_uncertainty(m.sd, m.n, step);
  must(context, scwi_t_interval(context, m.mean, u, 0.95, &interval));
  return interval.low <= truth && truth <= interval.high;
}

static void measure(scw_context *context, size_t n, double sd, long sets) {
  double x[32];
  int64_t ticks[32];
  long with = 0, without = 0;
  scwi_sample sample = {.n = n, .x = x, .ticks = ticks, .tick_size = 1};
  for (long s = 0; s < sets; s++) {
    double truth = uniform();
    for (size_t i = 0; i < n; i++) {
      ticks[i] = lrint(truth + sd * normal());
      x[i] = (double)ticks[i];
    }
    scwi_moments m = scwi_moments_of(&sample);
    with += holds(context, m, 1, truth);
    without += holds(context, m, 0, truth);
  }
  printf("%zu,%.2f,%.4f,%.4f\n", n, sd, (double)with / (double)sets,
         (double)without / (double)sets);
  fflush(stdout);
}

int main(int argc, char **argv) {
  long sets = argc > 1 ? strtol(argv[1], NULL, 10) : 40000;
  state = argc > 2 ? strtoull(argv[2], NULL, 10) : 20250817;
  const double sds[] = {0.02, 0.1, 0.2, 0.3, 0.4, 0.5, 0.7, 1};
  const size_t sizes[] = {2, 3, 4, 5, 7, 10, 15, 20};
  scw_context *context;
  if (scw_context_new(&context) != SCW_OK) return 1;
  printf("n,true_sd_in_steps,coverage,coverage_without_step\n");
  for (size_t k = 0; k < sizeof sizes / sizeof *sizes; k++)
    for (size_t i = 0; i < sizeof sds / sizeof *sds; i++)
      measure(context, sizes[k], sds[i], sets);
  scw_context_free(context);
  return 0;
}
