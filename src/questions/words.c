/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "words.h"

#include "number_text.h"
#include "number_words.h"

static void say_unit(scwi_text *text, const char *unit) {
  if (unit && *unit) {
    scwi_text_add(text, " ");
    scwi_text_add(text, unit);
  }
}

void scwi_say_value(scwi_text *text, double value, double u,
                    const char *unit) {
  scwi_put_fixed(text, value, scwi_decimals_for(u, value));
  say_unit(text, unit);
}

void scwi_say_interval(scwi_text *text, scw_interval interval, double u,
                       const char *unit) {
  scwi_put_range(text, interval.low, interval.high,
                 scwi_decimals_for(u, interval.high));
  say_unit(text, unit);
}

void scwi_say_percent(scwi_text *text, double share) {
  scwi_put_percentage(text, share);
  scwi_text_add(text, " %");
}

void scwi_say_digits(scwi_text *text, double value, int digits,
                     const char *unit) {
  scwi_put_digits(text, value, digits);
  say_unit(text, unit);
}

void scwi_say_given(scwi_text *text, double value, const char *unit) {
  scwi_put_short(text, value, 6);
  say_unit(text, unit);
}

void scwi_say_count(scwi_text *text, size_t n, const char *thing) {
  scwi_text_format(text, "%zu %s%s", n, thing, n == 1 ? "" : "s");
}
