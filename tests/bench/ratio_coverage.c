/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What Fieller's 95 % set and the delta interval on the log scale cover:
 * ratio_coverage [SETS [SEED]]. Normal readings, true ratio 0.8, mean before
 * near 1 (anew in every set within a display step), SD of single readings
 * before `scatter`, after 0.8 times that; in pairs the after readings follow
 * the before ones with a third of the scatter of their own. Shown in steps of
 * `step` scatters, 0: continuous. `no_interval` is the share of sets whose
 * Fieller set is no interval; a delta interval that does not exist holds
 * nothing. Standard error at 40,000 sets 0.0011. */
#include <stdio.h>
#include <stdlib.h>

#include "draw.h"
#include "fieller.h"
#include "figure.h"

enum { MOST = 20 };
static const double ratio = 0.8;

typedef struct design {
  bool paired;
  size_t n;
  double scatter, step; /* step in the unit of the readings */
} design;

static double shown(double x, double step) {
  return step > 0 ? step * nearbyint(x / step) : x;
}

static void take(draw *random, const design *d, double *before, double *after) {
  double mean = 1 + d->step * draw_uniform(random);
  for (size_t i = 0; i < d->n; i++) {
    double spot = mean + d->scatter * draw_normal(random);
    double own = d->scatter * draw_normal(random);
    before[i] = shown(spot, d->step);
    after[i] =
        shown(ratio * (d->paired ? spot + own / 3 : mean + own), d->step);
  }
}

static double rounding(const double *x, const design *d) {
  scwi_sample sample = {.n = d->n, .x = x};
  return scwi_rounding_left(scwi_moments_of(&sample).sd, d->step);
}

static scwi_two_means means_of(const design *d, const double *before,
                               const double *after) {
  scwi_sample b = {.n = d->n, .x = before}, a = {.n = d->n, .x = after};
  scwi_display display = {d->step,
                          hypot(rounding(before, d), rounding(after, d))};
  return d->paired ? scwi_means_paired(before, after, d->n, display)
                   : scwi_means_apart(scwi_moments_of(&b), d->step,
                                      scwi_moments_of(&a), d->step);
}

static bool holds(const scw_ratio *r) {
  bool below = scwi_present(r->low) && ratio < r->low.value;
  bool above = scwi_present(r->high) && ratio > r->high.value;
  if (r->state != SCW_PRESENT) return false;
  if (r->set == SCW_RATIO_EVERYTHING) return true;
  if (r->set == SCW_RATIO_BETWEEN) return !below && !above;
  return (scwi_present(r->low) && ratio <= r->low.value) ||
         (scwi_present(r->high) && ratio >= r->high.value);
}

static void run(scw_context *context, draw *random, const design *d,
                double steps, long sets) {
  long fieller = 0, delta = 0, no_interval = 0;
  for (long s = 0; s < sets; s++) {
    double before[MOST], after[MOST];
    scw_ratio r;
    take(random, d, before, after);
    scwi_two_means means = means_of(d, before, after);
    if (scwi_ratio_of_means(context, &means, 0.95, &r) != SCW_OK) exit(1);
    fieller += holds(&r);
    no_interval += r.state == SCW_PRESENT && r.set != SCW_RATIO_BETWEEN;
    delta += r.delta.state == SCW_PRESENT && r.delta.low <= ratio &&
             ratio <= r.delta.high;
  }
  double n = (double)sets;
  printf("%s,%zu,%g,%g,%.4f,%.4f,%.4f\n", d->paired ? "pairs" : "sides", d->n,
         d->scatter, steps, (double)fieller / n, (double)delta / n,
         (double)no_interval / n);
}

int main(int argc, char **argv) {
  static const size_t sizes[] = {3, 5, 10, 20};
  static const double scatters[] = {0.005, 0.1, 0.5}, steps[] = {0, 1, 4};
  long sets = argc > 1 ? strtol(argv[1], NULL, 10) : 40000;
  draw random = {argc > 2 ? strtoull(argv[2], NULL, 10) : 20260315};
  scw_context *context;
  if (scw_context_new(&context) != SCW_OK) return 1;
  printf("design,n,scatter,step,fieller,delta,no_interval\n");
  for (int paired = 0; paired < 2; paired++)
    for (size_t k = 0; k < 4; k++)
      for (size_t s = 0; s < 3; s++)
        for (size_t q = 0; q < 3; q++) {
          design d = {paired, sizes[k], scatters[s], steps[q] * scatters[s]};
          run(context, &random, &d, steps[q], sets);
        }
  scw_context_free(context);
  return 0;
}
