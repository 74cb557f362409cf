/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "words.h"

#include <math.h>
#include <string.h>

#include "number_text.h"

static void say_unit(scwi_text *text, const char *unit) {
  if (unit && *unit) {
    scwi_text_add(text, " ");
    scwi_text_add(text, unit);
  }
}

static void say_fixed(scwi_text *text, double value, int decimals) {
  char number[SCWI_NUMBER_SIZE];
  scwi_text_add(text, scwi_fixed_text(value, decimals, number));
}

void scwi_say_value(scwi_text *text, double value, double u,
                    const char *unit) {
  say_fixed(text, value, scwi_decimals_for(u, value));
  say_unit(text, unit);
}

void scwi_say_interval(scwi_text *text, scw_interval interval, double u,
                       const char *unit) {
  int decimals = scwi_decimals_for(u, interval.high);
  say_fixed(text, interval.low, decimals);
  scwi_text_add(text, " to ");
  say_fixed(text, interval.high, decimals);
  say_unit(text, unit);
}

void scwi_say_percent(scwi_text *text, double share) {
  char number[SCWI_NUMBER_SIZE];
  /* 100 * 0.999 is 99.9 only after rounding away the last binary digits */
  double percent = round(share * 1e12) / 1e10;
  scwi_text_add(text, scwi_number_text(percent, number));
  scwi_text_add(text, " %");
}

void scwi_say_digits(scwi_text *text, double value, int digits,
                     const char *unit) {
  char number[SCWI_NUMBER_SIZE];
  scwi_text_add(text, scwi_significant_text(value, digits, number));
  say_unit(text, unit);
}

void scwi_say_given(scwi_text *text, double value, const char *unit) {
  char number[SCWI_NUMBER_SIZE];
  scwi_significant_text(value, 6, number);
  if (strchr(number, '.') && !strchr(number, 'e')) {
    char *end = number + strlen(number);
    while (end[-1] == '0') *--end = 0;
    if (end[-1] == '.') end[-1] = 0;
  }
  scwi_text_add(text, number);
  say_unit(text, unit);
}

void scwi_say_p(scwi_text *text, double p) {
  if (p < 0.0001) {
    scwi_text_add(text, "below 0.0001");
    return;
  }
  say_fixed(text, p, p < 0.001 ? 4 : p < 0.1 ? 3 : 2);
}

void scwi_say_count(scwi_text *text, size_t n, const char *thing) {
  scwi_text_format(text, "%zu %s%s", n, thing, n == 1 ? "" : "s");
}
