/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method: Brent's, by GSL. */
#include "roots.h"

#include <float.h>
#include <math.h>
#include <stdbool.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_roots.h>

#include "context.h"

enum { MOST_STEPS = 500 };

static bool narrow(double low, double high, double relative) {
  double width = high - low;
  double size = low <= 0 && high >= 0 ? 0 : fmin(fabs(low), fabs(high));
  return width <= fmax(relative, 2 * DBL_EPSILON) * size || width < DBL_MIN;
}

static scw_status iterate(scw_context *context, gsl_root_fsolver *solver,
                          double relative, double *out) {
  for (int i = 0; i < MOST_STEPS; i++) {
    if (gsl_root_fsolver_iterate(solver) != GSL_SUCCESS) break;
    *out = gsl_root_fsolver_root(solver);
    if (narrow(gsl_root_fsolver_x_lower(solver),
               gsl_root_fsolver_x_upper(solver), relative))
      return SCW_OK;
  }
  *out = 0;
  return scwi_fail(context, SCW_NOT_REACHED,
                   "a search for a root did not settle: the settings are too "
                   "extreme for a reliable figure");
}

scw_status scwi_root(scw_context *context, scwi_function f, void *parameters,
                     double low, double high, double relative, double *out) {
  *out = 0;
  double at_low = f(low, parameters), at_high = f(high, parameters);
  if (at_low == 0 || at_high == 0) {
    *out = at_low == 0 ? low : high;
    return SCW_OK;
  }
  if (!(low < high) || !isfinite(at_low) || !isfinite(at_high) ||
      (at_low < 0) == (at_high < 0))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a search for a root was given ends without a change of "
                     "sign between them");
  gsl_root_fsolver *solver = gsl_root_fsolver_alloc(gsl_root_fsolver_brent);
  if (!solver)
    return scwi_fail(context, SCW_OUT_OF_MEMORY,
                     "memory ran out in a search for a root");
  gsl_function function = {f, parameters};
  scw_status status = SCW_OK;
  if (gsl_root_fsolver_set(solver, &function, low, high) != GSL_SUCCESS)
    status = scwi_fail(context, SCW_NOT_REACHED,
                       "a search for a root could not start: the function has "
                       "no value at its ends");
  if (!status) status = iterate(context, solver, relative, out);
  gsl_root_fsolver_free(solver);
  return status;
}
