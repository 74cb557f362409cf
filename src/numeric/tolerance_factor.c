/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Source: ISO 16269-6:2014, exact two-sided factor, both parameters unknown.
 * Method: given that the mean misses by m SD, the smallest half-width in SD
 * that still holds the content solves Phi(m + r) - Phi(m - r) = content; the
 * confidence is the mean over m of P(chi2(n-1) >= (n-1) r^2 / k^2). The integrand
 * is smooth and falls like a Gaussian, so the trapezoidal rule in sqrt(n) m
 * converges geometrically; r is analytic to about 0.4 from the real line of m
 * (cosh(m r) = 0), which sets the step for small n. k by Newton with the exact derivative. Start: W. G.
 * Howe, JASA 64 (1969). */
#include "tolerance_factor.h"

#include <math.h>
#include <stdbool.h>

#include "context.h"
#include "distributions.h"
#include "number_text.h"
#include "saddle.h"

#define REACH 8.5 /* of sqrt(n) m; beyond it lies 1e-17 */
enum { MOST_NODES = 80 };
#define ROOT_TWO_PI 2.50662827463100050241576528481

typedef struct mean_rule {
  size_t nodes;
  double df, weight[MOST_NODES], square[MOST_NODES]; /* square: r^2 */
} mean_rule;

/* Half-width r with Phi(m + r) - Phi(m - r) = content, from a guess. */
static double half_width(double m, double content, double r) {
  for (int i = 0; i < 60; i++) {
    double outside = scwi_normal_upper(r + m) + scwi_normal_upper(r - m);
    double density = (exp(-0.5 * (r + m) * (r + m)) +
                      exp(-0.5 * (r - m) * (r - m))) / ROOT_TWO_PI;
    double step = (outside - (1 - content)) / density;
    r += step;
    if (fabs(step) < 1e-10 * r) break;
  }
  return r;
}

static void fill(mean_rule *rule, size_t n, double content, double z) {
  double r = z, root = sqrt((double)n), step = fmin(0.5, 0.08 * root);
  rule->df = (double)n - 1;
  rule->nodes = (size_t)ceil(REACH / step) + 1;
  for (size_t i = 0; i < rule->nodes; i++) {
    double v = step * (double)i;
    r = half_width(v / root, content, r);
    rule->square[i] = r * r;
    rule->weight[i] = exp(-0.5 * v * v) * step / ROOT_TWO_PI * (i ? 2 : 1);
  }
}

/* Confidence at k, and its derivative in log k. */
static double confidence(const mean_rule *rule, double k, double *slope) {
  double sum = 0;
  *slope = 0;
  for (size_t i = 0; i < rule->nodes; i++) {
    double x = rule->df * rule->square[i] / (k * k);
    sum += rule->weight[i] * scwi_chi2_upper(x, rule->df);
    *slope += rule->weight[i] * rule->df *
              scwi_gamma_term(0.5 * rule->df, 0.5 * x);
  }
  return sum;
}

static scw_status check(scw_context *context, size_t n, double content,
                        double level) {
  char text[SCWI_NUMBER_SIZE];
  if (n < 2)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a tolerance factor needs at least 2 readings, got %zu",
                     n);
  if (!(content > 0 && content < 1))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "the content of a tolerance interval must lie between 0 "
                     "and 1, got %s", scwi_number_text(content, text));
  if (!(level > 0 && level < 1))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "the level of a tolerance interval must lie between 0 "
                     "and 1, got %s", scwi_number_text(level, text));
  return SCW_OK;
}

scw_status scwi_tolerance_factor(scw_context *context, size_t n,
                                 double content, double level, double *k) {
  mean_rule rule;
  double z, chi2, slope;
  *k = 0;
  scw_status status = check(context, n, content, level);
  if (!status)
    status = scwi_normal_quantile(context, 0.5 * (1 - content), &z);
  if (!status)
    status = scwi_chi2_quantile(context, 1 - level, (double)n - 1, &chi2);
  if (status) return status;
  fill(&rule, n, content, -z);
  double at = -z * sqrt(rule.df * (1 + 1 / (double)n) / chi2);
  for (int i = 0; i < 60; i++) {
    double step = (confidence(&rule, at, &slope) - level) / slope;
    at *= exp(-fmax(-1, fmin(1, step)));
    if (fabs(step) > 1e-7) continue;
    *k = at;
    return SCW_OK;
  }
  return scwi_fail(context, SCW_NOT_REACHED,
                   "the tolerance factor was not found: choose a less extreme "
                   "content or level");
}
