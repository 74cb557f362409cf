/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of a sum or difference of independent mean squares by modified large
 * samples (Graybill & Wang 1980, J. Amer. Statist. Assoc. 75, 869-873, for
 * sums; Ting et al. 1990, J. Statist. Comput. Simul. 35, 135-143, for
 * differences; from memory, coverage in docs/methods/panel-scatter.md). Exact
 * when one mean square alone decides. */
#ifndef SCWI_LARGE_SAMPLE_H
#define SCWI_LARGE_SAMPLE_H

#include <stdbool.h>

#include "context.h"

/* coefficient * square, the square on df degrees of freedom. */
typedef struct scwi_square_term {
  double coefficient, square, df;
} scwi_square_term;
enum { SCWI_SQUARE_TERMS = 4 };

/* Quantiles asked for before: those of one design come back for every panel
 * read the same way. Zero-initialise. One thread at a time. */
enum { SCWI_MEMO_SIZE = 64 };
typedef struct scwi_limits_memo {
  size_t n;
  struct {
    double p, df1, df2, value;
  } entry[SCWI_MEMO_SIZE];
} scwi_limits_memo;

/* The F quantile at lower tail p; df2 infinite: chi-square over its df. */
scw_status scwi_memo_f(scw_context *context, scwi_limits_memo *memo, double p,
                       double df1, double df2, double *out);

/* One-sided limits, each at `assurance` (above 0.5), of the expected value of
 * the sum of the terms; not held above 0. Coefficients of either sign; 1 to
 * SCWI_SQUARE_TERMS terms, in a unit where their squares stay finite. `memo`
 * may be null. */
scw_status scwi_large_sample_limits(scw_context *context,
                                    scwi_limits_memo *memo,
                                    const scwi_square_term *terms, size_t n,
                                    double assurance, double *lower,
                                    double *upper);

#endif
