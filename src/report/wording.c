/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "wording.h"

#include <math.h>
#include <string.h>

#include "number_text.h"
#include "sheet.h"

static void add_fixed(scwi_text *text, double value, int decimals) {
  char number[SCWI_NUMBER_SIZE];
  scwi_text_add(text, scwi_fixed_text(value, decimals, number));
}

void scwi_word_quantity(scwi_text *text, double value, int decimals,
                        const char *unit) {
  add_fixed(text, value, decimals);
  if (unit && *unit) {
    scwi_text_add(text, SCWI_TIE);
    scwi_text_add(text, unit);
  }
}

void scwi_word_range(scwi_text *text, double low, double high, int decimals) {
  add_fixed(text, low, decimals);
  scwi_text_add(text, " to ");
  add_fixed(text, high, decimals);
}

void scwi_word_percent(scwi_text *text, double share) {
  char number[SCWI_NUMBER_SIZE];
  /* 100 * 0.56 is 56 only once its last binary digits are rounded away */
  double percent = round(share * 1e10) / 1e8;
  scwi_text_add(text, scwi_number_text(percent, number));
  scwi_text_add(text, SCWI_TIE "%");
}

void scwi_word_p(scwi_text *text, scw_figure p) {
  if (p.state != SCW_PRESENT) {
    scwi_text_add(text, "no p: ");
    scwi_text_add(text, scw_presence_text(p.state));
  } else if (p.value < 0.0001) {
    scwi_text_add(text, "p" SCWI_TIE "below" SCWI_TIE "0.0001");
  } else {
    scwi_text_add(text, "p" SCWI_TIE);
    add_fixed(text, p.value, p.value < 0.001 ? 4 : p.value < 0.1 ? 3 : 2);
  }
}

void scwi_word_p_aside(scwi_text *text, scw_figure p) {
  if (p.state == SCW_NOT_COMPUTED) return;
  scwi_text_add(text, " (");
  scwi_word_p(text, p);
  scwi_text_add(text, ")");
}

void scwi_word_chance(scwi_text *text, double chance) {
  for (unsigned whole = 10; whole <= 100; whole *= 10) {
    double times = chance * whole;
    if (fabs(times - round(times)) < 1e-9) {
      scwi_text_format(text, "%u times in %u", (unsigned)round(times), whole);
      return;
    }
  }
  scwi_word_percent(text, chance);
  scwi_text_add(text, " of the time");
}

void scwi_word_count(scwi_text *text, unsigned long long n, const char *thing) {
  scwi_text_format(text, "%llu" SCWI_TIE "%s%s", n, thing, n == 1 ? "" : "s");
}

void scwi_word_digits(scwi_text *text, double value, int digits) {
  char number[SCWI_NUMBER_SIZE];
  scwi_significant_text(value, digits, number);
  size_t length = strlen(number);
  if (strchr(number, '.') && !strchr(number, 'e')) {
    while (number[length - 1] == '0')
      length--;
    if (number[length - 1] == '.') length--;
  }
  scwi_text_append(text, number, length);
}

void scwi_word_join(scwi_text *text, const char *separator) {
  if (text->length) scwi_text_add(text, separator);
}
