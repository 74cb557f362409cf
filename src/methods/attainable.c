/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings are k_i steps, k_i whole, with sum S and sum of squares Q. Taking
 * floor(S/n) off each leaves whole j_i with sum r = S mod n and
 *   Q' = sum j_i^2 = V + r^2/n,  V = sum of squares about the mean.
 * Q' is as odd or even as r, and at least r. For n >= 5 there is nothing more to
 * it (tests/unit/methods counts them all out to a bound). For n = 4 the sums of
 * two less those of the other two give 4 Q' = r^2 + a^2 + b^2 + c^2: with r odd
 * three odd squares are always found (Gauss), with r = 0 or 2 it must be that
 * Q' - r/2 is a sum of three squares (Legendre: not 4^a (8b + 7)). For n = 2 and 3
 * squares are looked for. */
#include "attainable.h"

#include <math.h>
#include <stdint.h>

/* What sums in doubles may be off by, of their size: never accuse a spreadsheet
 * of its arithmetic. */
static const double slack = 1e-9;
/* So many candidates are taken to hold one that fits, and sums of squares as large
 * as that to be possible: nothing is said where looking would take long. */
static const double many = 4000, large = 1e9;

double scwi_shown_half(scwi_shown_number number) {
  return 0.5 * pow(10, -number.digits);
}

scwi_shown_number scwi_shown_cut_off(scwi_shown_number number) {
  number.value += number.value < 0 ? -scwi_shown_half(number)
                                   : scwi_shown_half(number);
  return number;
}

/* Whole numbers from low to high, with slack. */
typedef struct whole_range {
  double low, high;
} whole_range;

static whole_range wholes(double low, double high) {
  double off = slack * fmax(1, fmax(fabs(low), fabs(high)));
  return (whole_range){ceil(low - off), floor(high + off)};
}

/* The sums, in steps, whose mean prints so. */
static whole_range sums_of(scwi_shown_number mean, size_t n, double step) {
  double half = scwi_shown_half(mean), scale = (double)n / step;
  return wholes((mean.value - half) * scale, (mean.value + half) * scale);
}

bool scwi_mean_impossible(scwi_shown_number mean, size_t n, double step) {
  whole_range sums = sums_of(mean, n, step);
  return sums.low > sums.high;
}

static bool is_square(int64_t x) {
  if (x < 0) return false;
  int64_t root = (int64_t)sqrt((double)x);
  while (root * root > x) root--;
  while ((root + 1) * (root + 1) <= x) root++;
  return root * root == x;
}

/* Two whole numbers of this sum and sum of squares: (j1 - j2)^2 = 2 Q - sum^2. */
static bool two(int64_t sum, int64_t squares) {
  return is_square(2 * squares - sum * sum);
}

static bool three(int64_t sum, int64_t squares) {
  for (int64_t j = 0; j * j <= squares; j++)
    if (two(sum - j, squares - j * j) || two(sum + j, squares - j * j))
      return true;
  return false;
}

static bool three_squares(int64_t x) {
  while (x > 0 && x % 4 == 0) x /= 4;
  return x % 8 != 7;
}

/* Are there n whole numbers of sum r (0 <= r < n) and sum of squares Q, which is
 * at least r and as odd or even as it? */
static bool exists(size_t n, int64_t r, int64_t squares) {
  if (n == 2) return two(r, squares);
  if (n == 3) return three(r, squares);
  if (n > 4 || r % 2 != 0) return true;
  return three_squares(squares - r / 2); /* r is 0 or 2 */
}

/* Some Q' in the range fits. */
static bool any_squares(size_t n, double r, double low, double high) {
  whole_range range = wholes(fmax(low, r), high);
  if (range.low > range.high) return false;
  if (range.high - range.low > many || range.high > large) return true;
  for (double q = range.low; q <= range.high; q++)
    if (fmod(q - r, 2) == 0 && exists(n, (int64_t)r, (int64_t)q)) return true;
  return false;
}

bool scwi_scatter_impossible(scwi_shown_number mean, scwi_shown_number scatter,
                             scwi_scatter_of of, size_t n, double step) {
  whole_range sums = sums_of(mean, n, step);
  double k = (double)n, half = scwi_shown_half(scatter);
  double divisor = of == SCWI_SAMPLE_SD       ? k - 1
                   : of == SCWI_POPULATION_SD ? k
                                              : k * (k - 1);
  double low = fmax(0, scatter.value - half) / step;
  double high = (scatter.value + half) / step;
  double last = fmin(sums.high, sums.low + k - 1); /* then S mod n comes again */
  if (last - sums.low > many || fabs(sums.low) > 1e15) return false;
  for (double s = sums.low; s <= last; s++) {
    double r = s - k * floor(s / k);
    if (any_squares(n, r, divisor * low * low + r * r / k,
                    divisor * high * high + r * r / k))
      return false;
  }
  return true;
}
