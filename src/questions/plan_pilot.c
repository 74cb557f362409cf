/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A balanced pilot's scatter, split into spots and repeats. */
#include <stdlib.h>

#include "memory.h"
#include "scatterwise/plan.h"
#include "settings.h"
#include "spot_components.h"
#include "table_facts.h"

/* Everything must be of one product, panel, session and side. */
static scw_status one_set(scw_context *context, const scw_table *table) {
  const scw_reading *readings = scw_table_readings(table);
  for (size_t i = 1; i < scw_table_size(table); i++) {
    const scw_reading *a = &readings[0], *b = &readings[i];
    if (a->product == b->product && a->panel == b->panel && a->set == b->set &&
        a->session == b->session && a->side == b->side)
      continue;
    return scwi_fail_at(
        context, SCW_BAD_INPUT,
        scw_table_input(table, scw_table_input_of(table, i))->name, b->line, 0,
        "a second product, panel, session or side; a pilot for spots and "
        "repeats holds one panel in one state");
  }
  return SCW_OK;
}

static int by_spot(const void *a, const void *b) {
  const scw_reading *const *x = a, *const *y = b;
  if ((*x)->spot != (*y)->spot) return (*x)->spot < (*y)->spot ? -1 : 1;
  return (*x)->line < (*y)->line ? -1 : (*x)->line > (*y)->line;
}

/* How many readings the run of one spot starting at `i` has. */
static size_t run_length(const scw_reading *const *sorted, size_t n,
                         size_t i) {
  size_t end = i;
  while (end < n && sorted[end]->spot == sorted[i]->spot) end++;
  return end - i;
}

static scw_status check_balance(scw_context *context, const scw_table *table,
                                const scw_reading *const *sorted, size_t n,
                                size_t *spots) {
  const char *name = scw_table_input(table, 0)->name;
  size_t repeats = run_length(sorted, n, 0);
  *spots = 0;
  for (size_t i = 0; i < n; i += repeats, ++*spots) {
    size_t here = run_length(sorted, n, i);
    if (sorted[i]->spot == SCW_NO_LABEL)
      return scwi_fail_at(context, SCW_BAD_INPUT, name, sorted[i]->line, 0,
                          "a reading without a spot; name the spots to plan "
                          "spots and repeats");
    if (here != repeats || repeats < 2)
      return scwi_fail_at(
          context, SCW_BAD_INPUT, name, sorted[i]->line, 0,
          "spot %s was read %zu times, spot %s %zu times; every spot of the "
          "pilot must be read equally often, at least twice",
          scw_table_label(table, sorted[i]->spot), here,
          scw_table_label(table, sorted[0]->spot), repeats);
  }
  if (*spots < 2)
    return scwi_fail_at(context, SCW_BAD_INPUT, name, 0, 0,
                        "one spot only; a pilot needs at least two");
  return SCW_OK;
}

scw_status scw_plan_pilot(scw_context *context, const scw_table *table,
                          const scw_settings *settings,
                          scw_spot_components *out) {
  scw_settings taken;
  scwi_table_facts facts = {0};
  const scw_reading **sorted = NULL;
  double *x = NULL;
  size_t n = scw_table_size(table), spots = 0;
  *out = (scw_spot_components){0};
  scw_status status = scwi_settings_take(context, settings, &taken);
  if (!status) status = scwi_table_facts_of(context, table, &taken, &facts);
  if (!status) status = one_set(context, table);
  if (!status) status = SCWI_ALLOCATE(context, n, &sorted);
  if (!status) status = SCWI_ALLOCATE(context, n, &x);
  for (size_t i = 0; i < n && !status; i++)
    sorted[i] = &scw_table_readings(table)[i];
  if (!status) {
    qsort(sorted, n, sizeof *sorted, by_spot);
    status = check_balance(context, table, sorted, n, &spots);
  }
  for (size_t i = 0; i < n && !status; i++) x[i] = sorted[i]->value;
  if (!status)
    status = scwi_spot_components(context, x, spots, n / spots,
                                  taken.assurance, out);
  free(x);
  free(sorted);
  scwi_table_facts_free(&facts);
  return status;
}
