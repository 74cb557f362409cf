/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From readings to the means of days. */
#include <math.h>
#include <stdlib.h>

#include "drift_inside.h"
#include "figure.h"
#include "memory.h"
#include "moments.h"

enum { LARGEST_DENOMINATOR = 1000000 };

static int64_t greatest_divisor(int64_t a, int64_t b) {
  while (b) {
    int64_t rest = a % b;
    a = b;
    b = rest;
  }
  return a;
}

/* Readings of one day: first and how many, in the series. */
static size_t day_length(const scwi_drift_frame *frame,
                         const scwi_drift_series *series, size_t first) {
  size_t n = 1;
  long day = frame->day[series->reading[first]];
  while (first + n < series->n &&
         frame->day[series->reading[first + n]] == day)
    n++;
  return n;
}

static scw_status take_day(scw_context *context, const scwi_drift_frame *frame,
                           const scwi_drift_series *series, size_t first,
                           scw_drift_day *out) {
  double *x;
  scw_status status = SCWI_ALLOCATE(context, out->readings, &x);
  if (status) return status;
  for (size_t i = 0; i < out->readings; i++)
    x[i] = scw_table_readings(frame->table)[series->reading[first + i]].value;
  scwi_sample sample = {.n = out->readings, .x = x};
  scwi_moments moments = scwi_moments_of(&sample);
  size_t index = series->reading[first];
  out->mean = moments.mean;
  out->sd = out->readings > 1 ? scwi_figure(moments.sd)
                              : scwi_missing(SCW_ONE_READING);
  out->line = scw_table_readings(frame->table)[index].line;
  out->date = scwi_drift_date(frame->day[index]);
  free(x);
  return SCW_OK;
}

/* The denominator common to all days' means; 0 when it grows too large. */
static int64_t denominator_of(const scw_drift_log *log) {
  int64_t common = 1;
  for (size_t i = 0; i < log->n_days && common; i++) {
    int64_t n = (int64_t)log->day[i].readings;
    common = n > LARGEST_DENOMINATOR ? 0
                                     : common / greatest_divisor(common, n) * n;
    if (common > LARGEST_DENOMINATOR) common = 0;
  }
  return common;
}

static bool tick_days(const scwi_drift_frame *frame,
                      const scwi_drift_series *series, const scw_drift_log *log,
                      int64_t denominator, int64_t *out) {
  size_t at = 0;
  for (size_t i = 0; i < log->n_days; i++) {
    int64_t sum = 0, n = (int64_t)log->day[i].readings;
    for (int64_t k = 0; k < n; k++)
      if (__builtin_add_overflow(
              sum, frame->facts->decimals.ticks[series->reading[at++]], &sum))
        return false;
    if (__builtin_mul_overflow(sum, denominator / n, &out[i])) return false;
  }
  return true;
}

/* Whole ticks for the days' means, where there is a common one. */
static scw_status ticks_of(scw_context *context, const scwi_drift_frame *frame,
                           const scwi_drift_series *series,
                           const scw_drift_log *log, scwi_drift_values *out) {
  int64_t denominator = denominator_of(log);
  if (!frame->facts->decimals.ticks || !denominator) return SCW_OK;
  scw_status status = SCWI_ALLOCATE(context, log->n_days, &out->ticks);
  if (status) return status;
  out->tick_size =
      1 / (pow(10, frame->facts->decimals.digits) * (double)denominator);
  if (!tick_days(frame, series, log, denominator, out->ticks)) {
    free(out->ticks);
    out->ticks = NULL;
  }
  return SCW_OK;
}

scw_status scwi_drift_days(scw_context *context, const scwi_drift_frame *frame,
                           const scwi_drift_series *series, scw_drift_log *log,
                           scwi_drift_values *out) {
  scw_status status = SCWI_ALLOCATE(context, series->n, &log->day);
  for (size_t at = 0; at < series->n && !status;) {
    scw_drift_day *day = &log->day[log->n_days];
    day->readings = day_length(frame, series, at);
    status = take_day(context, frame, series, at, day);
    at += day->readings;
    log->n_days++;
  }
  log->readings = series->n;
  if (!status) status = SCWI_ALLOCATE(context, log->n_days, &out->day);
  if (!status) status = SCWI_ALLOCATE(context, log->n_days, &out->x);
  for (size_t i = 0; i < log->n_days && !status; i++) {
    out->day[i] = (double)log->day[i].date.day;
    out->x[i] = log->day[i].mean;
  }
  out->n = log->n_days;
  out->step = frame->facts->step;
  return status ? status : ticks_of(context, frame, series, log, out);
}

void scwi_drift_values_free(scwi_drift_values *values) {
  free(values->day);
  free(values->x);
  free(values->ticks);
  *values = (scwi_drift_values){0};
}

scwi_sample scwi_drift_sample(const scwi_drift_values *values, size_t first,
                              size_t n) {
  return (scwi_sample){.n = n,
                       .x = values->x + first,
                       .ticks = values->ticks ? values->ticks + first : NULL,
                       .tick_size = values->tick_size,
                       .step = values->step};
}
