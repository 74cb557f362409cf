/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A change judged on a pooled SD from elsewhere. The sides are independent
 * samples of single readings that scatter as the bank says. */
#ifndef SCWI_BANK_H
#define SCWI_BANK_H

#include "context.h"
#include "moments.h"

typedef struct scwi_bank {
  double sd, df;
} scwi_bank;

/* One side: a mean of n readings, displayed in steps of `step`. */
typedef struct scwi_bank_side {
  size_t n;
  double step;
} scwi_bank_side;

/* Of a sum or difference of the sides' means: u^2 = sd^2 sum 1/n + the sides'
 * rounding terms; one SD stands behind all sides, so the scatter has the
 * bank's df, not a mixture of them. */
scwi_uncertainty scwi_bank_uncertainty(scwi_bank bank,
                                       const scwi_bank_side *side,
                                       size_t sides);

/* F = (own.u / sd)^2 with own.df and the bank's df, and its two-sided p.
 * SCW_ONE_READING without own df; p is missing as SCW_NO_SCATTER for an own SD
 * of 0. */
void scwi_bank_f(scwi_bank bank, scwi_uncertainty own, scw_figure *f,
                 scw_figure *p);

#endif
