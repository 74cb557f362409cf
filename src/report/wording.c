/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "wording.h"

#include <math.h>

#include "number_words.h"
#include "sheet.h"

void scwi_word_quantity(scwi_text *text, double value, int decimals,
                        const char *unit) {
  scwi_put_fixed(text, value, decimals);
  if (unit && *unit) {
    scwi_text_add(text, SCWI_TIE);
    scwi_text_add(text, unit);
  }
}

void scwi_word_percent(scwi_text *text, double share) {
  scwi_put_percentage(text, share);
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
    scwi_put_p(text, p.value);
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

void scwi_word_df(scwi_text *text, double df) {
  scwi_put_short(text, df, df < 100 ? 3 : 6);
}

void scwi_word_join(scwi_text *text, const char *separator) {
  if (text->length) scwi_text_add(text, separator);
}
