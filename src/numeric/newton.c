/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method: Newton on log(tail) against log(x). A tangent of a concave curve lies
 * above it, so from any start the first step lands on the flat side of the
 * root and all later ones walk towards it: no bracket is needed. The last
 * step, taken from a tail value, is the check of the result. */
#include "newton.h"

#include <float.h>
#include <math.h>

#include "context.h"

enum { MOST_STEPS = 200 };
#define LAST_STEP 1e-9 /* the step after it would be of the order of 1e-16 */
#define LONGEST_STEP 40.0

scw_status scwi_tail_point(scw_context *context, scwi_tail_function tail,
                           const void *parameters, double wanted, double start,
                           double inner, double *out) {
  double x = start;
  *out = 0;
  for (int i = 0; i < MOST_STEPS && x >= DBL_MIN && x <= DBL_MAX; i++) {
    scwi_tail at = tail(x, parameters);
    if (!(at.value >= DBL_MIN)) { /* underflow: halfway back */
      x = sqrt(x) * sqrt(inner);
      continue;
    }
    inner = x;
    double step = log(at.value / wanted) / at.slope;
    if (!isfinite(step)) break;
    x *= exp(-fmax(-LONGEST_STEP, fmin(LONGEST_STEP, step)));
    if (fabs(step) > LAST_STEP) continue;
    if (x < DBL_MIN || x > DBL_MAX) break;
    *out = x;
    return SCW_OK;
  }
  return scwi_fail(context, SCW_NOT_REACHED,
                   "a quantile lies beyond the range of numbers this program "
                   "can hold: ask for a less extreme probability");
}
