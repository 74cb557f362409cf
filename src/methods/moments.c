/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Moments from exact deviations, and what the mean's uncertainty is made of. */
#include "moments.h"

#include <math.h>

#include "deviations.h"
#include "distributions.h"
#include "figure.h"

scwi_moments scwi_moments_of(const scwi_sample *sample) {
  scwi_centre centre = scwi_centre_of(sample);
  return (scwi_moments){.n = sample->n,
                        .mean = centre.mean,
                        .sd = scwi_unscaled(&centre, scwi_scaled_sd(&centre))};
}

scwi_moments scwi_moments_of_sums(size_t n, double sum, double spread,
                                  double tick_size) {
  double many = (double)n, sd = n < 2 ? 0 : sqrt(spread / (many - 1));
  return (scwi_moments){.n = n,
                        .mean = scwi_tick_value(sum, many, tick_size),
                        .sd = scwi_tick_value(sd, many, tick_size)};
}

/* sqrt(max(0, (half^2 - sd^2) / 3)) without squares that could overflow. */
double scwi_rounding_left(double sd, double step) {
  double half_step = step / 2;
  if (sd >= half_step) return 0;
  return sqrt((half_step - sd) / 3) * sqrt(half_step + sd);
}

static scwi_uncertainty with_step(double sd, size_t n, double step_u) {
  double scatter = sd / sqrt((double)n), df = (double)n - 1;
  if (step_u <= 0) return (scwi_uncertainty){scatter, df};
  double u = hypot(scatter, step_u);
  double share = scatter / u;
  return (scwi_uncertainty){u, df / (share * share * share * share)};
}

scwi_uncertainty scwi_mean_uncertainty(double sd, size_t n, double step) {
  return with_step(sd, n, scwi_rounding_left(sd, step));
}

scwi_uncertainty scwi_difference_uncertainty(double sd, size_t m,
                                             scwi_display display) {
  /* q^2/6 - 2 sd^2/3 = 2 (q^2/12 - sd^2/3) */
  double left = sqrt(2) * scwi_rounding_left(sd, display.step);
  return with_step(sd, m, fmax(left, display.sides));
}

scwi_uncertainty scwi_uncertainty_sum(scwi_uncertainty a, scwi_uncertainty b) {
  double u = hypot(a.u, b.u);
  if (u <= 0) return (scwi_uncertainty){0, fmin(a.df, b.df)};
  double part_a = pow(a.u / u, 4) / a.df, part_b = pow(b.u / u, 4) / b.df;
  return (scwi_uncertainty){u, 1 / (part_a + part_b)};
}

scw_status scwi_t_interval(scw_context *context, double estimate,
                           scwi_uncertainty uncertainty, double level,
                           scw_interval *out) {
  double lower, tail = (1 - level) / 2;
  /* Beyond 1e17 degrees of freedom t and normal are the same double. */
  scw_status status =
      uncertainty.df > 1e17
          ? scwi_normal_quantile(context, tail, &lower)
          : scwi_t_quantile(context, tail, uncertainty.df, &lower);
  if (status != SCW_OK) {
    *out = scwi_no_interval(SCW_NOT_COMPUTED, level);
    return status;
  }
  double half = -lower * uncertainty.u;
  *out = scwi_interval(estimate - half, estimate + half, level);
  return SCW_OK;
}
