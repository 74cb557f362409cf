/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The products run on both: their differences, bias and limits of agreement. */
#include <math.h>
#include <stdlib.h>

#include "bridge_inside.h"
#include "equivalence.h"
#include "figure.h"
#include "kendall.h"
#include "memory.h"
#include "moments.h"
#include "shape.h"
#include "stand_out.h"
#include "two_sample.h"
#include "verdict.h"

/* Scatter of a method's repeats over all items; 1/readings over the pairs. */
static scwi_repeats repeats_of(const scwi_bridge_frame *frame, int side) {
  scwi_repeats out = {0};
  double squares = 0;
  for (size_t k = 0; k < frame->n_items; k++) {
    const scwi_bridge_side *at = &frame->side[side][k];
    if (at->n < 2) continue;
    squares += at->squares;
    out.df += (double)(at->n - 1);
  }
  if (out.df > 0) out.sd = sqrt(squares / out.df);
  for (size_t i = 0; i < frame->n; i++)
    out.one_over += 1 / (double)frame->side[side][frame->item[i]].n /
                    (double)frame->n;
  return out;
}

static void tell_repeats(const scwi_repeats *repeats, scw_figure *sd,
                         scw_figure *df) {
  bool some = repeats->df > 0;
  *sd = some ? scwi_figure(repeats->sd) : scwi_missing(SCW_ONE_READING);
  *df = some ? scwi_figure(repeats->df) : scwi_missing(SCW_ONE_READING);
}

static bool is_even(const scwi_bridge_frame *frame) {
  for (size_t i = 1; i < frame->n; i++)
    for (int s = 0; s < 2; s++)
      if (frame->side[s][frame->item[i]].n != frame->side[s][frame->item[0]].n)
        return false;
  return true;
}

/* Differences in whole ticks, where all pairs have as many readings. */
static bool in_ticks(const scwi_bridge_frame *frame, int64_t *out) {
  for (size_t i = 0; i < frame->n; i++) {
    const scwi_bridge_side *before = &frame->side[0][frame->item[i]];
    const scwi_bridge_side *after = &frame->side[1][frame->item[i]];
    int64_t from, less;
    if (__builtin_mul_overflow(after->ticks, (int64_t)before->n, &from) ||
        __builtin_mul_overflow(before->ticks, (int64_t)after->n, &less) ||
        __builtin_sub_overflow(from, less, &out[i]))
      return false;
  }
  return true;
}

static scw_status take_ticks(scw_context *context, scwi_bridge_frame *frame) {
  if (!frame->ticks || frame->uneven || frame->n == 0) return SCW_OK;
  scw_status status = SCWI_ALLOCATE(context, frame->n, &frame->d_ticks);
  if (status) return status;
  if (!in_ticks(frame, frame->d_ticks)) {
    free(frame->d_ticks);
    frame->d_ticks = NULL;
    return SCW_OK;
  }
  double per_unit = pow(10, frame->facts->decimals.digits);
  for (int s = 0; s < 2; s++)
    per_unit *= (double)frame->side[s][frame->item[0]].n;
  frame->d_tick_size = 1 / per_unit;
  for (size_t i = 0; i < frame->n; i++)
    frame->d[i] = (double)frame->d_ticks[i] / per_unit;
  return SCW_OK;
}

scw_status scwi_bridge_pair_up(scw_context *context, scwi_bridge_frame *frame,
                               scw_bridge_result *out) {
  size_t n = frame->n_items;
  scw_status status = SCWI_ALLOCATE(context, n, &frame->item);
  if (!status) status = SCWI_ALLOCATE(context, n, &frame->x);
  if (!status) status = SCWI_ALLOCATE(context, n, &frame->y);
  if (!status) status = SCWI_ALLOCATE(context, n, &frame->d);
  for (size_t k = 0; k < n && !status; k++) {
    const scw_bridge_item *item = &out->item[k];
    if (item->baseline || !item->n_old || !item->n_new) continue;
    frame->x[frame->n] = frame->side[0][k].mean;
    frame->y[frame->n] = frame->side[1][k].mean;
    frame->d[frame->n] = frame->y[frame->n] - frame->x[frame->n];
    frame->item[frame->n++] = k;
  }
  if (status) return status;
  out->pairs = frame->n;
  frame->uneven = !is_even(frame);
  frame->of_old = repeats_of(frame, 0);
  frame->of_new = repeats_of(frame, 1);
  tell_repeats(&frame->of_old, &out->repeat_sd_old, &out->repeat_df_old);
  tell_repeats(&frame->of_new, &out->repeat_sd_new, &out->repeat_df_new);
  status = take_ticks(context, frame);
  for (size_t i = 0; i < frame->n; i++)
    out->item[frame->item[i]].difference = scwi_figure(frame->d[i]);
  return status;
}

scwi_sample scwi_bridge_differences(const scwi_bridge_frame *frame) {
  return (scwi_sample){.n = frame->n,
                       .x = frame->d,
                       .ticks = frame->d_ticks,
                       .tick_size = frame->d_ticks ? frame->d_tick_size : 0,
                       .step = frame->facts->step};
}

static scw_status look_at_shape(scw_context *context,
                                const scwi_bridge_frame *frame,
                                scw_bridge_result *out) {
  scwi_workings workings = {0};
  scwi_sample sample = scwi_bridge_differences(frame);
  scw_status status = scwi_workings_of(context, &sample, &workings);
  if (!status)
    status = scwi_stand_out(context, &workings, out->settings.stand_out,
                            out->settings.candidates, &out->stand_out);
  if (!status) status = scwi_shape(context, &workings, &out->shape);
  scwi_workings_free(&workings);
  for (size_t i = 0; i < out->stand_out.n_flags && !status; i++)
    out->item[frame->item[out->stand_out.flags[i].place - 1]].stands_out = true;
  return status;
}

typedef struct at_level {
  double level, off;
} at_level;

static int by_level(const void *a, const void *b) {
  double one = ((const at_level *)a)->level, other = ((const at_level *)b)->level;
  return (one > other) - (one < other);
}

/* Does the distance from the trend grow with the level? */
static scw_status look_at_growth(scw_context *context, at_level *items,
                                 double *off, size_t n,
                                 scw_bridge_result *out) {
  scwi_workings workings = {0};
  scw_creep found = {0};
  qsort(items, n, sizeof *items, by_level);
  for (size_t i = 0; i < n; i++) off[i] = items[i].off;
  scwi_sample sample = {.n = n, .x = off};
  scw_status status = scwi_workings_of(context, &sample, &workings);
  if (!status) status = scwi_kendall(context, &workings, &found);
  scwi_workings_free(&workings);
  out->grows_s = found.kendall_s;
  out->grows_p = found.kendall_p;
  return status;
}

static scw_status look_at_trend(scw_context *context,
                                const scwi_bridge_frame *frame,
                                scw_bridge_result *out) {
  double *mean = NULL, *off = NULL;
  at_level *items = NULL;
  size_t n = frame->n;
  scw_status status = SCWI_ALLOCATE(context, n, &mean);
  if (!status) status = SCWI_ALLOCATE(context, n, &off);
  if (!status) status = SCWI_ALLOCATE(context, n, &items);
  for (size_t i = 0; i < n && !status; i++)
    mean[i] = frame->x[i] / 2 + frame->y[i] / 2;
  if (!status)
    status = scwi_difference_trend(context, mean, frame->d, n,
                                   out->settings.level, &out->trend, off);
  if (!status && out->trend.interval.state == SCW_PRESENT && n > 3) {
    for (size_t i = 0; i < n; i++) items[i] = (at_level){mean[i], off[i]};
    status = look_at_growth(context, items, off, n, out);
  }
  free(mean);
  free(off);
  free(items);
  return status;
}

static scw_status find_limits(scw_context *context,
                              const scwi_bridge_frame *frame,
                              scwi_moments moments, scw_bridge_result *out) {
  const scwi_agreement_given given = {.n = frame->n,
                                      .bias = moments.mean,
                                      .sd = moments.sd,
                                      .of_old = frame->of_old,
                                      .of_new = frame->of_new,
                                      .content = out->settings.content,
                                      .level = out->settings.level};
  scwi_agreement found;
  scw_status status = scwi_agreement_of(context, &given, &found);
  if (status) return status;
  out->agreement.sd = found.sd;
  out->agreement.df = found.df;
  out->agreement.low = found.low;
  out->agreement.high = found.high;
  out->agreement.low_interval = found.low_interval;
  out->agreement.high_interval = found.high_interval;
  return SCW_OK;
}

static void no_limits(scw_bridge_result *out, scw_presence why) {
  scw_limits_of_agreement *limits = &out->agreement;
  limits->sd = limits->df = limits->low = limits->high = scwi_missing(why);
  limits->low_interval = limits->high_interval =
      scwi_no_interval(why, out->settings.level);
}

scw_status scwi_bridge_agreement(scw_context *context,
                                 const scwi_bridge_frame *frame,
                                 scw_bridge_result *out) {
  scw_presence why = frame->n ? SCW_ONE_READING : SCW_NOT_COMPUTED;
  out->agreement.content = out->settings.content;
  out->bias = scwi_bare_estimate(0, why, out->settings.level);
  out->trend = scwi_bare_estimate(0, SCW_TOO_FEW, out->settings.level);
  if (frame->n == 0) out->bias.estimate = scwi_missing(why);
  out->trend.estimate = scwi_missing(SCW_TOO_FEW);
  out->difference_sd = scwi_missing(why);
  out->grows_s = out->grows_p = scwi_missing(SCW_TOO_FEW);
  out->tost = scwi_tost(&out->bias, out->margin);
  out->verdict = SCW_NO_VERDICT;
  no_limits(out, why);
  if (frame->n == 0) return SCW_OK;
  scwi_sample sample = scwi_bridge_differences(frame);
  scwi_moments moments = scwi_moments_of(&sample);
  scwi_display display = {.step = frame->facts->step.size};
  scw_status status = scwi_paired(context, &sample, display,
                                  out->settings.level, &out->bias);
  out->verdict = scwi_verdict(out->bias.interval, out->margin);
  out->tost = scwi_tost(&out->bias, out->margin);
  if (status || frame->n < 2) return status;
  out->difference_sd = scwi_figure(moments.sd);
  status = find_limits(context, frame, moments, out);
  if (!status) status = look_at_trend(context, frame, out);
  return status ? status : look_at_shape(context, frame, out);
}
