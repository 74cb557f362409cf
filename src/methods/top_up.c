/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "top_up.h"

#include "comparison.h"
#include "figure.h"
#include "planning.h"

scw_status scwi_top_up_total(scw_context *context, double sd, size_t m,
                             double level, double half_width,
                             scw_figure *out) {
  double t;
  *out = scwi_missing(SCW_NOT_COMPUTED);
  scw_status status = scwi_critical(context, (double)m - 1, level, &t);
  if (status != SCW_OK) return status;
  double root = t * sd / half_width;
  /* A whole number met exactly must not be pushed up by rounding. */
  double total = fmax((double)m, ceil(root * root * (1 - 1e-13)));
  *out =
      total <= SCWI_PLAN_MOST ? scwi_figure(total) : scwi_missing(SCW_TOO_MANY);
  return SCW_OK;
}

scw_status scwi_top_up_interval(scw_context *context, double mean, size_t n,
                                double sd, size_t m, double rounding,
                                double level, scw_interval *out) {
  scwi_uncertainty u = scwi_uncertainty_sum(
      (scwi_uncertainty){sd / sqrt((double)n), (double)m - 1},
      (scwi_uncertainty){rounding, INFINITY});
  *out = scwi_no_interval(SCW_NO_SCATTER, level);
  return u.u > 0 ? scwi_t_interval(context, mean, u, level, out) : SCW_OK;
}
