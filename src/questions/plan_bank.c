/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "plan_bank.h"

#include <math.h>
#include <string.h>

#include "words.h"

typedef const char *text_of(const scw_bench_scatter *entry);

static const char *unit_of(const scw_bench_scatter *e) { return e->unit; }
static const char *geometry_of(const scw_bench_scatter *e) {
  return e->geometry;
}
static const char *meter_of(const scw_bench_scatter *e) { return e->meter; }

/* `said`, else what all entries that could be meant agree on, else null. */
static const char *said_or_common(const char *said, const scw_bench *bench,
                                  const char *panel_type, text_of *text) {
  const char *common = NULL;
  if (said && *said) return said;
  for (size_t i = 0; i < bench->n_scatter; i++) {
    const scw_bench_scatter *entry = &bench->scatter[i];
    size_t length = panel_type ? strlen(panel_type) : 0;
    if (length && (strlen(entry->panel_type) != length ||
                   !scwi_same_letters(entry->panel_type, panel_type, length)))
      continue;
    if (common && strcmp(common, text(entry))) return NULL;
    common = text(entry);
  }
  return common;
}

scw_status scwi_take_bank(scw_context *context, const char *unit,
                          scw_plan_result *out) {
  scw_plan_request *request = &out->request;
  const scw_bench *bench = request->bench;
  if (!bench) return SCW_OK;
  if (request->paired)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a scatter bank holds single readings, but pairs are "
                     "planned from the SD of their differences; give that SD, "
                     "or a pilot read before and after");
  if (request->sd > 0 || request->pilot_readings)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "a scatter bank and another scatter were given; use one "
                     "of them");
  scw_scatter_wanted wanted = request->bank;
  const char *type = wanted.panel_type;
  if (!wanted.unit) wanted.unit = unit;
  wanted.unit = said_or_common(wanted.unit, bench, type, unit_of);
  wanted.geometry = said_or_common(wanted.geometry, bench, type, geometry_of);
  wanted.meter = said_or_common(wanted.meter, bench, type, meter_of);
  scw_status status =
      scw_bench_find_scatter(context, bench, &wanted, &out->bank);
  if (status) return status;
  request->sd = out->bank->sd;
  request->pilot_readings = (size_t)floor(out->bank->df) + 1;
  return SCW_OK;
}

void scwi_say_bank(scwi_text *text, const scw_bench_scatter *entry) {
  scwi_text_add(text, "a bank of ");
  scwi_say_count(text, entry->sets, "set");
  scwi_text_add(text, " (");
  scwi_say_given(text, entry->df, "");
  scwi_text_add(text, " degrees of freedom)");
}
