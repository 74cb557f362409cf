/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "exact_digits.h"

#include <float.h>
#include <math.h>
#include <string.h>

_Static_assert(DBL_MANT_DIG == 53 && sizeof(double) == 8, "IEEE 754 doubles");

__extension__ typedef unsigned __int128 wide;

static const uint64_t powers[] = {1,
                                  10,
                                  100,
                                  1000,
                                  10000,
                                  100000,
                                  1000000,
                                  10000000,
                                  100000000,
                                  1000000000,
                                  10000000000,
                                  100000000000,
                                  1000000000000,
                                  10000000000000,
                                  100000000000000,
                                  1000000000000000,
                                  10000000000000000,
                                  100000000000000000,
                                  1000000000000000000};

static wide power_of_ten(int n) {
  return n <= 18 ? powers[n] : (wide)powers[18] * powers[n - 18];
}

/* value = mantissa * 2^-shift with shift >= 0 and a mantissa of 53 bits, fewer
 * only below 1e-307; false from 2^53 on and for what is not positive and
 * finite. Read off the bits of an IEEE 754 double. */
static bool take_apart(double value, uint64_t *mantissa, int *shift) {
  const uint64_t hidden = UINT64_C(1) << 52;
  uint64_t bits;
  if (!(value > 0 && value < 9007199254740992.0)) return false;
  memcpy(&bits, &value, sizeof bits);
  int exponent = (int)(bits >> 52); /* 0: subnormal, no hidden bit */
  *mantissa = (bits & (hidden - 1)) | (exponent ? hidden : 0);
  *shift = 1075 - (exponent ? exponent : 1);
  return true;
}

/* n / (unit * 2^shift) rounded half to even. */
static uint64_t divide(wide n, uint64_t unit, int shift) {
  uint64_t whole = (uint64_t)(n >> shift), quotient = whole / unit;
  wide rest = ((wide)(whole % unit) << shift) + (n - ((wide)whole << shift));
  wide twice = rest * 2, all = (wide)unit << shift;
  bool up = twice > all || (twice == all && (quotient & 1));
  return quotient + up;
}

bool scwi_whole_at(double value, int decimals, uint64_t *out) {
  uint64_t mantissa;
  int shift;
  double size = fabs(value);
  *out = 0;
  if (size == 0) return true;
  if (decimals < 0 || decimals > 18 || !take_apart(size, &mantissa, &shift))
    return false;
  if (shift > 120) return false; /* far below the last decimal */
  wide n = mantissa * power_of_ten(decimals);
  if (n >> shift >= powers[18]) return false;
  *out = divide(n, 1, shift);
  return true;
}

enum { SEVENTEEN = 17 };

/* Value at 17 significant digits: mantissa * 10^places * 2^-shift. */
typedef struct scaled {
  uint64_t mantissa;
  wide n; /* mantissa * 10^places */
  int places, shift;
} scaled;

static bool scale(double value, scaled *s) {
  if (!(value >= 1e-5) || !take_apart(value, &s->mantissa, &s->shift))
    return false;
  /* value >= 2^(52 - shift), and log10(2) is 0.30103: off by one at most */
  s->places = 16 - (int)floor((52 - s->shift) * 0.30103);
  for (int again = 0; again < 2; again++) {
    s->n = s->mantissa * power_of_ten(s->places);
    if (s->n >> s->shift >= (wide)powers[SEVENTEEN])
      s->places--;
    else if (s->n >> s->shift < (wide)powers[SEVENTEEN - 1])
      s->places++;
    else
      break;
  }
  return true;
}

/* Does candidate * unit at 17 digits lie so near that it is read as value? */
static bool reads_back(const scaled *s, uint64_t candidate, uint64_t unit) {
  wide near = (wide)(candidate * unit) << s->shift;
  bool below = near < s->n;
  wide twice = (below ? s->n - near : near - s->n) * 2;
  wide gap = power_of_ten(s->places);
  /* below a power of two the next double is only half as far */
  if (below && s->mantissa == UINT64_C(1) << 52) return twice * 2 <= gap;
  return twice < gap || (twice == gap && !(s->mantissa & 1));
}

bool scwi_shortest_decimal(double value, uint64_t *digits, int *decimals) {
  scaled s;
  if (!scale(fabs(value), &s)) return false;
  /* At most one decimal of 15 digits lies within half a gap: if the nearest
   * does, the shortest is the same without its zeros. */
  for (int length = 15; length <= SEVENTEEN; length++) {
    uint64_t unit = powers[SEVENTEEN - length];
    *digits = divide(s.n, unit, s.shift);
    *decimals = s.places - (SEVENTEEN - length);
    if (reads_back(&s, *digits, unit)) break;
  }
  while (*digits % 10 == 0) {
    *digits /= 10;
    --*decimals;
  }
  return true;
}
