/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dated_line.h"

#include <float.h>

#include "deviations.h"
#include "distributions.h"
#include "figure.h"
#include "moments.h"
#include "sum.h"

typedef struct dates {
  const double *day;
  double mean, squares; /* about the mean */
} dates;

static dates dates_of(const double *day, size_t n) {
  scwi_sum sum = {0}, squares = {0};
  for (size_t i = 0; i < n; i++) scwi_sum_add(&sum, day[i] - day[0]);
  double mean = day[0] + scwi_sum_of(sum) / (double)n;
  for (size_t i = 0; i < n; i++)
    scwi_sum_add(&squares, (day[i] - mean) * (day[i] - mean));
  return (dates){day, mean, scwi_sum_of(squares)};
}

static double scaled_slope(const dates *d, const scwi_centre *centre,
                           size_t n) {
  scwi_sum sum = {0};
  for (size_t i = 0; i < n; i++)
    scwi_sum_add(&sum, (d->day[i] - d->mean) * scwi_deviation(centre, i));
  return scwi_sum_of(sum) / d->squares;
}

/* Sum of squares about the line; what only rounding left is nothing. */
static double about_line(const dates *d, const scwi_centre *centre, size_t n,
                         double slope) {
  scwi_sum squares = {0};
  double largest = 0;
  for (size_t i = 0; i < n; i++) {
    double from_mean = scwi_deviation(centre, i);
    double away = from_mean - slope * (d->day[i] - d->mean);
    if (fabs(from_mean) > largest) largest = fabs(from_mean);
    scwi_sum_add(&squares, away * away);
  }
  double least = 32 * DBL_EPSILON * largest, found = scwi_sum_of(squares);
  return found <= least * least * (double)n ? 0 : found;
}

static scw_status judge(scw_context *context, scwi_dated_line *out, double sd,
                        double squares, double df, double step, double level) {
  double floor = step / sqrt(12);
  scwi_uncertainty u = {(sd > floor ? sd : floor) / sqrt(squares), df};
  scw_estimate *slope = &out->slope;
  slope->df = scwi_figure(df);
  if (u.u <= 0) return SCW_OK;
  slope->standard_uncertainty = scwi_figure(u.u);
  slope->p = scwi_figure(2 * scwi_t_upper(fabs(slope->estimate.value) / u.u, df));
  return scwi_t_interval(context, slope->estimate.value, u, level,
                         &slope->interval);
}

scw_status scwi_dated_line_of(scw_context *context, const double *day,
                              const scwi_sample *sample, double level,
                              scwi_dated_line *out) {
  size_t n = sample->n;
  scw_presence why = n < 2   ? SCW_ONE_READING
                     : n < 3 ? SCW_TWO_READINGS
                             : SCW_NO_SCATTER;
  *out = (scwi_dated_line){
      .slope = {scwi_missing(why), scwi_missing(why), scwi_missing(why),
                scwi_missing(why), scwi_no_interval(why, level)},
      .sd_about_line = scwi_missing(why)};
  if (n < 2) return SCW_OK;
  dates d = dates_of(day, n);
  if (d.squares <= 0) return SCW_OK;
  scwi_centre centre = scwi_centre_of(sample);
  double slope = scaled_slope(&d, &centre, n);
  out->slope.estimate = scwi_figure(scwi_unscaled(&centre, slope));
  if (n < 3) return SCW_OK;
  double df = (double)n - 2;
  out->squares = about_line(&d, &centre, n, slope);
  double sd = scwi_unscaled(&centre, sqrt(out->squares / df));
  out->sd_about_line = scwi_figure(sd);
  return judge(context, out, sd, d.squares, df, sample->step.size, level);
}
