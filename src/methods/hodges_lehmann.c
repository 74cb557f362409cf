/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "hodges_lehmann.h"

#include <stdlib.h>

#include "figure.h"
#include "memory.h"
#include "rank_limits.h"

enum { MOST_PAIRS = 1000000 };

static int ascending(const void *left, const void *right) {
  double a = *(const double *)left, b = *(const double *)right;
  return (a > b) - (a < b);
}

static scw_hodges_lehmann missing(scw_presence why, double level) {
  return (scw_hodges_lehmann){scwi_missing(why), scwi_no_interval(why, level),
                              scwi_missing(why)};
}

/* Half of each first: the sum of two huge values need not fit. */
static double middle(const double *sorted, size_t n) {
  return n % 2 ? sorted[n / 2] : sorted[n / 2 - 1] / 2 + sorted[n / 2] / 2;
}

static void answer(double *pairs, size_t n, const scwi_rank_limit *limit,
                   double level, scw_hodges_lehmann *out) {
  qsort(pairs, n, sizeof *pairs, ascending);
  out->estimate = scwi_figure(middle(pairs, n));
  if (limit->too_many || limit->from_end == 0) {
    scw_presence why = limit->too_many ? SCW_TOO_MANY : SCW_LEVEL_UNREACHABLE;
    out->interval = scwi_no_interval(why, level);
    out->coverage = scwi_missing(why);
    return;
  }
  out->interval = scwi_interval(pairs[limit->from_end - 1],
                                pairs[n - limit->from_end], level);
  out->coverage = scwi_figure(1 - 2 * limit->beyond);
}

/* Decimals stay decimals where both samples count the same ticks. */
static double difference(const scwi_sample *before, size_t i,
                         const scwi_sample *after, size_t j) {
  int64_t ticks;
  bool same = before->ticks && after->ticks &&
              before->tick_size == after->tick_size;
  if (same &&
      !__builtin_sub_overflow(after->ticks[j], before->ticks[i], &ticks))
    return scwi_sample_unit(after, (double)ticks);
  return after->x[j] - before->x[i];
}

static double mean_of_two(const scwi_sample *s, size_t i, size_t j) {
  int64_t ticks;
  if (s->ticks && !__builtin_add_overflow(s->ticks[i], s->ticks[j], &ticks))
    return scwi_sample_unit(s, (double)ticks / 2);
  return s->x[i] / 2 + s->x[j] / 2;
}

scw_status scwi_hodges_lehmann_unpaired(scw_context *context,
                                        const scwi_sample *before,
                                        const scwi_sample *after, double level,
                                        scw_hodges_lehmann *out) {
  size_t m = before->n, n = after->n, count = 0;
  double *pairs;
  scwi_rank_limit limit;
  *out = missing(m && n ? SCW_TOO_MANY : SCW_TOO_FEW, level);
  if (!m || !n || m > MOST_PAIRS / n) return SCW_OK;
  scw_status status = SCWI_ALLOCATE(context, m * n, &pairs);
  if (status != SCW_OK) return status;
  for (size_t i = 0; i < m; i++)
    for (size_t j = 0; j < n; j++)
      pairs[count++] = difference(before, i, after, j);
  status = scwi_u_limit(context, m, n, (1 - level) / 2, &limit);
  if (status == SCW_OK) answer(pairs, count, &limit, level, out);
  free(pairs);
  return status;
}

scw_status scwi_hodges_lehmann_paired(scw_context *context,
                                      const scwi_sample *differences,
                                      double level, scw_hodges_lehmann *out) {
  size_t m = differences->n, count = 0;
  double *pairs;
  scwi_rank_limit limit;
  *out = missing(m ? SCW_TOO_MANY : SCW_TOO_FEW, level);
  if (!m || m > 2 * MOST_PAIRS / (m + 1)) return SCW_OK;
  scw_status status = SCWI_ALLOCATE(context, m * (m + 1) / 2, &pairs);
  if (status != SCW_OK) return status;
  for (size_t i = 0; i < m; i++)
    for (size_t j = 0; j <= i; j++)
      pairs[count++] = mean_of_two(differences, i, j);
  status = scwi_signed_rank_limit(context, m, (1 - level) / 2, &limit);
  if (status == SCW_OK) answer(pairs, count, &limit, level, out);
  free(pairs);
  return status;
}
