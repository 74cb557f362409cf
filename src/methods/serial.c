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

/* Appends the sums of squared steps of all ways from `at` through `set`. */
static size_t walks(const double *rank, unsigned set, size_t at, double steps,
                    double *out, size_t count) {
  if (!set) out[count++] = steps;
  for (size_t next = 0; set >> next; next++) {
    if (!(set >> next & 1U)) continue;
    double step = rank[next] - rank[at];
    count =
        walks(rank, set & ~(1U << next), next, steps + step * step, out, count);
  }
  return count;
}

typedef struct tally {
  size_t at_most, at_least, all;
} tally;

/* All orders with this reading in the middle and `left` before it, every way
 * back through `left` being joined with every way on through `right`. */
static void add_orders(const double *rank, size_t middle, unsigned left,
                       unsigned right, double observed, tally *orders) {
  double before[24], after[24]; /* 4! ways at most */
  size_t n_before = walks(rank, left, middle, 0, before, 0);
  size_t n_after = walks(rank, right, middle, 0, after, 0);
  for (size_t i = 0; i < n_before; i++) {
    for (size_t k = 0; k < n_after; k++) {
      orders->at_most += before[i] + after[k] <= observed;
      orders->at_least += before[i] + after[k] >= observed;
    }
  }
  orders->all += n_before * n_after;
}

static size_t size_of(unsigned set) {
  size_t size = 0;
  for (; set; set &= set - 1)
    size++;
  return size;
}

static double exact_p(const double *rank, size_t n, double observed) {
  tally orders = {0};
  for (size_t middle = 0; middle < n; middle++) {
    unsigned others = ((1U << n) - 1) & ~(1U << middle);
    for (unsigned left = 0; left <= others; left++)
      if (!(left & ~others) && size_of(left) == (n - 1) / 2)
        add_orders(rank, middle, left, others & ~left, observed, &orders);
  }
  size_t fewer =
      orders.at_most < orders.at_least ? orders.at_most : orders.at_least;
  return fmin(1, 2 * (double)fewer / (double)orders.all);
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
