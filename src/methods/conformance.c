/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "conformance.h"

#include <math.h>

#include "distributions.h"
#include "figure.h"
#include "roots.h"

/* Limits as distances from the estimate in standard uncertainties are all
 * that matters. */
typedef struct limits {
  double low, high, u, df, wanted;
} limits;

static double upper_tail(double z, double df) {
  return isinf(df) ? scwi_normal_upper(z) : scwi_t_upper(z, df);
}

/* P(low <= Y <= high) about an estimate; the smaller tails keep their
 * accuracy, and a far interval is the difference of tails on its side. */
static double within(const limits *l, double estimate) {
  double a = (l->low - estimate) / l->u, b = (l->high - estimate) / l->u;
  if (a > 0) return fmax(upper_tail(a, l->df) - upper_tail(b, l->df), 0);
  if (b < 0) return fmax(upper_tail(-b, l->df) - upper_tail(-a, l->df), 0);
  return 1 - (upper_tail(-a, l->df) + upper_tail(b, l->df));
}

/* Guard of g below the upper limit: probability reached against wanted. */
static double reached(double guard, void *parameters) {
  const limits *l = parameters;
  double estimate = isinf(l->high) ? l->low + guard : l->high - guard;
  return within(l, estimate) - l->wanted;
}

static void no_acceptance(scw_presence why, scw_conformance *out) {
  out->accept_low = out->accept_high = out->guard = scwi_missing(why);
}

static scw_status find_guard(scw_context *context, limits *l, double *guard) {
  if (isinf(l->low) || isinf(l->high)) {
    double z;
    scw_status status = scwi_t_quantile(context, l->wanted, l->df, &z);
    *guard = z * l->u;
    return status;
  }
  /* The probability rises towards the middle; at the limit it is under 1/2. */
  return scwi_root(context, reached, l, 0, (l->high - l->low) / 2, 1e-14,
                   guard);
}

scw_status scwi_conformance(scw_context *context, double estimate, double u,
                            double df, double low, double high, double wanted,
                            scw_conformance *out) {
  limits l = {low, high, u, df, wanted};
  double guard;
  *out = (scw_conformance){.low = low, .high = high, .wanted = wanted};
  if (!(u > 0) || !isfinite(u) || !isfinite(estimate) || !(low < high) ||
      (isinf(low) && isinf(high)))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "conformance needs a result with an uncertainty, and one "
                     "limit or two of which the lower is below the upper");
  if (!(wanted > 0.5 && wanted < 1))
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "the probability of conformance wanted must lie between "
                     "0.5 and 1, such as 0.95");
  out->probability = scwi_figure(within(&l, estimate));
  bool two = isfinite(low) && isfinite(high);
  if (two && within(&l, low + (high - low) / 2) < wanted) {
    no_acceptance(SCW_LEVEL_UNREACHABLE, out);
    return SCW_OK;
  }
  scw_status status = find_guard(context, &l, &guard);
  if (status) return status;
  out->guard = scwi_figure(guard);
  out->accept_low =
      isinf(low) ? scwi_missing(SCW_UNBOUNDED) : scwi_figure(low + guard);
  out->accept_high =
      isinf(high) ? scwi_missing(SCW_UNBOUNDED) : scwi_figure(high - guard);
  return SCW_OK;
}
