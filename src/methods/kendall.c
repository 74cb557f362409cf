/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "kendall.h"

#include <stdlib.h>
#include <string.h>

#include "distributions.h"
#include "figure.h"
#include "kendall_exact.h"
#include "memory.h"

enum { MOST_EXACT = 50, MOST_EXACT_TIED = 9 };

/* Merges two sorted runs and counts the pairs that stood in falling order. */
static double merge(const size_t *from, size_t *to, size_t low, size_t middle,
                    size_t high) {
  double falling = 0;
  size_t left = low, right = middle;
  for (size_t k = low; k < high; k++) {
    if (right == high || (left < middle && from[left] <= from[right])) {
      to[k] = from[left++];
    } else {
      falling += (double)(middle - left);
      to[k] = from[right++];
    }
  }
  return falling;
}

/* Pairs of readings in falling order; `rank` ends up sorted. */
static double falling_pairs(size_t *rank, size_t *room, size_t n) {
  double falling = 0;
  for (size_t width = 1; width < n; width *= 2) {
    for (size_t low = 0; low < n; low += 2 * width) {
      size_t middle = low + width < n ? low + width : n;
      size_t high = middle + width < n ? middle + width : n;
      falling += merge(rank, room, low, middle, high);
    }
    memcpy(rank, room, n * sizeof *rank);
  }
  return falling;
}

/* Pairs of readings that differ. */
static double untied_pairs(const size_t *sorted, size_t n) {
  double pairs = 0;
  for (size_t k = 1, run = 1; k < n; k++) {
    run = sorted[k] == sorted[k - 1] ? run + 1 : 1;
    pairs += (double)(k + 1 - run);
  }
  return pairs;
}

/* Multiplies the counts by 1 + q + ... + q^(i-1), or divides by it. */
static void times(double *count, size_t length, size_t i) {
  for (size_t k = length; k-- > i;)
    count[k] -= count[k - i];
  for (size_t k = 1; k < length; k++)
    count[k] += count[k - 1];
}

static void divided(double *count, size_t length, size_t i) {
  for (size_t k = length; k-- > 1;)
    count[k] -= count[k - 1];
  for (size_t k = i; k < length; k++)
    count[k] += count[k - i];
}

/* Exact p with ties. The different orders of a set by their number of falling
 * pairs are counted by the Gaussian multinomial [n]! / ([t1]! [t2]! ...),
 * [i] = 1 + q + ... + q^(i-1), the t being the sizes of the ties: what going
 * through all n! orders would give, without going through them. */
static double exact_tied(const size_t *sorted, size_t n, double s) {
  enum { LENGTH = MOST_EXACT_TIED * (MOST_EXACT_TIED - 1) / 2 + 1 };
  double count[LENGTH] = {1}, reached = 0, all = 0;
  double untied = untied_pairs(sorted, n);
  for (size_t i = 2; i <= n; i++)
    times(count, LENGTH, i);
  for (size_t k = 1, run = 1; k < n; k++) {
    run = sorted[k] == sorted[k - 1] ? run + 1 : 1;
    if (run > 1) divided(count, LENGTH, run);
  }
  for (size_t k = 0; (double)k <= untied; k++) {
    all += count[k];
    if (fabs(untied - 2 * (double)k) >= fabs(s)) reached += count[k];
  }
  return reached / all;
}

static double normal_p(const size_t *sorted, size_t n, double s) {
  double size = (double)n, run = 1;
  double variance = size * (size - 1) * (2 * size + 5);
  for (size_t k = 1; k <= n; k++) {
    if (k < n && sorted[k] == sorted[k - 1]) {
      run++;
      continue;
    }
    variance -= run * (run - 1) * (2 * run + 5);
    run = 1;
  }
  double z = (fabs(s) - 1) / sqrt(variance / 18);
  return z > 0 ? 2 * scwi_normal_upper(z) : 1;
}

static scw_status p_of(scw_context *context, const scwi_workings *w,
                       const size_t *sorted, double s, double *p) {
  bool tied = w->distinct < w->n;
  if (!tied && w->n <= MOST_EXACT)
    return scwi_kendall_exact_p(context, w->n, (long)s, p);
  *p = tied && w->n <= MOST_EXACT_TIED ? exact_tied(sorted, w->n, s)
                                       : normal_p(sorted, w->n, s);
  return SCW_OK;
}

scw_status scwi_kendall(scw_context *context, const scwi_workings *w,
                        scw_creep *out) {
  scw_presence why = w->n < 2 ? SCW_ONE_READING : SCW_NO_SCATTER;
  out->kendall_s = out->kendall_p = scwi_missing(why);
  if (w->distinct < 2) return SCW_OK;
  size_t *rank = NULL, *room = NULL;
  scw_status status = SCWI_ALLOCATE(context, w->n, &rank);
  if (status == SCW_OK) status = SCWI_ALLOCATE(context, w->n, &room);
  if (status == SCW_OK) {
    memcpy(rank, w->rank, w->n * sizeof *rank);
    double falling = falling_pairs(rank, room, w->n), p;
    double s = untied_pairs(rank, w->n) - 2 * falling;
    status = p_of(context, w, rank, s, &p);
    if (status == SCW_OK) {
      out->kendall_s = scwi_figure(s);
      out->kendall_p = scwi_figure(p);
    }
  }
  free(rank);
  free(room);
  return status;
}
