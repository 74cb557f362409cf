/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Average run lengths: how many independent normal values a chart takes to its
 * first signal, when all are shifted by so many SD from the first one on. The
 * chart's centre and SD are taken as known. */
#ifndef SCWI_RUN_LENGTH_H
#define SCWI_RUN_LENGTH_H

#include "scatterwise/context.h"

/* Single values outside centre -+ width SD. */
double scwi_run_length_limits(double width, double shift);

/* Weighted moving average with the final limits from the start (Crowder 1987):
 * L(u) = 1 + integral of L over the limits by the normal density. */
scw_status scwi_run_length_average(scw_context *context, double weight,
                                   double width, double shift, double *out);

/* Two-sided cumulative sum from 0 (Page 1954; integral equation of van
 * Dobben de Bruyn 1968): 1/L = 1/L(up) + 1/L(down). */
scw_status scwi_run_length_sum(scw_context *context, double reference,
                               double decision, double shift, double *out);

#endif
