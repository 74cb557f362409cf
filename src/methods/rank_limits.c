/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Probabilities are built from smaller samples by adding positive terms only,
 * so they keep all digits but the last few. */
#include "rank_limits.h"

#include <stdlib.h>

#include "memory.h"

#define MOST_STEPS 1e8

/* A tail met exactly counts as met. */
static void find_limit(const double *probability, size_t n, double tail,
                       scwi_rank_limit *out) {
  double sum = 0;
  for (size_t u = 0; u < n; u++) {
    sum += probability[u];
    if (sum > tail * (1 + 1e-12)) return;
    out->from_end = u + 1;
    out->beyond = sum;
  }
}

/* Rows hold P(U = u) for j readings against the ones so far, u below
 * `width`. The largest of all is one of the j, which adds `others` to U, or
 * it is not. */
static void add_reading(double *rows, size_t width, size_t m, size_t others) {
  for (size_t j = 1; j <= m; j++) {
    double *row = rows + j * width;
    const double *shorter = row - width;
    double all = (double)(j + others), out = (double)others / all;
    for (size_t u = 0; u < width; u++)
      row[u] *= out;
    for (size_t u = others; u < width; u++)
      row[u] += (double)j / all * shorter[u - others];
  }
}

scw_status scwi_u_limit(scw_context *context, size_t m, size_t n, double tail,
                        scwi_rank_limit *out) {
  double pairs = (double)m * (double)n, *rows;
  *out = (scwi_rank_limit){.too_many = pairs * pairs / 2 > MOST_STEPS};
  if (out->too_many) return SCW_OK;
  if (m > n) return scwi_u_limit(context, n, m, tail, out);
  size_t width = m * n / 2 + 1;
  scw_status status = SCWI_ALLOCATE(context, (m + 1) * width, &rows);
  if (status != SCW_OK) return status;
  for (size_t j = 0; j <= m; j++)
    rows[j * width] = 1;
  for (size_t others = 1; others <= n; others++)
    add_reading(rows, width, m, others);
  find_limit(rows + m * width, width, tail, out);
  free(rows);
  return SCW_OK;
}

scw_status scwi_signed_rank_limit(scw_context *context, size_t m, double tail,
                                  scwi_rank_limit *out) {
  double size = (double)m, *row;
  *out = (scwi_rank_limit){.too_many = size * size * size / 4 > MOST_STEPS};
  if (out->too_many) return SCW_OK;
  size_t width = m * (m + 1) / 4 + 1;
  scw_status status = SCWI_ALLOCATE(context, width, &row);
  if (status != SCW_OK) return status;
  row[0] = 1;
  for (size_t rank = 1; rank <= m; rank++)
    for (size_t s = width; s-- > 0;)
      row[s] = (row[s] + (s >= rank ? row[s - rank] : 0)) / 2;
  find_limit(row, width, tail, out);
  free(row);
  return SCW_OK;
}
