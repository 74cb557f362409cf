/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sums of readings as whole numbers of ticks (units of the last decimal), so
 * that neither order nor partition can change them; and what the display step
 * is inferred from, gathered without keeping the readings. */
#ifndef SCWI_TICK_SUMS_H
#define SCWI_TICK_SUMS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "decimal.h"

__extension__ typedef __int128 scwi_tick_sum;
__extension__ typedef unsigned __int128 scwi_tick_square;

/* Of one set. Ticks are at most 2^62 in size: the sum of squares needs three
 * words, lowest first. */
typedef struct scwi_tick_sums {
  scwi_tick_sum sum;
  uint64_t squares[3];
  size_t n;
} scwi_tick_sums;

static inline void scwi_tick_sums_add(scwi_tick_sums *sums, int64_t tick) {
  uint64_t size = tick < 0 ? -(uint64_t)tick : (uint64_t)tick;
  scwi_tick_square square = (scwi_tick_square)size * size;
  scwi_tick_square low = (scwi_tick_square)sums->squares[0] + (uint64_t)square;
  scwi_tick_square high = (scwi_tick_square)sums->squares[1] +
                          (uint64_t)(square >> 64) + (uint64_t)(low >> 64);
  sums->n++;
  sums->sum += tick;
  sums->squares[0] = (uint64_t)low;
  sums->squares[1] = (uint64_t)high;
  sums->squares[2] += (uint64_t)(high >> 64);
}

void scwi_tick_sums_join(scwi_tick_sums *sums, const scwi_tick_sums *more);
/* Every tick becomes ten. */
void scwi_tick_sums_times_ten(scwi_tick_sums *sums);

/* The sum over the readings of (n * tick - sum)^2, rounded once wherever it
 * fits into 128 bits. */
double scwi_tick_sums_spread(const scwi_tick_sums *sums);
/* The sum of the squares, rounded once or twice. */
double scwi_tick_sums_squares(const scwi_tick_sums *sums);

/* The tick common to all readings so far, and what is known of their ticks. */
typedef struct scwi_tick_scale {
  int digits;        /* a tick is 10^-digits; unset while n is 0 */
  size_t n;
  uint64_t largest;  /* size of a tick count */
  int64_t seen[2];   /* different ones among them ... */
  int different;     /* ... counted up to three */
  uint64_t divisor;  /* of them all as far as its factors 2 and 5 go; 0: all
                        are zero */
  bool settled;      /* further readings cannot change different or divisor */
} scwi_tick_scale;

#define SCWI_LARGEST_TICK (INT64_C(1) << 62)

/* How many powers of ten the scale has to go up for this reading (0 mostly);
 * -1 when no tick can hold it and the readings before it. */
int scwi_tick_scale_rise(const scwi_tick_scale *scale,
                         const scwi_decimal *reading);
void scwi_tick_scale_raise(scwi_tick_scale *scale, int powers);
/* Takes one reading; it fits. Returns its ticks. */
int64_t scwi_tick_scale_take(scwi_tick_scale *scale,
                             const scwi_decimal *reading);
/* The slow part of taking a tick, for those that know theirs. */
void scwi_tick_scale_note(scwi_tick_scale *scale, int64_t tick);

/* Powers of ten `scale` has to rise to hold `other` too; -1: impossible. The
 * digits of the result are scale->digits + rise. */
int scwi_tick_scale_meet(const scwi_tick_scale *scale,
                         const scwi_tick_scale *other);
/* Adds another scale's readings; both have the same digits. */
void scwi_tick_scale_join(scwi_tick_scale *scale,
                          const scwi_tick_scale *other);

#endif
