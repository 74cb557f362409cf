/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shape.h"

#include <math.h>

#include "distributions.h"
#include "figure.h"
#include "shapiro_wilk.h"
#include "sum.h"

enum { FEWEST_SHAPIRO = 3, FEWEST_ANDERSON = 8, MOST = 5000 };

/* log P(Z <= z), also where P itself is no double any more. */
static double log_lower(double z) {
  static const double log_root_2_pi = 0.91893853320467274178;
  if (z > 0) return log1p(-scwi_normal_upper(z));
  double p = scwi_normal_cdf(z);
  return p > 0 ? log(p) : -z * z / 2 - log(-z) - log_root_2_pi;
}

/* A2 (1 + 0.75/n + 2.25/n^2), mean and SD estimated (Stephens 1974). */
static double anderson_darling(const scwi_workings *w) {
  scwi_sum sum = {0};
  double n = (double)w->n;
  for (size_t k = 0; k < w->n; k++) {
    double low = w->deviation[w->place[k]] / w->scaled_sd;
    double high = w->deviation[w->place[w->n - 1 - k]] / w->scaled_sd;
    scwi_sum_add(&sum,
                 (2 * (double)k + 1) * (log_lower(low) + log_lower(-high)));
  }
  double a2 = -n - scwi_sum_of(sum) / n;
  return a2 * (1 + 0.75 / n + 2.25 / (n * n));
}

/* D'Agostino & Stephens 1986, table 4.9. The last piece was fitted to small
 * p only; beyond 10 (p = 3.7e-24) its parabola would turn, so it stops. */
static double anderson_darling_p(double a) {
  if (a < 0.2) return 1 - exp(-13.436 + 101.14 * a - 223.73 * a * a);
  if (a < 0.34) return 1 - exp(-8.318 + 42.796 * a - 59.938 * a * a);
  if (a < 0.6) return exp(0.9177 - 4.279 * a - 1.38 * a * a);
  a = fmin(a, 10);
  return exp(1.2937 - 5.709 * a + 0.0186 * a * a);
}

/* Why a test that needs `fewest` readings cannot be made, or SCW_PRESENT. */
static scw_presence hindrance(const scwi_workings *w, size_t fewest) {
  if (w->n < 2) return SCW_ONE_READING;
  if (w->n < 3) return SCW_TWO_READINGS;
  if (w->scaled_sd <= 0) return SCW_NO_SCATTER;
  if (w->n < fewest) return SCW_TOO_FEW;
  return w->n > MOST ? SCW_TOO_MANY : SCW_PRESENT;
}

scw_status scwi_shape(scw_context *context, const scwi_workings *w,
                      scw_shape *out) {
  scw_presence why = hindrance(w, FEWEST_SHAPIRO);
  out->shapiro_w = out->shapiro_p = scwi_missing(why);
  if (why == SCW_PRESENT) {
    double statistic, p;
    scw_status status =
        scwi_shapiro_wilk(context, w->ascending, w->n, &statistic, &p);
    if (status != SCW_OK) return status;
    out->shapiro_w = scwi_figure(statistic);
    out->shapiro_p = scwi_figure(p);
  }
  why = hindrance(w, FEWEST_ANDERSON);
  out->anderson_darling = out->anderson_darling_p = scwi_missing(why);
  if (why == SCW_PRESENT) {
    double a = anderson_darling(w);
    out->anderson_darling = scwi_figure(a);
    out->anderson_darling_p = scwi_figure(anderson_darling_p(a));
  }
  return SCW_OK;
}
