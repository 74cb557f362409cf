/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Chance alone makes N readings all multiples of ten steps with probability
 * 10^-N, of five 5^-N, of two 2^-N: at most 0.001 from N = 3, 5, 10 on. */
#include "display_step.h"

#include <math.h>

enum { FEWEST_FOR_TEN = 3, FEWEST_FOR_FIVE = 5, FEWEST_FOR_TWO = 10 };

static bool all_multiples(const int64_t *ticks, size_t n, int64_t of) {
  for (size_t i = 0; i < n; i++)
    if (ticks[i] % of) return false;
  return true;
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

scw_step scwi_display_step(const int64_t *ticks, size_t n, int digits) {
  if (n == 0) return (scw_step){0, SCW_STEP_UNSET};
  int values = different(ticks, n);
  if (n < FEWEST_FOR_TEN || values < 2) {
    bool ends_in_0 = digits < 0 || (digits == 0 && all_multiples(ticks, n, 10));
    if (ends_in_0) return (scw_step){0, SCW_STEP_NOT_KNOWN};
    return (scw_step){decimal(1, -digits), SCW_STEP_ASSUMED};
  }
  int tens = 0;
  int64_t unit = 1;
  while (tens < 18 && all_multiples(ticks, n, unit * 10))
    unit *= 10, tens++;
  if (values < 3 && tens > digits) return (scw_step){0, SCW_STEP_NOT_KNOWN};
  int64_t factor = 1;
  if (n >= FEWEST_FOR_FIVE && all_multiples(ticks, n, unit * 5))
    factor = 5;
  else if (n >= FEWEST_FOR_TWO && all_multiples(ticks, n, unit * 2))
    factor = 2;
  return (scw_step){decimal(factor, tens - digits), SCW_STEP_INFERRED};
}
