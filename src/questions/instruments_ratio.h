/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the instruments' uncertainty does to a ratio of two means. */
#ifndef SCWI_INSTRUMENTS_RATIO_H
#define SCWI_INSTRUMENTS_RATIO_H

#include "fieller.h"
#include "instruments.h"

/* Adds it to `means`, whose mean values are before and after. A shared input
 * acts on both by its slopes there, others on each side for itself; terms and
 * their df as in scwi_instruments_uncertainty. Nothing is added where nothing
 * scatters. */
void scwi_instruments_on_ratio(const scwi_instruments *instruments,
                               double before, double after,
                               scwi_two_means *means);

#endif
