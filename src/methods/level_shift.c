/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The difference after k readings depends only on which readings those are:
 * with deviations d from the mean, it is -sum(d) n / (k (n-k)). So the orders
 * none of whose prefixes reaches the observed difference can be counted by
 * adding one reading at a time to sets of readings, 2^n sets in place of n!
 * orders, and the count is the same. */
#include "level_shift.h"

#include <float.h>
#include <stdlib.h>
#include <string.h>

#include "figure.h"
#include "memory.h"
#include "random.h"
#include "sum.h"

enum { MOST_EXACT = 20 };

/* A split is judged by |sum of the first k deviations| / (k (n-k)). */
typedef struct split {
  size_t k;
  double sum, size;
} split;

static double pairs(size_t k, size_t n) {
  return (double)k * (double)(n - k);
}

static split largest_split(const double *deviation, size_t n) {
  split best = {0};
  scwi_sum sum = {0};
  for (size_t k = 1; k + 2 <= n; k++) {
    scwi_sum_add(&sum, deviation[k - 1]);
    double now = scwi_sum_of(sum), size = fabs(now) / pairs(k, n);
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

static size_t bits(size_t set) {
  size_t count = 0;
  for (; set; set &= set - 1)
    count++;
  return count;
}

static size_t lowest(size_t set) {
  size_t place = 0;
  while (!(set >> place & 1U))
    place++;
  return place;
}

/* Orders of the readings in each set of which no prefix reaches `limit`. */
static uint64_t count_silent(const double *deviation, size_t n, double limit,
                             double *sum, uint64_t *silent) {
  size_t sets = (size_t)1 << n;
  sum[0] = 0;
  silent[0] = 1;
  for (size_t set = 1; set < sets; set++) {
    size_t k = bits(set), rest = set & (set - 1);
    sum[set] = sum[rest] + deviation[lowest(set)];
    silent[set] = 0;
    if (k >= 2 && k + 2 <= n && fabs(sum[set]) >= limit * pairs(k, n)) continue;
    for (size_t left = set; left; left &= left - 1)
      silent[set] += silent[set & ~(left & (~left + 1))];
  }
  return silent[sets - 1];
}

static scw_status exact_p(scw_context *context, const scwi_workings *w,
                          double limit, scw_level_shift *out) {
  size_t sets = (size_t)1 << w->n;
  double *sum = NULL;
  uint64_t *silent = NULL, all = 1;
  for (size_t i = 2; i <= w->n; i++)
    all *= i;
  scw_status status = SCWI_ALLOCATE(context, sets, &sum);
  if (status == SCW_OK) status = SCWI_ALLOCATE(context, sets, &silent);
  if (status == SCW_OK) {
    uint64_t reached =
        all - count_silent(w->deviation, w->n, limit, sum, silent);
    out->p = scwi_figure((double)reached / (double)all);
  }
  free(sum);
  free(silent);
  return status;
}

static size_t orders_to_draw(size_t n) {
  return n <= 200 ? 9999 : n <= 2000 ? 999 : n <= 20000 ? 99 : 0;
}

static size_t count_reached(scwi_random *random, double *shuffled, size_t n,
                            double limit, size_t orders) {
  size_t reached = 0;
  for (size_t draw = 0; draw < orders; draw++) {
    for (size_t i = n - 1; i > 0; i--) {
      size_t other = scwi_random_below(random, i + 1);
      double held = shuffled[i];
      shuffled[i] = shuffled[other];
      shuffled[other] = held;
    }
    reached += largest_split(shuffled, n).size >= limit;
  }
  return reached;
}

static scw_status counted_p(scw_context *context, const scwi_workings *w,
                            double limit, unsigned long long seed,
                            scw_level_shift *out) {
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
    size_t reached = count_reached(random, shuffled, w->n, limit, orders);
    out->p = scwi_figure((double)(1 + reached) / (double)(1 + orders));
    out->counted = true;
    out->seed = seed;
    out->orders = orders;
  }
  free(shuffled);
  scwi_random_free(random);
  return status;
}

scw_status scwi_level_shift(scw_context *context, const scwi_workings *w,
                            unsigned long long seed, scw_level_shift *out) {
  scw_presence why = w->n < 2   ? SCW_ONE_READING
                     : w->n < 3 ? SCW_TWO_READINGS
                     : w->n < 4 ? SCW_TOO_FEW
                                : SCW_NO_SCATTER;
  *out = (scw_level_shift){.size = scwi_missing(why), .p = scwi_missing(why)};
  if (w->n < 4 || w->scaled_sd <= 0) return SCW_OK;
  split best = largest_split(w->deviation, w->n);
  out->after_place = best.k;
  out->size = scwi_figure(scwi_unscaled(
      &w->centre, -best.sum * ((double)w->n / pairs(best.k, w->n))));
  double limit = just_below(w, best.size);
  return w->n <= MOST_EXACT ? exact_p(context, w, limit, out)
                            : counted_p(context, w, limit, seed, out);
}
