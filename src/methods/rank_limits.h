/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far in from the ends a rank interval may start: exact distributions of
 * U (Mann & Whitney 1947) and of the signed-rank sum (Wilcoxon 1945), without
 * ties. */
#ifndef SCWI_RANK_LIMITS_H
#define SCWI_RANK_LIMITS_H

#include <stdbool.h>

#include "context.h"

/* The C-th smallest and C-th largest of the differences (or means of two
 * differences) close the interval. */
typedef struct scwi_rank_limit {
  size_t from_end; /* C; 0: even the outermost leaves out too much */
  double beyond;   /* P(statistic <= C-1), at most the tail asked for */
  bool too_many;   /* not counted */
} scwi_rank_limit;

/* U of m and n readings; about (m n)^2 / 2 steps, at most 1e8. */
scw_status scwi_u_limit(scw_context *context, size_t m, size_t n, double tail,
                        scwi_rank_limit *out);
/* Signed ranks of m differences; about m^3 / 4 steps, at most 1e8. */
scw_status scwi_signed_rank_limit(scw_context *context, size_t m, double tail,
                                  scwi_rank_limit *out);
#endif
