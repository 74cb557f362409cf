/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Chance alone makes N readings all multiples of ten steps with probability
 * 10^-N, of five 5^-N, of two 2^-N: at most 0.001 from N = 3, 5, 10 on. */
#include "display_step.h"

#include <math.h>

enum { FEWEST_FOR_TEN = 3, FEWEST_FOR_FIVE = 5, FEWEST_FOR_TWO = 10 };

static uint64_t greatest_divisor(const int64_t *ticks, size_t n) {
  uint64_t divisor = 0;
  for (size_t i = 0; i < n && divisor != 1; i++) {
    uint64_t a = ticks[i] < 0 ? -(uint64_t)ticks[i] : (uint64_t)ticks[i];
    while (a) {
      uint64_t rest = divisor % a;
      divisor = a;
      a = rest;
    }
  }
  return divisor;
}

/* How many different readings there are, counted up to three. */
static int different(const int64_t *ticks, size_t n) {
  size_t i = 1;
  while (i < n && ticks[i] == ticks[0])
    i++;
  if (i >= n) return 1;
  for (size_t k = i + 1; k < n; k++)
    if (ticks[k] != ticks[0] && ticks[k] != ticks[i]) return 3;
  return 2;
}

/* factor * 10^exponent, rounded once wherever a double can be. */
static double decimal(int64_t factor, int exponent) {
  if (exponent >= 0 || exponent < -300)
    return (double)factor * pow(10, exponent);
  return (double)factor / pow(10, -exponent);
}

scw_step scwi_display_step_of(size_t n, int different_ones, uint64_t divisor,
                              int digits) {
  if (n == 0) return (scw_step){0, SCW_STEP_UNSET};
  if (n < FEWEST_FOR_TEN || different_ones < 2) {
    bool ends_in_0 = digits < 0 || (digits == 0 && divisor % 10 == 0);
    if (ends_in_0) return (scw_step){0, SCW_STEP_NOT_KNOWN};
    return (scw_step){decimal(1, -digits), SCW_STEP_ASSUMED};
  }
  int tens = 0;
  uint64_t unit = 1;
  while (tens < 18 && divisor % (unit * 10) == 0) unit *= 10, tens++;
  if (different_ones < 3 && tens > digits)
    return (scw_step){0, SCW_STEP_NOT_KNOWN};
  int64_t factor = 1;
  if (n >= FEWEST_FOR_FIVE && divisor % (unit * 5) == 0)
    factor = 5;
  else if (n >= FEWEST_FOR_TWO && divisor % (unit * 2) == 0)
    factor = 2;
  return (scw_step){decimal(factor, tens - digits), SCW_STEP_INFERRED};
}

scw_step scwi_display_step(const int64_t *ticks, size_t n, int digits) {
  return scwi_display_step_of(n, n ? different(ticks, n) : 0,
                              greatest_divisor(ticks, n), digits);
}
