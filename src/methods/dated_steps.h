/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Steps in a series of values, found by splitting it again and again. */
#ifndef SCWI_DATED_STEPS_H
#define SCWI_DATED_STEPS_H

#include "sample.h"
#include "scatterwise/context.h"

typedef struct scwi_dated_step {
  size_t at;    /* the first value at the new level */
  double p;     /* of the split that found it */
  bool counted; /* p from random orders */
} scwi_dated_step;

typedef struct scwi_dated_steps {
  scwi_dated_step *step; /* room for n; ascending */
  size_t n;
  bool line;       /* somewhere a line describes the values better than a step:
                      a steady movement, not taken for steps */
} scwi_dated_steps;

/* A stretch is split where two means leave the least squares (scwi_level_split),
 * if the permutation p of that is at most `alpha` and the line over `day` leaves
 * more; then both halves are looked at alike.
 * With nothing but scatter the chance that any step is found is at most
 * `alpha`. Fewer than 4 values are not split. */
scw_status scwi_dated_steps_of(scw_context *context, const double *day,
                               const scwi_sample *sample, double alpha,
                               unsigned long long seed, scwi_dated_steps *out);

#endif
