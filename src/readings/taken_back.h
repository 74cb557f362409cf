/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings that a later row takes back: they stay in the file and no longer
 * count. */
#ifndef SCWI_TAKEN_BACK_H
#define SCWI_TAKEN_BACK_H

#include "table.h"

/* One row that takes back an earlier one. */
typedef struct scwi_taking {
  double order;      /* of the reading meant */
  size_t line;
  size_t readings;   /* how many readings stood above it */
} scwi_taking;

typedef struct scwi_takings {
  scwi_taking *taking;
  size_t n, capacity;
} scwi_takings;

/* Takes the readings meant out of the table (since `first`) and puts them into
 * the account: of those above the row with that order number, the nearest. A
 * row of several readings goes as one. SCW_BAD_INPUT when there is none. With
 * `first_only` the readings left that replace earlier ones go as well. */
scw_status scwi_table_take_back(scw_context *context, scw_table *table,
                                const scwi_takings *takings, bool first_only);

#endif
