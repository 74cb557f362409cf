/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "arm_estimate.h"

static scw_status estimate_pairs(scw_context *context, const scwi_arm *arm,
                                 scw_step step, double level,
                                 scwi_arm_estimate *out) {
  scwi_values differences = {0};
  scw_status status = scwi_arm_differences(context, arm, &differences);
  if (status) return status;
  scwi_sample sample = scwi_values_sample(&differences, step);
  out->n_before = out->n_after = arm->n_pairs;
  out->comparison.sd_before = scwi_moments_of(&sample).sd;
  status = scwi_paired(context, &sample, step.size, level, &out->change);
  scwi_values_free(&differences);
  return status;
}

static scw_status estimate_sides(scw_context *context, const scwi_arm *arm,
                                 scw_step step, double level,
                                 scwi_arm_estimate *out) {
  scwi_sample before = scwi_values_sample(&arm->before, step);
  scwi_sample after = scwi_values_sample(&arm->after, step);
  scwi_moments b = scwi_moments_of(&before), a = scwi_moments_of(&after);
  out->n_before = b.n;
  out->n_after = a.n;
  out->comparison.sd_before = b.sd;
  out->comparison.sd_after = a.sd;
  return scwi_welch(context, b, a, step.size, step.size, level, &out->change);
}

scw_status scwi_arm_estimate_of(scw_context *context, const scwi_arm *arm,
                                scw_step step, double level,
                                scwi_arm_estimate *out) {
  *out = (scwi_arm_estimate){.comparison = {.paired = arm->paired,
                                            .step = step.size,
                                            .level = level}};
  return arm->paired ? estimate_pairs(context, arm, step, level, out)
                     : estimate_sides(context, arm, step, level, out);
}
