/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sets.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "memory.h"
#include "table.h"

/* The sets of one input that has an order of its own come in that order. */
static scw_status expect(scw_context *context, const scw_table *table,
                         size_t input, scwi_set_index *index) {
  const scwi_set_index *order = &table->input[input].order;
  scw_status status = SCW_OK;
  for (size_t i = 0; i < order->n && status == SCW_OK; i++) {
    scwi_set_key key = order->key[i];
    size_t number;
    key.input = input;
    status = scwi_set_index_find(context, index, &key, &number);
  }
  return status;
}

/* Which key every reading belongs to. */
static scw_status find_keys(scw_context *context, const scw_table *table,
                            scwi_set_index *index, size_t *key_of) {
  scw_status status = SCW_OK;
  size_t expected = 0; /* inputs whose sets are in the index */
  for (size_t i = 0; i < scw_table_size(table) && status == SCW_OK; i++) {
    size_t input = scw_table_input_of(table, i);
    for (; expected <= input && status == SCW_OK; expected++)
      status = expect(context, table, expected, index);
    scwi_set_key key = scwi_set_key_of(scw_table_readings(table) + i, input);
    if (status == SCW_OK)
      status = scwi_set_index_find(context, index, &key, key_of + i);
  }
  return status;
}

/* Sets of the keys that have readings, counts in set[].n; set_of[] goes from
 * keys to sets. */
static scw_status assign(scw_context *context, const scw_table *table,
                         const scwi_set_index *index, size_t *set_of,
                         scwi_sets *sets) {
  size_t *number, n = scw_table_size(table);
  scw_status status = SCWI_ALLOCATE(context, index->n, &number);
  if (status == SCW_OK) status = SCWI_ALLOCATE(context, index->n, &sets->set);
  for (size_t i = 0; i < n && status == SCW_OK; i++) number[set_of[i]] = 1;
  for (size_t k = 0; k < index->n && status == SCW_OK; k++) {
    if (!number[k]) continue;
    sets->set[sets->n].key = index->key[k];
    number[k] = sets->n++;
  }
  for (size_t i = 0; i < n && status == SCW_OK; i++) {
    set_of[i] = number[set_of[i]];
    sets->set[set_of[i]].n++;
  }
  free(number);
  return status;
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

scw_status scwi_sort_by_order(scw_context *context, const scw_table *table,
                              size_t *reading, size_t n) {
  const scw_reading *readings = scw_table_readings(table);
  placed *room;
  bool sorted = true;
  for (size_t i = 0; i < n; i++) {
    if (isnan(readings[reading[i]].order)) return SCW_OK;
    sorted = sorted && (i == 0 || readings[reading[i - 1]].order <=
                                      readings[reading[i]].order);
  }
  if (sorted) return SCW_OK;
  scw_status status = SCWI_ALLOCATE(context, n, &room);
  if (status != SCW_OK) return status;
  for (size_t i = 0; i < n; i++)
    room[i] = (placed){readings[reading[i]].order, reading[i]};
  qsort(room, n, sizeof *room, by_order);
  for (size_t i = 0; i < n; i++) reading[i] = room[i].reading;
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
    status = scwi_sort_by_order(context, table, sets->set[s].reading,
                                sets->set[s].n);
  return status;
}

static scw_status label_sets(scw_context *context, const scw_table *table,
                             scwi_sets *sets) {
  scwi_set_key *key = NULL;
  scw_status status = SCWI_ALLOCATE(context, sets->n, &key);
  if (status != SCW_OK) return status;
  for (size_t s = 0; s < sets->n; s++) key[s] = sets->set[s].key;
  scwi_set_parts parts = scwi_set_parts_of(table, key, sets->n);
  free(key);
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
  if (status == SCW_OK) status = find_keys(context, table, &index, set_of);
  if (status == SCW_OK) status = assign(context, table, &index, set_of, out);
  if (status == SCW_OK) status = fill(context, table, out, set_of);
  if (status == SCW_OK) status = label_sets(context, table, out);
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
