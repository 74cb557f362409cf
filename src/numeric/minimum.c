/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method: Brent's, by GSL. */
#include "minimum.h"

#include <math.h>
#include <stdbool.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_min.h>

#include "context.h"

enum { MOST_STEPS = 200 };

#define FLAT 1e-13

/* Narrow enough, or f too flat between the ends to tell them from the lowest
 * point: parabolas through rounding lead nowhere. */
static bool settled(const gsl_min_fminimizer *m, double width) {
  double lowest = gsl_min_fminimizer_f_minimum(m);
  double ends = fmax(gsl_min_fminimizer_f_lower(m),
                     gsl_min_fminimizer_f_upper(m));
  return gsl_min_fminimizer_x_upper(m) - gsl_min_fminimizer_x_lower(m) <=
             width ||
         ends - lowest <= FLAT * fmax(fabs(lowest), 1);
}

static scw_status iterate(scw_context *context, gsl_min_fminimizer *minimizer,
                          double width) {
  for (int i = 0; i < MOST_STEPS; i++) {
    if (settled(minimizer, width)) return SCW_OK;
    int code = gsl_min_fminimizer_iterate(minimizer);
    if (code == GSL_FAILURE) return SCW_OK; /* no lower point in doubles */
    if (code != GSL_SUCCESS) break;
  }
  return scwi_fail(context, SCW_NOT_REACHED,
                   "a search for the best value did not settle: the figures "
                   "are too extreme for a reliable answer");
}

scw_status scwi_minimum(scw_context *context, scwi_function f, void *parameters,
                        double low, double middle, double high, double width,
                        double *at, double *value) {
  double at_low = f(low, parameters), at_high = f(high, parameters);
  double inside = f(middle, parameters);
  *at = middle;
  *value = inside;
  if (!(low < middle && middle < high) || !isfinite(at_low) ||
      !isfinite(at_high) || !(inside < at_low && inside < at_high))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a search for the best value was given a start that is "
                     "no better than its ends");
  gsl_min_fminimizer *minimizer =
      gsl_min_fminimizer_alloc(gsl_min_fminimizer_brent);
  if (!minimizer)
    return scwi_fail(context, SCW_OUT_OF_MEMORY,
                     "memory ran out in a search for the best value");
  gsl_function function = {f, parameters};
  scw_status status = SCW_OK;
  if (gsl_min_fminimizer_set_with_values(minimizer, &function, middle, inside,
                                         low, at_low, high, at_high) !=
      GSL_SUCCESS)
    status = scwi_fail(context, SCW_NOT_REACHED,
                       "a search for the best value could not start");
  if (status == SCW_OK) status = iterate(context, minimizer, width);
  *at = gsl_min_fminimizer_x_minimum(minimizer);
  *value = gsl_min_fminimizer_f_minimum(minimizer);
  gsl_min_fminimizer_free(minimizer);
  return status;
}
