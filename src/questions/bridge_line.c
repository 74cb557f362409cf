/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The line from the old method to the new one, and old results put on the new
 * scale by it. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "bridge_inside.h"
#include "errors_in_both.h"
#include "figure.h"
#include "memory.h"
#include "moments.h"
#include "two_sample.h"

/* Variance of the new method's error over the old one's, single readings. */
static void find_ratio(const scwi_bridge_frame *frame,
                       scw_bridge_result *out) {
  const scwi_repeats *of_old = &frame->of_old, *of_new = &frame->of_new;
  double given = frame->options->error_ratio;
  double by_repeats = of_new->sd / of_old->sd;
  out->error_ratio = given > 0 ? given : 1;
  out->error_ratio_origin = given > 0 ? SCW_RATIO_GIVEN : SCW_RATIO_ASSUMED;
  by_repeats *= by_repeats;
  if (given > 0 || !(by_repeats > 0) || !isfinite(by_repeats)) return;
  out->error_ratio = by_repeats;
  out->error_ratio_origin = SCW_RATIO_REPEATS;
}

static scwi_pairs pairs_of(const scwi_bridge_frame *frame,
                           const scw_bridge_result *result, bool weighted) {
  double means = frame->n ? frame->of_new.one_over / frame->of_old.one_over : 1;
  return (scwi_pairs){.n = frame->n,
                      .x = frame->x,
                      .y = frame->y,
                      .ratio = result->error_ratio * means,
                      .weighted = weighted};
}

static void no_line(scw_presence why, double level, scw_bridge_line *out) {
  scw_figure none = scwi_missing(why);
  scw_interval no_ends = scwi_no_interval(why, level);
  *out = (scw_bridge_line){none,    none, none, none, no_ends, no_ends, none,
                           none, no_ends, no_ends, none};
}

static scw_status add_jackknife(scw_context *context, const scwi_pairs *pairs,
                                const scwi_deming *line, double level,
                                scw_bridge_line *out) {
  scwi_jackknife found;
  scw_status status = scwi_deming_jackknife(context, pairs, line, &found);
  scwi_uncertainty slope = {found.slope_u, line->df};
  scwi_uncertainty intercept = {found.intercept_u, line->df};
  out->jackknife_slope_u = out->jackknife_intercept_u =
      scwi_missing(found.state);
  out->jackknife_slope = out->jackknife_intercept =
      scwi_no_interval(found.state, level);
  if (status || found.state != SCW_PRESENT) return status;
  out->jackknife_slope_u = scwi_figure(found.slope_u);
  out->jackknife_intercept_u = scwi_figure(found.intercept_u);
  status = scwi_t_interval(context, line->slope, slope, level,
                           &out->jackknife_slope);
  if (!status)
    status = scwi_t_interval(context, line->intercept, intercept, level,
                             &out->jackknife_intercept);
  return status;
}

static scw_status fit(scw_context *context, const scwi_pairs *pairs,
                      double level, scwi_deming *line, scw_bridge_line *out) {
  scw_status status = scwi_deming_of(context, pairs, line);
  no_line(line->state, level, out);
  if (status || line->state != SCW_PRESENT) return status;
  double at_zero = scwi_deming_line_u(line, pairs->n, 0);
  scwi_uncertainty intercept = {at_zero, line->df};
  out->slope = scwi_figure(line->slope);
  out->intercept = scwi_figure(line->intercept);
  out->scatter = scwi_figure(
      scwi_deming_scatter_at(line, pairs, line->mean_x));
  out->slope_u = scwi_figure(line->slope_u);
  out->intercept_u = scwi_figure(at_zero);
  status = scwi_deming_slope_interval(context, pairs, line, level,
                                      &out->slope_interval);
  out->intercept_interval =
      scwi_no_interval(out->slope_interval.state, level);
  if (!status && out->slope_interval.state == SCW_PRESENT)
    status = scwi_t_interval(context, line->intercept, intercept, level,
                             &out->intercept_interval);
  if (!status) status = add_jackknife(context, pairs, line, level, out);
  return status;
}

/* What a conversion rests on. */
typedef struct converter {
  const scwi_bridge_frame *frame;
  scwi_pairs pairs;
  scwi_deming line;
  double level;
} converter;

/* Scatter of a pair about the line at x, never below what the display leaves. */
static double scatter_at(const converter *c, double x) {
  double floor = c->frame->facts->step.size * sqrt(1 / 12.0) *
                 hypot(1, c->line.slope);
  return fmax(scwi_deming_scatter_at(&c->line, &c->pairs, x), floor);
}

/* The uncertainty of a converted result; `old_u` below 0: as the old readings
 * of the bridge. With it, what the old method's own repeats bring to the scatter
 * is taken out, and its own uncertainty put in their place. */
static scwi_uncertainty converted_u(const converter *c, double x,
                                    double old_u) {
  const scwi_repeats *of_old = &c->frame->of_old;
  double scatter = scatter_at(c, x), b = c->line.slope;
  double line = scwi_deming_line_u(&c->line, c->pairs.n, x);
  double own = b * old_u;
  if (old_u < 0)
    return (scwi_uncertainty){hypot(scatter, line), c->line.df};
  if (of_old->df > 0) {
    double repeats = b * of_old->sd * sqrt(of_old->one_over);
    double left = 1 - repeats / scatter * (repeats / scatter);
    scatter *= sqrt(fmax(left, 0));
  }
  scwi_uncertainty by_line = {hypot(scatter, line), c->line.df};
  scwi_uncertainty by_result = {fabs(own), INFINITY};
  return scwi_uncertainty_sum(by_line, by_result);
}

static scw_status convert(scw_context *context, const converter *c,
                          const scw_bridge_result *result,
                          const scw_old_result *of_old, scw_converted *out) {
  const char *product = of_old->product ? of_old->product : "";
  scw_status status =
      scwi_copy_text(context, product, strlen(product), &out->product);
  const scw_bridge_line *line = scwi_bridge_used(result);
  scw_presence why = line->slope_interval.state;
  out->old_value = of_old->value;
  out->old_u = of_old->has_u ? scwi_figure(of_old->u)
                             : scwi_missing(SCW_NOT_COMPUTED);
  if (why == SCW_PRESENT && line->slope_interval.low <= 0)
    why = SCW_FLAT; /* the methods are not seen to move together */
  else if (why == SCW_PRESENT && (of_old->value < result->range_low.value ||
                                  of_old->value > result->range_high.value))
    why = SCW_EXTRAPOLATED;
  out->value = out->standard_uncertainty = out->df = scwi_missing(why);
  out->interval = scwi_no_interval(why, c->level);
  if (status || why != SCW_PRESENT) return status;
  scwi_uncertainty u =
      converted_u(c, of_old->value, of_old->has_u ? of_old->u : -1);
  /* through the mean: far from zero no digits are lost */
  double value = c->line.intercept + c->line.slope * c->line.mean_x +
                 c->line.slope * (of_old->value - c->line.mean_x);
  out->value = scwi_figure(value);
  out->standard_uncertainty = scwi_figure(u.u);
  out->df = isfinite(u.df) ? scwi_figure(u.df) : scwi_missing(SCW_UNBOUNDED);
  return scwi_t_interval(context, value, u, c->level, &out->interval);
}

static void find_range(const scwi_bridge_frame *frame,
                       scw_bridge_result *out) {
  double low = INFINITY, high = -INFINITY;
  for (size_t i = 0; i < frame->n; i++) {
    low = fmin(low, frame->x[i]);
    high = fmax(high, frame->x[i]);
  }
  out->range_low = frame->n ? scwi_figure(low) : scwi_missing(SCW_NOT_COMPUTED);
  out->range_high =
      frame->n ? scwi_figure(high) : scwi_missing(SCW_NOT_COMPUTED);
}

/* At the mean of the items, and where in their range it is worst. */
static scw_status find_uncertainty(scw_context *context, const converter *c,
                                   scw_bridge_result *out) {
  scw_presence why = scwi_bridge_used(out)->slope_interval.state;
  out->conversion_uncertainty = out->conversion_uncertainty_end =
      out->conversion_half_width = scwi_missing(why);
  if (why != SCW_PRESENT) return SCW_OK;
  scwi_uncertainty low = converted_u(c, out->range_low.value, -1);
  scwi_uncertainty high = converted_u(c, out->range_high.value, -1);
  scwi_uncertainty end = low.u > high.u ? low : high;
  scw_interval ends;
  scw_status status = scwi_t_interval(context, 0, end, c->level, &ends);
  out->conversion_uncertainty =
      scwi_figure(converted_u(c, c->line.mean_x, -1).u);
  out->conversion_uncertainty_end = scwi_figure(end.u);
  out->conversion_half_width = scwi_figure(ends.high);
  return status;
}

scw_status scwi_bridge_lines(scw_context *context,
                             const scwi_bridge_frame *frame,
                             scw_bridge_result *out) {
  const scw_bridge_options *options = frame->options;
  double level = out->settings.level;
  find_ratio(frame, out);
  find_range(frame, out);
  converter plain = {frame, pairs_of(frame, out, false), {0}, level};
  converter weighted = {frame, pairs_of(frame, out, true), {0}, level};
  scw_status status =
      fit(context, &plain.pairs, level, &plain.line, &out->line);
  if (!status)
    status = fit(context, &weighted.pairs, level, &weighted.line,
                 &out->weighted_line);
  const converter *used = out->weighted ? &weighted : &plain;
  if (!status) status = find_uncertainty(context, used, out);
  if (!status)
    status = SCWI_ALLOCATE(context, options->n_convert, &out->converted);
  for (size_t i = 0; i < options->n_convert && !status; i++) {
    out->n_converted = i + 1; /* also what a failure leaves is freed */
    status = convert(context, used, out, &options->convert[i],
                     &out->converted[i]);
  }
  return status;
}
