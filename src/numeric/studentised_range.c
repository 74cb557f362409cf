/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method: with the largest deviate at z, the others all lie within w below it
 * with probability (Phi(z) - Phi(z - w))^(k-1). What is left of 1 is
 *   k integral phi(z) [Phi(z)^(k-1) - (Phi(z) - Phi(z - w))^(k-1)] dz,
 * positive everywhere, so that a small tail keeps its digits. The integrand is
 * entire and falls like phi: the trapezium rule with a fixed step. */
#include "studentised_range.h"

#include <math.h>

#include "context.h"
#include "distributions.h"

/* Up to z = 14.5, half a range of 29: nothing is left beyond. */
#define LOW (-8.5)
#define STEP 0.125
#define ROOT_TWO_PI 2.50662827463100050241576528481

static double tail(double w, scwi_studentised *self) {
  const scwi_studentised_range *range = (scwi_studentised_range *)self;
  double sum = 0;
  for (int i = 0; i < SCWI_RANGE_NODES; i++) {
    double below = scwi_normal_cdf(LOW + STEP * i - w);
    if (range->weight[i] > 0 && below > 0)
      sum -= range->weight[i] *
             expm1(range->others * log1p(-fmin(1, below / range->cdf[i])));
  }
  return fmin(1, sum);
}

scw_status scwi_studentised_range_of(scw_context *context, size_t groups,
                                     scwi_studentised_range *out) {
  double k = (double)groups;
  *out = (scwi_studentised_range){.others = k - 1};
  if (groups < 2 || groups > SCWI_RANGE_GROUPS)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "the studentised range is worked out for 2 to %d groups, "
                     "not %zu",
                     SCWI_RANGE_GROUPS, groups);
  /* each pair differs by sqrt(2) times a normal deviate */
  out->of = (scwi_studentised){
      .tail = tail, .scale = M_SQRT2, .members = k * (k - 1) / 2};
  for (int i = 0; i < SCWI_RANGE_NODES; i++) {
    double z = LOW + STEP * i;
    out->cdf[i] = scwi_normal_cdf(z);
    out->weight[i] = k * STEP / ROOT_TWO_PI *
                     exp(out->others * log(out->cdf[i]) - 0.5 * z * z);
  }
  return SCW_OK;
}
