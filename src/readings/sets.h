/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings grouped into sets, with the arrays methods want. */
#ifndef SCWI_SETS_H
#define SCWI_SETS_H

#include "context.h"
#include "decimal.h"
#include "scatterwise/table.h"
#include "set_keys.h"

typedef struct scwi_set {
  scwi_set_key key;
  char *label;           /* the parts that differ between sets, joined by
                            " / "; the input's name when nothing differs */
  size_t *reading;       /* indices into the table, in reading order (the
                            order column where every reading of the set has
                            one, else file order) */
  size_t n;
} scwi_set;

typedef struct scwi_sets {
  scwi_set *set;
  size_t n;
} scwi_sets;

/* Groups all readings of the table in order of first appearance; where several
 * columns hold readings, an empty cell is an appearance too, so that their sets
 * come in the order of the columns. */
scw_status scwi_sets_of(scw_context *context, const scw_table *table,
                        scwi_sets *out);
void scwi_sets_free(scwi_sets *sets);

/* Sorts n readings of the table by their order, stably; left alone where one
 * of them has none. */
scw_status scwi_sort_by_order(scw_context *context, const scw_table *table,
                              size_t *reading, size_t n);

/* Every reading's value in whole units of 10^-digits, digits being the most
 * used anywhere in the table; *ticks is null (and SCW_OK returned) when no
 * common decimal exists. One array for the whole table, freed by the caller. */
scw_status scwi_table_ticks(scw_context *context, const scw_table *table,
                            int64_t **ticks, int *digits);
#endif
