/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "correlation.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "eigen.h"
#include "memory.h"
#include "number_text.h"

/* What the rounding of entries and of the search for eigenvalues explains. */
static const double rounding = 1e-10;

double scwi_correlation_of(const double *correlation, size_t n, size_t i,
                           size_t j) {
  return correlation ? correlation[i * n + j] : i == j;
}

double scwi_correlation_row(const double *correlation, const double *s,
                            size_t n, size_t i) {
  double sum = 0;
  if (!correlation) return s[i];
  for (size_t j = 0; j < n; j++)
    sum += correlation[i * n + j] * s[j];
  return sum;
}

static scw_status check_entries(scw_context *context, const char *const *name,
                                const double *r, size_t n) {
  char shown[SCWI_NUMBER_SIZE];
  for (size_t i = 0; i < n; i++)
    for (size_t j = 0; j < n; j++) {
      double entry = r[i * n + j];
      if (i == j && entry != 1)
        return scwi_fail(context, SCW_BAD_INPUT,
                         "the correlation of `%s` with itself must be 1",
                         name[i]);
      if (!(fabs(entry) <= 1))
        return scwi_fail(context, SCW_BAD_INPUT,
                         "the correlation of `%s` and `%s` is %s; it must lie "
                         "from -1 to 1",
                         name[i], name[j], scwi_number_text(entry, shown));
      if (entry != r[j * n + i])
        return scwi_fail(context, SCW_BAD_INPUT,
                         "the correlation of `%s` and `%s` is given twice with "
                         "different numbers",
                         name[i], name[j]);
    }
  return SCW_OK;
}

/* The two inputs the first eigenvector rests on most. */
static void heaviest(const double *vectors, size_t n, size_t *first,
                     size_t *second) {
  *first = 0;
  for (size_t i = 1; i < n; i++)
    if (fabs(vectors[i * n]) > fabs(vectors[*first * n])) *first = i;
  *second = *first == 0 && n > 1 ? 1 : 0;
  for (size_t i = 0; i < n; i++)
    if (i != *first && fabs(vectors[i * n]) > fabs(vectors[*second * n]))
      *second = i;
}

static scw_status check_eigenvalues(scw_context *context,
                                    const char *const *name,
                                    const double *values, const double *vectors,
                                    size_t n) {
  char shown[SCWI_NUMBER_SIZE];
  size_t first, second;
  if (values[0] >= -rounding) return SCW_OK;
  heaviest(vectors, n, &first, &second);
  return scwi_fail(
      context, SCW_BAD_INPUT,
      "these correlations cannot all hold: the matrix is not positive "
      "semi-definite, its smallest eigenvalue is %s (look at `%s` and `%s` "
      "first). If the correlations were rounded, give more digits",
      scwi_significant_text(values[0], 3, shown), name[first], name[second]);
}

scw_status scwi_correlation_check(scw_context *context, const char *const *name,
                                  const double *correlation, size_t n) {
  double *room;
  scw_status status = check_entries(context, name, correlation, n);
  if (status || n == 0) return status;
  status = SCWI_ALLOCATE(context, n * (2 * n + 1), &room);
  if (status) return status;
  double *copy = room, *vectors = room + n * n, *values = room + 2 * n * n;
  memcpy(copy, correlation, n * n * sizeof *copy);
  status = scwi_symmetric_eigen(context, copy, n, values, vectors);
  if (!status) status = check_eigenvalues(context, name, values, vectors, n);
  free(room);
  return status;
}

static void spread(const double *r, const bool *used, size_t n, size_t from,
                   size_t number, size_t *group) {
  bool more = true;
  group[from] = number;
  while (more) {
    more = false;
    for (size_t i = 0; i < n; i++)
      for (size_t j = 0; j < n; j++)
        if (used[i] && used[j] && group[i] == number && group[j] == 0 &&
            r[i * n + j] != 0) {
          group[j] = number;
          more = true;
        }
  }
}

void scwi_correlation_groups(const double *correlation, const bool *used,
                             size_t n, size_t *group) {
  size_t number = 0;
  memset(group, 0, n * sizeof *group);
  if (!correlation) return;
  for (size_t i = 0; i < n; i++) {
    bool alone = true;
    for (size_t j = 0; j < n; j++)
      if (j != i && used[j] && correlation[i * n + j] != 0) alone = false;
    if (used[i] && !alone && group[i] == 0)
      spread(correlation, used, n, i, ++number, group);
  }
}
