/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drift_pairs.h"

#include <math.h>
#include <stdlib.h>

#include "figure.h"
#include "memory.h"
#include "moments.h"

static bool differ_in_instrument(const scw_reading *a, const scw_reading *b) {
  return a->instrument != b->instrument && a->standard == b->standard &&
         a->set == b->set && a->product == b->product && a->panel == b->panel &&
         a->state == b->state && a->side == b->side;
}

static long start_of(const scw_drift_log *log) {
  return log->day[scwi_drift_newest(log)->first].date.day;
}

/* one - other on shared days of both newest stretches; returns how many. */
static size_t differences(const scw_drift_log *one, const scw_drift_log *other,
                          double *out) {
  long from = start_of(one) > start_of(other) ? start_of(one) : start_of(other);
  size_t n = 0, k = 0;
  for (size_t i = 0; i < one->n_days; i++) {
    long day = one->day[i].date.day;
    while (k < other->n_days && other->day[k].date.day < day) k++;
    if (day >= from && k < other->n_days && other->day[k].date.day == day)
      out[n++] = one->day[i].mean - other->day[k].mean;
  }
  return n;
}

static scw_status estimate_of(scw_context *context, const double *x, size_t n,
                              scw_step step, double level, scw_estimate *out) {
  scwi_sample sample = {.n = n, .x = x, .step = step};
  scwi_moments moments = scwi_moments_of(&sample);
  scw_presence why = n < 2 ? SCW_ONE_READING : SCW_NO_SCATTER;
  *out = (scw_estimate){scwi_figure(moments.mean), scwi_missing(why),
                        scwi_missing(why), scwi_missing(SCW_NOT_COMPUTED),
                        scwi_no_interval(why, level)};
  if (n < 2) return SCW_OK;
  scwi_uncertainty u = scwi_difference_uncertainty(
      moments.sd, n, (scwi_display){.step = step.size});
  if (!(u.u > 0)) return SCW_OK;
  out->standard_uncertainty = scwi_figure(u.u);
  out->df = isfinite(u.df) ? scwi_figure(u.df) : scwi_missing(SCW_UNBOUNDED);
  return scwi_t_interval(context, moments.mean, u, level, &out->interval);
}

static scw_status take_pair(scw_context *context, scw_drift_result *result,
                            size_t one, size_t other) {
  double *x;
  scw_status status = SCWI_ALLOCATE(context, result->log[one].n_days, &x);
  if (status) return status;
  size_t n = differences(&result->log[one], &result->log[other], x);
  if (n > 0) {
    scw_drift_pair *pair = &result->pair[result->n_pairs++];
    *pair = (scw_drift_pair){.one = one, .other = other, .days = n};
    status = estimate_of(context, x, n, result->step, result->settings.level,
                         &pair->difference);
  }
  free(x);
  return status;
}

scw_status scwi_drift_pairs(scw_context *context, const scwi_drift_list *list,
                            scw_drift_result *result) {
  scw_status status = SCW_OK;
  size_t most = 0;
  for (int round = 0; round < 2 && !status; round++) {
    if (round) status = SCWI_ALLOCATE(context, most, &result->pair);
    for (size_t i = 0; i < list->n && !status; i++)
      for (size_t k = i + 1; k < list->n && !status; k++) {
        if (!differ_in_instrument(&list->series[i].key, &list->series[k].key))
          continue;
        if (round)
          status = take_pair(context, result, i, k);
        else
          most++;
      }
  }
  return status;
}
