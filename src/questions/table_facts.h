/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What holds for a whole table: one unit, one geometry, one display step. */
#ifndef SCWI_TABLE_FACTS_H
#define SCWI_TABLE_FACTS_H

#include "scatterwise/readings.h"
#include "values.h"

typedef struct scwi_table_facts {
  scwi_table_decimals decimals; /* ticks owned */
  scw_step step;                /* in the unit as written */
  const char *unit;             /* borrowed from the table; "" */
  const char *quantity;         /* "" */
  const char *name;             /* of the first input */
  const char *geometry;         /* "" */
} scwi_table_facts;

/* SCW_BAD_INPUT for a table without readings, with two units or with two
 * geometries. */
scw_status scwi_table_facts_of(scw_context *context, const scw_table *table,
                               const scw_settings *settings,
                               scwi_table_facts *out);
void scwi_table_facts_free(scwi_table_facts *facts);

/* The failure of readings at two angles, met in `line`. */
scw_status scwi_fail_geometries(scw_context *context, const char *name,
                                size_t line, const char *geometry,
                                const char *before);

/* A step in another unit: the coefficient's, for pulls over a block. */
scw_step scwi_step_over(scw_step step, double divisor);

#endif
