/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Slope of values over their dates, by least squares. */
#ifndef SCWI_DATED_LINE_H
#define SCWI_DATED_LINE_H

#include "sample.h"
#include "scatterwise/comparison.h"
#include "scatterwise/context.h"

typedef struct scwi_dated_line {
  scw_estimate slope;       /* per unit of `day`; t with n-2 df */
  scw_figure sd_about_line; /* as found, without the display's part */
  double squares;           /* about the line, in the unit of deviations.h */
} scwi_dated_line;

/* u(slope) = max(sd about the line, q/sqrt(12)) / sqrt(sum (day - mean)^2): a
 * display as coarse as q knows no better. Fewer than 3 values, or all on one
 * day: missing in words; on a line exactly without a step: no_scatter. */
scw_status scwi_dated_line_of(scw_context *context, const double *day,
                              const scwi_sample *sample, double level,
                              scwi_dated_line *out);

#endif
