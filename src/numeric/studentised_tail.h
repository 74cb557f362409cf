/* SPDX-License-Identifier: GPL-3.0-or-later */
/* P(W > w) by interpolation in what was worked out before. */
#ifndef SCWI_STUDENTISED_TAIL_H
#define SCWI_STUDENTISED_TAIL_H

#include "studentised.h"

double scwi_studentised_tail(scwi_studentised *of, double w);

#endif
