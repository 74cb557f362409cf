/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What Welch's 95 % interval covers with few readings and unequal scatter:
 * welch_few [SETS [SEED]]. Normal readings, continuous, true change 0; the SD
 * is 1 before and `ratio` after. Prints the share of intervals that hold 0;
 * its standard error at 200,000 sets is 0.0005. */
#include <stdio.h>
#include <stdlib.h>

#include "draw.h"
#include "two_sample.h"

enum { MOST = 20 };

static scwi_moments side_of(draw *random, size_t n, double sd) {
  double x[MOST];
  for (size_t i = 0; i < n; i++) x[i] = sd * draw_normal(random);
  scwi_sample sample = {.n = n, .x = x};
  return scwi_moments_of(&sample);
}

static double coverage(scw_context *context, draw *random, size_t n_before,
                       size_t n_after, double ratio, long sets) {
  long held = 0;
  for (long s = 0; s < sets; s++) {
    scw_estimate e;
    scwi_moments before = side_of(random, n_before, 1);
    scwi_moments after = side_of(random, n_after, ratio);
    if (scwi_welch(context, before, after, 0, 0, 0.95, &e) != SCW_OK) exit(1);
    held += e.interval.low <= 0 && 0 <= e.interval.high;
  }
  return (double)held / (double)sets;
}

int main(int argc, char **argv) {
  static const size_t sizes[][2] = {{3, 3}, {3, 5},  {5, 3},  {3, 10},
                                    {10, 3}, {4, 4}, {10, 4}, {5, 5},
                                    {10, 5}, {10, 10}};
  static const double ratios[] = {1, 2, 3, 5, 7, 10, 30};
  long sets = argc > 1 ? strtol(argv[1], NULL, 10) : 200000;
  draw random = {argc > 2 ? strtoull(argv[2], NULL, 10) : 20260315};
  scw_context *context;
  if (scw_context_new(&context) != SCW_OK) return 1;
  printf("n_before,n_after,ratio,coverage\n");
  for (size_t k = 0; k < sizeof sizes / sizeof *sizes; k++)
    for (size_t r = 0; r < sizeof ratios / sizeof *ratios; r++)
      printf("%zu,%zu,%g,%.4f\n", sizes[k][0], sizes[k][1], ratios[r],
             coverage(context, &random, sizes[k][0], sizes[k][1], ratios[r],
                      sets));
  scw_context_free(context);
  return 0;
}
