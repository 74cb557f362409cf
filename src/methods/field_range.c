/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A first look at ranges in equal steps of their logarithm; every peak that
 * comes near the highest one is then searched by Brent's method. */
#include "field_range.h"

#include <math.h>
#include <stdlib.h>

#include "distributions.h"
#include "figure.h"
#include "memory.h"
#include "minimum.h"

enum { MOST_LOOKS = 64 };

#define LOOK_STEP  0.4   /* of the logarithm of the range */
#define NEAR_PEAK  0.5   /* in log likelihood: peaks worth a search */
#define PEAK_WIDTH 1e-5  /* of the logarithm of the range found */
#define END_WIDTH  1e-4  /* of the same for the ends of the interval */
#define NO_GAIN    1e-7  /* in log likelihood: independent places fit as well */

typedef struct search {
  scw_context *context;
  scwi_field *field;
  scw_status status; /* of the first look that failed */
  double target;     /* for the ends of the interval */
} search;

static double likelihood_at(double log_range, search *s, double *nugget) {
  double likelihood = NAN;
  if (s->status == SCW_OK)
    s->status = scwi_field_at(s->context, s->field, exp(log_range), false);
  if (s->status == SCW_OK)
    s->status =
        scwi_field_best_nugget(s->context, s->field, nugget, &likelihood);
  return s->status == SCW_OK ? likelihood : NAN;
}

static double badness(double log_range, void *parameters) {
  double nugget;
  return -likelihood_at(log_range, parameters, &nugget);
}

static double above_target(double log_range, void *parameters) {
  search *s = parameters;
  double nugget;
  return likelihood_at(log_range, s, &nugget) - s->target;
}

static int ascending(const void *a, const void *b) {
  double p = *(const double *)a, q = *(const double *)b;
  return (p > q) - (p < q);
}

/* Median distance from a place to its nearest neighbour. */
static scw_status neighbour_distance(scw_context *context,
                                     const scwi_places *p, double *out) {
  double *nearest;
  scw_status status = SCWI_ALLOCATE(context, p->n, &nearest);
  if (status != SCW_OK) return status;
  for (size_t i = 0; i < p->n; i++) {
    nearest[i] = INFINITY;
    for (size_t j = 0; j < p->n; j++)
      if (j != i)
        nearest[i] = fmin(nearest[i],
                          hypot(p->u[i] - p->u[j], p->v[i] - p->v[j]));
  }
  qsort(nearest, p->n, sizeof *nearest, ascending);
  *out = nearest[p->n / 2];
  free(nearest);
  return SCW_OK;
}

/* The looks: log ranges and their likelihoods. */
typedef struct looks {
  size_t n, best;
  double at[MOST_LOOKS], likelihood[MOST_LOOKS];
} looks;

static void look_around(search *s, double shortest, double longest,
                        looks *out) {
  double low = log(shortest), high = log(longest), nugget;
  size_t steps = (size_t)ceil((high - low) / LOOK_STEP);
  if (steps > MOST_LOOKS - 1) steps = MOST_LOOKS - 1;
  if (steps < 2) steps = 2;
  *out = (looks){.n = steps + 1};
  for (size_t k = 0; k < out->n; k++) {
    out->at[k] = low + (high - low) * (double)k / (double)steps;
    out->likelihood[k] = likelihood_at(out->at[k], s, &nugget);
    if (out->likelihood[k] > out->likelihood[out->best]) out->best = k;
  }
}

/* Searches the peaks near the highest look. */
static void climb(search *s, const looks *l, double *at, double *peak) {
  const double *value = l->likelihood;
  *at = l->at[l->best];
  *peak = value[l->best];
  for (size_t k = 1; s->status == SCW_OK && k + 1 < l->n; k++) {
    bool top = value[k] > value[k - 1] && value[k] > value[k + 1];
    double found, lowest;
    if (!top || value[k] < value[l->best] - NEAR_PEAK) continue;
    scw_status status =
        scwi_minimum(s->context, badness, s, l->at[k - 1], l->at[k],
                     l->at[k + 1], PEAK_WIDTH, &found, &lowest);
    if (s->status == SCW_OK) s->status = status;
    if (s->status != SCW_OK || -lowest <= *peak) continue;
    *at = found;
    *peak = -lowest;
  }
}

/* Where the likelihood has dropped to the target, between the peak and look
 * `outside`. */
static scw_figure end_between(search *s, double peak_at, double outside) {
  double found;
  scw_status status =
      scwi_root(s->context, above_target, s, fmin(peak_at, outside),
                fmax(peak_at, outside), END_WIDTH, &found);
  if (s->status == SCW_OK) s->status = status;
  return s->status == SCW_OK ? scwi_figure(exp(found))
                             : scwi_missing(SCW_NOT_COMPUTED);
}

static void find_ends(search *s, const looks *l, double peak_at,
                      scwi_range_found *out) {
  out->low = scwi_missing(SCW_NO_DEPENDENCE);
  out->high = scwi_missing(SCW_UNBOUNDED);
  for (size_t k = l->n; k-- > 0;)
    if (l->at[k] < peak_at && l->likelihood[k] < s->target) {
      out->low = end_between(s, peak_at, l->at[k]);
      break;
    }
  for (size_t k = 0; k < l->n; k++)
    if (l->at[k] > peak_at && l->likelihood[k] < s->target) {
      out->high = end_between(s, peak_at, l->at[k]);
      break;
    }
}

/* Log likelihood of independent places: a nugget of 1 at any range. */
static double independent(const scwi_field *field) {
  scwi_field_fit fit;
  scwi_gram gram = scwi_field_gram(field, 1);
  return scwi_field_fit_of(field, &gram, &fit) ? fit.log_likelihood : NAN;
}

scw_status scwi_field_range(scw_context *context, scwi_field *field,
                            double level, scwi_range_found *out) {
  const scwi_places *p = field->places;
  search s = {context, field, SCW_OK, 0};
  double near, chi2, at, peak;
  looks l;
  *out = (scwi_range_found){.low = scwi_missing(SCW_NO_DEPENDENCE),
                            .high = scwi_missing(SCW_UNBOUNDED)};
  scw_status status = neighbour_distance(context, p, &near);
  if (status == SCW_OK) status = scwi_chi2_quantile(context, level, 1, &chi2);
  if (status != SCW_OK) return status;
  look_around(&s, near / 5, 20 * hypot(p->half_u, p->half_v), &l);
  double alone = s.status == SCW_OK ? independent(field) : NAN;
  climb(&s, &l, &at, &peak);
  if (s.status != SCW_OK) return s.status;
  bool gained = peak - alone > NO_GAIN;
  out->gain = gained ? 2 * (peak - alone) : 0;
  out->beyond = gained && at >= l.at[l.n - 1];
  s.target = peak - chi2 / 2;
  if (gained) find_ends(&s, &l, at, out);
  likelihood_at(at, &s, &out->nugget);
  out->range = exp(at);
  return s.status;
}
