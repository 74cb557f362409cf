/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A reproducible random stream from a seed (GSL's mt19937). */
#ifndef SCWI_RANDOM_H
#define SCWI_RANDOM_H

#include "scatterwise/context.h"

typedef struct scwi_random scwi_random;
scw_status scwi_random_new(scw_context *context, unsigned long long seed,
                           scwi_random **out);
void scwi_random_free(scwi_random *random);
size_t scwi_random_below(scwi_random *random, size_t limit); /* uniform */
#endif
