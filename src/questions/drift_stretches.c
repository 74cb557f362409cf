/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Segments from one recalibration to the next, and stretches from one step to
 * the next within them. */
#include <stdlib.h>

#include "dated_steps.h"
#include "drift_inside.h"
#include "figure.h"
#include "memory.h"
#include "moments.h"
#include "verdict.h"

const scw_drift_stretch *scwi_drift_newest(const scw_drift_log *log) {
  return &log->stretch[log->n_stretches - 1];
}

static scw_status fill(scw_context *context, double estimate,
                       scwi_uncertainty u, double level, scw_estimate *out) {
  out->standard_uncertainty = scwi_figure(u.u);
  out->df = isfinite(u.df) ? scwi_figure(u.df) : scwi_missing(SCW_UNBOUNDED);
  return scwi_t_interval(context, estimate, u, level, &out->interval);
}

static scw_estimate missing(scw_presence why, double level) {
  return (scw_estimate){scwi_missing(why), scwi_missing(why),
                        scwi_missing(why), scwi_missing(SCW_NOT_COMPUTED),
                        scwi_no_interval(why, level)};
}

scw_status scwi_drift_mean(scw_context *context, const scwi_sample *sample,
                           double level, scw_estimate *out) {
  scwi_moments moments = scwi_moments_of(sample);
  *out = missing(sample->n < 2 ? SCW_ONE_READING : SCW_NO_SCATTER, level);
  out->estimate = scwi_figure(moments.mean);
  if (sample->n < 2) return SCW_OK;
  scwi_uncertainty u =
      scwi_mean_uncertainty(moments.sd, sample->n, sample->step.size);
  return u.u > 0 ? fill(context, moments.mean, u, level, out) : SCW_OK;
}

/* Where a new segment begins: the first day on or behind a mark. */
static void cut_segments(scw_drift_log *log, const long *mark, size_t marks) {
  size_t m = 0, segment = 0;
  for (size_t i = 0; i < log->n_days; i++) {
    bool passed = false;
    for (; m < marks && mark[m] <= log->day[i].date.day; m++) passed = true;
    if (passed && i > 0) segment++;
    log->day[i].segment = segment;
  }
}

static void add_stretch(scw_drift_log *log, size_t first, size_t end,
                        scw_drift_start start) {
  scw_drift_stretch *to = &log->stretch[log->n_stretches++];
  *to = (scw_drift_stretch){.first = first, .days = end - first,
                            .start = start};
  for (size_t i = first; i < end; i++) to->readings += log->day[i].readings;
}

/* The stretches of one segment; the p of each step waits in its shift. */
static void add_stretches(scw_drift_log *log, size_t first, size_t end,
                          const scwi_dated_steps *steps) {
  scw_drift_start start =
      first ? SCW_DRIFT_RECALIBRATED : SCW_DRIFT_FIRST;
  size_t from = first;
  for (size_t s = 0; s < steps->n; s++) {
    size_t at = first + steps->step[s].at;
    add_stretch(log, from, at, start);
    log->shift[log->n_shifts++] = (scw_drift_shift){
        .date = log->day[at].date,
        .before = log->day[at - 1].date,
        .size = {.p = scwi_figure(steps->step[s].p)},
        .counted = steps->step[s].counted};
    from = at;
    start = SCW_DRIFT_STEP;
  }
  add_stretch(log, from, end, start);
}

scw_status scwi_drift_between(scw_context *context,
                              const scwi_drift_values *values,
                              const scw_drift_stretch *before,
                              const scw_drift_stretch *after, double level,
                              scw_estimate *out) {
  scwi_sample old = scwi_drift_sample(values, before->first, before->days);
  scwi_sample young = scwi_drift_sample(values, after->first, after->days);
  scwi_moments a = scwi_moments_of(&old), b = scwi_moments_of(&young);
  double q = values->step.size;
  *out = missing(SCW_NO_SCATTER, level);
  out->estimate = scwi_figure(b.mean - a.mean);
  scwi_uncertainty u =
      scwi_uncertainty_sum(scwi_mean_uncertainty(a.sd, a.n, q),
                           scwi_mean_uncertainty(b.sd, b.n, q));
  return u.u > 0 ? fill(context, b.mean - a.mean, u, level, out) : SCW_OK;
}

bool scwi_drift_is_small(const scw_drift_result *result,
                         const scw_estimate *moved) {
  scw_figure margin = result->margin > 0 ? scwi_figure(result->margin)
                                         : scwi_missing(SCW_NO_MARGIN);
  scw_verdict verdict = scwi_verdict(moved->interval, margin);
  return verdict == SCW_CHANGED_BUT_SMALL ||
         verdict == SCW_NO_CHANGE_BEYOND_MARGIN;
}

static scw_status size_shift(scw_context *context,
                             const scwi_drift_values *values,
                             const scw_drift_stretch *before,
                             const scw_drift_stretch *after,
                             const scw_drift_result *result,
                             scw_drift_shift *shift) {
  scw_figure p = shift->size.p;
  scw_status status = scwi_drift_between(context, values, before, after,
                                         result->settings.level, &shift->size);
  shift->size.p = p;
  shift->within_margin = scwi_drift_is_small(result, &shift->size);
  return status;
}

static scw_status measure(scw_context *context,
                          const scwi_drift_values *values,
                          const scw_drift_result *result, scw_drift_log *log) {
  scw_status status = SCW_OK;
  for (size_t i = 0, shift = 0; i < log->n_stretches && !status; i++) {
    scw_drift_stretch *now = &log->stretch[i];
    scwi_sample sample = scwi_drift_sample(values, now->first, now->days);
    status = scwi_drift_mean(context, &sample, result->settings.level,
                             &now->mean);
    if (!status && now->start == SCW_DRIFT_STEP)
      status = size_shift(context, values, now - 1, now, result,
                          &log->shift[shift++]);
  }
  return status;
}

scw_status scwi_drift_stretches(scw_context *context,
                                const scwi_drift_frame *frame,
                                const scwi_drift_values *values,
                                const long *mark, size_t marks,
                                scw_drift_log *log, bool *line) {
  const scw_settings *settings = &frame->result->settings;
  scwi_dated_steps steps = {0};
  cut_segments(log, mark, marks);
  scw_status status = SCWI_ALLOCATE(context, values->n, &steps.step);
  if (!status) status = SCWI_ALLOCATE(context, values->n, &log->stretch);
  if (!status) status = SCWI_ALLOCATE(context, values->n, &log->shift);
  for (size_t first = 0, end; first < values->n && !status; first = end) {
    for (end = first + 1; end < values->n &&
                          log->day[end].segment == log->day[first].segment;)
      end++;
    scwi_sample sample = scwi_drift_sample(values, first, end - first);
    status = scwi_dated_steps_of(context, values->day + first, &sample,
                                 1 - settings->level, settings->seed, &steps);
    if (!status) add_stretches(log, first, end, &steps);
    *line = steps.line; /* of the newest segment */
  }
  free(steps.step);
  return status ? status : measure(context, values, frame->result, log);
}
