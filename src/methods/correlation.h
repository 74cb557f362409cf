/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Correlation matrices of inputs: n x n, row after row; null means that all
 * inputs are independent. */
#ifndef SCWI_CORRELATION_H
#define SCWI_CORRELATION_H

#include <stdbool.h>

#include "context.h"

/* SCW_BAD_INPUT unless it can be a correlation matrix: 1 on the diagonal,
 * symmetric, entries within -1 .. 1, no eigenvalue below 0 (beyond rounding,
 * 1e-10). The message names the entry, or the smallest eigenvalue and the
 * inputs it rests on. `name` are the inputs. */
scw_status scwi_correlation_check(scw_context *context, const char *const *name,
                                  const double *correlation, size_t n);

double scwi_correlation_of(const double *correlation, size_t n, size_t i,
                           size_t j);

/* Row i of R times s. */
double scwi_correlation_row(const double *correlation, const double *s,
                            size_t n, size_t i);

/* Inputs that are correlated, directly or through others, share a number from
 * 1 on; an input on its own has 0. Inputs not `used` count for nothing. */
void scwi_correlation_groups(const double *correlation, const bool *used,
                             size_t n, size_t *group);

#endif
