/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Seeded draws for simulations: xorshift64*, Box-Muller. */
#ifndef DRAW_H
#define DRAW_H

#include <math.h>

typedef struct draw {
  unsigned long long state; /* not 0 */
} draw;

static inline double draw_uniform(draw *d) {
  d->state ^= d->state << 13;
  d->state ^= d->state >> 7;
  d->state ^= d->state << 17;
  return ((double)(d->state * 0x2545F4914F6CDD1DULL >> 11) + 0.5) * 0x1p-53;
}

static inline double draw_normal(draw *d) {
  return sqrt(-2 * log(draw_uniform(d))) *
         cos(6.283185307179586477 * draw_uniform(d));
}

#endif
