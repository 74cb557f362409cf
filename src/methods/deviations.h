/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Deviations from the mean in a unit of their own, in which nothing overflows
 * or underflows and readings that are whole ticks give whole numbers. */
#ifndef SCWI_DEVIATIONS_H
#define SCWI_DEVIATIONS_H

#include "sample.h"

__extension__ typedef __int128 scwi_wide;

typedef struct scwi_centre {
  const scwi_sample *sample;
  double mean;         /* in the unit of the readings */
  scwi_wide sum;       /* of the ticks */
  int exponent;        /* doubles: readings are scaled by 2^-exponent ... */
  double scaled, rest; /* ... and their mean is the sum of these two */
} scwi_centre;

/* n >= 1. The sample must outlive the centre. */
scwi_centre scwi_centre_of(const scwi_sample *sample);

/* Reading i minus the mean. With ticks the unit is an n-th of a tick, and the
 * value is exact to its last rounding (a whole number below 2^53). */
double scwi_deviation(const scwi_centre *centre, size_t i);

/* Reading i minus reading j in that unit; however far away the mean may lie,
 * readings close to each other keep their distance. */
double scwi_distance(const scwi_centre *centre, size_t i, size_t j);

/* sqrt(sum of squared deviations / (n-1)) in that unit; 0 for n = 1. */
double scwi_scaled_sd(const scwi_centre *centre);

/* A length in that unit, in the unit of the readings. */
double scwi_unscaled(const scwi_centre *centre, double scaled);

/* numerator / denominator ticks in the unit of the readings. */
double scwi_tick_value(double numerator, double denominator, double tick_size);

#endif
