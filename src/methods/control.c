/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "control.h"

#include "figure.h"

static scwi_uncertainty uncertainty_of(const scw_estimate *estimate) {
  scwi_uncertainty out = {0, INFINITY};
  if (scwi_present(estimate->standard_uncertainty))
    out.u = estimate->standard_uncertainty.value;
  if (scwi_present(estimate->df)) out.df = estimate->df.value;
  return out;
}

/* Present, or certain because nothing scatters. */
static bool usable(const scw_estimate *estimate) {
  return scwi_present(estimate->standard_uncertainty) ||
         estimate->standard_uncertainty.state == SCW_NO_SCATTER;
}

scw_status scwi_control(scw_context *context, const scw_estimate *treated,
                        const scw_estimate *control, double level,
                        scw_estimate *out) {
  double change = treated->estimate.value - control->estimate.value;
  const scw_estimate *unusable = !usable(treated)   ? treated
                                 : !usable(control) ? control
                                                    : NULL;
  if (unusable) {
    *out =
        scwi_bare_estimate(change, unusable->standard_uncertainty.state, level);
    return SCW_OK;
  }
  return scwi_estimate(
      context, change,
      scwi_uncertainty_sum(uncertainty_of(treated), uncertainty_of(control)),
      level, out);
}

/* sqrt(max(0, q^2/2 - sd^2/3)) without squares that could overflow. */
static double step_of_four(double step, double sd) {
  double edge = step * sqrt(1.5);
  return sd < edge ? sqrt(1.0 / 3) * sqrt(edge - sd) * sqrt(edge + sd) : 0;
}

scw_status scwi_control_paired(scw_context *context,
                               const scwi_sample *differences,
                               scwi_display display, double level,
                               scw_estimate *out) {
  scwi_moments moments = scwi_moments_of(differences);
  if (moments.n < 2) {
    *out = scwi_bare_estimate(moments.mean, SCW_ONE_READING, level);
    return SCW_OK;
  }
  scwi_uncertainty scatter =
      scwi_difference_uncertainty(moments.sd, moments.n, (scwi_display){0});
  scwi_uncertainty rounding = {
      fmax(step_of_four(display.step, moments.sd), display.sides), INFINITY};
  return scwi_estimate(context, moments.mean,
                       scwi_uncertainty_sum(scatter, rounding), level, out);
}
