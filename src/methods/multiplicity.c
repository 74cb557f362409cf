/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "multiplicity.h"

#include <math.h>
#include <stdlib.h>

#include "memory.h"

double scwi_bonferroni_level(double level, size_t k) {
  return 1 - (1 - level) / (double)(k ? k : 1);
}

/* Smaller p first, NaN last, equal ones in their own order. */
static int by_p(const void *left, const void *right) {
  const double *a = *(double *const *)left, *b = *(double *const *)right;
  if (isnan(*a) != isnan(*b)) return isnan(*a) ? 1 : -1;
  if (*a != *b && !isnan(*a)) return *a < *b ? -1 : 1;
  return a < b ? -1 : a > b;
}

static scw_status sorted(scw_context *context, double *p, size_t k,
                         double ***out) {
  scw_status status = SCWI_ALLOCATE(context, k, out);
  if (status != SCW_OK) return status;
  for (size_t i = 0; i < k; i++)
    (*out)[i] = p + i;
  qsort(*out, k, sizeof **out, by_p);
  return SCW_OK;
}

scw_status scwi_holm(scw_context *context, double *p, size_t k) {
  double **order, highest = 0;
  scw_status status = sorted(context, p, k, &order);
  if (status != SCW_OK) return status;
  for (size_t i = 0; i < k && !isnan(*order[i]); i++) {
    highest = fmax(highest, fmin(1, (double)(k - i) * *order[i]));
    *order[i] = highest;
  }
  free(order);
  return SCW_OK;
}

scw_status scwi_benjamini_hochberg(scw_context *context, double *p, size_t k) {
  double **order, lowest = 1;
  scw_status status = sorted(context, p, k, &order);
  if (status != SCW_OK) return status;
  for (size_t i = k; i-- > 0;) {
    if (isnan(*order[i])) continue;
    lowest = fmin(lowest, (double)k / (double)(i + 1) * *order[i]);
    *order[i] = lowest;
  }
  free(order);
  return SCW_OK;
}
