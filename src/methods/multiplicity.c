/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "multiplicity.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#include "memory.h"

double scwi_bonferroni_level(double level, size_t k) {
  return 1 - (1 - level) / (double)(k ? k : 1);
}

/* Smaller p first, NaN last, equal ones in their own order. */
static int by_p(const void *left, const void *right) {
  const double *a = *(const double *const *)left,
               *b = *(const double *const *)right;
  if (isnan(*a) != isnan(*b)) return isnan(*a) ? 1 : -1;
  if (*a != *b && !isnan(*a)) return *a < *b ? -1 : 1;
  return a < b ? -1 : a > b;
}

scw_status scwi_adjust_p(scw_context *context, const double *p, size_t k,
                         double *holm, double *q) {
  const double **order;
  scw_status status = SCWI_ALLOCATE(context, k, &order);
  if (status != SCW_OK) return status;
  for (size_t i = 0; i < k; i++)
    order[i] = p + i;
  qsort(order, k, sizeof *order, by_p);
  double highest = 0, lowest = 1;
  for (size_t i = 0; i < k && holm; i++) {
    highest = fmax(highest, fmin(1, (double)(k - i) * *order[i]));
    holm[order[i] - p] = isnan(*order[i]) ? *order[i] : highest;
  }
  for (size_t i = k; i-- > 0 && q;) {
    if (!isnan(*order[i]))
      lowest = fmin(lowest, (double)k / (double)(i + 1) * *order[i]);
    q[order[i] - p] = isnan(*order[i]) ? *order[i] : lowest;
  }
  free((void *)order);
  return SCW_OK;
}

/* In place. */
static scw_status replace(scw_context *context, double *p, size_t k,
                          bool by_holm) {
  double *out;
  scw_status status = SCWI_ALLOCATE(context, k, &out);
  if (status != SCW_OK) return status;
  status = scwi_adjust_p(context, p, k, by_holm ? out : NULL,
                         by_holm ? NULL : out);
  if (status == SCW_OK && k) memcpy(p, out, k * sizeof *p);
  free(out);
  return status;
}

scw_status scwi_holm(scw_context *context, double *p, size_t k) {
  return replace(context, p, k, true);
}

scw_status scwi_benjamini_hochberg(scw_context *context, double *p, size_t k) {
  return replace(context, p, k, false);
}
