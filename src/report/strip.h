/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings as marks on one line of the sheet, and below them the mean with its
 * interval. Sets drawn on one scale can be compared by eye. */
#ifndef SCWI_STRIP_H
#define SCWI_STRIP_H

#include "sheet.h"

/* What a strip shows. */
typedef struct scwi_strip {
  const char *label; /* "" for none */
  const double *values;
  size_t n;
  const scw_flag *flags; /* readings that stand out get their own mark */
  size_t n_flags;
  scw_figure mean;
  scw_interval interval;
} scwi_strip;

/* Draws the strips one below the other on one scale, and says the ends of the
 * scale and what the marks mean. Nothing when there is nothing to spread. */
void scwi_sheet_strips(scwi_sheet *sheet, const scwi_strip *strips, size_t n,
                       int decimals, const char *unit);

#endif
