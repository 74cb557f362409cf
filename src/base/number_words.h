/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers as sentences and pages write them, appended to a text. Units, and
 * the blanks before them, are the caller's. */
#ifndef SCWI_NUMBER_WORDS_H
#define SCWI_NUMBER_WORDS_H

#include "text.h"

void scwi_put_fixed(scwi_text *text, double value, int decimals);

/* "84.31 to 84.93". */
void scwi_put_range(scwi_text *text, double low, double high, int decimals);

/* So many significant digits; the second without closing zeros. */
void scwi_put_digits(scwi_text *text, double value, int digits);
void scwi_put_short(scwi_text *text, double value, int digits);

/* "95" of 0.95; as many digits as the share has. */
void scwi_put_percentage(scwi_text *text, double share);

/* "0.03", "0.004", "below 0.0001". */
void scwi_put_p(scwi_text *text, double p);

/* Decimals that a p of at least 0.0001 is shown with. */
int scwi_p_decimals(double p);

#endif
