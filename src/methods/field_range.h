/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The range of the highest restricted likelihood, and the ranges that fit
 * nearly as well. */
#ifndef SCWI_FIELD_RANGE_H
#define SCWI_FIELD_RANGE_H

#include "field.h"

typedef struct scwi_range_found {
  double range, nugget;  /* in the unit of the places */
  double gain;           /* twice the log likelihood above independent places */
  bool beyond;           /* the likelihood still rises at the longest range */
  scw_figure low, high;  /* ends of the profile likelihood interval */
} scwi_range_found;

/* Looked for between a fifth of the typical distance of nearest neighbours and
 * ten diagonals of the panel; deterministic. Leaves the field anywhere. */
scw_status scwi_field_range(scw_context *context, scwi_field *field,
                            double level, scwi_range_found *out);

#endif
