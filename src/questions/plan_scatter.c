/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The scatter of a pilot: readings of one side, or differences at the spots. */
#include <math.h>
#include <stdlib.h>

#include "decimal.h"
#include "design_pilot.h"
#include "memory.h"
#include "scatterwise/plan.h"
#include "settings.h"
#include "table_facts.h"

/* Values with the labels they stand under. */
typedef struct pilot {
  const scw_table *table;
  const scwi_table_facts *facts;
  const scw_reading **sorted; /* by panel, session, spot, side, line */
  size_t n_sorted, n;
  double *x;
  int64_t *ticks;             /* null without common decimals */
  uint32_t *label[SCW_LEVEL_REPEAT];
  bool sessions;              /* both sides of a spot lie in one session */
  size_t unmatched;
} pilot;

static scw_status fail_at(scw_context *context, const pilot *p, size_t line,
                          const char *words) {
  return scwi_fail_at(context, SCW_BAD_INPUT, p->facts->name, line, 0, "%s",
                      words);
}

static scw_status check(scw_context *context, const pilot *p, bool *sides) {
  const scw_reading *readings = scw_table_readings(p->table);
  *sides = readings[0].side != SCW_SIDE_NONE;
  bool both = false;
  for (size_t i = 0; i < scw_table_size(p->table); i++) {
    const scw_reading *a = &readings[0], *b = &readings[i];
    if (b->spot == SCW_NO_LABEL)
      return fail_at(context, p, b->line,
                     "a reading without a spot; name the spots to plan spots "
                     "and repeats");
    if (a->product != b->product || a->set != b->set)
      return fail_at(context, p, b->line,
                     "a second product or set; a pilot holds one");
    if ((b->side == SCW_SIDE_NONE) == *sides)
      return fail_at(context, p, b->line,
                     "readings with and without a state; say before or after "
                     "for all of them or for none");
    both |= b->side != a->side;
  }
  *sides = both;
  return SCW_OK;
}

static int compare(int64_t a, int64_t b) { return (a > b) - (a < b); }

static int by_place(const scw_reading *a, const scw_reading *b,
                    bool sessions) {
  int order = compare(a->panel, b->panel);
  if (!order && sessions) order = compare(a->session, b->session);
  return order ? order : compare(a->spot, b->spot);
}

static int in_order(const scw_reading *a, const scw_reading *b,
                    bool sessions) {
  int order = by_place(a, b, sessions);
  if (!order) order = compare(a->side, b->side);
  if (!order) order = a->line < b->line ? -1 : a->line > b->line;
  return order ? order : a->column < b->column ? -1 : a->column > b->column;
}

static int with_sessions(const void *a, const void *b) {
  return in_order(*(const scw_reading *const *)a,
                  *(const scw_reading *const *)b, true);
}

static int without_sessions(const void *a, const void *b) {
  return in_order(*(const scw_reading *const *)a,
                  *(const scw_reading *const *)b, false);
}

static void sort(pilot *p) {
  qsort(p->sorted, p->n_sorted, sizeof *p->sorted,
        p->sessions ? with_sessions : without_sessions);
}

static size_t run_end(const pilot *p, size_t first) {
  size_t end = first;
  while (end < p->n_sorted &&
         by_place(p->sorted[first], p->sorted[end], p->sessions) == 0)
    end++;
  return end;
}

static scw_status room_for(scw_context *context, pilot *p) {
  size_t n = p->n_sorted = scw_table_size(p->table);
  scw_status status = SCWI_ALLOCATE(context, n, &p->sorted);
  if (!status) status = SCWI_ALLOCATE(context, n, &p->x);
  if (!status && p->facts->decimals.ticks)
    status = SCWI_ALLOCATE(context, n, &p->ticks);
  for (int level = 0; level < SCW_LEVEL_REPEAT && !status; level++)
    status = SCWI_ALLOCATE(context, n, &p->label[level]);
  for (size_t i = 0; i < n && !status; i++)
    p->sorted[i] = &scw_table_readings(p->table)[i];
  return status;
}

static void free_pilot(pilot *p) {
  free(p->sorted);
  free(p->x);
  free(p->ticks);
  for (int level = 0; level < SCW_LEVEL_REPEAT; level++)
    free(p->label[level]);
}

/* One value: a reading, or what it is above the one before. */
static void put(pilot *p, const scw_reading *reading,
                const scw_reading *before) {
  const scw_reading *all = scw_table_readings(p->table);
  const int64_t *ticks = p->facts->decimals.ticks;
  size_t at = p->n++;
  p->x[at] = before ? scwi_decimal_difference(reading->value, before->value)
                    : reading->value;
  if (ticks)
    p->ticks[at] = ticks[reading - all] - (before ? ticks[before - all] : 0);
  p->label[SCW_LEVEL_PANEL][at] = (uint32_t)reading->panel;
  p->label[SCW_LEVEL_SESSION][at] =
      p->sessions ? (uint32_t)reading->session : 0;
  p->label[SCW_LEVEL_SPOT][at] = (uint32_t)reading->spot;
}

/* Differences at the spots, readings paired in order. */
static void put_differences(pilot *p) {
  sort(p);
  p->n = p->unmatched = 0;
  for (size_t first = 0, end; first < p->n_sorted; first = end) {
    size_t before = first, after = first;
    end = run_end(p, first);
    while (after < end && p->sorted[after]->side == SCW_SIDE_BEFORE)
      after++;
    size_t left = after - before, right = end - after;
    size_t pairs = left < right ? left : right;
    p->unmatched += left + right - 2 * pairs;
    for (size_t i = 0; i < pairs; i++)
      put(p, p->sorted[after + i], p->sorted[before + i]);
  }
}

static scw_status take_differences(scw_context *context, pilot *p) {
  put_differences(p);
  if (p->n == 0) { /* before and after in sessions of their own */
    p->sessions = false;
    put_differences(p);
  }
  return p->n ? SCW_OK
              : fail_at(context, p, 0,
                        "no spot was read both before and after; give one "
                        "side, or the same spots on both");
}

static scw_status split(scw_context *context, const pilot *p,
                        double assurance, scw_plan_scatter *out) {
  scwi_sample sample = {.n = p->n,
                        .x = p->x,
                        .ticks = p->ticks,
                        .tick_size = pow(10, -p->facts->decimals.digits),
                        .step = p->facts->step};
  scwi_level_labels labels = {{NULL}};
  for (int level = 0; level < SCW_LEVEL_REPEAT; level++)
    labels.label[level] = p->label[level];
  scw_status status =
      scwi_scatter_of(context, &sample, &labels, assurance, out);
  out->unmatched = p->unmatched;
  return status;
}

scw_status scw_plan_scatter_of(scw_context *context, const scw_table *table,
                               const scw_settings *settings,
                               scw_plan_scatter *out) {
  scw_settings taken;
  scwi_table_facts facts = {0};
  pilot p = {.table = table, .facts = &facts, .sessions = true};
  bool sides = false;
  *out = (scw_plan_scatter){0};
  scw_status status = scwi_settings_take(context, settings, &taken);
  if (!status && taken.assurance <= 0.5)
    status = scwi_fail(context, SCW_BAD_ARGUMENT,
                       "an assurance of 50 %% or less is no upper limit of a "
                       "scatter; give more, such as 80 %%");
  if (!status) status = scwi_table_facts_of(context, table, &taken, &facts);
  if (!status) status = check(context, &p, &sides);
  if (!status) status = room_for(context, &p);
  if (!status && sides) status = take_differences(context, &p);
  for (size_t i = 0; i < p.n_sorted && !status && !sides; i++)
    put(&p, p.sorted[i], NULL);
  if (!status) status = split(context, &p, taken.assurance, out);
  out->of_differences = sides;
  free_pilot(&p);
  scwi_table_facts_free(&facts);
  return status;
}
