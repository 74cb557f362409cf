/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "anytime.h"

#include "figure.h"

scw_figure scwi_anytime_factor(size_t n, double level, double g) {
  if (n < 2) return scwi_missing(SCW_ONE_READING);
  double readings = (double)n, log_a = log1p(readings * g);
  double log_k = (log_a - 2 * log1p(-level)) / readings;
  if (!(log_k < log_a)) return scwi_missing(SCW_UNBOUNDED);
  return scwi_figure(
      sqrt((readings - 1) * (expm1(log_k) / -expm1(log_k - log_a))));
}

static scw_presence why_none(scwi_moments moments) {
  if (moments.n < 2) return SCW_ONE_READING;
  return moments.sd > 0 ? SCW_PRESENT : SCW_NO_SCATTER;
}

scw_interval scwi_anytime_interval(scwi_moments moments, double rounding,
                                   double level, double g) {
  scw_presence state = why_none(moments);
  if (state != SCW_PRESENT) return scwi_no_interval(state, level);
  scw_figure factor = scwi_anytime_factor(moments.n, level, g);
  if (!scwi_present(factor)) return scwi_no_interval(factor.state, level);
  double half =
      factor.value * (moments.sd / sqrt((double)moments.n)) + rounding;
  return scwi_interval(moments.mean - half, moments.mean + half, level);
}

scw_figure scwi_anytime_e_value(scwi_moments moments, double null_value,
                                double rounding, double g) {
  scw_presence state = why_none(moments);
  if (state != SCW_PRESENT) return scwi_missing(state);
  double n = (double)moments.n, v = n - 1, a = 1 + n * g;
  double away = fmax(0, fabs(moments.mean - null_value) - rounding);
  double t = away / (moments.sd / sqrt(n));
  /* t^2 may leave the range of a double long before the ratio does. */
  double log_ratio =
      t < 1e150 ? log1p(t * t / v) - log1p(t * t / (a * v)) : log(a);
  return scwi_figure(exp(n / 2 * log_ratio - log(a) / 2));
}
