/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method: adaptive Gauss-Kronrod with 21 points, QUADPACK's QAG, by GSL. */
#include "quadrature.h"

#include <math.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_integration.h>

#include "context.h"

enum { MOST_PIECES = 500 };

scw_status scwi_integral(scw_context *context, scwi_function f,
                         void *parameters, double low, double high,
                         double absolute, double relative, double *out) {
  *out = 0;
  if (!isfinite(low) || !isfinite(high))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "an integral needs finite ends");
  if (low == high) return SCW_OK;
  gsl_integration_workspace *room = gsl_integration_workspace_alloc(MOST_PIECES);
  if (!room)
    return scwi_fail(context, SCW_OUT_OF_MEMORY,
                     "memory ran out for an integral");
  gsl_function function = {f, parameters};
  double value, error;
  int code = gsl_integration_qag(&function, low, high, absolute, relative,
                                 MOST_PIECES, GSL_INTEG_GAUSS21, room, &value,
                                 &error);
  gsl_integration_workspace_free(room);
  if (code != GSL_SUCCESS || !isfinite(value))
    return scwi_fail(context, SCW_NOT_REACHED,
                     "an integral did not reach its accuracy: the settings are "
                     "too extreme for a reliable figure");
  *out = value;
  return SCW_OK;
}
