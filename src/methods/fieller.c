/* SPDX-License-Identifier: GPL-3.0-or-later */
/* With r = ratio + x the condition |after - r before| <= t u(r) becomes
 *   a x^2 + 2 t^2 c x - t^2 v <= 0,  a = before^2 - t^2 before_variance,
 * v the variance of the rest and c what it shares with the mean before. Written
 * about the ratio found nothing cancels, however closely paired the sides
 * are. */
#include "fieller.h"

#include <float.h>

#include "codes.h"
#include "comparison.h"
#include "figure.h"
#include "sum.h"

SCWI_CODE_FUNCTION(scw_ratio_set_code, scw_ratio_set, SCW_RATIO_SET_LIST,
                   SCWI_KEY, SCW_RATIO_SET_END, "unknown")

static double largest(double a, double b, double c, double d) {
  return fmax(fmax(fabs(a), fabs(b)), fmax(fabs(c), fabs(d)));
}

static double squared(double x) {
  return x * x;
}

static scwi_two_means no_means(scw_presence why, double before, double after) {
  return (scwi_two_means){.state = why, .before = before, .after = after};
}

scwi_two_means scwi_means_apart(scwi_moments before, double step_before,
                                scwi_moments after, double step_after) {
  if (before.n < 2 || after.n < 2)
    return no_means(SCW_ONE_READING, before.mean, after.mean);
  scwi_uncertainty of_before =
      scwi_mean_uncertainty(before.sd, before.n, step_before);
  scwi_uncertainty of_after =
      scwi_mean_uncertainty(after.sd, after.n, step_after);
  double scale = largest(before.mean, after.mean, of_before.u, of_after.u);
  if (!(scale > 0)) return no_means(SCW_NO_SCATTER, before.mean, after.mean);
  scwi_two_means means = {.state = SCW_PRESENT,
                          .scale = scale,
                          .before = before.mean / scale,
                          .after = after.mean / scale};
  double ratio = means.after / means.before;
  scwi_uncertainty carried = {fabs(ratio) * (of_before.u / scale),
                              of_before.df};
  of_after.u /= scale;
  scwi_uncertainty rest = scwi_uncertainty_sum(of_after, carried);
  means.before_variance = squared(of_before.u / scale);
  means.rest_variance = squared(rest.u);
  means.covariance = -ratio * means.before_variance;
  means.df = rest.df;
  return means;
}

/* Mean products of the deviations of pairs, in units of scale^2. */
typedef struct spread {
  double before, rest, both, difference;
} spread;

static spread spread_of(const double *before, const double *after, size_t m,
                        double scale, const scwi_two_means *means) {
  scwi_sum bb = {0, 0}, rr = {0, 0}, br = {0, 0}, dd = {0, 0}, off = {0, 0};
  double ratio = means->after / means->before, widest = 0;
  for (size_t i = 0; i < m; i++)
    scwi_sum_add(&off, after[i] / scale - ratio * (before[i] / scale));
  for (size_t i = 0; i < m; i++) {
    double b = before[i] / scale, a = after[i] / scale;
    double rest = a - ratio * b - scwi_sum_of(off) / (double)m;
    double away = b - means->before;
    /* what rounding of the product alone can leave is nothing */
    if (fabs(rest) <= 8 * DBL_EPSILON * largest(a, ratio * b, 0, 0)) rest = 0;
    widest = fmax(widest, fabs(rest));
    scwi_sum_add(&bb, away * away);
    scwi_sum_add(&rr, rest * rest);
    scwi_sum_add(&br, away * rest);
    scwi_sum_add(&dd, squared((a - means->after) - away));
  }
  double df = (double)m - 1;
  return (spread){scwi_sum_of(bb) / df, scwi_sum_of(rr) / df,
                  widest > 0 ? scwi_sum_of(br) / df : 0, scwi_sum_of(dd) / df};
}

scwi_two_means scwi_means_paired(const double *before, const double *after,
                                 size_t m, scwi_display display) {
  scwi_sample b = {.n = m, .x = before}, a = {.n = m, .x = after};
  if (m == 0) return no_means(SCW_TOO_FEW, NAN, NAN);
  scwi_moments of_b = scwi_moments_of(&b), of_a = scwi_moments_of(&a);
  if (m < 2) return no_means(SCW_ONE_READING, of_b.mean, of_a.mean);
  double scale = largest(of_b.mean, of_a.mean, of_b.sd, of_a.sd);
  if (!(scale > 0) || of_b.mean == 0)
    return no_means(SCW_NO_SCATTER, of_b.mean, of_a.mean);
  scwi_two_means means = {.state = SCW_PRESENT,
                          .scale = scale,
                          .before = of_b.mean / scale,
                          .after = of_a.mean / scale};
  spread s = spread_of(before, after, m, scale, &means);
  double ratio = means.after / means.before, n = (double)m;
  scwi_display scaled = {display.step / scale, display.sides / scale};
  double change = scwi_difference_uncertainty(sqrt(s.difference), m, scaled).u;
  double left = fmax(0, squared(change) - s.difference / n) / 2;
  if (left <= 8 * DBL_EPSILON * s.difference / n) left = 0;
  means.before_variance = s.before / n;
  means.rest_variance = s.rest / n;
  means.covariance = s.both / n;
  means.df = means.rest_variance > 0 ? n - 1 : INFINITY;
  if (left > 0)
    scwi_means_add(&means, left, (1 + ratio * ratio) * left, -ratio * left,
                   INFINITY);
  return means;
}

void scwi_means_add(scwi_two_means *means, double before_variance,
                    double rest_variance, double covariance, double df) {
  scwi_uncertainty sum = scwi_uncertainty_sum(
      (scwi_uncertainty){sqrt(means->rest_variance), means->df},
      (scwi_uncertainty){sqrt(rest_variance), df});
  means->before_variance += before_variance;
  means->rest_variance += rest_variance;
  means->covariance += covariance;
  if (sum.u > 0) means->df = sum.df;
}

static scw_figure end_of(double value) {
  return isinf(value) ? scwi_missing(SCW_UNBOUNDED) : scwi_figure(value);
}

static void solve(const scwi_two_means *m, double ratio, double t,
                  scw_ratio *out) {
  double a = squared(m->before) - squared(t) * m->before_variance;
  double half = -squared(t) * m->covariance;
  double inside = squared(t * m->covariance) + a * m->rest_variance;
  out->set = a > 0        ? SCW_RATIO_BETWEEN
             : inside > 0 ? SCW_RATIO_OUTSIDE
                          : SCW_RATIO_EVERYTHING;
  out->low = out->high = scwi_missing(SCW_UNBOUNDED);
  if (out->set == SCW_RATIO_EVERYTHING) return;
  /* the larger root by the sum, the other by their product */
  double sum = half + copysign(t * sqrt(inside), half);
  double one = sum / a, other = -squared(t) * m->rest_variance / sum;
  out->low = end_of(ratio + fmin(one, other));
  out->high = end_of(ratio + fmax(one, other));
}

static scw_ratio no_ratio(scw_figure estimate, scw_presence why, double level) {
  return (scw_ratio){.estimate = estimate,
                     .standard_uncertainty = scwi_missing(why),
                     .df = scwi_missing(why),
                     .state = why,
                     .low = scwi_missing(why),
                     .high = scwi_missing(why),
                     .delta = scwi_no_interval(why, level)};
}

scw_status scwi_ratio_of_means(scw_context *context,
                               const scwi_two_means *means, double level,
                               scw_ratio *out) {
  double t = 0, ratio = means->after / means->before;
  if (means->before == 0) {
    *out = no_ratio(scwi_missing(SCW_ZERO_BEFORE), SCW_ZERO_BEFORE, level);
    return SCW_OK;
  }
  *out = no_ratio(scwi_figure(ratio), means->state, level);
  if (means->state != SCW_PRESENT) return SCW_OK;
  *out = no_ratio(out->estimate, SCW_NO_SCATTER, level);
  if (means->rest_variance == 0) return SCW_OK;
  *out = no_ratio(out->estimate, SCW_OUT_OF_RANGE, level);
  if (!isfinite(means->rest_variance + means->covariance + ratio))
    return SCW_OK;
  scw_status status = scwi_critical(context, means->df, level, &t);
  if (status) return status;
  out->state = SCW_PRESENT;
  out->df = end_of(means->df);
  out->standard_uncertainty =
      scwi_figure(sqrt(means->rest_variance) / fabs(means->before));
  solve(means, ratio, t, out);
  double wide = exp(t * sqrt(means->rest_variance) / fabs(means->after));
  out->delta = ratio > 0 ? scwi_interval(ratio / wide, ratio * wide, level)
                         : scwi_no_interval(SCW_NOT_POSITIVE, level);
  return SCW_OK;
}
