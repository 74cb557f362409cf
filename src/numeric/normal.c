/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method: erfc of the C library, whose relative accuracy holds in the far
 * tail. Quantile: GSL's rational approximation (Wichura 1988, AS 241), within
 * 7e-16 in the tails; near the centre, where the point itself is small, Newton
 * on the mass from the centre keeps its digits. */
#include "distributions.h"

#include <math.h>

#include <gsl/gsl_cdf.h>

#include "probability.h"

#define INVERSE_ROOT_TWO 0.707106781186547524400844362105
#define INVERSE_ROOT_TWO_PI 0.398942280401432677939946059934

double scwi_normal_cdf(double z) { return 0.5 * erfc(-z * INVERSE_ROOT_TWO); }

double scwi_normal_upper(double z) { return 0.5 * erfc(z * INVERSE_ROOT_TWO); }

/* The point with `mass` <= 1/4 between 0 and itself. */
static double central_point(double mass) {
  double z = gsl_cdf_ugaussian_Pinv(0.5 + mass);
  for (int i = 0; i < 2; i++) {
    double apart = 0.5 * erf(z * INVERSE_ROOT_TWO) - mass;
    z -= apart / (exp(-0.5 * z * z) * INVERSE_ROOT_TWO_PI);
  }
  return z;
}

scw_status scwi_normal_quantile(scw_context *context, double p, double *out) {
  scwi_split side;
  *out = 0;
  scw_status status = scwi_split_probability(context, p, &side);
  if (status) return status;
  double z = side.central ? central_point(side.mass)
                          : gsl_cdf_ugaussian_Qinv(side.mass);
  *out = side.upper ? z : -z;
  return SCW_OK;
}
