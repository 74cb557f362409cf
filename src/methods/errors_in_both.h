/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A straight line with error in both variables (Deming): y = a + b x between
 * the true values, errors independent and normal, the variance of y's error
 * being `ratio` times that of x's. */
#ifndef SCWI_ERRORS_IN_BOTH_H
#define SCWI_ERRORS_IN_BOTH_H

#include "context.h"
#include "scatterwise/figures.h"

/* n pairs. The ratio is > 0. */
typedef struct scwi_pairs {
  size_t n;
  const double *x, *y;
  double ratio;
  bool weighted; /* error SDs in proportion to the level (Linnet 1993, Clin.
                    Chem. 39, 424-432, from memory); needs positive values */
} scwi_pairs;

typedef struct scwi_deming {
  scw_presence state;    /* SCW_PRESENT; SCW_TOO_FEW below 3 pairs,
                            SCW_NO_SCATTER where x or y are all the same,
                            SCW_FLAT where they do not vary together,
                            SCW_OUT_OF_RANGE (weighted: a level of 0 or below),
                            SCW_NOT_TOLD_APART: the weights do not settle */
  double slope, intercept;
  double mean_x, mean_y; /* weighted where there are weights */
  double scatter;        /* SD of y - a - b x on n - 2 df, at weight 1 */
  double level;          /* weighted: level of weight 1, else 0 */
  double slope_u;        /* Fuller 1987, Measurement Error Models, eq. 1.3.12,
                            from memory */
  double df;             /* n - 2 */
} scwi_deming;

scw_status scwi_deming_of(scw_context *context, const scwi_pairs *pairs,
                          scwi_deming *out);

/* The slopes b0 for which y - b0 x is not seen to go with ratio x + b0 y (t test
 * of the correlation on n - 2 df; Creasy 1956, J. R. Stat. Soc. B 18, 65-69,
 * Williams 1973, Biometrics 29, from memory): exact at any n for normal errors
 * of this ratio. SCW_UNBOUNDED where vertical lines are among them,
 * SCW_NO_SCATTER on an exact line. */
scw_status scwi_deming_slope_interval(scw_context *context,
                                      const scwi_pairs *pairs,
                                      const scwi_deming *line, double level,
                                      scw_interval *out);

/* Standard uncertainty of the line at x. */
double scwi_deming_line_u(const scwi_deming *line, size_t n, double x);

/* SD of a pair about the line at x: `scatter`, in proportion to the level where
 * weighted. */
double scwi_deming_scatter_at(const scwi_deming *line, const scwi_pairs *pairs,
                              double x);

/* Leave-one-out estimates of the standard uncertainties of slope and intercept
 * and of their values (pseudo-values). SCW_TOO_MANY above 2000 pairs; the reason
 * of a line without one pair; SCW_TOO_FEW below 4. */
typedef struct scwi_jackknife {
  scw_presence state;
  double slope, intercept, slope_u, intercept_u;
} scwi_jackknife;
scw_status scwi_deming_jackknife(scw_context *context, const scwi_pairs *pairs,
                                 const scwi_deming *line, scwi_jackknife *out);

#endif
