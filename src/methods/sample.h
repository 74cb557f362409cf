/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings handed to a method: plain arrays, in reading order. */
#ifndef SCWI_SAMPLE_H
#define SCWI_SAMPLE_H

#include <math.h>
#include <stdint.h>

#include "scatterwise/figures.h"

typedef struct scwi_sample {
  size_t n;
  const double *x;        /* finite values */
  const int64_t *ticks;   /* x in whole units of the last decimal, so that
                             ties are exact; null when no common decimal
                             exists, and doubles are compared instead */
  double tick_size;       /* x = offset + ticks * tick_size, up to rounding */
  scw_step step;          /* display step in the unit of x */
  double offset;          /* of values worked out from readings; else 0 */
} scwi_sample;

/* -1, 0, 1 as reading i is below, equal to, above reading j. */
static inline int scwi_sample_compare(const scwi_sample *s, size_t i,
                                      size_t j) {
  if (s->ticks) return (s->ticks[i] > s->ticks[j]) - (s->ticks[i] < s->ticks[j]);
  return (s->x[i] > s->x[j]) - (s->x[i] < s->x[j]);
}

/* So many ticks in the unit of x: 6 ticks of 0.1 are 0.6, as it is written,
 * which 6 * 0.1 is not. */
static inline double scwi_sample_unit(const scwi_sample *s, double ticks) {
  double per_unit = 1 / s->tick_size, whole = nearbyint(per_unit);
  bool decimal = fabs(per_unit - whole) <= 1e-12 * whole;
  return decimal ? ticks / whole : ticks * s->tick_size;
}

/* All readings equal (true for n < 2). */
static inline bool scwi_sample_all_equal(const scwi_sample *s) {
  for (size_t i = 1; i < s->n; i++)
    if (scwi_sample_compare(s, 0, i)) return false;
  return true;
}

#endif
