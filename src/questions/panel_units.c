/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "panel_units.h"

#include <stdlib.h>

#include "memory.h"

typedef struct keyed {
  uint32_t panel, session, spot;
  size_t reading;
} keyed;

static int by_unit(const void *left, const void *right) {
  const keyed *a = left, *b = right;
  if (a->panel != b->panel) return a->panel < b->panel ? -1 : 1;
  if (a->session != b->session) return a->session < b->session ? -1 : 1;
  if (a->spot != b->spot) return a->spot < b->spot ? -1 : 1;
  return (a->reading > b->reading) - (a->reading < b->reading);
}

static bool any(const uint32_t *label, size_t n) {
  for (size_t i = 0; i < n; i++)
    if (label[i]) return true;
  return false;
}

/* Sorting is left out where the readings already stand so. */
static void sort(keyed *all, size_t n) {
  for (size_t i = 1; i < n; i++) {
    if (by_unit(&all[i - 1], &all[i]) <= 0) continue;
    qsort(all, n, sizeof *all, by_unit);
    return;
  }
}

static void add_reading(scwi_panel_units *out, const keyed *all, size_t i) {
  const keyed *here = &all[i], *before = i ? here - 1 : here;
  bool panel = i == 0 || here->panel != before->panel;
  bool session = panel || here->session != before->session;
  bool unit = session || here->spot != before->spot;
  out->n_panels += panel;
  out->n_sessions += session;
  if (unit) out->first[out->n++] = i;
  out->order[i] = here->reading;
  out->unit_of[here->reading] = (uint32_t)out->n - 1;
}

static void count_repeats(scwi_panel_units *out) {
  out->first[out->n] = out->n_readings;
  for (size_t u = 0; u < out->n; u++) {
    size_t here = out->first[u + 1] - out->first[u];
    out->least = u == 0 || here < out->least ? here : out->least;
    out->most = here > out->most ? here : out->most;
  }
}

scw_status scwi_panel_units_of(scw_context *context,
                               const scwi_panel_readings *readings,
                               const char *unit_name, scwi_panel_units *out) {
  size_t n = readings->n;
  keyed *all = NULL;
  *out = (scwi_panel_units){.n_readings = n,
                            .panels = any(readings->panel, n),
                            .sessions = any(readings->session, n),
                            .spots = any(readings->spot, n),
                            .operators = any(readings->by, n)};
  out->name = out->spots      ? "spot"
              : out->sessions ? "session"
              : out->panels   ? unit_name
                              : "reading";
  scw_status status = SCWI_ALLOCATE(context, n, &all);
  if (!status) status = SCWI_ALLOCATE(context, n, &out->order);
  if (!status) status = SCWI_ALLOCATE(context, n, &out->unit_of);
  if (!status) status = SCWI_ALLOCATE(context, n + 1, &out->first);
  if (!status) {
    for (size_t i = 0; i < n; i++)
      all[i] = (keyed){readings->panel[i], readings->session[i],
                       readings->spot[i], i};
    sort(all, n);
    for (size_t i = 0; i < n; i++) add_reading(out, all, i);
    count_repeats(out);
  }
  free(all);
  if (status) scwi_panel_units_free(out);
  return status;
}

void scwi_panel_units_free(scwi_panel_units *units) {
  free(units->order);
  free(units->unit_of);
  free(units->first);
  *units = (scwi_panel_units){0};
}
