/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The display step, inferred from all readings of one quantity in a file. */
#ifndef SCWI_DISPLAY_STEP_H
#define SCWI_DISPLAY_STEP_H

#include <stdint.h>

#include "scatterwise/figures.h"

/* `ticks` are the n readings in whole units of the last decimal used anywhere
 * in the column (10^-digits). See the conventions, "Display step". */
scw_step scwi_display_step(const int64_t *ticks, size_t n, int digits);

/* The same from what is known of the ticks without keeping them: how many
 * different ones there are (3 stands for three or more), and their greatest
 * common divisor as far as its factors 2 and 5 go (0: all are zero). */
scw_step scwi_display_step_of(size_t n, int different, uint64_t divisor,
                              int digits);
#endif
