/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "tick_sums.h"

#include <math.h>

enum { WORDS = 3 };

/* Numbers of three words, modulo 2^192, so that subtraction works as well. */
static void add_words(uint64_t *to, const uint64_t *more) {
  scwi_tick_square carry = 0;
  for (int i = 0; i < WORDS; i++) {
    carry += (scwi_tick_square)to[i] + more[i];
    to[i] = (uint64_t)carry;
    carry >>= 64;
  }
}

static void negate_words(uint64_t *words) {
  static const uint64_t one[WORDS] = {1, 0, 0};
  for (int i = 0; i < WORDS; i++) words[i] = ~words[i];
  add_words(words, one);
}

static void multiply_words(uint64_t *words, uint64_t factor) {
  scwi_tick_square carry = 0;
  for (int i = 0; i < WORDS; i++) {
    carry += (scwi_tick_square)words[i] * factor;
    words[i] = (uint64_t)carry;
    carry >>= 64;
  }
}

/* a * b as three words. */
static void product(scwi_tick_sum a, int64_t b, uint64_t out[WORDS]) {
  scwi_tick_square size = a < 0 ? -(scwi_tick_square)a : (scwi_tick_square)a;
  out[0] = (uint64_t)size;
  out[1] = (uint64_t)(size >> 64);
  out[2] = 0;
  multiply_words(out, b < 0 ? -(uint64_t)b : (uint64_t)b);
  if ((a < 0) != (b < 0)) negate_words(out);
}

static double words_value(const uint64_t *words) {
  return ldexp((double)words[2], 128) +
         (double)((scwi_tick_square)words[1] << 64 | words[0]);
}

void scwi_tick_sums_join(scwi_tick_sums *sums, const scwi_tick_sums *more) {
  sums->n += more->n;
  sums->sum += more->sum;
  add_words(sums->squares, more->squares);
}

void scwi_tick_sums_times_ten(scwi_tick_sums *sums) {
  sums->sum *= 10;
  multiply_words(sums->squares, 100);
}

double scwi_tick_sums_squares(const scwi_tick_sums *sums) {
  return words_value(sums->squares);
}

/* With c the whole number next to the mean, sum' = sum - n c and squares' =
 * squares - c (2 sum - n c) are the sums of tick - c, small whole numbers; the
 * result is n (n squares' - sum'^2). */
double scwi_tick_sums_spread(const scwi_tick_sums *sums) {
  if (sums->n == 0) return 0;
  scwi_tick_sum n = (scwi_tick_sum)sums->n;
  int64_t c = (int64_t)(sums->sum / n);
  scwi_tick_sum sum = sums->sum - n * c, part, spread;
  uint64_t squares[WORDS], taken[WORDS];
  product(sums->sum + sum, c, taken); /* 2 sum - n c = sum + sum' */
  negate_words(taken);
  for (int i = 0; i < WORDS; i++) squares[i] = sums->squares[i];
  add_words(squares, taken);
  scwi_tick_sum square =
      (scwi_tick_sum)((scwi_tick_square)squares[1] << 64 | squares[0]);
  bool fits = squares[2] == 0 && square >= 0 &&
              !__builtin_mul_overflow(square, n, &part) &&
              !__builtin_mul_overflow(part - sum * sum, n, &spread);
  if (fits) return (double)spread;
  double many = (double)sums->n, rest = (double)sum;
  return many * (many * words_value(squares) - rest * rest);
}

/* ---- scale ---- */

static uint64_t size_of(int64_t tick) {
  return tick < 0 ? -(uint64_t)tick : (uint64_t)tick;
}

static uint64_t greatest_divisor(uint64_t a, uint64_t b) {
  while (b) {
    uint64_t rest = a % b;
    a = b;
    b = rest;
  }
  return a;
}

static void settle(scwi_tick_scale *scale) {
  scale->settled = scale->different >= 3 &&
                   greatest_divisor(scale->divisor, 10) == 1;
}

/* Can something of this size rise by so many powers of ten? */
static bool may_rise(uint64_t size, int powers) {
  if (size == 0) return true;
  for (; powers > 0 && size <= (uint64_t)SCWI_LARGEST_TICK; powers--) {
    if (size > (uint64_t)SCWI_LARGEST_TICK / 10) return false;
    size *= 10;
  }
  return size <= (uint64_t)SCWI_LARGEST_TICK;
}

int scwi_tick_scale_rise(const scwi_tick_scale *scale,
                         const scwi_decimal *reading) {
  int powers = scale->n ? reading->digits - scale->digits : 0;
  if (!reading->exact) return -1;
  if (powers < 0) {
    return may_rise(size_of(reading->mantissa), -powers) ? 0 : -1;
  }
  bool fits = size_of(reading->mantissa) <= (uint64_t)SCWI_LARGEST_TICK &&
              may_rise(scale->largest, powers);
  return fits ? powers : -1;
}

void scwi_tick_scale_raise(scwi_tick_scale *scale, int powers) {
  scale->digits += powers;
  for (; powers > 0; powers--) {
    scale->largest *= 10;
    scale->divisor *= 10;
    scale->seen[0] *= 10;
    scale->seen[1] *= 10;
  }
  settle(scale);
}

void scwi_tick_scale_note(scwi_tick_scale *scale, int64_t tick) {
  bool known = false;
  for (int i = 0; i < scale->different && i < 2; i++)
    known = known || scale->seen[i] == tick;
  if (!known && scale->different < 3) {
    if (scale->different < 2) scale->seen[scale->different] = tick;
    scale->different++;
  }
  scale->divisor = greatest_divisor(scale->divisor, size_of(tick));
  if (size_of(tick) > scale->largest) scale->largest = size_of(tick);
  settle(scale);
}

int64_t scwi_tick_scale_take(scwi_tick_scale *scale,
                             const scwi_decimal *reading) {
  int64_t tick = reading->mantissa;
  if (scale->n++ == 0) scale->digits = reading->digits;
  if (tick)
    for (int k = reading->digits; k < scale->digits; k++) tick *= 10;
  scwi_tick_scale_note(scale, tick);
  return tick;
}

int scwi_tick_scale_meet(const scwi_tick_scale *scale,
                         const scwi_tick_scale *other) {
  if (scale->n == 0 || other->n == 0) return 0;
  int powers = other->digits - scale->digits;
  if (powers >= 0) return may_rise(scale->largest, powers) ? powers : -1;
  return may_rise(other->largest, -powers) ? 0 : -1;
}

void scwi_tick_scale_join(scwi_tick_scale *scale,
                          const scwi_tick_scale *other) {
  if (scale->n == 0) {
    *scale = *other;
    return;
  }
  for (int i = 0; i < other->different && i < 2; i++)
    scwi_tick_scale_note(scale, other->seen[i]);
  if (other->different >= 3) scale->different = 3;
  scale->divisor = greatest_divisor(scale->divisor, other->divisor);
  if (other->largest > scale->largest) scale->largest = other->largest;
  scale->n += other->n;
  settle(scale);
}
