/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 1 in short: n, mean, SD and interval of every set, from running
 * sums where every reading stands for itself, from spot means where there are
 * spots. */
#include <stdlib.h>

#include "display_step.h"
#include "figure.h"
#include "intervals.h"
#include "memory.h"
#include "running_sums.h"
#include "scatterwise/readings.h"
#include "sets.h"
#include "settings.h"
#include "table_facts.h"

/* What a result borrows its texts from. */
typedef struct brief_memory {
  scw_table *table;
  char **label; /* those made for the result; null where one is borrowed */
  size_t n;
} brief_memory;

/* t by degrees of freedom: sets of one size share it. */
enum { CACHED = 1024 };
typedef struct t_cache {
  double level;
  double df[CACHED], t[CACHED];
} t_cache;

static scw_status t_of(scw_context *context, t_cache *cache, double df,
                       double *t) {
  size_t at = df < 1e15 ? (size_t)df % CACHED : 0;
  scw_status status = SCW_OK;
  if (cache->df[at] != df) {
    scw_interval unit; /* of 0 with a standard uncertainty of 1 */
    status = scwi_t_interval(context, 0, (scwi_uncertainty){1, df},
                             cache->level, &unit);
    cache->df[at] = df;
    cache->t[at] = unit.high;
  }
  *t = cache->t[at];
  return status;
}

static scw_status fill_set(scw_context *context, scwi_moments m, scw_step step,
                           t_cache *cache, scw_brief_set *out) {
  scwi_uncertainty u;
  double t;
  out->n = m.n;
  out->mean = scwi_figure(m.mean);
  out->sd = m.n < 2 ? scwi_missing(SCW_ONE_READING) : scwi_figure(m.sd);
  scw_presence state = scwi_uncertainty_of_mean(m, step, &u);
  if (state != SCW_PRESENT) {
    out->interval = scwi_no_interval(state, cache->level);
    return SCW_OK;
  }
  scw_status status = t_of(context, cache, u.df, &t);
  double half = t * u.u;
  out->interval = scwi_interval(m.mean - half, m.mean + half, cache->level);
  return status;
}

/* ---- from running sums ---- */

static scw_step step_of(const scwi_sums *sums, const scw_settings *settings) {
  const scwi_tick_scale *scale = &sums->scale;
  if (settings->step.origin == SCW_STEP_GIVEN) return settings->step;
  if (sums->loose) return (scw_step){0, SCW_STEP_NOT_KNOWN};
  return scwi_display_step_of(scale->n, scale->different, scale->divisor,
                              scale->digits);
}

static scw_status check_geometry(scw_context *context, const scwi_sums *sums) {
  if (sums->geometry[1] == SCW_NO_LABEL) return SCW_OK;
  const scw_table *table = sums->table;
  return scwi_fail_geometries(context, scw_table_input(table, 0)->name,
                              sums->geometry_line,
                              scw_table_label(table, sums->geometry[1]),
                              scw_table_label(table, sums->geometry[0]));
}

static scw_status label_set(scw_context *context, brief_memory *memory,
                            const scwi_set_key *key,
                            const scwi_set_parts *parts, size_t i,
                            scw_brief_set *out) {
  out->label = scwi_set_name(memory->table, key, parts);
  if (out->label) return SCW_OK;
  scw_status status = scwi_set_label(context, memory->table, key, parts,
                                     &memory->label[i]);
  out->label = memory->label[i];
  return status;
}

static scw_status fill_from_sums(scw_context *context, const scwi_sums *sums,
                                 t_cache *cache, brief_memory *memory,
                                 scw_brief_result *out) {
  size_t n = sums->index.n, *order = NULL;
  scwi_set_parts parts = scwi_set_parts_of(sums->table, sums->index.key, n);
  scw_status status = scwi_sums_order(context, sums, &order);
  for (size_t i = 0; i < n && status == SCW_OK; i++) {
    scwi_set_figures f = scwi_sums_figures(sums, order[i]);
    scwi_moments m = scwi_moments_of_sums(f.n, f.sum, f.spread, f.tick);
    status = fill_set(context, m, out->step, cache, &out->sets[i]);
    if (status == SCW_OK)
      status = label_set(context, memory, &sums->index.key[order[i]], &parts,
                         i, &out->sets[i]);
  }
  free(order);
  return status;
}

/* ---- from spot means ---- */

static scw_status fill_from_values(scw_context *context,
                                   const scwi_table_facts *facts,
                                   const scwi_set *set, t_cache *cache,
                                   brief_memory *memory, size_t i,
                                   scw_brief_set *out) {
  scwi_values values;
  scw_status status = scwi_values_of(context, memory->table, &facts->decimals,
                                     set->reading, set->n, 1, &values);
  if (status == SCW_OK && values.n) {
    scwi_sample sample = scwi_values_sample(&values, facts->step);
    status = fill_set(context, scwi_moments_of(&sample), facts->step, cache,
                      out);
  } else if (status == SCW_OK) {
    out->mean = out->sd = scwi_missing(SCW_TOO_FEW);
    out->interval = scwi_no_interval(SCW_TOO_FEW, cache->level);
  }
  scwi_values_free(&values);
  out->label = memory->label[i] = set->label;
  return status;
}

static scw_status fill_from_table(scw_context *context,
                                  const scw_settings *settings, t_cache *cache,
                                  brief_memory *memory,
                                  scw_brief_result *out) {
  scwi_table_facts facts = {0};
  scwi_sets sets = {0};
  scw_status status =
      scwi_table_facts_of(context, memory->table, settings, &facts);
  out->step = facts.step;
  if (status == SCW_OK) status = scwi_sets_of(context, memory->table, &sets);
  if (status == SCW_OK) status = SCWI_ALLOCATE(context, sets.n, &out->sets);
  if (status == SCW_OK)
    status = SCWI_ALLOCATE(context, sets.n, &memory->label);
  if (status == SCW_OK) out->n_sets = memory->n = sets.n;
  for (size_t i = 0; i < out->n_sets && status == SCW_OK; i++) {
    status = fill_from_values(context, &facts, &sets.set[i], cache, memory, i,
                              &out->sets[i]);
    sets.set[i].label = NULL; /* it is the memory's now */
  }
  scwi_sets_free(&sets);
  scwi_table_facts_free(&facts);
  return status;
}

/* ---- both ---- */

static scw_status fill(scw_context *context, const scwi_sums *sums,
                       const scw_settings *settings, brief_memory *memory,
                       scw_brief_result *out) {
  t_cache *cache;
  scw_status status = SCWI_ALLOCATE(context, 1, &cache);
  if (status != SCW_OK) return status;
  cache->level = settings->level;
  if (sums->by_table) {
    status = fill_from_table(context, settings, cache, memory, out);
  } else {
    size_t n = sums->index.n;
    out->step = step_of(sums, settings);
    status = check_geometry(context, sums);
    if (status == SCW_OK) status = SCWI_ALLOCATE(context, n, &out->sets);
    if (status == SCW_OK) status = SCWI_ALLOCATE(context, n, &memory->label);
    if (status == SCW_OK) {
      out->n_sets = memory->n = n;
      status = fill_from_sums(context, sums, cache, memory, out);
    }
  }
  free(cache);
  return status;
}

scw_status scw_readings_brief(scw_context *context,
                              const scw_table_options *options,
                              const scw_settings *settings, scw_source source,
                              scw_brief_result *out) {
  scwi_sums sums = {0};
  scw_settings checked;
  brief_memory *memory = NULL;
  *out = (scw_brief_result){0};
  scw_status status = scwi_settings_take(context, settings, &checked);
  if (status == SCW_OK)
    status = scwi_sums_read(context, options, source, &sums);
  if (status == SCW_OK) status = SCWI_ALLOCATE(context, 1, &memory);
  if (status == SCW_OK) {
    out->memory = memory;
    memory->table = sums.table;
    status = fill(context, &sums, &checked, memory, out);
    sums.table = NULL;
  }
  if (status == SCW_OK) out->input = *scw_table_input(memory->table, 0);
  scwi_sums_free(&sums);
  if (status != SCW_OK) scw_brief_result_free(out);
  return status;
}

void scw_brief_result_free(scw_brief_result *result) {
  brief_memory *memory = result->memory;
  free(result->sets);
  if (memory) {
    for (size_t i = 0; i < memory->n; i++) free(memory->label[i]);
    free(memory->label);
    scw_table_free(memory->table);
  }
  free(memory);
  *result = (scw_brief_result){0};
}
