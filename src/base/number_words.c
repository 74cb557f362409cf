/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "number_words.h"

#include <math.h>
#include <string.h>

#include "number_text.h"

void scwi_put_fixed(scwi_text *text, double value, int decimals) {
  char number[SCWI_NUMBER_SIZE];
  scwi_text_add(text, scwi_fixed_text(value, decimals, number));
}

void scwi_put_range(scwi_text *text, double low, double high, int decimals) {
  scwi_put_fixed(text, low, decimals);
  scwi_text_add(text, " to ");
  scwi_put_fixed(text, high, decimals);
}

void scwi_put_digits(scwi_text *text, double value, int digits) {
  char number[SCWI_NUMBER_SIZE];
  scwi_text_add(text, scwi_significant_text(value, digits, number));
}

void scwi_put_short(scwi_text *text, double value, int digits) {
  char number[SCWI_NUMBER_SIZE];
  scwi_significant_text(value, digits, number);
  size_t length = strcspn(number, "e");
  const char *exponent = number + length;
  if (memchr(number, '.', length)) {
    while (number[length - 1] == '0') length--;
    if (number[length - 1] == '.') length--;
  }
  scwi_text_append(text, number, length);
  scwi_text_add(text, exponent);
}

void scwi_put_percentage(scwi_text *text, double share) {
  char number[SCWI_NUMBER_SIZE];
  /* 100 * 0.999 is 99.9 only once its last binary digits are rounded away */
  double percent = round(share * 1e12) / 1e10;
  scwi_text_add(text, scwi_number_text(percent, number));
}

int scwi_p_decimals(double p) { return p < 0.001 ? 4 : p < 0.1 ? 3 : 2; }

void scwi_put_p(scwi_text *text, double p) {
  if (p < 0.0001)
    scwi_text_add(text, "below 0.0001");
  else
    scwi_put_fixed(text, p, scwi_p_decimals(p));
}
