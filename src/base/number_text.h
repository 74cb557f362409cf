/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers as text, always with a decimal point, whatever the locale. */
#ifndef SCWI_NUMBER_TEXT_H
#define SCWI_NUMBER_TEXT_H

#include <stddef.h>
#include <stdint.h>

enum { SCWI_NUMBER_SIZE = 352 }; /* enough for 1e300 written out */

/* The shortest text of at most 17 significant digits that reads back as the
 * same double. Finite values only; others give "null". Returns `out`. */
const char *scwi_number_text(double value, char out[SCWI_NUMBER_SIZE]);

const char *scwi_whole_text(uint64_t value, char out[SCWI_NUMBER_SIZE]);

/* `value` with `decimals` digits after the point (negative: rounded to tens,
 * hundreds ...), half to even on the exact binary value. Plain notation below
 * 1e17 and up to 20 decimals (12 for numbers below 1e-9), else with an
 * exponent, to the same place; what is nothing there is "0". Never "-0". */
const char *scwi_fixed_text(double value, int decimals,
                            char out[SCWI_NUMBER_SIZE]);

/* Decimals at which `uncertainty` shows two significant digits; with an
 * uncertainty of 0 or not finite, the decimals of the shortest text of
 * `value`. 0.137 gives 2; 13.7 gives 0; 1370 gives -2. */
int scwi_decimals_for(double uncertainty, double value);

/* `value` to `significant` digits, plain where that is readable. */
const char *scwi_significant_text(double value, int significant,
                                  char out[SCWI_NUMBER_SIZE]);

#endif
