/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Processor time to sum up one set of n readings to 0.1 with an SD of 2 (20
 * steps), all figures: prints n and milliseconds, the best of some rounds. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "summarise.h"

static double milliseconds(void) {
  struct timespec now;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return (double)now.tv_sec * 1e3 + (double)now.tv_nsec * 1e-6;
}

static double normal_of_sums(void) {
  double sum = 0;
  for (int i = 0; i < 12; i++)
    sum += rand() / (double)RAND_MAX;
  return sum - 6;
}

static void stop(const char *what) {
  fprintf(stderr, "set_speed: %s\n", what);
  exit(1);
}

static void measure(scw_context *context, size_t n) {
  int64_t *ticks = calloc(n, sizeof *ticks);
  double *x = calloc(n, sizeof *x), best = INFINITY;
  if (!ticks || !x) stop("no memory");
  for (size_t i = 0; i < n; i++) {
    ticks[i] = 874 + lrint(20 * normal_of_sums());
    x[i] = (double)ticks[i] / 10;
  }
  scwi_sample sample = {n, x, ticks, 0.1, {0.1, SCW_STEP_INFERRED}};
  scwi_summary_settings settings = {
      .level = 0.95, .content = 0.95, .stand_out = 0.05, .seed = 1};
  for (int round = 0; round < (n > 1000 ? 3 : 30); round++) {
    scw_summary summary;
    double start = milliseconds();
    if (scwi_summarise(context, &sample, &settings, &summary) != SCW_OK)
      stop(scw_context_message(context));
    best = fmin(best, milliseconds() - start);
  }
  printf("%zu,%.3f\n", n, best);
  free(ticks);
  free(x);
}

int main(void) {
  const size_t sizes[] = {3,  5,  9,   10,   12,   14,    16,     18,
                          20, 50, 200, 1000, 5000, 20000, 100000, 1000000};
  scw_context *context;
  if (scw_context_new(&context) != SCW_OK) return 1;
  printf("readings,milliseconds\n");
  for (size_t k = 0; k < sizeof sizes / sizeof *sizes; k++)
    measure(context, sizes[k]);
  scw_context_free(context);
  return 0;
}
