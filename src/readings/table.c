/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "table.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "memory.h"

scw_reading scwi_reading_none(void) {
  return (scw_reading){
      .set = SCW_NO_LABEL,      .product = SCW_NO_LABEL,
      .panel = SCW_NO_LABEL,    .state = SCW_NO_LABEL,
      .spot = SCW_NO_LABEL,     .repeat = SCW_NO_LABEL,
      .session = SCW_NO_LABEL,  .direction = SCW_NO_LABEL,
      .geometry = SCW_NO_LABEL, .replaces = SCW_NO_LABEL,
      .takes_back = SCW_NO_LABEL,
      .by = SCW_NO_LABEL,       .grid_row = SCW_NO_LABEL,
      .grid_column = SCW_NO_LABEL, .date = SCW_NO_LABEL,
      .instrument = SCW_NO_LABEL, .standard = SCW_NO_LABEL,
      .event = SCW_NO_LABEL,    .kind = SCW_NO_LABEL,
      .order = NAN, .x = NAN, .y = NAN};
}

scw_status scwi_table_new(scw_context *context, const char *name,
                          scw_table **out) {
  scw_table *table;
  *out = NULL;
  scw_status status = SCWI_ALLOCATE(context, 1, &table);
  if (status != SCW_OK) return status;
  status = SCWI_RESERVE(context, 1, &table->input, &table->inputs_capacity);
  if (status == SCW_OK) {
    table->input[0] = (scwi_table_input){.first = 0};
    table->inputs = 1;
    status = scwi_account_open(context, name, &table->input[0].account);
  }
  if (status == SCW_OK)
    *out = table;
  else
    scw_table_free(table);
  return status;
}

scw_status scwi_table_add(scw_context *context, scw_table *table,
                          const scw_reading *reading) {
  scw_status status =
      SCWI_RESERVE(context, table->n + 1, &table->reading, &table->capacity);
  if (status == SCW_OK) table->reading[table->n++] = *reading;
  return status;
}

scw_status scwi_table_add_event(scw_context *context, scw_table *table,
                                const scw_reading *event) {
  scw_status status = SCWI_RESERVE(context, table->events + 1, &table->event,
                                   &table->events_capacity);
  if (status == SCW_OK) table->event[table->events++] = *event;
  return status;
}

size_t scw_table_events(const scw_table *table) { return table->events; }

const scw_reading *scw_table_event(const scw_table *table, size_t index) {
  return index < table->events ? &table->event[index] : NULL;
}

void scw_table_free(scw_table *table) {
  if (!table) return;
  for (size_t i = 0; i < table->inputs; i++) {
    scwi_account_free(&table->input[i].account);
    scwi_set_index_free(&table->input[i].order);
  }
  scwi_labels_free(&table->labels);
  free(table->input);
  free(table->reading);
  free(table->event);
  free(table);
}

size_t scw_table_size(const scw_table *table) { return table->n; }

const scw_reading *scw_table_readings(const scw_table *table) {
  return table->reading;
}

const char *scw_table_label(const scw_table *table, int32_t label) {
  return scwi_labels_text(&table->labels, label);
}

size_t scw_table_inputs(const scw_table *table) { return table->inputs; }

size_t scw_table_input_of(const scw_table *table, size_t reading) {
  size_t low = 0, high = table->inputs;
  while (high - low > 1) {
    size_t middle = low + (high - low) / 2;
    if (table->input[middle].first > reading)
      high = middle;
    else
      low = middle;
  }
  return low;
}

const scw_input *scw_table_input(const scw_table *table, size_t index) {
  return index < table->inputs ? &table->input[index].account.input : NULL;
}

static void map_labels(scw_reading *reading, const int32_t *map) {
  int32_t *const labels[] = {
      &reading->set,    &reading->product, &reading->panel,
      &reading->state,  &reading->spot,    &reading->repeat,
      &reading->session, &reading->direction, &reading->geometry,
      &reading->replaces, &reading->takes_back, &reading->by,
      &reading->grid_row, &reading->grid_column, &reading->date,
      &reading->instrument, &reading->standard, &reading->event,
      &reading->kind};
  for (size_t i = 0; i < sizeof labels / sizeof *labels; i++)
    if (*labels[i] != SCW_NO_LABEL) *labels[i] = map[*labels[i]];
}

/* Only the keys stay of use: nothing is looked up any more. */
static void map_keys(scwi_set_index *order, const int32_t *map) {
  for (size_t i = 0; i < order->n; i++) {
    scwi_set_key *key = &order->key[i];
    int32_t *const labels[] = {&key->set, &key->product, &key->panel,
                               &key->session, &key->state};
    for (size_t k = 0; k < sizeof labels / sizeof *labels; k++)
      if (*labels[k] != SCW_NO_LABEL) *labels[k] = map[*labels[k]];
  }
}

/* The labels of `more` as labels of `table`; free the map. */
static scw_status make_map(scw_context *context, scw_table *table,
                           const scw_table *more, int32_t **out) {
  scw_status status = SCWI_ALLOCATE(context, more->labels.n, out);
  for (size_t i = 0; i < more->labels.n && status == SCW_OK; i++) {
    int32_t label = (int32_t)i;
    status = scwi_labels_intern(
        context, &table->labels, scwi_labels_text(&more->labels, label),
        scwi_labels_length(&more->labels, label), *out + i);
  }
  return status;
}

scw_status scw_table_append(scw_context *context, scw_table *table,
                            scw_table *more) {
  int32_t *map = NULL;
  if (table == more)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a table cannot be appended to itself");
  scw_status status = SCWI_RESERVE(context, table->n + more->n, &table->reading,
                                   &table->capacity);
  if (status == SCW_OK)
    status = SCWI_RESERVE(context, table->inputs + more->inputs, &table->input,
                          &table->inputs_capacity);
  if (status == SCW_OK)
    status = SCWI_RESERVE(context, table->events + more->events, &table->event,
                          &table->events_capacity);
  if (status == SCW_OK) status = make_map(context, table, more, &map);
  if (status == SCW_OK) { /* nothing can fail from here on */
    for (size_t i = 0; i < more->inputs; i++) {
      map_keys(&more->input[i].order, map);
      table->input[table->inputs] = more->input[i];
      table->input[table->inputs++].first += table->n;
    }
    for (size_t i = 0; i < more->n; i++) {
      table->reading[table->n] = more->reading[i];
      map_labels(&table->reading[table->n++], map);
    }
    for (size_t i = 0; i < more->events; i++) {
      table->event[table->events] = more->event[i];
      map_labels(&table->event[table->events++], map);
    }
    more->n = more->inputs = more->events = 0;
  }
  free(map);
  return status;
}
