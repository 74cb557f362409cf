/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "set_keys.h"

#include <stdlib.h>
#include <string.h>

#include "memory.h"
#include "text.h"

scwi_set_key scwi_set_key_of(const scw_reading *r, size_t input) {
  bool sided = r->side != SCW_SIDE_NONE;
  return (scwi_set_key){
      .input = input,
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

static scw_status widen(scw_context *context, scwi_set_index *index) {
  size_t slots = index->slots ? index->slots * 2 : 64, *wider;
  scw_status status = SCWI_ALLOCATE(context, slots, &wider);
  if (status != SCW_OK) return status;
  for (size_t i = 0; i < index->n; i++) {
    size_t at = hash_of(&index->key[i]) & (slots - 1);
    while (wider[at]) at = (at + 1) & (slots - 1);
    wider[at] = i + 1;
  }
  free(index->slot);
  index->slot = wider;
  index->slots = slots;
  return SCW_OK;
}

scw_status scwi_set_index_append(scw_context *context, scwi_set_index *index,
                                 const scwi_set_key *key, size_t *out) {
  scw_status status =
      SCWI_RESERVE(context, index->n + 1, &index->key, &index->capacity);
  if (status != SCW_OK) return status;
  *out = index->n++;
  index->key[*out] = *key;
  return SCW_OK;
}

scw_status scwi_set_index_find(scw_context *context, scwi_set_index *index,
                               const scwi_set_key *key, size_t *out) {
  scw_status status = SCW_OK;
  if ((index->n + 1) * 2 > index->slots) status = widen(context, index);
  if (status != SCW_OK) return status;
  size_t at = hash_of(key) & (index->slots - 1);
  for (; index->slot[at]; at = (at + 1) & (index->slots - 1)) {
    *out = index->slot[at] - 1;
    if (same_key(&index->key[*out], key)) return SCW_OK;
  }
  status = scwi_set_index_append(context, index, key, out);
  if (status == SCW_OK) index->slot[at] = *out + 1;
  return status;
}

void scwi_set_index_free(scwi_set_index *index) {
  free(index->key);
  free(index->slot);
  *index = (scwi_set_index){0};
}

/* The parts of a label, the input first; "" where the key has none. */
static void texts_of(const scw_table *table, const scwi_set_key *key,
                     const char *part[SCWI_SET_PARTS]) {
  part[0] = scw_table_input(table, key->input)->name;
  part[1] = scw_table_label(table, key->set);
  part[2] = scw_table_label(table, key->product);
  part[3] = scw_table_label(table, key->panel);
  part[4] = scw_table_label(table, key->session);
  part[5] = key->side == SCW_SIDE_BEFORE  ? "before"
            : key->side == SCW_SIDE_AFTER ? "after"
                                          : scw_table_label(table, key->state);
}

/* Equal labels have equal numbers, so that texts are seldom compared. */
static bool part_differs(const scw_table *table, const scwi_set_key *a,
                         const scwi_set_key *b, size_t p) {
  bool equal[SCWI_SET_PARTS] = {
      a->input == b->input,     a->set == b->set,
      a->product == b->product, a->panel == b->panel,
      a->session == b->session, a->state == b->state && a->side == b->side};
  const char *of_a[SCWI_SET_PARTS], *of_b[SCWI_SET_PARTS];
  if (equal[p]) return false;
  texts_of(table, a, of_a);
  texts_of(table, b, of_b);
  return strcmp(of_a[p], of_b[p]) != 0;
}

scwi_set_parts scwi_set_parts_of(const scw_table *table,
                                 const scwi_set_key *key, size_t n) {
  scwi_set_parts parts = {{false}};
  for (size_t s = 1; s < n; s++)
    for (size_t p = 0; p < SCWI_SET_PARTS; p++)
      parts.shown[p] =
          parts.shown[p] || part_differs(table, &key[0], &key[s], p);
  return parts;
}

const char *scwi_set_name(const scw_table *table, const scwi_set_key *key,
                          const scwi_set_parts *parts) {
  const char *part[SCWI_SET_PARTS], *only = NULL;
  texts_of(table, key, part);
  for (size_t p = 0; p < SCWI_SET_PARTS; p++) {
    if (!parts->shown[p] || !part[p][0]) continue;
    if (only) return NULL;
    only = part[p];
  }
  return only ? only : part[0];
}

scw_status scwi_set_label(scw_context *context, const scw_table *table,
                          const scwi_set_key *key,
                          const scwi_set_parts *parts, char **out) {
  const char *part[SCWI_SET_PARTS];
  scwi_text text = {0};
  texts_of(table, key, part);
  for (size_t p = 0; p < SCWI_SET_PARTS; p++) {
    if (!parts->shown[p] || !part[p][0]) continue;
    if (text.length) scwi_text_add(&text, " / ");
    scwi_text_add(&text, part[p]);
  }
  if (!text.length) scwi_text_add(&text, part[0]);
  return scwi_text_take(context, &text, out);
}
