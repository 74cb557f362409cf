/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures of a summary by their keys: one list for JSON and CSV, so that a
 * key means the same in both. */
#ifndef SCWI_FIELDS_H
#define SCWI_FIELDS_H

#include "scatterwise/comparison.h"
#include "scatterwise/readings.h"

typedef struct scwi_field {
  const char *key;
  size_t offset; /* of the scw_figure in its struct */
} scwi_field;

static inline scw_figure scwi_field_of(const void *from, scwi_field field) {
  const char *at = (const char *)from + field.offset;
  return *(const scw_figure *)(const void *)at;
}

/* Figures that stand directly in a summary's object. */
extern const scwi_field scwi_summary_fields[];
extern const size_t scwi_n_summary_fields;

/* The display step as a figure, and the code of its origin. */
scw_figure scwi_step_figure(scw_step step);
const char *scwi_step_origin_code(scw_step_origin origin);

const char *scwi_stand_out_code(scw_stand_out_test test);

/* What the numbers of a settle count: "spot" or "reading_per_side". */
const char *scwi_settle_per(const scw_settle *settle);

#endif
