/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "read_again.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "decimal.h"
#include "memory.h"

/* One side, and which of its readings another one has taken the place of. */
typedef struct side {
  const scw_table *table;
  const size_t *index;
  size_t n;
  bool *gone;
} side;

static const scw_reading *reading_of(const side *s, size_t i) {
  return &scw_table_readings(s->table)[s->index[i]];
}

static bool is_later(const scw_reading *reading) {
  return reading->replaces != SCW_NO_LABEL;
}

/* The number in the cell, for a side without spots; NaN when it is none. */
static double number_named(const side *s, const scw_reading *later) {
  const char *text = scw_table_label(s->table, later->replaces);
  scwi_decimal number;
  return scwi_decimal_read(text, strlen(text), '.', &number) == SCWI_DECIMAL_OK
             ? number.value
             : NAN;
}

/* Does `later` take the place of reading i, the `place`-th of the first? */
static bool takes_place(const side *s, const scw_reading *later, size_t i,
                        size_t place) {
  const scw_reading *earlier = reading_of(s, i);
  if (is_later(earlier) || earlier->panel != later->panel) return false;
  if (later->spot != SCW_NO_LABEL) return earlier->spot == later->spot;
  double named = number_named(s, later);
  return isnan(earlier->order) ? named == (double)place
                               : named == earlier->order;
}

static scw_status strike_out(scw_context *context, side *s,
                             const scw_reading *later) {
  size_t found = 0, place = 0;
  for (size_t i = 0; i < s->n; i++) {
    place += !is_later(reading_of(s, i));
    if (!takes_place(s, later, i, place)) continue;
    s->gone[i] = true;
    found++;
  }
  if (found) return SCW_OK;
  size_t own = (size_t)(later - scw_table_readings(s->table));
  return scwi_fail_at(
      context, SCW_BAD_INPUT,
      scw_table_input(s->table, scw_table_input_of(s->table, own))->name,
      later->line, 0,
      "this reading replaces '%s', but there is no earlier reading of that "
      "spot, place or order number on its side",
      scw_table_label(s->table, later->replaces));
}

static scw_status split(scw_context *context, side *s, scwi_read_again *out) {
  scw_status status = SCW_OK;
  for (size_t i = 0; i < s->n && !status; i++) {
    if (!is_later(reading_of(s, i))) continue;
    out->replaced++;
    status = strike_out(context, s, reading_of(s, i));
  }
  for (size_t i = 0; i < s->n && !status; i++)
    if (!s->gone[i]) out->again[out->n_again++] = s->index[i];
  out->n_first = scwi_first_readings(s->table, s->index, s->n, out->first);
  return status;
}

size_t scwi_first_readings(const scw_table *table, const size_t *index,
                           size_t n, size_t *out) {
  size_t kept = 0;
  for (size_t i = 0; i < n; i++)
    if (!is_later(&scw_table_readings(table)[index[i]])) out[kept++] = index[i];
  return kept;
}

scw_status scwi_read_again_of(scw_context *context, const scw_table *table,
                              const size_t *index, size_t n,
                              scwi_read_again *out) {
  side s = {.table = table, .index = index, .n = n};
  *out = (scwi_read_again){0};
  scw_status status = SCWI_ALLOCATE(context, n, &out->first);
  if (!status) status = SCWI_ALLOCATE(context, n, &out->again);
  if (!status) status = SCWI_ALLOCATE(context, n, &s.gone);
  if (!status) status = split(context, &s, out);
  free(s.gone);
  if (status) scwi_read_again_free(out);
  return status;
}

void scwi_read_again_free(scwi_read_again *lists) {
  free(lists->first);
  free(lists->again);
  *lists = (scwi_read_again){0};
}
