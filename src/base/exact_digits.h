/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Decimal digits of doubles of everyday size by exact whole-number
 * arithmetic: what printf would give, without its cost and its locale. */
#ifndef SCWI_EXACT_DIGITS_H
#define SCWI_EXACT_DIGITS_H

#include <stdbool.h>
#include <stdint.h>

/* |value| * 10^decimals rounded half to even, for decimals 0 to 18; false
 * where the arithmetic does not reach (2^53 and more, or a result of more
 * than 18 digits). */
bool scwi_whole_at(double value, int decimals, uint64_t *out);

/* The shortest decimal that reads back as |value|: *digits * 10^-decimals, the
 * nearest of that length, *digits not ending in 0. False outside 1e-5 to
 * 2^53. */
bool scwi_shortest_decimal(double value, uint64_t *digits, int *decimals);

#endif
