/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method: saddle-point form of binomial and Poisson terms, C. Loader, Fast and
 * accurate computation of binomial probabilities (2000): Stirling's remainder
 * plus a deviance, both small where the plain logarithms are huge. Stirling's
 * series: Abramowitz & Stegun 6.1.41; Gamma(a+1/2)/Gamma(a): DLMF 5.11.13 with
 * the argument shifted by -1/4, which leaves even powers only. */
#include "saddle.h"

#include <math.h>
#include <stddef.h>

#define HALF_LOG_TWO_PI 0.918938533204672741780329736406
#define INVERSE_ROOT_TWO_PI 0.398942280401432677939946059934
#define INVERSE_ROOT_PI 0.564189583547756286948079451561

double scwi_stirling_remainder(double a) {
  if (a < 15)
    return log(tgamma(a + 1)) - (a + 0.5) * log(a) + a - HALF_LOG_TWO_PI;
  static const double series[] = {1.0 / 12,        -1.0 / 360, 1.0 / 1260,
                                  -1.0 / 1680,     1.0 / 1188, -691.0 / 360360,
                                  1.0 / 156,       -3617.0 / 122400};
  double inverse_square = 1 / (a * a), sum = 0;
  for (size_t i = sizeof series / sizeof *series; i-- > 0;)
    sum = sum * inverse_square + series[i];
  return sum / a;
}

double scwi_log_gap(double u) {
  if (u < -0.5 || u > 1) return u - log1p(u);
  /* log(1+u) = 2 atanh(s): the first term of atanh is taken out by hand. */
  double s = u / (2 + u), square = s * s, power = 1, sum = 0;
  for (int k = 3; k < 60; k += 2) {
    double term = power / k;
    sum += term;
    if (term < 1e-18) break;
    power *= square;
  }
  return s * (u - 2 * square * sum);
}

/* a log(a / mean) + mean - a, with excess = mean - a known on its own. */
static double deviance(double a, double mean, double excess) {
  double u = excess / a;
  return u < -0.5 ? a * log(a / mean) + excess : a * scwi_log_gap(u);
}

double scwi_gamma_term(double a, double x) {
  if (a == 0) return exp(-x);
  if (x == 0) return 0;
  return exp(-scwi_stirling_remainder(a) - deviance(a, x, x - a)) *
         (INVERSE_ROOT_TWO_PI / sqrt(a));
}

double scwi_beta_term(double a, double b, double x, double y) {
  if (x == 0 || y == 0) return 0;
  double n = a + b, excess = b * x - a * y;
  double exponent = scwi_stirling_remainder(n) - scwi_stirling_remainder(a) -
                    scwi_stirling_remainder(b) - deviance(a, n * x, excess) -
                    deviance(b, n * y, -excess);
  return exp(exponent) * (INVERSE_ROOT_TWO_PI * sqrt(a) * sqrt(b / n));
}

double scwi_inverse_beta_half(double a) {
  if (a < 30) return tgamma(a + 0.5) / tgamma(a) * INVERSE_ROOT_PI;
  double shifted = a - 0.25, z = 1 / (shifted * shifted);
  double ratio = 1 + z * (1.0 / 64 + z * (-19.0 / 8192 +
                 z * (631.0 / 524288 - z * 0.00129876285791397095)));
  return ratio * sqrt(shifted) * INVERSE_ROOT_PI;
}
