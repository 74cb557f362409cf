/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "decimal.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum {
  MOST_DIGITS = 18,   /* any 18 digits fit into 63 bits */
  KEPT_DIGITS = 800   /* beyond 767 digits only "something follows" matters */
};

static const double exact_powers[] = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,
                                      1e6,  1e7,  1e8,  1e9,  1e10, 1e11,
                                      1e12, 1e13, 1e14, 1e15, 1e16, 1e17,
                                      1e18, 1e19, 1e20, 1e21, 1e22};

/* Text taken apart: significant digits without leading zeros, and the power
 * of ten of the last of them. */
typedef struct parts {
  char digits[KEPT_DIGITS + 1];
  size_t n;
  long exponent;
  bool negative, any;
} parts;

static bool is_digit(char c) { return c >= '0' && c <= '9'; }

static void take_digit(parts *p, char c, bool after_mark) {
  p->any = true;
  if (p->n == 0 && c == '0') {
    if (after_mark) p->exponent--;
    return;
  }
  if (p->n < KEPT_DIGITS) {
    p->digits[p->n++] = c;
    if (after_mark) p->exponent--;
    return;
  }
  if (!after_mark) p->exponent++;
  if (c != '0') p->digits[KEPT_DIGITS - 1] = '1'; /* keeps "above the tie" */
}

static bool take_exponent(const char *text, size_t length, size_t i,
                          parts *p) {
  bool negative = i < length && text[i] == '-';
  if (i < length && (text[i] == '-' || text[i] == '+')) i++;
  if (i >= length) return false;
  long value = 0;
  for (; i < length; i++) {
    if (!is_digit(text[i])) return false;
    if (value < 100000) value = value * 10 + (text[i] - '0');
  }
  p->exponent += negative ? -value : value;
  return true;
}

static bool take_apart(const char *text, size_t length, char mark, parts *p) {
  size_t i = 0;
  bool after_mark = false;
  p->n = 0;
  p->exponent = 0;
  p->any = false;
  p->negative = length > 0 && text[0] == '-';
  if (length > 0 && (text[0] == '-' || text[0] == '+')) i++;
  for (; i < length; i++) {
    if (is_digit(text[i]))
      take_digit(p, text[i], after_mark);
    else if (text[i] == mark && !after_mark)
      after_mark = true;
    else
      break;
  }
  if (!p->any) return false;
  if (i == length) return true;
  return (text[i] == 'e' || text[i] == 'E') &&
         take_exponent(text, length, i + 1, p);
}

/* The nearest double. Without a decimal mark in it, strtod's text is the same
 * in every locale. */
static double nearest(const parts *p, int64_t mantissa) {
  double magnitude;
  if (p->n <= 15 && labs(p->exponent) <= 22) { /* both factors exact */
    magnitude = p->exponent < 0 ? (double)mantissa / exact_powers[-p->exponent]
                                : (double)mantissa * exact_powers[p->exponent];
  } else {
    char text[KEPT_DIGITS + 32];
    long exponent = p->exponent;
    snprintf(text, sizeof text, "%se%ld", p->digits, exponent);
    magnitude = strtod(text, NULL);
  }
  return p->negative ? -magnitude : magnitude;
}

scwi_decimal_result scwi_decimal_read(const char *text, size_t length,
                                      char mark, scwi_decimal *out) {
  parts p;
  *out = (scwi_decimal){0};
  if (!take_apart(text, length, mark, &p)) return SCWI_DECIMAL_NOT_A_NUMBER;
  p.digits[p.n] = 0;
  if (p.n == 0) { /* zero, with the decimals it was written with */
    out->digits = p.exponent < -1000 ? 1000 : (int16_t)(p.exponent > 0 ? 0 : -p.exponent);
    out->exact = true;
    return SCWI_DECIMAL_OK;
  }
  int64_t mantissa = 0;
  if (p.n <= MOST_DIGITS) {
    for (size_t i = 0; i < p.n; i++)
      mantissa = mantissa * 10 + (p.digits[i] - '0');
    out->exact = labs(p.exponent) <= 1000;
  }
  out->value = nearest(&p, mantissa);
  if (!isfinite(out->value)) return SCWI_DECIMAL_TOO_LARGE;
  if (out->exact) {
    out->mantissa = p.negative ? -mantissa : mantissa;
    out->digits = (int16_t)-p.exponent;
  }
  return SCWI_DECIMAL_OK;
}

bool scwi_decimal_plain(const char *text, size_t length, char mark,
                        scwi_decimal *out) {
  bool negative = length > 0 && text[0] == '-';
  size_t first = negative, digits = 0;
  const char *point = NULL;
  int64_t mantissa = 0;
  if (length - first > 15 || length == first) return false;
  for (size_t i = first; i < length; i++) {
    unsigned digit = (unsigned)(unsigned char)text[i] - '0';
    if (digit < 10)
      mantissa = mantissa * 10 + digit;
    else if (text[i] == mark && !point && i > first && i + 1 < length)
      point = text + i;
    else
      return false;
  }
  if (point) digits = (size_t)(text + length - point) - 1;
  double size = (double)mantissa / exact_powers[digits];
  *out = (scwi_decimal){.value = negative ? -size : size,
                        .mantissa = negative ? -mantissa : mantissa,
                        .digits = (int16_t)digits,
                        .exact = true};
  return true;
}

bool scwi_decimal_ticks(const scwi_decimal *decimal, int digits,
                        int64_t *out) {
  int64_t mantissa = decimal->mantissa;
  if (!decimal->exact) return false;
  if (mantissa == 0) return *out = 0, true;
  for (int shift = digits - decimal->digits; shift > 0; shift--) {
    if (llabs(mantissa) > (INT64_C(1) << 62) / 10) return false;
    mantissa *= 10;
  }
  for (int shift = decimal->digits - digits; shift > 0; shift--) {
    if (mantissa % 10) return false;
    mantissa /= 10;
  }
  *out = mantissa;
  return llabs(mantissa) <= INT64_C(1) << 62;
}

double scwi_decimal_difference(double later, double earlier) {
  scwi_decimal a = scwi_decimal_of(later), b = scwi_decimal_of(earlier);
  int digits = a.digits > b.digits ? a.digits : b.digits;
  int64_t ticks, other;
  if (digits < 0) digits = 0;
  if (digits > 22 || !scwi_decimal_ticks(&a, digits, &ticks) ||
      !scwi_decimal_ticks(&b, digits, &other) ||
      llabs(ticks - other) > INT64_C(1) << 53)
    return later - earlier;
  return (double)(ticks - other) / exact_powers[digits]; /* both exact */
}
