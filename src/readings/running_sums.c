/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "running_sums.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>

#include "fast_scan.h"
#include "memory.h"
#include "read.h"
#include "table.h"
#include "taken_back.h"

/* From here on pairs of doubles. */
static void loosen(scwi_sums *sums) {
  for (size_t i = 0; i < sums->index.n; i++)
    sums->set[i].of.loose =
        scwi_loose_of(&sums->set[i].of.exact, sums->scale.digits);
  sums->loose = true;
}

static void raise_ticks(scwi_sums *sums, int powers) {
  scwi_tick_scale_raise(&sums->scale, powers);
  for (; powers > 0; powers--)
    for (size_t i = 0; i < sums->index.n; i++)
      scwi_tick_sums_times_ten(&sums->set[i].of.exact);
}

/* The first reading is the one met first in the file. */
static void note_place(scwi_set_sums *set, size_t line, size_t column) {
  if (line > set->line || (line == set->line && column >= set->column)) return;
  set->line = line;
  set->column = column;
}

static scw_status find_set(scw_context *context, scwi_sums *sums,
                           const scwi_set_key *key, size_t line, size_t column,
                           size_t *out) {
  size_t before = sums->index.n;
  scw_status status =
      SCWI_RESERVE(context, before + 1, &sums->set, &sums->capacity);
  if (status == SCW_OK)
    status = scwi_set_index_find(context, &sums->index, key, out);
  if (status != SCW_OK) return status;
  if (*out == before) sums->set[*out] = (scwi_set_sums){.line = SIZE_MAX};
  note_place(&sums->set[*out], line, column);
  return SCW_OK;
}

static void note_geometry(scwi_sums *sums, const scw_reading *reading) {
  if (reading->geometry == SCW_NO_LABEL ||
      reading->geometry == sums->geometry[0])
    return;
  if (sums->geometry[0] == SCW_NO_LABEL) {
    sums->geometry[0] = reading->geometry;
  } else if (sums->geometry[1] == SCW_NO_LABEL) {
    sums->geometry[1] = reading->geometry;
    sums->geometry_line = reading->line;
  }
}

static scw_status take(void *user, scw_context *context,
                       const scw_reading *reading) {
  scwi_sums *sums = user;
  if (sums->by_table) return scwi_table_add(context, sums->table, reading);
  scwi_set_key key = scwi_set_key_of(reading, 0);
  size_t set;
  scw_status status =
      find_set(context, sums, &key, reading->line, reading->column, &set);
  if (status != SCW_OK) return status;
  note_geometry(sums, reading);
  scwi_decimal decimal = {reading->value, reading->mantissa, reading->digits,
                          reading->exact};
  int powers = sums->loose ? -1 : scwi_tick_scale_rise(&sums->scale, &decimal);
  if (powers > 0) raise_ticks(sums, powers);
  if (powers < 0) {
    if (!sums->loose) loosen(sums);
    scwi_loose_add(&sums->set[set].of.loose, reading->value);
  } else {
    scwi_tick_sums_add(&sums->set[set].of.exact,
                       scwi_tick_scale_take(&sums->scale, &decimal));
  }
  return SCW_OK;
}

static void start(void *user, bool by_spot) {
  scwi_sums *sums = user;
  sums->by_table = by_spot;
}

static scw_status take_back(void *user, scw_context *context,
                            const scwi_takings *takings) {
  scwi_sums *sums = user;
  return scwi_table_take_back(context, sums->table, takings, true);
}

static scw_status take_lines(void *user, scwi_reader *reader,
                             scwi_rows *rows) {
  scwi_sums *sums = user;
  if (sums->by_table) return SCW_OK;
  return scwi_fast_lines(&sums->fast, reader, rows);
}

scw_status scwi_sums_read(scw_context *context,
                          const scw_table_options *options, scw_source source,
                          scwi_sums *out) {
  const char *name = source.name ? source.name : "input";
  *out = (scwi_sums){.geometry = {SCW_NO_LABEL, SCW_NO_LABEL}};
  scw_status status = scwi_table_new(context, name, &out->table);
  if (status == SCW_OK)
    status = scwi_table_fill(context, options, source, out->table,
                             (scwi_reading_sink){.take = take,
                                                 .user = out,
                                                 .first_only = true,
                                                 .start = start,
                                                 .take_lines = take_lines,
                                                 .take_back = take_back});
  if (status == SCW_OK && out->fast)
    status = scwi_fast_finish(context, out->fast, out);
  scwi_fast_free(out->fast);
  out->fast = NULL;
  return status;
}

void scwi_sums_free(scwi_sums *sums) {
  scw_table_free(sums->table);
  scwi_set_index_free(&sums->index);
  scwi_fast_free(sums->fast);
  free(sums->set);
  *sums = (scwi_sums){0};
}

void scwi_sums_meet(scwi_sums *sums, const scwi_tick_scale *scale) {
  scwi_tick_scale other = *scale;
  int powers = sums->loose ? -1 : scwi_tick_scale_meet(&sums->scale, scale);
  if (powers < 0) {
    if (!sums->loose) loosen(sums);
    return;
  }
  raise_ticks(sums, powers);
  if (sums->scale.n)
    scwi_tick_scale_raise(&other, sums->scale.digits - other.digits);
  scwi_tick_scale_join(&sums->scale, &other);
}

scw_status scwi_sums_reserve(scw_context *context, scwi_sums *sums,
                             size_t sets) {
  scw_status status =
      SCWI_RESERVE(context, sets, &sums->set, &sums->capacity);
  if (status == SCW_OK)
    status = SCWI_RESERVE(context, sets, &sums->index.key,
                          &sums->index.capacity);
  if (status == SCW_OK)
    status = scwi_labels_reserve(context, &sums->table->labels, sets);
  return status;
}

scw_status scwi_sums_append(scw_context *context, scwi_sums *sums,
                            const scwi_set_key *key, size_t *out) {
  scw_status status = SCWI_RESERVE(context, sums->index.n + 1, &sums->set,
                                   &sums->capacity);
  if (status == SCW_OK)
    status = scwi_set_index_append(context, &sums->index, key, out);
  if (status == SCW_OK)
    sums->set[*out] = (scwi_set_sums){.line = SIZE_MAX};
  return status;
}

void scwi_sums_absorb(scwi_sums *sums, size_t set, size_t line,
                      const scwi_tick_sums *more, int digits) {
  scwi_set_sums *to = &sums->set[set];
  scwi_tick_sums exact = *more;
  note_place(to, line, 1);
  if (sums->loose) {
    scwi_loose_sums loose = scwi_loose_of(&exact, digits);
    scwi_loose_join(&to->of.loose, &loose);
    return;
  }
  for (; digits < sums->scale.digits; digits++)
    scwi_tick_sums_times_ten(&exact);
  scwi_tick_sums_join(&to->of.exact, &exact);
}

typedef struct first_place {
  size_t rank; /* in the order of the input's own, else 0 */
  size_t line, column, set;
} first_place;

static int by_place(const void *left, const void *right) {
  const first_place *a = left, *b = right;
  if (a->rank != b->rank) return a->rank < b->rank ? -1 : 1;
  if (a->line != b->line) return a->line < b->line ? -1 : 1;
  if (a->column != b->column) return a->column < b->column ? -1 : 1;
  return a->set < b->set ? -1 : a->set > b->set;
}

static scw_status rank_of(scw_context *context, const scwi_sums *sums,
                          size_t set, size_t *out) {
  scwi_set_index *order = &sums->table->input[0].order;
  *out = 0;
  return order->n ? scwi_set_index_find(context, order, &sums->index.key[set],
                                        out)
                  : SCW_OK;
}

scw_status scwi_sums_order(scw_context *context, const scwi_sums *sums,
                           size_t **out) {
  size_t n = sums->index.n;
  first_place *places = NULL;
  bool sorted = true;
  scw_status status = SCWI_ALLOCATE(context, n, out);
  if (status == SCW_OK) status = SCWI_ALLOCATE(context, n, &places);
  for (size_t i = 0; i < n && status == SCW_OK; i++) {
    places[i] = (first_place){0, sums->set[i].line, sums->set[i].column, i};
    status = rank_of(context, sums, i, &places[i].rank);
    if (i && by_place(&places[i - 1], &places[i]) > 0) sorted = false;
  }
  if (status == SCW_OK) {
    if (!sorted) qsort(places, n, sizeof *places, by_place);
    for (size_t i = 0; i < n; i++) (*out)[i] = places[i].set;
  }
  free(places);
  return status;
}

scwi_set_figures scwi_sums_figures(const scwi_sums *sums, size_t set) {
  const scwi_tick_sums *exact = &sums->set[set].of.exact;
  const scwi_loose_sums *loose = &sums->set[set].of.loose;
  if (sums->loose)
    return (scwi_set_figures){loose->n, loose->sum.high,
                              scwi_loose_spread(loose),
                              ldexp(1, loose->exponent)};
  return (scwi_set_figures){exact->n, (double)exact->sum,
                            scwi_tick_sums_spread(exact),
                            1 / pow(10, sums->scale.digits)};
}
