/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Source: F. E. Grubbs, Technometrics 11 (1969); B. Rosner, Technometrics 25
 * (1983), 165-172; e-Handbook of Statistical Methods 1.3.5.17. The limit of
 * Grubbs' test is the first one of the generalised ESD procedure. */
#include "outlier_limits.h"

#include <float.h>
#include <math.h>

#include "context.h"
#include "distributions.h"
#include "number_text.h"

scw_status scwi_grubbs_limit(scw_context *context, size_t n, double alpha,
                             double *limit) {
  return scwi_esd_limit(context, n, 1, alpha, limit);
}

scw_status scwi_esd_limit(scw_context *context, size_t n, size_t i,
                          double alpha, double *limit) {
  char text[SCWI_NUMBER_SIZE];
  *limit = 0;
  if (n < 3 || i < 1 || i > n - 2)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a limit for reading %zu of %zu that stands out does not "
                     "exist: at least 3 readings must be left", i, n);
  if (!(alpha > 0 && alpha < 1))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "alpha must lie between 0 and 1, got %s",
                     scwi_number_text(alpha, text));
  double left = (double)(n - i + 1), df = left - 2, t;
  scw_status status = scwi_t_quantile(context, alpha / (2 * left), df, &t);
  /* t / sqrt(df + t^2) without squaring a huge t */
  if (!status) *limit = (left - 1) / sqrt(left) / hypot(1, sqrt(df) / t);
  return status;
}

scw_status scwi_grubbs_p(scw_context *context, size_t n, double g, double *p) {
  double count = (double)n, largest = (count - 1) / sqrt(count);
  *p = 0;
  if (n < 3 || !(g > 0 && g <= largest * (1 + 8 * DBL_EPSILON)))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "the distance of a reading in SD, among %zu readings, "
                     "cannot be as given", n);
  double root = sqrt(count) * g;
  double room = fmax(0, count - 1 - root) * (count - 1 + root);
  double t = g * sqrt(count * (count - 2) / room);
  *p = fmin(1, 2 * count * scwi_t_upper(t, count - 2));
  return SCW_OK;
}
