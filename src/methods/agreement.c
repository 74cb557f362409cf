/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "agreement.h"

#include <math.h>

#include "distributions.h"
#include "figure.h"
#include "noncentral_t.h"
#include "sum.h"
#include "two_sample.h"

enum { NONCENTRALITY_MOST = 40, ITEMS_LEAST = 3, ITEMS_MOST = 1000 };

/* With so many items the mean is known so well that its part may join that of
 * the SD: the logarithm of (z + error/root(N)) / root(chi2/df) has the variance
 * 1/(N z^2) + 1/(2 df), taken as that of one SD on fewer df. Ends within 2.2 % of
 * the interval's width of those of noncentral t (SciPy; df 5 to 2000). */
static scw_status far_factors(scw_context *context, double z, double items,
                              double df, double level, double *low,
                              double *high) {
  double all = 1 / (1 / df + 2 / (items * z * z)), q = 1;
  scw_status status =
      scwi_chi2_upper_quantile(context, (1 - level) / 2, all, &q);
  *low = z * sqrt(all / q);
  if (!status)
    status = scwi_chi2_quantile(context, (1 - level) / 2, all, &q);
  *high = z * sqrt(all / q);
  return status;
}

/* The ends of the interval of bias + z sd, in sd from the bias. */
static scw_status limit_factors(scw_context *context, double z, double items,
                                double df, double level, double *low,
                                double *high) {
  double noncentrality = z * sqrt(items);
  if (noncentrality > NONCENTRALITY_MOST || df > 1e6)
    return far_factors(context, z, items, df, level, low, high);
  scw_status status = scwi_noncentral_t_quantile(context, (1 - level) / 2, df,
                                                 noncentrality, low);
  if (!status)
    status = scwi_noncentral_t_quantile(context, (1 + level) / 2, df,
                                        noncentrality, high);
  *low /= sqrt(items);
  *high /= sqrt(items);
  return status;
}

/* Adds what the mean over repeats has taken off a method's own scatter. */
static void add_repeats(double scale, const scwi_repeats *repeats, double *sum,
                        double *over_df) {
  double sd = repeats->sd / scale;
  double more = (1 - repeats->one_over) * sd * sd;
  if (!(repeats->df > 0) || !(more > 0)) return;
  *sum += more;
  *over_df += more * more / repeats->df;
}

scw_status scwi_agreement_of(scw_context *context,
                             const scwi_agreement_given *given,
                             scwi_agreement *out) {
  double scale = fmax(given->sd, fmax(given->of_old.sd, given->of_new.sd));
  double z = 0, low = 0, high = 0, own = given->sd / scale;
  *out = (scwi_agreement){
      .sd = scwi_missing(SCW_NO_SCATTER), .df = scwi_missing(SCW_NO_SCATTER),
      .low = scwi_missing(SCW_NO_SCATTER), .high = scwi_missing(SCW_NO_SCATTER),
      .low_interval = scwi_no_interval(SCW_NO_SCATTER, given->level),
      .high_interval = scwi_no_interval(SCW_NO_SCATTER, given->level)};
  if (!(given->sd > 0)) return SCW_OK;
  double n = (double)given->n, variance = own * own;
  double over_df = variance * variance / (n - 1);
  add_repeats(scale, &given->of_old, &variance, &over_df);
  add_repeats(scale, &given->of_new, &variance, &over_df);
  double df = variance * variance / over_df, sd = sqrt(variance) * scale;
  double items = variance / (own * own / n);
  scw_status status =
      scwi_normal_quantile(context, (1 + given->content) / 2, &z);
  if (!status)
    status = limit_factors(context, z, items, df, given->level, &low, &high);
  if (status) return status;
  out->sd = scwi_figure(sd);
  out->df = scwi_figure(df);
  out->low = scwi_figure(given->bias - z * sd);
  out->high = scwi_figure(given->bias + z * sd);
  out->low_interval = scwi_interval(given->bias - high * sd,
                                    given->bias - low * sd, given->level);
  out->high_interval = scwi_interval(given->bias + low * sd,
                                     given->bias + high * sd, given->level);
  return SCW_OK;
}

scw_status scwi_agreement_items(scw_context *context, double bias, double sd,
                                double content, double level, double margin,
                                scw_figure *out) {
  double z = 0, low, high;
  size_t few = ITEMS_LEAST - 1, many = ITEMS_MOST + 1;
  *out = scwi_missing(SCW_NEVER);
  scw_status status = scwi_normal_quantile(context, (1 + content) / 2, &z);
  if (status || fabs(bias) + z * sd >= margin) return status;
  while (many - few > 1 && !status) { /* the factor falls as n grows */
    size_t n = few + (many - few) / 2;
    status = limit_factors(context, z, (double)n, (double)(n - 1), level, &low,
                           &high);
    if (!status && fabs(bias) + high * sd < margin)
      many = n;
    else
      few = n;
  }
  *out = many > ITEMS_MOST ? scwi_missing(SCW_TOO_MANY)
                           : scwi_figure((double)many);
  return status;
}

scw_status scwi_sd_assured(scw_context *context, double sd, double df,
                           double assurance, double *out) {
  double q = 1;
  scw_status status = scwi_chi2_quantile(context, 1 - assurance, df, &q);
  *out = sd * sqrt(df / q);
  return status;
}

static double mean_of(const double *x, size_t n) {
  scwi_sum sum = {0, 0};
  for (size_t i = 0; i < n; i++) scwi_sum_add(&sum, x[i] - x[0]);
  return x[0] + scwi_sum_of(sum) / (double)n;
}

static double widest(const double *x, size_t n, double centre) {
  double most = 0;
  for (size_t i = 0; i < n; i++) most = fmax(most, fabs(x[i] - centre));
  return most;
}

scw_status scwi_difference_trend(scw_context *context, const double *m,
                                 const double *d, size_t n, double level,
                                 scw_estimate *out, double *off) {
  *out = scwi_bare_estimate(0, SCW_TOO_FEW, level);
  out->estimate = scwi_missing(SCW_TOO_FEW);
  if (n < 3) return SCW_OK;
  double at = mean_of(m, n), bias = mean_of(d, n);
  double wide = widest(m, n, at), high = widest(d, n, bias);
  scwi_sum mm = {0, 0}, md = {0, 0}, rr = {0, 0};
  *out = scwi_bare_estimate(0, SCW_NO_SCATTER, level);
  out->estimate = scwi_missing(SCW_NO_SCATTER);
  if (!(wide > 0) || !(high > 0) || !isfinite(wide + high)) return SCW_OK;
  for (size_t i = 0; i < n; i++) {
    double x = (m[i] - at) / wide;
    scwi_sum_add(&mm, x * x);
    scwi_sum_add(&md, x * ((d[i] - bias) / high));
  }
  double squares = scwi_sum_of(mm), slope = scwi_sum_of(md) / squares;
  for (size_t i = 0; i < n; i++) {
    double left = (d[i] - bias) / high - slope * ((m[i] - at) / wide);
    if (off) off[i] = fabs(left) * high;
    scwi_sum_add(&rr, left * left);
  }
  double left = scwi_sum_of(rr), unit = high / wide;
  if (!(left > 1e-28 * (double)n) || !isfinite(unit)) return SCW_OK;
  scwi_uncertainty u = {sqrt(left / (double)(n - 2) / squares) * unit,
                        (double)(n - 2)};
  return scwi_estimate(context, slope * unit, u, level, out);
}
