/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "values.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "memory.h"

enum { MOST_DIRECTIONS = 2, LARGEST_DENOMINATOR = 1000000 };

/* The readings of one spot, by direction (all in cell 0 without directions). */
typedef struct group {
  int32_t spot;
  size_t line;
  struct {
    int32_t direction;
    size_t count;
    long double sum;
    double first; /* a single reading keeps its own double */
    int64_t ticks;
    bool overflow;
  } cell[MOST_DIRECTIONS];
  size_t cells;
} group;

typedef struct grouping {
  group *group;
  size_t n, capacity;
  size_t *of_label; /* 1 + group of each spot label; 0: none yet */
  size_t labels;
  size_t most_cells;
  bool by_spot; /* false: every reading for itself */
} grouping;

static void add_reading(group *g, size_t cell, const scw_reading *reading,
                        const int64_t *ticks) {
  if (g->cell[cell].count++ == 0) g->cell[cell].first = reading->value;
  g->cell[cell].sum += (long double)reading->value;
  if (ticks && __builtin_add_overflow(g->cell[cell].ticks, *ticks,
                                      &g->cell[cell].ticks))
    g->cell[cell].overflow = true;
}

/* The cell of the reading's direction; a third direction is an error. */
static scw_status cell_for(scw_context *context, const scw_table *table,
                           group *g, const scw_reading *reading,
                           size_t *cell) {
  for (*cell = 0; *cell < g->cells; ++*cell)
    if (g->cell[*cell].direction == reading->direction) return SCW_OK;
  if (g->cells == MOST_DIRECTIONS)
    return scwi_fail_at(
        context, SCW_BAD_INPUT,
        scw_table_input(table, scw_table_input_of(table, (size_t)(
            reading - scw_table_readings(table))))->name,
        reading->line, 0,
        "a third direction '%s'; a track can be pulled in two directions, so "
        "name only two",
        scw_table_label(table, reading->direction));
  g->cell[g->cells++].direction = reading->direction;
  return SCW_OK;
}

/* What tells one value from the next: the spot; without spots, the two
 * directions of a pull belong together by its repeat number. */
static int32_t identity(const grouping *all, const scw_reading *reading) {
  if (!all->by_spot) return SCW_NO_LABEL;
  if (reading->spot != SCW_NO_LABEL) return reading->spot;
  return reading->direction != SCW_NO_LABEL ? reading->repeat : SCW_NO_LABEL;
}

static scw_status group_readings(scw_context *context, const scw_table *table,
                                 const scwi_table_decimals *decimals,
                                 const size_t *index, size_t n,
                                 grouping *all) {
  const scw_reading *readings = scw_table_readings(table);
  scw_status status = SCW_OK;
  for (size_t i = 0; i < n; i++)
    if (identity(all, &readings[index[i]]) >= (int32_t)all->labels)
      all->labels = (size_t)identity(all, &readings[index[i]]) + 1;
  status = SCWI_ALLOCATE(context, all->labels, &all->of_label);
  for (size_t i = 0; i < n && status == SCW_OK; i++) {
    const scw_reading *reading = &readings[index[i]];
    int32_t name = identity(all, reading);
    size_t slot = name == SCW_NO_LABEL ? 0 : all->of_label[name], cell = 0;
    if (slot == 0) {
      status = SCWI_RESERVE(context, all->n + 1, &all->group, &all->capacity);
      if (status) break;
      all->group[all->n] = (group){
          .spot = all->by_spot ? reading->spot : SCW_NO_LABEL,
          .line = reading->line};
      slot = ++all->n;
      if (name != SCW_NO_LABEL) all->of_label[name] = slot;
    }
    group *g = &all->group[slot - 1];
    status = cell_for(context, table, g, reading, &cell);
    if (status) break;
    add_reading(g, cell, reading,
                decimals->ticks ? &decimals->ticks[index[i]] : NULL);
    if (g->cells > all->most_cells) all->most_cells = g->cells;
  }
  return status;
}

static int64_t greatest_divisor(int64_t a, int64_t b) {
  while (b) {
    int64_t rest = a % b;
    a = b;
    b = rest;
  }
  return a;
}

/* Least common multiple; 0 when it would grow too large. */
static int64_t common_multiple(int64_t a, int64_t b) {
  if (a == 0 || b == 0 || a > LARGEST_DENOMINATOR || b > LARGEST_DENOMINATOR)
    return 0;
  int64_t common = a / greatest_divisor(a, b) * b;
  return common > LARGEST_DENOMINATOR ? 0 : common;
}

/* The denominator common to all group means; 0 when it grows too large. */
static int64_t common_denominator(const grouping *all) {
  int64_t common = 1;
  for (size_t i = 0; i < all->n; i++)
    for (size_t c = 0; c < all->group[i].cells; c++)
      common = common_multiple(
          common, (int64_t)(all->group[i].cells * all->group[i].cell[c].count));
  return common;
}

static double group_mean(const group *g) {
  long double mean = 0;
  if (g->cells == 1 && g->cell[0].count == 1) return g->cell[0].first;
  for (size_t c = 0; c < g->cells; c++)
    mean += g->cell[c].sum / (long double)g->cell[c].count;
  return (double)(mean / (long double)g->cells);
}

/* The group's mean in whole units of 1/denominator of a tick. */
static bool group_ticks(const group *g, int64_t denominator, int64_t *out) {
  *out = 0;
  for (size_t c = 0; c < g->cells; c++) {
    int64_t factor = denominator / (int64_t)(g->cells * g->cell[c].count);
    int64_t part;
    if (g->cell[c].overflow ||
        __builtin_mul_overflow(g->cell[c].ticks, factor, &part) ||
        __builtin_add_overflow(*out, part, out))
      return false;
  }
  return true;
}

scw_status scwi_values_room(scw_context *context, size_t n, scwi_values *out) {
  scw_status status = SCWI_ALLOCATE(context, n, &out->x);
  if (!status) status = SCWI_ALLOCATE(context, n, &out->spot);
  if (!status) status = SCWI_ALLOCATE(context, n, &out->line);
  if (!status) status = SCWI_ALLOCATE(context, n, &out->count);
  if (!status) status = SCWI_ALLOCATE(context, n, &out->place);
  if (!status) status = SCWI_ALLOCATE(context, n, &out->one_way);
  return status;
}

static scw_status make_room(scw_context *context, size_t n, bool ticks,
                            scwi_values *out) {
  scw_status status = scwi_values_room(context, n, out);
  if (!status && ticks) status = SCWI_ALLOCATE(context, n, &out->ticks);
  return status;
}

static void fill_values(const grouping *all, int64_t denominator,
                        double divisor, scwi_values *out) {
  bool ticks_held = out->ticks != NULL;
  for (size_t i = 0; i < all->n; i++) {
    const group *g = &all->group[i];
    size_t at = out->n;
    if (g->cells < all->most_cells) { /* its other direction is missing */
      out->one_way[out->n_one_way++] = g->spot;
      continue;
    }
    out->x[at] = group_mean(g) / divisor;
    out->spot[at] = g->spot;
    out->line[at] = g->line;
    for (size_t c = 0; c < g->cells; c++) out->count[at] += g->cell[c].count;
    out->readings += out->count[at];
    out->place[at] = at + 1;
    if (g->spot != SCW_NO_LABEL) out->by_spot = true;
    if (ticks_held && !group_ticks(g, denominator, &out->ticks[at]))
      ticks_held = false;
    if (ticks_held && divisor < 0) out->ticks[at] = -out->ticks[at];
    out->n++;
  }
  if (!ticks_held) {
    free(out->ticks);
    out->ticks = NULL;
  }
}

static scw_status values_of(scw_context *context, const scw_table *table,
                            const scwi_table_decimals *decimals,
                            const size_t *index, size_t n, double divisor,
                            bool by_spot, scwi_values *out) {
  grouping all = {.by_spot = by_spot};
  *out = (scwi_values){0};
  scw_status status =
      group_readings(context, table, decimals, index, n, &all);
  if (status == SCW_OK) {
    int64_t denominator = decimals->ticks ? common_denominator(&all) : 0;
    status = make_room(context, all.n, denominator != 0, out);
    if (status == SCW_OK) {
      fill_values(&all, denominator, divisor, out);
      out->both_directions = all.most_cells == 2;
      out->denominator = denominator;
      out->ticks_per_unit = pow(10, decimals->digits) * fabs(divisor);
    }
  }
  free(all.group);
  free(all.of_label);
  if (status) scwi_values_free(out);
  return status;
}

scw_status scwi_values_of(scw_context *context, const scw_table *table,
                          const scwi_table_decimals *decimals,
                          const size_t *index, size_t n, double divisor,
                          scwi_values *out) {
  return values_of(context, table, decimals, index, n, divisor, true, out);
}

scw_status scwi_values_each(scw_context *context, const scw_table *table,
                            const scwi_table_decimals *decimals,
                            const size_t *index, size_t n, double divisor,
                            scwi_values *out) {
  return values_of(context, table, decimals, index, n, divisor, false, out);
}

void scwi_values_free(scwi_values *values) {
  free(values->x);
  free(values->ticks);
  free(values->spot);
  free(values->line);
  free(values->count);
  free(values->place);
  free(values->one_way);
  *values = (scwi_values){0};
}

void scwi_values_shift(scwi_values *values, double offset) {
  for (size_t i = 0; i < values->n; i++) values->x[i] += offset;
  values->offset += offset;
}

scw_status scwi_values_without(scw_context *context, const scwi_values *values,
                               const bool *drop, scwi_values *out) {
  *out = (scwi_values){.denominator = values->denominator,
                       .ticks_per_unit = values->ticks_per_unit,
                       .offset = values->offset,
                       .by_spot = values->by_spot,
                       .both_directions = values->both_directions};
  scw_status status =
      make_room(context, values->n, values->ticks != NULL, out);
  for (size_t i = 0; i < values->n && status == SCW_OK; i++) {
    if (drop[i]) continue;
    out->x[out->n] = values->x[i];
    out->spot[out->n] = values->spot[i];
    out->line[out->n] = values->line[i];
    out->count[out->n] = values->count[i];
    out->place[out->n] = values->place[i];
    if (out->ticks) out->ticks[out->n] = values->ticks[i];
    out->readings += values->count[i];
    out->n++;
  }
  if (status) scwi_values_free(out);
  return status;
}

typedef struct tick_pair {
  const scwi_values *from, *less;
  int64_t denominator;
} tick_pair;

/* Both in whole units of the same denominator; false on overflow. */
static bool minus_ticks(tick_pair t, size_t from_place, size_t less_place,
                        int64_t *out) {
  int64_t from, less;
  return !__builtin_mul_overflow(t.from->ticks[from_place],
                                 t.denominator / t.from->denominator, &from) &&
         !__builtin_mul_overflow(t.less->ticks[less_place],
                                 t.denominator / t.less->denominator, &less) &&
         !__builtin_sub_overflow(from, less, out);
}

/* The differences in ticks, where both sides have them. */
static scw_status subtract_ticks(scw_context *context, const scwi_values *from,
                                 const size_t *from_place,
                                 const scwi_values *less,
                                 const size_t *less_place, size_t n,
                                 scwi_values *out) {
  tick_pair t = {from, less,
                 from->ticks && less->ticks &&
                         from->ticks_per_unit == less->ticks_per_unit
                     ? common_multiple(from->denominator, less->denominator)
                     : 0};
  bool held = t.denominator != 0;
  if (!held) return SCW_OK;
  scw_status status = SCWI_ALLOCATE(context, n, &out->ticks);
  for (size_t i = 0; i < n && !status && held; i++)
    held = minus_ticks(t, from_place[i], less_place[i], &out->ticks[i]);
  if (!held) {
    free(out->ticks);
    out->ticks = NULL;
  }
  out->ticks_per_unit = from->ticks_per_unit;
  out->denominator = t.denominator;
  return status;
}

scw_status scwi_values_minus(scw_context *context, const scwi_values *from,
                             const size_t *from_place, const scwi_values *less,
                             const size_t *less_place, size_t n,
                             scwi_values *out) {
  *out = (scwi_values){0};
  scw_status status = scwi_values_room(context, n, out);
  if (!status)
    status = subtract_ticks(context, from, from_place, less, less_place, n,
                            out);
  if (status) {
    scwi_values_free(out);
    return status;
  }
  double per_unit = out->ticks_per_unit * (double)out->denominator;
  for (size_t i = 0; i < n; i++) {
    size_t f = from_place[i], l = less_place[i];
    out->x[i] =
        out->ticks ? (double)out->ticks[i] / per_unit : from->x[f] - less->x[l];
    out->spot[i] = less->spot[l];
    out->line[i] = from->line[f];
    out->place[i] = i + 1;
    out->count[i] = 1;
  }
  out->n = out->readings = n;
  out->by_spot = true;
  return SCW_OK;
}

scwi_sample scwi_values_sample(const scwi_values *values, scw_step step) {
  double per_unit = values->ticks_per_unit * (double)values->denominator;
  return (scwi_sample){.n = values->n,
                       .x = values->x,
                       .ticks = values->ticks,
                       .tick_size = values->ticks ? 1 / per_unit : 0,
                       .step = step,
                       .offset = values->offset};
}
