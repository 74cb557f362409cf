/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "retention.h"

#include <stdlib.h>

#include "fieller.h"
#include "figure.h"
#include "instruments_ratio.h"
#include "memory.h"

scw_status scwi_check_retention(scw_context *context,
                                const scw_change_options *options) {
  if (!options->retention || !options->control) return SCW_OK;
  return scwi_fail(context, SCW_BAD_ARGUMENT,
                   "the percent that is left was asked for together with a "
                   "control; it is a share of one side before, so ask for it "
                   "without the control");
}

static scw_status means_of_pairs(scw_context *context, const scwi_arm *arm,
                                 scwi_display display, scwi_two_means *out) {
  double *before = NULL;
  scw_status status = SCWI_ALLOCATE(context, 2 * arm->n_pairs, &before);
  double *after = before + arm->n_pairs;
  for (size_t i = 0; i < arm->n_pairs && !status; i++) {
    before[i] = arm->before.x[arm->pair_before[i]];
    after[i] = arm->after.x[arm->pair_after[i]];
  }
  if (!status) *out = scwi_means_paired(before, after, arm->n_pairs, display);
  free(before);
  return status;
}

static scwi_moments side_of(const scw_given_side *given,
                            const scwi_values *values, scw_step step) {
  if (given) return (scwi_moments){given->n, given->mean, given->sd};
  scwi_sample sample = scwi_values_sample(values, step);
  return scwi_moments_of(&sample);
}

static scwi_two_means means_of_sides(const scwi_compared *compared,
                                     double step) {
  const scw_given_side *before = compared->given_before;
  const scw_given_side *after = compared->given_after;
  scw_step shown = {step, SCW_STEP_GIVEN};
  scwi_moments b = side_of(before, &compared->arm->before, shown);
  scwi_moments a = side_of(after, &compared->arm->after, shown);
  if ((before && !before->has_sd) || (after && !after->has_sd))
    return (scwi_two_means){
        .state = SCW_BARE_NUMBER, .before = b.mean, .after = a.mean};
  return scwi_means_apart(b, before ? before->step : step, a,
                          after ? after->step : step);
}

static void to_percent(scw_ratio *ratio) {
  scw_figure *figures[] = {&ratio->estimate, &ratio->standard_uncertainty,
                           &ratio->low, &ratio->high};
  for (size_t i = 0; i < sizeof figures / sizeof *figures; i++)
    if (scwi_present(*figures[i]))
      *figures[i] = scwi_figure(100 * figures[i]->value);
  if (ratio->delta.state == SCW_PRESENT)
    ratio->delta = scwi_interval(100 * ratio->delta.low,
                                 100 * ratio->delta.high, ratio->delta.level);
}

scw_status scwi_retention(scw_context *context, const scwi_compared *compared,
                          const scwi_arm_estimate *estimate, double level,
                          scw_ratio *out) {
  scwi_two_means means;
  scw_status status = SCW_OK;
  const scwi_comparison *c = &estimate->comparison;
  if (c->paired)
    status = means_of_pairs(context, compared->arm,
                            (scwi_display){c->step, c->sides}, &means);
  else
    means = means_of_sides(compared, c->step);
  if (status) return status;
  scwi_side_means sides = scwi_sides_of(compared);
  if (compared->instruments && means.state == SCW_PRESENT)
    scwi_instruments_on_ratio(compared->instruments, sides.value[1],
                              sides.value[0], &means);
  status = scwi_ratio_of_means(context, &means, level, out);
  if (!status) to_percent(out);
  return status;
}
