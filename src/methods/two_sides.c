/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "two_sides.h"

#include <math.h>
#include <stdlib.h>

#include "correlation.h"
#include "memory.h"

/* Slopes add up to no more than this part of the larger: it cancels. */
static const double nothing = 1e-12;

bool scwi_two_sides_cancels(double a, double b) {
  return fabs(a + b) <= nothing * fmax(fabs(a), fabs(b));
}

/* The covariance of inputs i and j by slopes c. */
static double covariance(const double *c, const double *u,
                         const double *correlation, size_t n, size_t i,
                         size_t j) {
  return c[i] * u[i] * scwi_correlation_of(correlation, n, i, j) * c[j] * u[j];
}

double scwi_two_sides_variance(const double *a, const double *b,
                               const bool *shared, const double *u,
                               const double *correlation, size_t n) {
  double sum = 0;
  for (size_t i = 0; i < n; i++)
    for (size_t j = 0; j < n; j++) {
      if (shared[i] != shared[j] || (i != j && !correlation)) continue;
      if (shared[i]) {
        double ci = scwi_two_sides_cancels(a[i], b[i]) ? 0 : a[i] + b[i];
        double cj = scwi_two_sides_cancels(a[j], b[j]) ? 0 : a[j] + b[j];
        sum += ci * u[i] * scwi_correlation_of(correlation, n, i, j) * cj * u[j];
      } else {
        sum += covariance(a, u, correlation, n, i, j) +
               covariance(b, u, correlation, n, i, j);
      }
    }
  return sum > 0 ? sum : 0;
}

scw_status scwi_two_sides_shared(scw_context *context,
                                 const double *correlation, size_t n,
                                 bool *shared) {
  size_t *group = NULL;
  bool *used = NULL;
  if (!correlation) return SCW_OK;
  scw_status status = SCWI_ALLOCATE(context, n, &group);
  if (!status) status = SCWI_ALLOCATE(context, n, &used);
  for (size_t i = 0; i < n && !status; i++) used[i] = true;
  if (!status) scwi_correlation_groups(correlation, used, n, group);
  for (size_t i = 0; i < n && !status; i++)
    for (size_t j = 0; group[i] && j < n; j++)
      if (group[j] == group[i] && !shared[j]) shared[i] = false;
  free(used);
  free(group);
  return status;
}
