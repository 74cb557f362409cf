/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method: with s = e^u the integral over the density of S has an analytic
 * integrand that vanishes at both ends, for which the trapezium rule converges
 * geometrically; its step is halved until the sum stands still. No power of s
 * is left to spoil it at s = 0, whatever the df. */
#include "studentised.h"

#include <math.h>
#include <stdbool.h>

#include <gsl/gsl_sf_gamma.h>

#include "context.h"
#include "distributions.h"
#include "roots.h"
#include "studentised_tail.h"

enum { FIRST_NODES = 24, MOST_HALVINGS = 8 };
/* Relative change of the sum that ends it: each halving about squares the
 * error, so what is left after it is far smaller. */
static const double still = 2e-11;
static const double nothing = 36;  /* e^-36 of the whole is nothing */

typedef struct mixture {
  scwi_studentised *of;
  double x, df;
} mixture;

/* log of the density of u = log S, less its constant: 0 at u = 0, less
 * elsewhere. */
static double log_density(double u, double df) {
  return df * (u - expm1(2 * u) / 2);
}

static double term(const mixture *m, double u) {
  double density = exp(log_density(u, m->df));
  return density > 0 ? density * scwi_studentised_tail(m->of, m->x * exp(u)) : 0;
}

/* Where the density has fallen by e^-fall, on the side of `direction`. */
static double end_of(double df, double direction, double fall) {
  double near = 0, far = direction;
  while (log_density(far, df) > -fall) far *= 2;
  while (fabs(far - near) > 1e-3 * fabs(far)) {
    double middle = near + (far - near) / 2;
    if (log_density(middle, df) > -fall)
      near = middle;
    else
      far = middle;
  }
  return far;
}

static double sum_over(const mixture *m, double low, double step, size_t n) {
  double sum = 0;
  for (size_t i = 0; i < n; i++) sum += term(m, low + (double)i * step);
  return sum;
}

/* Every halving adds the points in between. */
static scw_status trapezium(scw_context *context, const mixture *m, double low,
                            double high, double *out) {
  size_t n = FIRST_NODES;
  double step = (high - low) / (double)n, sum = sum_over(m, low, step, n + 1);
  for (int i = 0; i < MOST_HALVINGS; i++) {
    double more = sum_over(m, low + step / 2, step, n);
    bool stands = fabs(sum - more) <= still * (sum + more);
    sum += more;
    step /= 2;
    n *= 2;
    *out = sum * step;
    if (stands) return SCW_OK;
  }
  return scwi_fail(context, SCW_NOT_REACHED,
                   "the tail of the largest of several statistics did not "
                   "reach its accuracy: the settings are too extreme for a "
                   "reliable figure");
}

static scw_status check(scw_context *context, double x, double df) {
  if (!(df >= 1))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "comparisons of several need at least 1 degree of "
                     "freedom");
  return x >= 0 ? SCW_OK
                : scwi_fail(context, SCW_BAD_ARGUMENT,
                            "the largest of several absolute values is never "
                            "below zero");
}

scw_status scwi_studentised_upper(scw_context *context,
                                  scwi_studentised *of, double x, double df,
                                  double *p) {
  *p = 0;
  scw_status status = check(context, x, df);
  if (status) return status;
  mixture m = {of, x, df};
  double least = 2 * scwi_t_upper(x / of->scale, df); /* one member's */
  if (x == 0) *p = 1;
  if (x == 0 || least == 0) return SCW_OK;
  if (df > 1e12) { /* S is 1 to all digits kept */
    *p = of->tail(x, of);
    return of->status;
  }
  /* the tail is at most 1 on the left and falls on the right, and the whole
   * is at least one member's */
  double sum, low = end_of(df, -1, nothing - log(least));
  status = trapezium(context, &m, low, end_of(df, 1, nothing), &sum);
  if (of->status) status = of->status;
  if (!status)
    *p = fmin(1, sum * sqrt(df / M_PI) / gsl_sf_gammastar(df / 2));
  return status;
}

typedef struct search {
  scwi_studentised *of;
  double p, df;
  scw_context *context;
  scw_status status;
} search;

static double above(double x, void *parameters) {
  search *s = parameters;
  double p;
  scw_status status = scwi_studentised_upper(s->context, s->of, x, s->df, &p);
  if (status) s->status = status;
  return log(p / s->p);
}

/* One member's point and Bonferroni's enclose it. */
scw_status scwi_studentised_quantile_upper(scw_context *context,
                                           scwi_studentised *of, double p,
                                           double df, double *x) {
  double one, all;
  search s = {of, p, df, context, SCW_OK};
  *x = 0;
  scw_status status = check(context, 0, df);
  if (!status && !(p >= 1e-290 && p <= 1 - 1e-12))
    status = scwi_fail(context, SCW_BAD_ARGUMENT,
                       "a probability must lie between 0 and 1");
  if (!status) status = scwi_t_quantile(context, p / 2, df, &one);
  if (!status)
    status = scwi_t_quantile(context, p / 2 / of->members, df, &all);
  if (status) return status;
  /* a hair outside, so that rounding cannot hide the change of sign */
  status = scwi_root(context, above, &s, -of->scale * one * (1 - 1e-9),
                     -of->scale * all * (1 + 1e-9), 1e-13, x);
  if (s.status) *x = 0;
  return s.status ? s.status : status;
}
