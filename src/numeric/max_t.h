/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The largest of n values |T_i|, T_i = Z_i/S with one S = sqrt(chi2(df)/df) and
 * standard normal Z_i of correlation lambda_i lambda_j: several products
 * against one control (Dunnett 1955). */
#ifndef SCWI_MAX_T_H
#define SCWI_MAX_T_H

#include <stddef.h>

#include "studentised.h"

enum { SCWI_MAX_T_SIZE = 100 };

/* Those of one lambda. */
typedef struct scwi_alike {
  double lambda, rest; /* rest = sqrt(1 - lambda^2) */
  double count;
} scwi_alike;

/* Its tails and quantiles: scwi_studentised_upper(context, &max_t.of, ...). */
typedef struct scwi_max_t {
  scwi_studentised of;
  scw_context *context;
  scwi_alike alike[SCWI_MAX_T_SIZE]; /* by rising lambda */
  size_t n;
  double w; /* of the tail being worked out */
} scwi_max_t;

/* 1 to SCWI_MAX_T_SIZE values, 0 <= lambda <= 1; SCW_BAD_ARGUMENT else. The
 * context must outlive *out. */
scw_status scwi_max_t_of(scw_context *context, const double *lambda, size_t n,
                         scwi_max_t *out);

#endif
