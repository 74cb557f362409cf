/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "loose_sums.h"

#include <math.h>
#include <stdlib.h>

/* a + b and what the sum lost (Knuth 1969, two-sum). */
static scwi_pair two_sum(double a, double b) {
  double sum = a + b, part = sum - a;
  return (scwi_pair){sum, (a - (sum - part)) + (b - part)};
}

static scwi_pair two_product(double a, double b) {
  double high = a * b;
  return (scwi_pair){high, fma(a, b, -high)};
}

static scwi_pair pair_add(scwi_pair a, scwi_pair b) {
  scwi_pair sum = two_sum(a.high, b.high);
  return two_sum(sum.high, sum.low + (a.low + b.low));
}

static scwi_pair pair_times(scwi_pair a, scwi_pair b) {
  scwi_pair high = two_product(a.high, b.high);
  return two_sum(high.high, high.low + (a.high * b.low + a.low * b.high));
}

static scwi_pair pair_scaled(scwi_pair a, int exponent) {
  return (scwi_pair){ldexp(a.high, exponent), ldexp(a.low, exponent)};
}

static scwi_pair pair_over(scwi_pair a, scwi_pair b) {
  double first = a.high / b.high;
  scwi_pair back = pair_times((scwi_pair){first, 0}, b);
  scwi_pair rest = pair_add(a, (scwi_pair){-back.high, -back.low});
  return two_sum(first, rest.high / b.high);
}

/* A whole number in two doubles. */
static scwi_pair whole_pair(scwi_tick_sum value) {
  double high = (double)value;
  return (scwi_pair){high, (double)(value - (scwi_tick_sum)high)};
}

static scwi_pair words_pair(const uint64_t words[3]) {
  scwi_pair value = {0, 0};
  for (int i = 0; i < 3; i++) {
    scwi_pair word = whole_pair((scwi_tick_sum)words[i]);
    value = pair_add(value, pair_scaled(word, 64 * i));
  }
  return value;
}

/* 10^-digits / 2^exponent, by powers of five, which do not overflow. */
static scwi_pair tick_of(int digits, int exponent) {
  enum { MOST = 430 }; /* beyond it there are only zeros */
  scwi_pair power = {1, 0}, five = {5, 0};
  for (int k = abs(digits); k > 0 && k <= MOST; k--)
    power = pair_times(power, five);
  if (digits > 0) power = pair_over((scwi_pair){1, 0}, power);
  return pair_scaled(power, -digits - exponent);
}

/* The binary exponent of the largest reading there can be among these. */
static int exponent_of(const scwi_tick_sums *exact, int digits) {
  double squares = scwi_tick_sums_squares(exact);
  if (squares <= 0) return 0;
  return (int)floor(log2(squares) / 2 - digits * log2(10));
}

scwi_loose_sums scwi_loose_of(const scwi_tick_sums *exact, int digits) {
  int exponent = exponent_of(exact, digits);
  scwi_pair tick = tick_of(digits, exponent);
  scwi_pair squares = pair_times(words_pair(exact->squares), tick);
  return (scwi_loose_sums){exact->n, pair_times(whole_pair(exact->sum), tick),
                           pair_times(squares, tick), exponent};
}

/* Readings are to be divided by a higher power of two. */
static void raise_exponent(scwi_loose_sums *sums, int exponent) {
  int up = exponent - sums->exponent;
  sums->sum = pair_scaled(sums->sum, -up);
  sums->squares = pair_scaled(sums->squares, -2 * up);
  sums->exponent = exponent;
}

void scwi_loose_add(scwi_loose_sums *sums, double value) {
  enum { HEADROOM = 400 }; /* squares below 2^800 sum without overflow */
  int exponent;
  frexp(value, &exponent);
  bool empty = sums->squares.high <= 0; /* nothing but zeros so far */
  if (empty || exponent - 1 - sums->exponent > HEADROOM)
    raise_exponent(sums, exponent - 1);
  double scaled = ldexp(value, -sums->exponent);
  sums->n++;
  sums->sum = pair_add(sums->sum, (scwi_pair){scaled, 0});
  sums->squares = pair_add(sums->squares, two_product(scaled, scaled));
}

void scwi_loose_join(scwi_loose_sums *sums, const scwi_loose_sums *more) {
  scwi_loose_sums other = *more;
  if (sums->n == 0) sums->exponent = other.exponent;
  if (sums->exponent < other.exponent)
    raise_exponent(sums, other.exponent);
  else
    raise_exponent(&other, sums->exponent);
  sums->n += other.n;
  sums->sum = pair_add(sums->sum, other.sum);
  sums->squares = pair_add(sums->squares, other.squares);
}

double scwi_loose_spread(const scwi_loose_sums *sums) {
  scwi_pair n = {(double)sums->n, 0};
  scwi_pair square = pair_times(sums->sum, sums->sum);
  scwi_pair rest = pair_add(pair_times(n, sums->squares),
                            (scwi_pair){-square.high, -square.low});
  double spread = pair_times(n, rest).high;
  return spread > 0 ? spread : 0;
}
