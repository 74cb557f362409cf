/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "panel_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "memory.h"
#include "panel_places.h"
#include "set_keys.h"
#include "tile.h"

/* Which columns the whole table has. */
typedef struct columns {
  bool panels, sets;
} columns;

static columns columns_of(const scw_table *table) {
  columns found = {0};
  for (size_t i = 0; i < scw_table_size(table); i++) {
    const scw_reading *reading = &scw_table_readings(table)[i];
    found.panels = found.panels || reading->panel != SCW_NO_LABEL;
    found.sets = found.sets || reading->set != SCW_NO_LABEL;
  }
  return found;
}

/* Sets stand for panels where there are no panels. */
static int32_t unit_of(columns has, const scw_reading *reading) {
  return has.panels ? reading->panel : reading->set;
}

static scwi_set_key key_of(const scw_table *table, columns has, bool each,
                           size_t i) {
  const scw_reading *reading = &scw_table_readings(table)[i];
  bool named = has.panels || has.sets;
  return (scwi_set_key){
      .input = named ? 0 : scw_table_input_of(table, i),
      .set = has.panels || each ? reading->set : SCW_NO_LABEL,
      .product = reading->product,
      .panel = each ? reading->panel : SCW_NO_LABEL,
      .session = SCW_NO_LABEL,
      .state = reading->state,
      .side = reading->side};
}

static scw_status check_direction(scw_context *context, const scw_table *table,
                                  size_t i, int32_t *seen) {
  const scw_reading *reading = &scw_table_readings(table)[i];
  if (reading->direction == SCW_NO_LABEL) return SCW_OK;
  if (*seen == SCW_NO_LABEL) *seen = reading->direction;
  if (*seen == reading->direction) return SCW_OK;
  return scwi_fail_at(
      context, SCW_BAD_INPUT,
      scw_table_input(table, scw_table_input_of(table, i))->name,
      reading->line, 0,
      "pulls in two directions, '%s' and '%s': the tilt of the panel would "
      "count as its scatter. Give the pulls of one direction",
      scw_table_label(table, *seen),
      scw_table_label(table, reading->direction));
}

/* Which part every reading counted belongs to. */
typedef struct sorting {
  scwi_set_index keys;
  size_t *part_of, *reading; /* of the n counted */
  size_t n;
} sorting;

static scw_status assign(scw_context *context, const scw_table *table,
                         columns has, bool each, sorting *s,
                         scwi_panel_parts *out) {
  int32_t direction = SCW_NO_LABEL;
  scw_status status = SCW_OK;
  for (size_t i = 0; i < scw_table_size(table) && !status; i++) {
    const scw_reading *reading = &scw_table_readings(table)[i];
    bool tile = scwi_is_tile(table, reading);
    bool again = !tile && reading->replaces != SCW_NO_LABEL;
    out->tiles += tile;
    out->again += again;
    if (tile || again) continue;
    scwi_set_key key = key_of(table, has, each, i);
    status = check_direction(context, table, i, &direction);
    if (!status)
      status = scwi_set_index_find(context, &s->keys, &key, &s->part_of[s->n]);
    s->reading[s->n++] = i;
  }
  return status;
}

/* Parts one behind the other, each in the order of the table. */
static scw_status sort_parts(scw_context *context, const sorting *s,
                             scwi_panel_parts *out) {
  scw_status status = SCWI_ALLOCATE(context, s->keys.n + 1, &out->first);
  if (!status) status = SCWI_ALLOCATE(context, s->n, &out->index);
  if (status) return status;
  out->n = s->keys.n;
  out->n_readings = s->n;
  for (size_t i = 0; i < s->n; i++) out->first[s->part_of[i] + 1]++;
  for (size_t p = 0; p < out->n; p++) out->first[p + 1] += out->first[p];
  for (size_t i = 0; i < s->n; i++) {
    size_t part = s->part_of[i];
    out->index[out->first[part]++] = s->reading[i];
  }
  for (size_t p = out->n; p > 0; p--) out->first[p] = out->first[p - 1];
  out->first[0] = 0;
  return SCW_OK;
}

static scw_status label_parts(scw_context *context, const scw_table *table,
                              const sorting *s, scwi_panel_parts *out) {
  scwi_set_parts shown = scwi_set_parts_of(table, s->keys.key, s->keys.n);
  scw_status status = SCWI_ALLOCATE(context, out->n, &out->label);
  for (size_t p = 0; p < out->n && !status; p++)
    status = scwi_set_label(context, table, &s->keys.key[p], &shown,
                            &out->label[p]);
  return status;
}

static uint32_t number_of(int32_t label) {
  return label == SCW_NO_LABEL ? 0 : (uint32_t)label + 1;
}

static scw_status make_columns(scw_context *context, scwi_panel_parts *out,
                               bool ticks) {
  size_t n = out->n_readings;
  scw_status status = SCWI_ALLOCATE(context, n, &out->x);
  if (!status && ticks) status = SCWI_ALLOCATE(context, n, &out->ticks);
  if (!status) status = SCWI_ALLOCATE(context, n, &out->along);
  if (!status) status = SCWI_ALLOCATE(context, n, &out->across);
  if (!status) status = SCWI_ALLOCATE(context, n, &out->panel);
  if (!status) status = SCWI_ALLOCATE(context, n, &out->session);
  if (!status) status = SCWI_ALLOCATE(context, n, &out->spot);
  if (!status) status = SCWI_ALLOCATE(context, n, &out->by);
  return status;
}

static void fill(const scw_table *table, const scwi_table_facts *facts,
                 columns has, scwi_panel_parts *out) {
  for (size_t i = 0; i < out->n_readings; i++) {
    const scw_reading *reading = &scw_table_readings(table)[out->index[i]];
    out->x[i] = reading->value;
    if (out->ticks) out->ticks[i] = facts->decimals.ticks[out->index[i]];
    out->panel[i] = number_of(unit_of(has, reading));
    out->session[i] = number_of(reading->session);
    out->spot[i] = number_of(reading->spot);
    out->by[i] = number_of(reading->by);
    out->spots = out->spots || out->spot[i];
    out->along[i] = out->across[i] = NAN;
  }
}

scw_status scwi_panel_parts_of(scw_context *context, const scw_table *table,
                               const scwi_table_facts *facts, bool each,
                               scwi_panel_parts *out) {
  sorting s = {0};
  columns has = columns_of(table);
  *out = (scwi_panel_parts){.unit_name = has.panels ? "panel" : "set"};
  scw_status status = SCWI_ALLOCATE(context, scw_table_size(table), &s.part_of);
  if (!status)
    status = SCWI_ALLOCATE(context, scw_table_size(table), &s.reading);
  if (!status) status = assign(context, table, has, each, &s, out);
  if (!status && s.n == 0)
    status = scwi_fail_at(context, SCW_BAD_INPUT, facts->name, 0, 0,
                          "there are no readings of a panel in it, only of a "
                          "tile, or readings taken again");
  if (!status) status = sort_parts(context, &s, out);
  if (!status) status = label_parts(context, table, &s, out);
  if (!status)
    status = make_columns(context, out, facts->decimals.ticks != NULL);
  if (!status) fill(table, facts, has, out);
  if (!status) status = scwi_panel_places(context, table, out);
  scwi_set_index_free(&s.keys);
  free(s.part_of);
  free(s.reading);
  if (status) scwi_panel_parts_free(out);
  return status;
}

void scwi_panel_parts_free(scwi_panel_parts *parts) {
  for (size_t p = 0; parts->label && p < parts->n; p++) free(parts->label[p]);
  free(parts->label);
  free(parts->index);
  free(parts->x);
  free(parts->along);
  free(parts->across);
  free(parts->ticks);
  free(parts->panel);
  free(parts->session);
  free(parts->spot);
  free(parts->by);
  free(parts->first);
  *parts = (scwi_panel_parts){0};
}

scwi_panel_readings scwi_panel_part_at(const scwi_panel_parts *parts,
                                       size_t part) {
  size_t at = parts->first[part];
  return (scwi_panel_readings){
      .n = parts->first[part + 1] - at,
      .index = parts->index + at,
      .x = parts->x + at,
      .ticks = parts->ticks ? parts->ticks + at : NULL,
      .panel = parts->panel + at,
      .session = parts->session + at,
      .spot = parts->spot + at,
      .by = parts->by + at,
      .along = parts->along + at,
      .across = parts->across + at};
}
