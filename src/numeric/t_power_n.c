/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method: power grows with n, so the smallest n is bracketed around the normal
 * solution (with Guenther's z^2/2 correction, The American Statistician 35
 * (1981)), which is nearly always right or one off, and bisected on whole
 * numbers. */
#include <math.h>
#include <stdbool.h>

#include "context.h"
#include "distributions.h"
#include "number_text.h"
#include "t_power.h"

typedef struct plan {
  scw_context *context;
  scwi_t_design design;
  double effect, alpha, power;
  scw_status status;
} plan;

static bool enough(plan *p, size_t n) {
  double count = (double)n, reached;
  double df = p->design == SCWI_ONE_SAMPLE ? count - 1 : 2 * count - 2;
  double spread = p->design == SCWI_ONE_SAMPLE ? count : 0.5 * count;
  if (p->status) return true; /* ends the search; the status is returned */
  p->status = scwi_t_power(p->context, p->effect * sqrt(spread), df, p->alpha,
                           &reached);
  return p->status || reached >= p->power;
}

static size_t normal_n(const plan *p, size_t most) {
  double z_alpha, z_power, n;
  if (scwi_normal_quantile(p->context, 1 - 0.5 * p->alpha, &z_alpha) ||
      scwi_normal_quantile(p->context, p->power, &z_power))
    return 2;
  double sum = fmax(0, z_alpha + z_power) / p->effect;
  if (p->design == SCWI_ONE_SAMPLE)
    n = sum * sum + 0.5 * z_alpha * z_alpha;
  else
    n = 2 * sum * sum + 0.25 * z_alpha * z_alpha;
  n = ceil(n);
  return n < 2 ? 2 : n < (double)most ? (size_t)n : most;
}

/* The smallest n in 2 .. most that is enough; most itself is known to be. */
static size_t smallest(plan *p, size_t start, size_t most) {
  size_t low = 1, high = most, step = 1; /* low is not enough, high is */
  if (start < most && enough(p, start)) {
    high = start;
    while (high > 2 && high > low + 1) {
      size_t next = high - low > step ? high - step : low + 1;
      if (!enough(p, next)) {
        low = next;
        break;
      }
      high = next, step *= 2;
    }
  } else if (start < most) {
    low = start;
    while (low + step < most && !enough(p, low + step)) low += step, step *= 2;
    if (low + step < most) high = low + step;
  }
  while (high - low > 1) {
    size_t middle = low + (high - low) / 2;
    if (enough(p, middle))
      high = middle;
    else
      low = middle;
  }
  return high;
}

static scw_status check(const plan *p) {
  char text[SCWI_NUMBER_SIZE];
  if (!isfinite(p->effect))
    return scwi_fail(p->context, SCW_BAD_ARGUMENT,
                     "the effect of a power calculation must be a number");
  if (!(p->alpha > 0 && p->alpha < 1))
    return scwi_fail(p->context, SCW_BAD_ARGUMENT,
                     "alpha must lie between 0 and 1, got %s",
                     scwi_number_text(p->alpha, text));
  if (!(p->power > 0 && p->power < 1))
    return scwi_fail(p->context, SCW_BAD_ARGUMENT,
                     "a power must lie between 0 and 1, got %s",
                     scwi_number_text(p->power, text));
  return SCW_OK;
}

scw_status scwi_t_power_n(scw_context *context, scwi_t_design design,
                          double effect, double alpha, double power,
                          size_t most, size_t *n) {
  plan p = {context, design, fabs(effect), alpha, power, SCW_OK};
  *n = 0;
  scw_status status = check(&p);
  if (status) return status;
  if (most < 2 || (p.effect == 0 && power > alpha) || !enough(&p, most))
    status = scwi_fail(context, SCW_NO_FIGURE,
                       "no number of readings up to %zu reaches this power for "
                       "an effect this small", most);
  if (status) return status;
  size_t found = p.effect == 0 ? 2 : smallest(&p, normal_n(&p, most), most);
  if (!p.status) *n = found;
  return p.status;
}
