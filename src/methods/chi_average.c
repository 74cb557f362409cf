/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "chi_average.h"

#include <math.h>

#include "quadrature.h"

typedef struct weighted {
  scwi_function f;
  void *parameters;
  double df, log_constant;
} weighted;

/* ln 2 + x ln x - x - ln Gamma(x) with x = df/2, which is what is left of the
 * density's constant once s^df exp(-df (s^2-1)/2) is taken out. The sum is
 * Stirling's series, so that large df lose no digits. */
static double log_constant(double df) {
  double x = df / 2, y = 1 / (x * x);
  if (x < 15) return log(2) + x * log(x) - x - log(tgamma(x));
  double series =
      (1.0 / 12 - y * (1.0 / 360 - y * (1.0 / 1260 - y / 1680))) / x;
  return log(2) + (log(x) - log(2 * acos(-1))) / 2 - series;
}

static double weighted_value(double s, void *parameters) {
  const weighted *w = parameters;
  double e = s - 1;
  double log_density =
      w->log_constant + w->df * (log1p(e) - e * (1 + e / 2)) - log(s);
  double density = exp(log_density);
  return density > 0 ? density * w->f(s, w->parameters) : 0;
}

scw_status scwi_chi_average(scw_context *context, scwi_function f,
                            void *parameters, double df, double low,
                            double high, double accuracy, double *out) {
  *out = 0;
  if (df > 1e9) {
    if (low <= 1 && 1 <= high) *out = f(1, parameters);
    return isnan(*out) ? SCW_NOT_REACHED : SCW_OK;
  }
  /* ln g falls at least as fast as -df (s-1)^2 below 1 and as half of that
   * above: beyond these limits less than 1e-16 is left. */
  double sd = 1 / sqrt(2 * df);
  low = fmax(low, fmax(0, 1 - 9 * sd));
  high = fmin(high, 1 + 12 * sd);
  if (low >= high) return SCW_OK;
  weighted w = {f, parameters, df, log_constant(df)};
  return scwi_integral(context, weighted_value, &w, low, high, accuracy,
                       accuracy, out);
}
