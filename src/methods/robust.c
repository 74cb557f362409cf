/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The constants are the standard's rounded ones: 1.483 for 1/0.67449 and 1.134
 * for the loss of spread by drawing in at 1.5 s. */
#include "robust.h"

#include <float.h>

#include "figure.h"
#include "sum.h"

typedef struct place_and_spread {
  double mean, sd;
} place_and_spread;

static double drawn_in(double x, place_and_spread at) {
  return fmin(fmax(x, at.mean - 1.5 * at.sd), at.mean + 1.5 * at.sd);
}

static place_and_spread next_round(const scwi_workings *w,
                                   place_and_spread at) {
  scwi_sum sum = {0}, squares = {0};
  for (size_t k = 0; k < w->n; k++)
    scwi_sum_add(&sum, drawn_in(w->ascending[k], at));
  double mean = scwi_sum_of(sum) / (double)w->n;
  for (size_t k = 0; k < w->n; k++) {
    double away = drawn_in(w->ascending[k], at) - mean;
    scwi_sum_add(&squares, away * away);
  }
  double variance = scwi_sum_of(squares) / (double)(w->n - 1);
  return (place_and_spread){mean, 1.134 * sqrt(variance)};
}

static bool settled(place_and_spread a, place_and_spread b) {
  double moved = fabs(a.mean - b.mean) + fabs(a.sd - b.sd);
  return moved <= 4 * DBL_EPSILON * b.sd;
}

scw_status scwi_robust(scw_context *context, const scwi_workings *w,
                       scw_summary *out) {
  enum { MOST_ROUNDS = 2000 }; /* about 50 are usual */
  scw_presence why = w->n < 2            ? SCW_ONE_READING
                     : w->scaled_sd <= 0 ? SCW_NO_SCATTER
                                         : SCW_MAD_ZERO;
  out->robust_mean = out->robust_sd = scwi_missing(why);
  if (w->n < 2 || w->scaled_mad <= 0) return SCW_OK;
  place_and_spread last, now = {w->middle, 1.483 * w->scaled_mad};
  size_t rounds = 0;
  do {
    last = now;
    now = next_round(w, last);
  } while (!settled(last, now) && ++rounds < MOST_ROUNDS);
  if (rounds == MOST_ROUNDS)
    return scwi_fail(context, SCW_NOT_REACHED,
                     "the robust mean of %zu readings does not settle", w->n);
  double origin = w->sample->x[w->origin];
  out->robust_mean = scwi_figure(origin + scwi_unscaled(&w->centre, now.mean));
  out->robust_sd = scwi_figure(scwi_unscaled(&w->centre, now.sd));
  return SCW_OK;
}
