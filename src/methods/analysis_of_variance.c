/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Means are counted from the first group's, so that no digits are lost to a
 * common level; weights are relative to the scatter, so that no unit matters. */
#include "analysis_of_variance.h"

#include <math.h>

#include "distributions.h"
#include "figure.h"

static scw_f_test none(scw_presence why) {
  scw_figure figure = scwi_missing(why);
  return (scw_f_test){figure, figure, figure, figure};
}

static scw_f_test test(double f, double df1, double df2) {
  double p = scwi_f_upper(f, df1, df2);
  return (scw_f_test){scwi_figure(f), scwi_figure(df1), scwi_figure(df2),
                      p > 0 ? scwi_figure(p) : scwi_missing(SCW_OUT_OF_RANGE)};
}

/* The weight of a group: its readings, or these over their variance. */
static double weight_of(const scwi_moments *group, double unit) {
  double sd = group->sd / unit;
  return (double)group->n / (unit > 0 ? sd * sd : 1);
}

/* Sum of weights, and of the weighted squares of the groups' means about their
 * weighted mean, over unit^2. */
static double spread(const scwi_moments *groups, size_t n, double weight_unit,
                     double unit, double *all) {
  double sum = 0, squares = 0;
  *all = 0;
  for (size_t i = 0; i < n; i++) {
    double w = weight_of(&groups[i], weight_unit);
    sum += w * ((groups[i].mean - groups[0].mean) / unit);
    *all += w;
  }
  for (size_t i = 0; i < n; i++) {
    double off = (groups[i].mean - groups[0].mean) / unit - sum / *all;
    squares += weight_of(&groups[i], weight_unit) * off * off;
  }
  return squares;
}

static double largest_sd(const scwi_moments *groups, size_t n) {
  double largest = 0;
  for (size_t i = 0; i < n; i++) largest = fmax(largest, groups[i].sd);
  return largest;
}

scw_f_test scwi_one_way(const scwi_moments *groups, size_t n) {
  double unit = largest_sd(groups, n), within = 0, all = 0;
  for (size_t i = 0; i < n; i++) all += (double)groups[i].n;
  if (n < 2 || !(all > (double)n)) return none(SCW_TOO_FEW);
  if (!(unit > 0)) return none(SCW_NO_SCATTER);
  for (size_t i = 0; i < n; i++) {
    double sd = groups[i].sd / unit;
    within += (double)(groups[i].n - 1) * sd * sd;
  }
  double df1 = (double)n - 1, df2 = all - (double)n;
  double between = spread(groups, n, 0, unit, &all);
  return test(between / df1 / (within / df2), df1, df2);
}

scw_f_test scwi_welch_one_way(const scwi_moments *groups, size_t n) {
  double unit = largest_sd(groups, n), all, k = (double)n, lost = 0;
  if (n < 2) return none(SCW_TOO_FEW);
  for (size_t i = 0; i < n; i++)
    if (groups[i].n < 2) return none(SCW_TOO_FEW);
  for (size_t i = 0; i < n; i++)
    if (!(groups[i].sd > 0)) return none(SCW_NO_SCATTER);
  double between = spread(groups, n, unit, unit, &all);
  for (size_t i = 0; i < n; i++) {
    double part = 1 - weight_of(&groups[i], unit) / all;
    lost += part * part / ((double)groups[i].n - 1);
  }
  double f = between / (k - 1) / (1 + 2 * (k - 2) / (k * k - 1) * lost);
  return test(f, k - 1, (k * k - 1) / (3 * lost));
}
