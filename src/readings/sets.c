/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sets.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "memory.h"

/* Which set every reading belongs to; counts in set[].n. */
static scw_status assign(scw_context *context, const scw_table *table,
                         scwi_set_index *index, size_t *set_of,
                         scwi_sets *sets) {
  scw_status status = SCW_OK;
  size_t n = scw_table_size(table);
  for (size_t i = 0; i < n && status == SCW_OK; i++) {
    scwi_set_key key = scwi_set_key_of(scw_table_readings(table) + i,
                                       scw_table_input_of(table, i));
    status = scwi_set_index_find(context, index, &key, set_of + i);
  }
  if (status == SCW_OK) status = SCWI_ALLOCATE(context, index->n, &sets->set);
  if (status != SCW_OK) return status;
  sets->n = index->n;
  for (size_t s = 0; s < index->n; s++) sets->set[s].key = index->key[s];
  for (size_t i = 0; i < n; i++) sets->set[set_of[i]].n++;
  return SCW_OK;
}

/* Stable by the order column. */
typedef struct placed {
  double order;
  size_t reading;
} placed;

static int by_order(const void *left, const void *right) {
  const placed *a = left, *b = right;
  if (a->order != b->order) return a->order < b->order ? -1 : 1;
  return a->reading < b->reading ? -1 : 1;
}

/* A set with a reading whose order is not known stays as in the file. */
static scw_status sort_set(scw_context *context, const scw_table *table,
                           scwi_set *set) {
  const scw_reading *readings = scw_table_readings(table);
  placed *room;
  for (size_t i = 0; i < set->n; i++)
    if (isnan(readings[set->reading[i]].order)) return SCW_OK;
  scw_status status = SCWI_ALLOCATE(context, set->n, &room);
  if (status != SCW_OK) return status;
  for (size_t i = 0; i < set->n; i++)
    room[i] = (placed){readings[set->reading[i]].order, set->reading[i]};
  qsort(room, set->n, sizeof *room, by_order);
  for (size_t i = 0; i < set->n; i++) set->reading[i] = room[i].reading;
  free(room);
  return SCW_OK;
}

static scw_status fill(scw_context *context, const scw_table *table,
                       scwi_sets *sets, const size_t *set_of) {
  scw_status status = SCW_OK;
  for (size_t s = 0; s < sets->n && status == SCW_OK; s++) {
    status = SCWI_ALLOCATE(context, sets->set[s].n, &sets->set[s].reading);
    sets->set[s].n = 0;
  }
  for (size_t i = 0; i < scw_table_size(table) && status == SCW_OK; i++) {
    scwi_set *set = sets->set + set_of[i];
    set->reading[set->n++] = i;
  }
  for (size_t s = 0; s < sets->n && status == SCW_OK; s++)
    status = sort_set(context, table, sets->set + s);
  return status;
}

static scw_status label_sets(scw_context *context, const scw_table *table,
                             const scwi_set_index *index, scwi_sets *sets) {
  scwi_set_parts parts = scwi_set_parts_of(table, index->key, index->n);
  scw_status status = SCW_OK;
  for (size_t s = 0; s < sets->n && status == SCW_OK; s++)
    status = scwi_set_label(context, table, &sets->set[s].key, &parts,
                            &sets->set[s].label);
  return status;
}

scw_status scwi_sets_of(scw_context *context, const scw_table *table,
                        scwi_sets *out) {
  scwi_set_index index = {0};
  size_t *set_of;
  *out = (scwi_sets){0};
  scw_status status = SCWI_ALLOCATE(context, scw_table_size(table), &set_of);
  if (status == SCW_OK) status = assign(context, table, &index, set_of, out);
  if (status == SCW_OK) status = fill(context, table, out, set_of);
  if (status == SCW_OK) status = label_sets(context, table, &index, out);
  scwi_set_index_free(&index);
  free(set_of);
  if (status != SCW_OK) scwi_sets_free(out);
  return status;
}

void scwi_sets_free(scwi_sets *sets) {
  for (size_t i = 0; i < sets->n; i++) {
    free(sets->set[i].label);
    free(sets->set[i].reading);
  }
  free(sets->set);
  *sets = (scwi_sets){0};
}

scw_status scwi_table_ticks(scw_context *context, const scw_table *table,
                            int64_t **ticks, int *digits) {
  const scw_reading *readings = scw_table_readings(table);
  size_t n = scw_table_size(table);
  *digits = INT16_MIN;
  for (size_t i = 0; i < n; i++)
    if (readings[i].digits > *digits) *digits = readings[i].digits;
  scw_status status = SCWI_ALLOCATE(context, n, ticks);
  if (status != SCW_OK) return status;
  for (size_t i = 0; i < n; i++) {
    const scw_reading *r = readings + i;
    scwi_decimal decimal = {r->value, r->mantissa, r->digits, r->exact};
    if (scwi_decimal_ticks(&decimal, *digits, *ticks + i)) continue;
    free(*ticks);
    *ticks = NULL;
    break;
  }
  return SCW_OK;
}
