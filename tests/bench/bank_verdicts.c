/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What own scatter, a bank of 80 degrees of freedom, and both together claim:
 * bank_verdicts [SETS [SEED]]. The bank is one draw of a pooled SD where the
 * true one is 1; the panel read scatters `ratio` times as much; the change is
 * 0 (false claims) or `change`. First two unpaired sides of n readings, then n
 * pairs in which `shared` is the part of the variance that the spots carry and
 * pairing takes out; there the bank's interval is that of unpaired readings,
 * sqrt(2) SD: the use that the program refuses. Prints shares of 95 % intervals
 * that exclude 0, and the joint rule's. */
#include <stdio.h>
#include <stdlib.h>

#include "bank.h"
#include "draw.h"
#include "two_sample.h"

enum { MOST = 20, BANK_DF = 80 };

typedef struct layout {
  bool paired;
  size_t n;
  double ratio, shared, change;
} layout;

typedef struct claims {
  long own, bank, both;
} claims;

static void must(scw_context *context, scw_status status) {
  if (status == SCW_OK) return;
  fprintf(stderr, "bank_verdicts: %s\n", scw_context_message(context));
  exit(1);
}

static double draw_bank(draw *random) {
  double squares = 0;
  for (int i = 0; i < BANK_DF; i++) {
    double z = draw_normal(random);
    squares += z * z;
  }
  return sqrt(squares / BANK_DF);
}

static bool excludes(const scw_estimate *e) {
  return e->interval.state == SCW_PRESENT &&
         (e->interval.low > 0 || e->interval.high < 0);
}

static void draw_sides(draw *random, layout of, double *before,
                       double *after) {
  double spot = of.ratio * sqrt(of.shared);
  double rest = of.ratio * sqrt(1 - of.shared);
  for (size_t i = 0; i < of.n; i++) {
    double one = spot * draw_normal(random);
    double other = of.paired ? one : spot * draw_normal(random);
    before[i] = one + rest * draw_normal(random);
    after[i] = of.change + other + rest * draw_normal(random);
  }
}

static scw_estimate own_estimate(scw_context *context, layout of,
                                 double *before, double *after) {
  scw_estimate own;
  scwi_sample b = {.n = of.n, .x = before}, a = {.n = of.n, .x = after};
  scwi_moments mb = scwi_moments_of(&b), ma = scwi_moments_of(&a);
  if (of.paired) {
    for (size_t i = 0; i < of.n; i++) after[i] -= before[i];
    must(context, scwi_paired(context, &a, (scwi_display){0}, 0.95, &own));
  } else {
    must(context, scwi_welch(context, mb, ma, 0, 0, 0.95, &own));
    own.estimate.value = ma.mean - mb.mean;
  }
  return own;
}

static void one_set(scw_context *context, draw *random, layout of,
                    claims *to) {
  double before[MOST], after[MOST];
  scwi_bank bank = {draw_bank(random), BANK_DF};
  scwi_bank_side sides[2] = {{of.n, 0}, {of.n, 0}};
  scw_estimate by_bank;
  draw_sides(random, of, before, after);
  scw_estimate own = own_estimate(context, of, before, after);
  must(context, scwi_estimate(context, own.estimate.value,
                              scwi_bank_uncertainty(bank, sides, 2), 0.95,
                              &by_bank));
  to->own += excludes(&own);
  to->bank += excludes(&by_bank);
  to->both += excludes(&own) && excludes(&by_bank);
}

static void measure(scw_context *context, draw *random, layout of,
                    long sets) {
  claims c = {0};
  double all = (double)sets;
  for (long s = 0; s < sets; s++) one_set(context, random, of, &c);
  printf("%s,%zu,%g,%g,%g,%.4f,%.4f,%.4f\n", of.paired ? "paired" : "unpaired",
         of.n, of.ratio, of.shared, of.change, (double)c.own / all,
         (double)c.bank / all, (double)c.both / all);
}

int main(int argc, char **argv) {
  static const size_t sizes[] = {1, 2, 3, 5, 10};
  static const double ratios[] = {0.5, 1, 1.5, 2};
  static const double shares[] = {0, 0.5, 0.8, 0.95};
  static const double changes[] = {0, 1, 2};
  long sets = argc > 1 ? strtol(argv[1], NULL, 10) : 100000;
  draw random = {argc > 2 ? strtoull(argv[2], NULL, 10) : 20260317};
  scw_context *context;
  if (scw_context_new(&context) != SCW_OK) return 1;
  printf("design,n,ratio,shared,change,own,bank,both\n");
  for (size_t k = 0; k < 5; k++)
    for (size_t r = 0; r < 4; r++)
      for (size_t d = 0; d < 3; d++)
        measure(context, &random,
                (layout){false, sizes[k], ratios[r], 0, changes[d]}, sets);
  for (size_t k = 2; k < 4; k++)
    for (size_t s = 0; s < 4; s++)
      for (size_t d = 0; d < 3; d++)
        measure(context, &random,
                (layout){true, sizes[k], 1, shares[s], changes[d]}, sets);
  scw_context_free(context);
  return 0;
}
