/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Orders are 1 to n, their mean (n+1)/2, their sum of squares about it
 * n (n^2-1) / 12. */
#include "creep.h"

#include "distributions.h"
#include "figure.h"
#include "kendall.h"
#include "moments.h"
#include "sum.h"

static double scaled_slope(const scwi_workings *w) {
  scwi_sum sum = {0};
  double n = (double)w->n;
  for (size_t i = 0; i < w->n; i++)
    scwi_sum_add(&sum, (2 * (double)i + 1 - n) * w->deviation[i]);
  return 6 * scwi_sum_of(sum) / (n * (n * n - 1));
}

static double sd_about_line(const scwi_workings *w, double slope) {
  scwi_sum squares = {0};
  double middle = ((double)w->n - 1) / 2;
  for (size_t i = 0; i < w->n; i++) {
    double away = w->deviation[i] - slope * ((double)i - middle);
    scwi_sum_add(&squares, away * away);
  }
  return sqrt(scwi_sum_of(squares) / ((double)w->n - 2));
}

/* Every reading exceeds the one before by the same amount. */
static bool on_a_line(const scwi_workings *w) {
  double first = scwi_distance(&w->centre, 1, 0);
  for (size_t i = 2; i < w->n; i++) {
    double step = scwi_distance(&w->centre, i, i - 1);
    if (step < first || step > first) return false;
  }
  return true;
}

static scw_status judge_slope(scw_context *context, const scwi_workings *w,
                              double slope, double level, scw_creep *out) {
  double n = (double)w->n, sd = sd_about_line(w, slope);
  scwi_uncertainty u = {sd / sqrt(n * (n * n - 1) / 12), n - 2};
  scw_interval scaled;
  scw_status status = scwi_t_interval(context, slope, u, level, &scaled);
  if (status != SCW_OK) return status;
  out->sd_about_line = scwi_figure(scwi_unscaled(&w->centre, sd));
  out->slope_interval =
      scwi_interval(scwi_unscaled(&w->centre, scaled.low),
                    scwi_unscaled(&w->centre, scaled.high), level);
  out->p = scwi_figure(2 * scwi_t_upper(fabs(slope) / u.u, u.df));
  out->creeping = scaled.low > 0 || scaled.high < 0;
  return SCW_OK;
}

scw_status scwi_creep(scw_context *context, const scwi_workings *w,
                      double level, scw_creep *out) {
  scw_presence why = w->n < 2   ? SCW_ONE_READING
                     : w->n < 3 ? SCW_TWO_READINGS
                                : SCW_NO_SCATTER;
  *out = (scw_creep){.slope = scwi_missing(why),
                     .p = scwi_missing(why),
                     .sd_about_line = scwi_missing(why),
                     .slope_interval = scwi_no_interval(why, level)};
  scw_status status = scwi_kendall(context, w, out);
  if (status != SCW_OK || w->n < 2) return status;
  double slope = scaled_slope(w);
  out->slope = scwi_figure(scwi_unscaled(&w->centre, slope));
  if (w->n < 3 || on_a_line(w)) return SCW_OK;
  return judge_slope(context, w, slope, level, out);
}
