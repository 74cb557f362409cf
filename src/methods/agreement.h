/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of agreement between two methods run on the same items (Bland &
 * Altman 1986, Lancet 327, 307-310; 1999, Stat. Methods Med. Res. 8, 135-160,
 * section 5 for repeats), with intervals by noncentral t (Carkeet 2015, Optom.
 * Vis. Sci. 92, e71-e80). */
#ifndef SCWI_AGREEMENT_H
#define SCWI_AGREEMENT_H

#include "context.h"
#include "scatterwise/comparison.h"

/* Repeats of one method. */
typedef struct scwi_repeats {
  double sd, df;   /* pooled within items; df 0: there are none */
  double one_over; /* mean over the items of 1 / readings of the item, 0 to 1 */
} scwi_repeats;

typedef struct scwi_agreement_given {
  size_t n;             /* items, >= 2 */
  double bias, sd;      /* mean and SD of the differences of item means */
  scwi_repeats of_old, of_new;
  double content, level;
} scwi_agreement_given;

/* sd^2 = sd_d^2 + (1 - one_over) repeat_sd^2 of each method, the difference of
 * single readings; Satterthwaite df; limits bias -+ z((1+content)/2) sd. The
 * interval of a limit is bias + sd q/root(N), q the quantiles of noncentral t
 * with noncentrality z root(N), N = sd^2 / (sd_d^2/n): exact without repeats
 * (N = n, df = n - 1). Noncentrality above 40 (N beyond 400): within 2.2 %
 * of the interval's width of that. */
typedef struct scwi_agreement {
  scw_figure sd, df, low, high;
  scw_interval low_interval, high_interval;
} scwi_agreement;
scw_status scwi_agreement_of(scw_context *context,
                             const scwi_agreement_given *given,
                             scwi_agreement *out);

/* Fewest items, at least 3 and at most 1000, at which limits and intervals, were
 * bias and SD those given, lie within -+margin. SCW_NEVER where the limits
 * themselves do not; SCW_TOO_MANY. sd > 0. */
scw_status scwi_agreement_items(scw_context *context, double bias, double sd,
                                double content, double level, double margin,
                                scw_figure *out);

/* sd at its upper limit of confidence `assurance`: sd root(df / chi2(1 -
 * assurance, df)). */
scw_status scwi_sd_assured(scw_context *context, double sd, double df,
                           double assurance, double *out);

/* Least-squares slope of the differences d over the means m of both methods,
 * with its t interval on n - 2 df; `off` (n, or null) becomes the distances from
 * that line. SCW_TOO_FEW below 3, SCW_NO_SCATTER where all m are the same or all
 * d lie on a line. */
scw_status scwi_difference_trend(scw_context *context, const double *m,
                                 const double *d, size_t n, double level,
                                 scw_estimate *out, double *off);

#endif
