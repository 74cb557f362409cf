/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How often the generalised ESD procedure, at its default number of
 * candidates, flags a reading of a normal set in which nothing is wrong:
 * esd_false_rate [SETS [SEED]]. Prints n, the share of sets with a flag, its
 * standard error, and the share for one candidate (Grubbs). Readings are
 * continuous; a display only lowers the rate. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "stand_out.h"
#include "workings.h"

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
  fprintf(stderr, "esd_false_rate: %s\n", scw_context_message(context));
  exit(1);
}

static bool flagged(scw_context *context, const scwi_workings *w,
                    size_t candidates) {
  scw_stand_out found;
  must(context, scwi_stand_out(context, w, 0.05, candidates, &found));
  return found.n_flags > 0;
}

static void measure(scw_context *context, size_t n, unsigned long sets) {
  double x[64];
  unsigned long many = 0, one = 0;
  scwi_sample sample = {.n = n, .x = x, .step = {0, SCW_STEP_GIVEN}};
  for (unsigned long s = 0; s < sets; s++) {
    scwi_workings w;
    for (size_t i = 0; i < n; i++)
      x[i] = normal();
    must(context, scwi_workings_of(context, &sample, &w));
    many += flagged(context, &w, 0);
    one += flagged(context, &w, 1);
    scwi_workings_free(&w);
  }
  double share = (double)many / (double)sets;
  printf("%zu,%.5f,%.5f,%.5f\n", n, share,
         sqrt(share * (1 - share) / (double)sets), (double)one / (double)sets);
  fflush(stdout);
}

int main(int argc, char **argv) {
  unsigned long sets = argc > 1 ? strtoul(argv[1], NULL, 10) : 1000000;
  state = argc > 2 ? strtoull(argv[2], NULL, 10) : 20250817;
  scw_context *context;
  if (scw_context_new(&context) != SCW_OK) return 1;
  printf("n,share_flagged,standard_error,share_flagged_one_candidate\n");
  for (size_t n = 15; n <= 24; n++)
    measure(context, n, sets);
  const size_t more[] = {25, 30, 40, 50};
  for (size_t k = 0; k < 4; k++)
    measure(context, more[k], sets);
  scw_context_free(context);
  return 0;
}
