/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The difference after k readings depends only on which readings those are:
 * with deviations d from the mean, it is -sum(d) n / (k (n-k)). So the share
 * of orders that reach the observed difference follows from one number for
 * each collection of readings, whatever their order: 2^n numbers at most in
 * place of n! orders, and fewer with ties, equal readings being only counted.
 * The share is the same as by going through all orders. */
#include "level_shift.h"

#include <float.h>
#include <math.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include "figure.h"
#include "memory.h"
#include "random.h"
#include "sum.h"

enum { MOST_CLASSES = 18, MOST_COLLECTIONS = 1 << MOST_CLASSES };

/* A split is judged by |sum of the first k deviations| over its weight: k (n-k)
 * for the difference of the two means, the root of that for the difference in
 * its own standard errors, which is the split of the least squares. */
typedef struct split {
  size_t k;
  double sum, size;
} split;

typedef double (*weighing)(size_t k, size_t n);

static double pairs(size_t k, size_t n) {
  return (double)k * (double)(n - k);
}

static double root_of_pairs(size_t k, size_t n) { return sqrt(pairs(k, n)); }

static split largest_split(const double *deviation, size_t n,
                           weighing weight) {
  split best = {0};
  scwi_sum sum = {0};
  for (size_t k = 1; k + 2 <= n; k++) {
    scwi_sum_add(&sum, deviation[k - 1]);
    double now = scwi_sum_of(sum), size = fabs(now) / weight(k, n);
    if (k >= 2 && (best.k == 0 || size > best.size))
      best = (split){k, now, size};
  }
  return best;
}

/* Sums of whole ticks are exact, and only the limit is rounded; sums of other
 * readings are rounded themselves. */
static double just_below(const scwi_workings *w, double size) {
  double largest_sum = 0;
  for (size_t i = 0; i < w->n; i++)
    largest_sum += fabs(w->deviation[i]);
  bool exact = w->sample->ticks && largest_sum < 1 / DBL_EPSILON;
  return size * (1 - (exact ? 4 * DBL_EPSILON : 1e-12));
}

/* The different readings: how often each occurs, and its deviation. A
 * collection takes some of each; its number is sum(taken * stride). */
typedef struct classes {
  size_t n, collections;
  size_t count[MOST_CLASSES], stride[MOST_CLASSES];
  double deviation[MOST_CLASSES];
} classes;

/* False when there are too many collections to go through. */
static bool sort_into_classes(const scwi_workings *w, classes *out) {
  *out = (classes){.collections = 1};
  if (w->distinct > MOST_CLASSES) return false;
  for (size_t k = 0; k < w->n; k++) {
    out->n = w->rank[w->place[k]] + 1;
    out->count[out->n - 1]++;
    out->deviation[out->n - 1] = w->deviation[w->place[k]];
  }
  for (size_t j = 0; j < out->n; j++) {
    out->stride[j] = out->collections;
    out->collections *= out->count[j] + 1;
    if (out->collections > MOST_COLLECTIONS) return false;
  }
  return true;
}

/* Moves on to the next collection and returns the change of its size. */
static ptrdiff_t next_collection(const classes *c, size_t *taken) {
  size_t j = 0, dropped = 0;
  for (; taken[j] == c->count[j]; j++) {
    dropped += taken[j];
    taken[j] = 0;
  }
  taken[j]++;
  return 1 - (ptrdiff_t)dropped;
}

/* reached[c]: the probability that a random order of collection c has a prefix
 * that reaches `limit`. Its last reading is of class j with probability
 * taken[j] / size. */
static double reach(const classes *c, size_t n, double limit, weighing weight,
                    double *reached) {
  size_t taken[MOST_CLASSES] = {0}, size = 0;
  for (size_t at = 1; at < c->collections; at++) {
    double sum = 0, share = 0;
    size += (size_t)next_collection(c, taken);
    for (size_t j = 0; j < c->n; j++) {
      if (!taken[j]) continue;
      sum += (double)taken[j] * c->deviation[j];
      share += (double)taken[j] * reached[at - c->stride[j]];
    }
    bool two_sides = size >= 2 && size + 2 <= n;
    reached[at] = two_sides && fabs(sum) >= limit * weight(size, n)
                      ? 1
                      : share / (double)size;
  }
  return reached[c->collections - 1];
}

static scw_status exact_p(scw_context *context, const classes *c, size_t n,
                          double limit, weighing weight,
                          scw_level_shift *out) {
  double *reached;
  scw_status status = SCWI_ALLOCATE(context, c->collections, &reached);
  if (status != SCW_OK) return status;
  out->p = scwi_figure(reach(c, n, limit, weight, reached));
  free(reached);
  return SCW_OK;
}

static size_t orders_to_draw(size_t n) {
  return n <= 200 ? 9999 : n <= 2000 ? 999 : n <= 20000 ? 99 : 0;
}

static size_t count_reached(scwi_random *random, double *shuffled, size_t n,
                            double limit, weighing weight, size_t orders) {
  size_t reached = 0;
  for (size_t draw = 0; draw < orders; draw++) {
    for (size_t i = n - 1; i > 0; i--) {
      size_t other = scwi_random_below(random, i + 1);
      double held = shuffled[i];
      shuffled[i] = shuffled[other];
      shuffled[other] = held;
    }
    reached += largest_split(shuffled, n, weight).size >= limit;
  }
  return reached;
}

static scw_status counted_p(scw_context *context, const scwi_workings *w,
                            double limit, weighing weight,
                            unsigned long long seed, scw_level_shift *out) {
  size_t orders = orders_to_draw(w->n);
  if (orders == 0) {
    out->p = scwi_missing(SCW_TOO_MANY);
    return SCW_OK;
  }
  scwi_random *random = NULL;
  double *shuffled = NULL;
  scw_status status = scwi_random_new(context, seed, &random);
  if (status == SCW_OK) status = SCWI_ALLOCATE(context, w->n, &shuffled);
  if (status == SCW_OK) {
    memcpy(shuffled, w->deviation, w->n * sizeof *shuffled);
    size_t reached = count_reached(random, shuffled, w->n, limit, weight, orders);
    out->p = scwi_figure((double)(1 + reached) / (double)(1 + orders));
    out->counted = true;
    out->seed = seed;
    out->orders = orders;
  }
  free(shuffled);
  scwi_random_free(random);
  return status;
}

static scw_status find(scw_context *context, const scwi_workings *w,
                       unsigned long long seed, weighing weight,
                       scw_level_shift *out) {
  scw_presence why = w->n < 2   ? SCW_ONE_READING
                     : w->n < 3 ? SCW_TWO_READINGS
                     : w->n < 4 ? SCW_TOO_FEW
                                : SCW_NO_SCATTER;
  *out = (scw_level_shift){.size = scwi_missing(why), .p = scwi_missing(why)};
  if (w->n < 4 || w->scaled_sd <= 0) return SCW_OK;
  split best = largest_split(w->deviation, w->n, weight);
  out->after_place = best.k;
  out->size = scwi_figure(scwi_unscaled(
      &w->centre, -best.sum * ((double)w->n / pairs(best.k, w->n))));
  double limit = just_below(w, best.size);
  classes c;
  return sort_into_classes(w, &c)
             ? exact_p(context, &c, w->n, limit, weight, out)
             : counted_p(context, w, limit, weight, seed, out);
}

scw_status scwi_level_shift(scw_context *context, const scwi_workings *w,
                            unsigned long long seed, scw_level_shift *out) {
  return find(context, w, seed, pairs, out);
}

scw_status scwi_level_split(scw_context *context, const scwi_workings *w,
                            unsigned long long seed, scw_level_shift *out) {
  return find(context, w, seed, root_of_pairs, out);
}
