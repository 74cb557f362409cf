/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bartels, The rank version of von Neumann's ratio test for randomness, JASA
 * 77, 1982, 40-46. Midranks are doubled to stay whole numbers. */
#include "serial.h"

#include <stdlib.h>

#include "distributions.h"
#include "figure.h"
#include "memory.h"
#include "sum.h"

enum { MOST_EXACT = 9 };

static double lag1(const scwi_workings *w) {
  scwi_sum products = {0};
  const double *d = w->deviation;
  for (size_t i = 1; i < w->n; i++)
    scwi_sum_add(&products, d[i - 1] * d[i]);
  double squares = w->scaled_sd * w->scaled_sd * (double)(w->n - 1);
  return scwi_sum_of(products) / squares;
}

/* Twice the midrank of every reading, in reading order. */
static void doubled_midranks(const scwi_workings *w, double *out) {
  for (size_t first = 0, next; first < w->n; first = next) {
    size_t rank = w->rank[w->place[first]];
    next = first + 1;
    while (next < w->n && w->rank[w->place[next]] == rank)
      next++;
    for (size_t k = first; k < next; k++)
      out[w->place[k]] = (double)(first + next + 1);
  }
}

/* All orders of up to nine ranks, gone through once. An order and its reverse
 * have the same steps, so only those with the first rank before the second are
 * visited. */
typedef struct orders {
  const double *rank;
  size_t n;
  double observed; /* sum of squared steps */
  size_t at_most, at_least, all;
} orders;

static void visit(orders *o, unsigned used, size_t last, double steps) {
  if (used == (1U << o->n) - 1) {
    o->at_most += steps <= o->observed;
    o->at_least += steps >= o->observed;
    o->all++;
    return;
  }
  for (size_t next = 0; next < o->n; next++) {
    if (used >> next & 1U || (next == 1 && !(used & 1U))) continue;
    double step = used ? o->rank[next] - o->rank[last] : 0;
    visit(o, used | 1U << next, next, steps + step * step);
  }
}

static double exact_p(const double *rank, size_t n, double observed) {
  orders o = {.rank = rank, .n = n, .observed = observed};
  visit(&o, 0, 0, 0);
  size_t fewer = o.at_most < o.at_least ? o.at_most : o.at_least;
  return fmin(1, 2 * (double)fewer / (double)o.all);
}

static double beta_p(double ratio, size_t n) {
  double m = (double)n;
  double shape = 5 * m * (m + 1) * (m - 1) * (m - 1) /
                     (2 * (m - 2) * (5 * m * m - 2 * m - 9)) -
                 0.5;
  double lower = scwi_beta_cdf(ratio / 4, shape, shape);
  double upper = scwi_beta_upper(ratio / 4, shape, shape);
  return fmin(1, 2 * fmin(lower, upper));
}

static void rank_von_neumann(const double *rank, size_t n, scw_serial *out) {
  scwi_sum steps = {0}, squares = {0};
  double middle = (double)(n + 1);
  for (size_t i = 0; i < n; i++) {
    double step = i ? rank[i] - rank[i - 1] : 0, away = rank[i] - middle;
    scwi_sum_add(&steps, step * step);
    scwi_sum_add(&squares, away * away);
  }
  double observed = scwi_sum_of(steps);
  double ratio = observed / scwi_sum_of(squares);
  out->rank_von_neumann = scwi_figure(ratio);
  out->lag1_p = scwi_figure(n <= MOST_EXACT ? exact_p(rank, n, observed)
                                            : beta_p(ratio, n));
}

scw_status scwi_serial(scw_context *context, const scwi_workings *w,
                       scw_serial *out) {
  scw_presence why = w->n < 2   ? SCW_ONE_READING
                     : w->n < 3 ? SCW_TWO_READINGS
                                : SCW_NO_SCATTER;
  out->lag1 = out->lag1_p = out->rank_von_neumann = scwi_missing(why);
  if (w->n < 3 || w->scaled_sd <= 0) return SCW_OK;
  double *rank;
  scw_status status = SCWI_ALLOCATE(context, w->n, &rank);
  if (status != SCW_OK) return status;
  doubled_midranks(w, rank);
  out->lag1 = scwi_figure(lag1(w));
  rank_von_neumann(rank, w->n, out);
  free(rank);
  return SCW_OK;
}
