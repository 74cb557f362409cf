/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sums of readings that have no common tick, in pairs of doubles: about 32
 * digits, of which the spread loses twice as many as the mean has more than
 * the scatter. */
#ifndef SCWI_LOOSE_SUMS_H
#define SCWI_LOOSE_SUMS_H

#include "tick_sums.h"

/* A double and what it lost by rounding. */
typedef struct scwi_pair {
  double high, low;
} scwi_pair;

/* Of readings / 2^exponent, so that nothing overflows or underflows. */
typedef struct scwi_loose_sums {
  size_t n;
  scwi_pair sum, squares;
  int exponent;
} scwi_loose_sums;

/* Exact sums of ticks of 10^-digits. */
scwi_loose_sums scwi_loose_of(const scwi_tick_sums *exact, int digits);
void scwi_loose_add(scwi_loose_sums *sums, double value);
void scwi_loose_join(scwi_loose_sums *sums, const scwi_loose_sums *more);
/* The sum over the readings of (n * reading - sum)^2, both / 2^exponent. */
double scwi_loose_spread(const scwi_loose_sums *sums);

#endif
