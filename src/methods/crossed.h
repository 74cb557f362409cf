/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Operators who all read the same spots: both are random, with and without an
 * interaction. */
#ifndef SCWI_CROSSED_H
#define SCWI_CROSSED_H

#include "context.h"
#include "large_sample.h"
#include "sample.h"
#include "scatterwise/components.h"

/* operator_of[i] and spot_of[i] number the operator and the spot of reading i;
 * readings under the same two are repeats. n >= 1. */
scw_status scwi_crossed(scw_context *context, const scwi_sample *sample,
                        const uint32_t *operator_of, const uint32_t *spot_of,
                        double level, scw_crossed *out);

#endif
