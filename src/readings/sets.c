/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sets.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "memory.h"
#include "text.h"

static scwi_set_key key_of(const scw_table *table, size_t i) {
  const scw_reading *r = scw_table_readings(table) + i;
  bool sided = r->side != SCW_SIDE_NONE;
  return (scwi_set_key){
      .input = scw_table_input_of(table, i),
      .set = r->set, .product = r->product, .panel = r->panel,
      .session = r->session, .state = sided ? SCW_NO_LABEL : r->state,
      .side = r->side};
}

static bool same_key(const scwi_set_key *a, const scwi_set_key *b) {
  return a->input == b->input && a->set == b->set &&
         a->product == b->product && a->panel == b->panel &&
         a->session == b->session && a->state == b->state &&
         a->side == b->side;
}

static size_t hash_of(const scwi_set_key *key) {
  const int64_t parts[] = {(int64_t)key->input, key->set, key->product,
                           key->panel, key->session, key->state,
                           (int64_t)key->side};
  uint64_t hash = 14695981039346656037U;
  for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
    hash = (hash ^ (uint64_t)parts[i]) * 1099511628211U;
    hash ^= hash >> 29;
  }
  return (size_t)(hash ^ hash >> 32);
}

/* Sets found so far, and where to look for them. */
typedef struct finder {
  scwi_sets *sets;
  size_t capacity;
  size_t *slot; /* set number + 1; 0 is free; a power of two of them */
  size_t slots;
} finder;

static scw_status widen(scw_context *context, finder *f) {
  size_t slots = f->slots ? f->slots * 2 : 64, *wider;
  scw_status status = SCWI_ALLOCATE(context, slots, &wider);
  if (status != SCW_OK) return status;
  for (size_t i = 0; i < f->sets->n; i++) {
    size_t at = hash_of(&f->sets->set[i].key) & (slots - 1);
    while (wider[at]) at = (at + 1) & (slots - 1);
    wider[at] = i + 1;
  }
  free(f->slot);
  f->slot = wider;
  f->slots = slots;
  return SCW_OK;
}

static scw_status find(scw_context *context, finder *f,
                       const scwi_set_key *key, size_t *out) {
  scw_status status = SCW_OK;
  if ((f->sets->n + 1) * 2 > f->slots) status = widen(context, f);
  if (status != SCW_OK) return status;
  size_t at = hash_of(key) & (f->slots - 1);
  for (; f->slot[at]; at = (at + 1) & (f->slots - 1)) {
    *out = f->slot[at] - 1;
    if (same_key(&f->sets->set[*out].key, key)) return SCW_OK;
  }
  status =
      SCWI_RESERVE(context, f->sets->n + 1, &f->sets->set, &f->capacity);
  if (status != SCW_OK) return status;
  *out = f->sets->n++;
  f->sets->set[*out] = (scwi_set){.key = *key};
  f->slot[at] = *out + 1;
  return SCW_OK;
}

/* Which set every reading belongs to; counts in set[].n. */
static scw_status assign(scw_context *context, const scw_table *table,
                         finder *f, size_t *set_of) {
  for (size_t i = 0; i < scw_table_size(table); i++) {
    scwi_set_key key = key_of(table, i);
    scw_status status = find(context, f, &key, set_of + i);
    if (status != SCW_OK) return status;
    f->sets->set[set_of[i]].n++;
  }
  return SCW_OK;
}

/* Stable by the order column; readings without an order come last. */
typedef struct placed {
  double order;
  size_t reading;
} placed;

static int by_order(const void *left, const void *right) {
  const placed *a = left, *b = right;
  bool no_a = isnan(a->order), no_b = isnan(b->order);
  if (no_a != no_b) return no_a ? 1 : -1;
  if (!no_a && a->order != b->order) return a->order < b->order ? -1 : 1;
  return a->reading < b->reading ? -1 : 1;
}

static scw_status sort_set(scw_context *context, const scw_table *table,
                           scwi_set *set) {
  const scw_reading *readings = scw_table_readings(table);
  placed *room;
  bool any = false;
  for (size_t i = 0; i < set->n; i++)
    any = any || !isnan(readings[set->reading[i]].order);
  if (!any) return SCW_OK;
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

enum { PARTS = 6 };

/* The parts of a label, the input first; "" where the key has none. */
static void parts_of(const scw_table *table, const scwi_set_key *key,
                     const char *part[PARTS]) {
  part[0] = scw_table_input(table, key->input)->name;
  part[1] = scw_table_label(table, key->set);
  part[2] = scw_table_label(table, key->product);
  part[3] = scw_table_label(table, key->panel);
  part[4] = scw_table_label(table, key->session);
  part[5] = key->side == SCW_SIDE_BEFORE  ? "before"
            : key->side == SCW_SIDE_AFTER ? "after"
                                          : scw_table_label(table, key->state);
}

static scw_status label_set(scw_context *context, const scw_table *table,
                            scwi_set *set, const bool shown[PARTS]) {
  const char *part[PARTS];
  scwi_text text = {0};
  parts_of(table, &set->key, part);
  for (size_t p = 0; p < PARTS; p++) {
    if (!shown[p] || !part[p][0]) continue;
    if (text.length) scwi_text_add(&text, " / ");
    scwi_text_add(&text, part[p]);
  }
  if (!text.length) scwi_text_add(&text, part[0]);
  return scwi_text_take(context, &text, &set->label);
}

static scw_status label_sets(scw_context *context, const scw_table *table,
                             scwi_sets *sets) {
  bool shown[PARTS] = {false};
  const char *first[PARTS], *part[PARTS];
  scw_status status = SCW_OK;
  for (size_t s = 0; s < sets->n; s++) {
    parts_of(table, &sets->set[s].key, s ? part : first);
    for (size_t p = 0; p < PARTS && s; p++)
      shown[p] = shown[p] || strcmp(part[p], first[p]) != 0;
  }
  for (size_t s = 0; s < sets->n && status == SCW_OK; s++)
    status = label_set(context, table, sets->set + s, shown);
  return status;
}

scw_status scwi_sets_of(scw_context *context, const scw_table *table,
                        scwi_sets *out) {
  finder f = {.sets = out};
  size_t *set_of;
  *out = (scwi_sets){0};
  scw_status status = SCWI_ALLOCATE(context, scw_table_size(table), &set_of);
  if (status == SCW_OK) status = assign(context, table, &f, set_of);
  if (status == SCW_OK) status = fill(context, table, out, set_of);
  if (status == SCW_OK) status = label_sets(context, table, out);
  free(f.slot);
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
