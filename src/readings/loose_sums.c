/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "loose_sums.h"

#include <math.h>

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

static scwi_pair power_of_ten(int power) {
  scwi_pair value = {1, 0}, ten = {10, 0};
  for (; power > 0; power--) value = pair_times(value, ten);
  return value;
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

/* Ticks of 10^-digits to units. */
static scwi_pair in_units(scwi_pair ticks, int digits) {
  if (digits < 0) return pair_times(ticks, power_of_ten(-digits));
  return pair_over(ticks, power_of_ten(digits));
}

scwi_loose_sums scwi_loose_of(const scwi_tick_sums *exact, int digits,
                              int exponent) {
  scwi_pair squares = in_units(words_pair(exact->squares), digits);
  scwi_pair sum = in_units(whole_pair(exact->sum), digits);
  return (scwi_loose_sums){
      exact->n, pair_scaled(sum, -exponent),
      pair_scaled(in_units(squares, digits), -2 * exponent)};
}

void scwi_loose_add(scwi_loose_sums *sums, double value) {
  sums->n++;
  sums->sum = pair_add(sums->sum, (scwi_pair){value, 0});
  sums->squares = pair_add(sums->squares, two_product(value, value));
}

void scwi_loose_scale(scwi_loose_sums *sums, int exponent) {
  sums->sum = pair_scaled(sums->sum, exponent);
  sums->squares = pair_scaled(sums->squares, 2 * exponent);
}

void scwi_loose_join(scwi_loose_sums *sums, const scwi_loose_sums *more) {
  sums->n += more->n;
  sums->sum = pair_add(sums->sum, more->sum);
  sums->squares = pair_add(sums->squares, more->squares);
}

double scwi_loose_spread(const scwi_loose_sums *sums) {
  scwi_pair n = {(double)sums->n, 0};
  scwi_pair square = pair_times(sums->sum, sums->sum);
  scwi_pair rest = pair_add(pair_times(n, sums->squares),
                            (scwi_pair){-square.high, -square.low});
  double spread = pair_times(n, rest).high;
  return spread > 0 ? spread : 0;
}
