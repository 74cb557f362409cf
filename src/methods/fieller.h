/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ratio of two means: where it can lie (Fieller 1954, J. R. Statist. Soc. B
 * 16, 175-185), and the delta interval on the log scale beside it. */
#ifndef SCWI_FIELLER_H
#define SCWI_FIELLER_H

#include "context.h"
#include "moments.h"
#include "scatterwise/comparison.h"

/* Two means and the variances of their errors, in units of `scale`, as they
 * stand at the ratio found: of the mean before, of rest = after - ratio * before, and
 * what these two share. */
typedef struct scwi_two_means {
  scw_presence state;  /* SCW_PRESENT, or why there is no uncertainty */
  double before, after;
  double before_variance, rest_variance, covariance;
  double scale;        /* the unit they are in */
  double df;           /* of the rest; Satterthwaite at the ratio found */
} scwi_two_means;

/* Independent sides, each with its own step term. SCW_ONE_READING. */
scwi_two_means scwi_means_apart(scwi_moments before, double step_before,
                                scwi_moments after, double step_after);

/* m pairs. What the display leaves undecided of a mean difference
 * (scwi_difference_uncertainty) is laid on both sides alike, so that at a ratio
 * of 1 the uncertainty is that of the change. */
scwi_two_means scwi_means_paired(const double *before, const double *after,
                                 size_t m, scwi_display display);

/* Another independent error: variances as above at the same ratio and in the
 * same unit, and df. */
void scwi_means_add(scwi_two_means *means, double before_variance,
                    double rest_variance, double covariance, double df);

/* All r for which after - r before lies within t((1+level)/2, df) of its
 * standard uncertainty. SCW_ZERO_BEFORE, SCW_ONE_READING, SCW_NO_SCATTER; the
 * delta interval needs a ratio above zero, else SCW_NOT_POSITIVE. */
scw_status scwi_ratio_of_means(scw_context *context,
                               const scwi_two_means *means, double level,
                               scw_ratio *out);

#endif
