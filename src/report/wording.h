/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures as words on a sheet, tied where a line must not break. Bare numbers:
 * number_words.h. */
#ifndef SCWI_WORDING_H
#define SCWI_WORDING_H

#include "scatterwise/figures.h"
#include "text.h"

/* "84.62 GU"; a null or empty unit leaves the number alone. */
void scwi_word_quantity(scwi_text *text, double value, int decimals,
                        const char *unit);

/* "95 %" of 0.95. */
void scwi_word_percent(scwi_text *text, double share);

/* "p 0.034", "p below 0.0001"; a missing p: "no p: " and its words. */
void scwi_word_p(scwi_text *text, scw_figure p);

/* " (p 0.034)"; nothing when it was not computed. */
void scwi_word_p_aside(scwi_text *text, scw_figure p);

/* "8 times in 10", "95 times in 100", "99.9 % of the time". */
void scwi_word_chance(scwi_text *text, double chance);

/* "1 reading", "10 readings". */
void scwi_word_count(scwi_text *text, unsigned long long n, const char *thing);

/* "9", "8.15": degrees of freedom. */
void scwi_word_df(scwi_text *text, double df);

/* ", " between parts: nothing before the first. */
void scwi_word_join(scwi_text *text, const char *separator);

#endif
