/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Decimals as written: mantissa * 10^-digits in whole numbers, so that ties,
 * steps and equality never depend on binary rounding. */
#ifndef SCWI_DECIMAL_H
#define SCWI_DECIMAL_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef struct scwi_decimal {
  double value;     /* the double nearest to the text */
  int64_t mantissa;
  int16_t digits;   /* decimals after the point; negative for 12e3 */
  bool exact;       /* mantissa and digits hold all of the text */
} scwi_decimal;

typedef enum scwi_decimal_result {
  SCWI_DECIMAL_OK,
  SCWI_DECIMAL_NOT_A_NUMBER, /* not of the form [sign]digits[mark digits][exp] */
  SCWI_DECIMAL_TOO_LARGE     /* beyond the range of a double */
} scwi_decimal_result;

/* Reads `length` bytes of plain ASCII number text: optional sign, digits with
 * at most one `mark` ('.' or ','), optional exponent. No spaces, no names of
 * infinities, no hexadecimal. Correctly rounded, whatever the locale. */
scwi_decimal_result scwi_decimal_read(const char *text, size_t length,
                                      char mark, scwi_decimal *out);

/* The same of text that is nothing but digits with at most one mark between or
 * behind them and a minus in front, 15 digits at the most: quickly, and false
 * for all other text. */
bool scwi_decimal_plain(const char *text, size_t length, char mark,
                        scwi_decimal *out);

/* The decimal of a finite double by its shortest text: 87.4 has one digit. */
scwi_decimal scwi_decimal_of(double value);

/* later - earlier on their decimals as written: 85.2 - 84.1 is 1.1, which the
 * doubles' difference is not. The plain difference where they do not fit. */
double scwi_decimal_difference(double later, double earlier);

/* mantissa * 10^(digits - own digits) without overflow; false when it does
 * not fit into 62 bits or is not whole. */
bool scwi_decimal_ticks(const scwi_decimal *decimal, int digits, int64_t *out);

#endif
