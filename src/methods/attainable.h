/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Can a printed mean, or SD, arise from n readings that are whole multiples of
 * a display step? A sum of n multiples of q is a multiple of q, so the mean of
 * n moves in steps of q/n (Brown & Heathers 2017, Soc. Psychol. Personal. Sci.
 * 8, 363-369); the sum of squares is a whole number as even or odd as the sum
 * (Anaya 2016). Only what is certain is said: true means that no readings
 * whatever give the figure, by any common rule of rounding. */
#ifndef SCWI_ATTAINABLE_H
#define SCWI_ATTAINABLE_H

#include <stdbool.h>
#include <stddef.h>

/* A number as printed, with so many decimals: it stands for everything within
 * half a unit of the last one, both ends included. */
typedef struct scwi_shown_number {
  double value;
  int digits;
} scwi_shown_number;

/* Half a unit of the last decimal. */
double scwi_shown_half(scwi_shown_number number);

/* What stands for everything that is cut off to `number` instead of rounded: from
 * it to the next one away from zero. */
scwi_shown_number scwi_shown_cut_off(scwi_shown_number number);

/* n >= 1, step > 0. */
bool scwi_mean_impossible(scwi_shown_number mean, size_t n, double step);

/* What a printed scatter may be of n readings. */
typedef enum scwi_scatter_of {
  SCWI_SAMPLE_SD,     /* divisor n - 1 */
  SCWI_POPULATION_SD, /* divisor n */
  SCWI_STANDARD_ERROR /* the sample SD over sqrt(n) */
} scwi_scatter_of;

/* Beside a printed mean, which has to be possible itself. n >= 2, step > 0. */
bool scwi_scatter_impossible(scwi_shown_number mean, scwi_shown_number scatter,
                             scwi_scatter_of of, size_t n, double step);

#endif
