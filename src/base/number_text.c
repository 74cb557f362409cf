/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "number_text.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "decimal.h"
#include "exact_digits.h"

/* snprintf writes the locale's decimal mark, possibly of several bytes; what
 * is neither digit, sign nor exponent letter is that mark. */
static void point_only(char *text) {
  char *to = text;
  bool in_mark = false;
  for (const char *from = text; *from; from++) {
    bool plain = strchr("0123456789+-e", *from) != NULL;
    if (plain)
      *to++ = *from;
    else if (!in_mark)
      *to++ = '.';
    in_mark = !plain;
  }
  *to = 0;
}

/* value as d.ddde+xx with `significant` digits. */
static void scientific(double value, int significant,
                       char out[SCWI_NUMBER_SIZE]) {
  snprintf(out, SCWI_NUMBER_SIZE, "%.*e", significant - 1, value);
  point_only(out);
}

/* Reads our own text back. */
static double read_back(const char *text) {
  scwi_decimal decimal;
  scwi_decimal_read(text, strlen(text), '.', &decimal);
  return decimal.value;
}

/* The fewest digits (1 to 17) whose text reads back as `value`. */
static int shortest_digits(double value, char out[SCWI_NUMBER_SIZE]) {
  int low = 1, high = 17; /* reading back is monotone in the digits */
  scientific(value, 15, out);
  if (read_back(out) == value) high = 15; else low = 16;
  while (low < high) {
    int middle = (low + high) / 2;
    scientific(value, middle, out);
    if (read_back(out) == value) high = middle; else low = middle + 1;
  }
  scientific(value, low, out);
  return low;
}

static int exponent_of(const char *text) {
  return (int)strtol(strchr(text, 'e') + 1, NULL, 10);
}

/* digits * 10^-decimals in plain notation, filled from the back. */
static const char *plain(bool negative, uint64_t digits, int decimals,
                         char out[SCWI_NUMBER_SIZE]) {
  char text[48];
  size_t at = sizeof text;
  text[--at] = 0;
  for (; decimals < 0; decimals++) text[--at] = '0';
  for (int place = 0; digits || place <= decimals; place++, digits /= 10) {
    if (place && place == decimals) text[--at] = '.';
    text[--at] = (char)('0' + digits % 10);
  }
  if (negative) text[--at] = '-';
  return memcpy(out, text + at, sizeof text - at);
}

const char *scwi_whole_text(uint64_t value, char out[SCWI_NUMBER_SIZE]) {
  return plain(false, value, 0, out);
}

const char *scwi_number_text(double value, char out[SCWI_NUMBER_SIZE]) {
  uint64_t shortest;
  int places;
  if (!isfinite(value)) return strcpy(out, "null");
  if (value == 0) return strcpy(out, "0");
  if (scwi_shortest_decimal(value, &shortest, &places))
    return plain(value < 0, shortest, places, out);
  int digits = shortest_digits(value, out);
  int exponent = exponent_of(out);
  if (exponent >= -5 && exponent < 17) {
    int decimals = digits - 1 - exponent;
    return scwi_fixed_text(value, decimals > 0 ? decimals : 0, out);
  }
  return out;
}

scwi_decimal scwi_decimal_of(double value) {
  char text[SCWI_NUMBER_SIZE];
  scwi_decimal decimal;
  scwi_number_text(value, text);
  scwi_decimal_read(text, strlen(text), '.', &decimal);
  return decimal;
}

static const char *without_minus_zero(char *out) {
  bool zero = out[0] == '-' && !strpbrk(out, "123456789");
  if (zero) memmove(out, out + 1, strlen(out));
  return out;
}

/* Rounded to the place 10^-decimals and written with an exponent. */
static const char *exponential(double value, int decimals,
                               char out[SCWI_NUMBER_SIZE]) {
  enum { MOST = 17 };
  double place = pow(10, -decimals);
  if (value == 0) return strcpy(out, "0");
  scientific(value, MOST, out);
  int exponent = exponent_of(out), digits = exponent + decimals + 1;
  if (digits < 1 && fabs(value) <= place / 2) return strcpy(out, "0");
  if (digits < 1) { /* rounds up to one unit of the last place */
    scientific(copysign(place, value), 1, out);
    return out;
  }
  scientific(value, digits < MOST ? digits : MOST, out);
  if (digits < MOST && exponent_of(out) > exponent) /* 9.99 became 10.0 */
    scientific(value, digits + 1, out);
  return out;
}

/* Below this a number of so many decimals is easier read with an exponent. */
#define TINY 1e-9
enum { TINY_DECIMALS = 12 };

const char *scwi_fixed_text(double value, int decimals,
                            char out[SCWI_NUMBER_SIZE]) {
  if (!isfinite(value)) return strcpy(out, "null");
  double size = fabs(value);
  uint64_t whole;
  if (size == 0 && decimals < 0) decimals = 0; /* no 000 for hundreds */
  bool tiny = size < TINY && decimals > TINY_DECIMALS;
  if (!tiny && scwi_whole_at(value, decimals, &whole))
    return plain(value < 0 && whole > 0, whole, decimals, out);
  if (size >= 1e17 || decimals > 20 || tiny)
    return exponential(value, decimals, out);
  if (decimals < 0) {
    double unit = pow(10, -decimals);
    value = nearbyint(value / unit) * unit;
    decimals = 0;
  }
  snprintf(out, SCWI_NUMBER_SIZE, "%.*f", decimals, value);
  point_only(out);
  return without_minus_zero(out);
}

/* Decimals that show two significant digits, in whole numbers where they
 * reach: 0.0996 has 100 thousandths, so it is 0.10. */
static int decimals_of_two(double uncertainty) {
  char text[SCWI_NUMBER_SIZE];
  uint64_t digits;
  int decimals = 1 - (int)floor(log10(uncertainty));
  if (scwi_whole_at(uncertainty, decimals, &digits))
    return digits >= 100 ? decimals - 1 : decimals;
  scientific(uncertainty, 2, text);
  return 1 - exponent_of(text);
}

int scwi_decimals_for(double uncertainty, double value) {
  char text[SCWI_NUMBER_SIZE];
  uint64_t shortest;
  int decimals;
  if (isfinite(uncertainty) && uncertainty > 0)
    return decimals_of_two(uncertainty);
  if (!isfinite(value) || value == 0) return 0;
  if (!scwi_shortest_decimal(value, &shortest, &decimals))
    decimals = shortest_digits(value, text) - 1 - exponent_of(text);
  return decimals > 0 ? decimals : 0;
}

const char *scwi_significant_text(double value, int significant,
                                  char out[SCWI_NUMBER_SIZE]) {
  if (!isfinite(value)) return strcpy(out, "null");
  if (value == 0) return strcpy(out, "0");
  scientific(value, significant, out);
  int exponent = exponent_of(out);
  if (exponent < -5 || exponent > 14) return out;
  return scwi_fixed_text(value, significant - 1 - exponent, out);
}
