/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "arm_estimate.h"

#include <math.h>

#include "control.h"
#include "figure.h"
#include "given_estimate.h"

static double rounding_of(const scwi_values *values, scw_step step) {
  scwi_sample sample = scwi_values_sample(values, step);
  return scwi_rounding_left(scwi_moments_of(&sample).sd, step.size);
}

/* What rounding leaves undecided on the two sides of an arm. */
static double rounding_of_sides(const scwi_arm *arm, scw_step step) {
  return hypot(rounding_of(&arm->before, step), rounding_of(&arm->after, step));
}

static scw_status estimate_pairs(scw_context *context, const scwi_arm *arm,
                                 scw_step step, double level,
                                 scwi_arm_estimate *out) {
  scwi_values differences = {0};
  scw_status status = scwi_arm_differences(context, arm, &differences);
  if (status) return status;
  scwi_sample sample = scwi_values_sample(&differences, step);
  scwi_display display = {step.size, rounding_of_sides(arm, step)};
  out->n_before = out->n_after = arm->n_pairs;
  out->comparison.sd_before = scwi_moments_of(&sample).sd;
  out->comparison.sides = display.sides;
  status = scwi_paired(context, &sample, display, level, &out->change);
  scwi_values_free(&differences);
  return status;
}

/* One reading a side: their difference as decimals, not as doubles. */
static scw_status exact_difference(scw_context *context, const scwi_arm *arm,
                                   scw_figure *out) {
  static const size_t first = 0;
  scwi_values difference = {0};
  scw_status status = scwi_values_minus(context, &arm->after, &first,
                                        &arm->before, &first, 1, &difference);
  if (!status) *out = scwi_figure(difference.x[0]);
  scwi_values_free(&difference);
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
  scw_status status =
      scwi_welch(context, b, a, step.size, step.size, level, &out->change);
  if (status || b.n != 1 || a.n != 1) return status;
  return exact_difference(context, arm, &out->change.estimate);
}

scw_status scwi_arm_estimate_of(scw_context *context, const scwi_arm *arm,
                                scw_step step, double level,
                                scwi_arm_estimate *out) {
  *out = (scwi_arm_estimate){.bare = SCW_VERDICT_END,
                             .comparison = {.paired = arm->paired,
                                            .step = step.size,
                                            .level = level}};
  return arm->paired ? estimate_pairs(context, arm, step, level, out)
                     : estimate_sides(context, arm, step, level, out);
}

scw_status scwi_control_view(scw_context *context, const scw_table *table,
                             scwi_compared compared, scwi_arm *out) {
  scwi_match_words words = {"spot", "on the control half",
                            "on the treated half"};
  *out = (scwi_arm){.panels = compared.arm->panels};
  scw_status status =
      scwi_arm_differences(context, compared.control, &out->before);
  if (!status)
    status = scwi_arm_differences(context, compared.arm, &out->after);
  if (!status && compared.halves)
    status = scwi_arm_match(context, table, words, out);
  if (status) scwi_arm_free(out);
  return status;
}

/* A difference of two displayed values has twice the step's variance. */
static double step_of_two(double step) { return step * sqrt(2); }

static scw_status estimate_halves(scw_context *context, scwi_compared compared,
                                  scw_step step, double level,
                                  scwi_arm_estimate *out) {
  scwi_arm view = {0};
  scwi_values differences = {0};
  scw_status status = scwi_control_view(context, NULL, compared, &view);
  if (!status) status = scwi_arm_differences(context, &view, &differences);
  if (!status && view.n_pairs == 0) {
    out->change = scwi_bare_estimate(NAN, SCW_TOO_FEW, level);
  } else if (!status) {
    scwi_sample sample = scwi_values_sample(&differences, step);
    out->n_before = out->n_after = view.n_pairs;
    out->comparison.paired = true;
    scwi_display display = {
        step.size, hypot(rounding_of_sides(compared.control, step),
                         rounding_of_sides(compared.arm, step))};
    out->comparison.sd_before = scwi_moments_of(&sample).sd;
    out->comparison.sides = display.sides;
    status = scwi_control_paired(context, &sample, display, level,
                                 &out->change);
  }
  scwi_values_free(&differences);
  scwi_arm_free(&view);
  return status;
}

/* For planning, an arm is as good as one sample with this SD: that of its
 * differences, or both sides' together. */
static double arm_sd(const scwi_arm_estimate *estimate) {
  const scwi_comparison *c = &estimate->comparison;
  return c->paired ? c->sd_before : hypot(c->sd_before, c->sd_after);
}

static size_t arm_n(const scwi_arm_estimate *estimate) {
  return estimate->n_before < estimate->n_after ? estimate->n_before
                                                : estimate->n_after;
}

static scw_status estimate_against(scw_context *context,
                                   scwi_compared compared, scw_step step,
                                   double level, scwi_arm_estimate *out) {
  scwi_arm_estimate treated, control;
  scw_status status =
      scwi_arm_estimate_of(context, compared.arm, step, level, &treated);
  if (!status)
    status =
        scwi_arm_estimate_of(context, compared.control, step, level, &control);
  if (status) return status;
  out->comparison.sd_before = arm_sd(&control);
  out->comparison.sd_after = arm_sd(&treated);
  out->n_before = arm_n(&control);
  out->n_after = arm_n(&treated);
  return scwi_control(context, &treated.change, &control.change, level,
                      &out->change);
}

static scw_status estimate_scatter(scw_context *context, scwi_compared compared,
                                   scw_step step, double level,
                                   scwi_arm_estimate *out) {
  if (scwi_by_numbers(&compared))
    return scwi_given_estimate(context, compared, step, level, out);
  if (!compared.control)
    return scwi_arm_estimate_of(context, compared.arm, step, level, out);
  *out = (scwi_arm_estimate){
      .bare = SCW_VERDICT_END,
      .comparison = {.step = step_of_two(step.size), .level = level}};
  return compared.halves
             ? estimate_halves(context, compared, step, level, out)
             : estimate_against(context, compared, step, level, out);
}

static double side_mean(const scw_given_side *given, const scwi_arm *arm,
                        bool after) {
  return given ? given->mean : scwi_arm_mean(arm, after);
}

scwi_side_means scwi_sides_of(const scwi_compared *compared) {
  const scwi_compared *c = compared;
  scwi_side_means sides = {.n = 2};
  sides.value[0] = side_mean(c->given_after, c->arm, true);
  sides.value[1] = side_mean(c->given_before, c->arm, false);
  if (!c->control) return sides;
  sides.value[sides.n++] = scwi_arm_mean(c->control, true);
  sides.value[sides.n++] = scwi_arm_mean(c->control, false);
  return sides;
}

static scw_status add_instruments(scw_context *context,
                                  const scwi_compared *compared, double level,
                                  scwi_arm_estimate *out) {
  const scw_estimate *scatter = &out->scatter;
  if (!scwi_present(scatter->standard_uncertainty)) return SCW_OK;
  double change = scatter->estimate.value;
  scwi_side_means sides = scwi_sides_of(compared);
  scwi_uncertainty readings = {
      scatter->standard_uncertainty.value,
      scwi_present(scatter->df) ? scatter->df.value : INFINITY};
  scwi_uncertainty *fixed = &out->comparison.fixed;
  *fixed = scwi_instruments_uncertainty(compared->instruments, &sides, change);
  if (!isfinite(fixed->u)) {
    fixed->u = 0;
    out->change = scwi_bare_estimate(change, SCW_OUT_OF_RANGE, level);
    return SCW_OK;
  }
  if (fixed->u == 0) return SCW_OK;
  return scwi_estimate(context, change, scwi_uncertainty_sum(readings, *fixed),
                       level, &out->change);
}

scw_status scwi_change_estimate(scw_context *context, scwi_compared compared,
                                scw_step step, double level,
                                scwi_arm_estimate *out) {
  scw_status status = estimate_scatter(context, compared, step, level, out);
  if (status) return status;
  out->scatter = out->change;
  return compared.instruments
             ? add_instruments(context, &compared, level, out)
             : SCW_OK;
}
