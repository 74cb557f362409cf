/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "given_estimate.h"

#include "baseline.h"
#include "decimal.h"
#include "figure.h"

/* What is known of one side, from readings or from numbers. */
typedef struct known_side {
  scwi_moments moments;
  double step;
  bool has_sd;
} known_side;

static known_side side_of(const scw_given_side *given,
                          const scwi_values *values, scw_step step) {
  if (given)
    return (known_side){{given->n, given->mean, given->sd},
                        given->step,
                        given->has_sd};
  scwi_sample sample = scwi_values_sample(values, step);
  return (known_side){scwi_moments_of(&sample), step.size, true};
}

/* Readings against a bare number; `sign` is -1 where the number is the after
 * side, so that the change stays after minus before. */
static scw_status against_number(scw_context *context, known_side readings,
                                 known_side number, double level, double sign,
                                 scwi_arm_estimate *out) {
  scw_against_number found;
  readings.moments.mean *= sign;
  scw_status status = scwi_against_number(
      context, readings.moments, readings.step, sign * number.moments.mean,
      number.step, level, &found);
  if (readings.moments.n == 1) /* as decimals, not as doubles */
    found.if_exact.estimate = scwi_figure(scwi_decimal_difference(
        readings.moments.mean, sign * number.moments.mean));
  out->change = found.if_exact;
  out->break_even_u = found.break_even_u;
  out->bare = found.verdict == SCW_NO_VERDICT ? SCW_CANNOT_TELL
                                              : found.verdict;
  return status;
}

static scw_status both_bare(scw_context *context, known_side before,
                            known_side after, double level,
                            scwi_arm_estimate *out) {
  double change =
      scwi_decimal_difference(after.moments.mean, before.moments.mean);
  out->change = scwi_bare_estimate(change, SCW_BARE_NUMBER, level);
  scw_status status = scwi_break_even_sd(
      context, change, before.moments.n, after.moments.n, before.step,
      after.step, level, &out->break_even_sd);
  out->bare =
      scwi_present(out->break_even_sd) ? SCW_CONDITIONAL : SCW_CANNOT_TELL;
  return status;
}

scw_status scwi_given_estimate(scw_context *context, scwi_compared compared,
                               scw_step step, double level,
                               scwi_arm_estimate *out) {
  known_side before =
      side_of(compared.given_before, &compared.arm->before, step);
  known_side after = side_of(compared.given_after, &compared.arm->after, step);
  *out = (scwi_arm_estimate){
      .bare = SCW_VERDICT_END,
      .n_before = before.moments.n,
      .n_after = after.moments.n,
      .comparison = {.sd_before = before.moments.sd,
                     .sd_after = after.moments.sd,
                     .step = after.step > before.step ? after.step
                                                      : before.step,
                     .level = level}};
  if (before.has_sd && after.has_sd)
    return scwi_welch(context, before.moments, after.moments, before.step,
                      after.step, level, &out->change);
  if (after.has_sd)
    return against_number(context, after, before, level, 1, out);
  if (before.has_sd)
    return against_number(context, before, after, level, -1, out);
  return both_bare(context, before, after, level, out);
}
