/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures as words in a sentence, rounded once by the uncertainty. */
#ifndef SCWI_WORDS_H
#define SCWI_WORDS_H

#include "scatterwise/figures.h"
#include "text.h"

/* "87.42 GU": value at two significant digits of its uncertainty u. */
void scwi_say_value(scwi_text *text, double value, double u, const char *unit);

/* "87.10 to 87.74 GU", both ends with the decimals that u asks for. */
void scwi_say_interval(scwi_text *text, scw_interval interval, double u,
                       const char *unit);

/* "95 %" of 0.95; as many digits as the level has. */
void scwi_say_percent(scwi_text *text, double share);

/* A figure to so many significant digits, with its unit. */
void scwi_say_digits(scwi_text *text, double value, int digits,
                     const char *unit);

/* A number somebody gave or a display shows, as short as it was meant: at most
 * six digits, no closing zeros. */
void scwi_say_given(scwi_text *text, double value, const char *unit);

/* A count of a thing: "1 spot", "9 spots". */
void scwi_say_count(scwi_text *text, size_t n, const char *thing);

#endif
