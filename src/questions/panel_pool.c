/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "panel_pool.h"

#include <stdlib.h>
#include <string.h>

#include "figure.h"
#include "memory.h"
#include "pooled_scatter.h"
#include "read_again.h"
#include "sets.h"
#include "tile.h"
#include "words.h"

/* The values of every set, and the samples that point into them. */
typedef struct pooled {
  scwi_values *values;
  scwi_sample *sample;
  size_t n;
} pooled;

static void free_pooled(pooled *p) {
  for (size_t i = 0; p->values && i < p->n; i++) scwi_values_free(&p->values[i]);
  free(p->values);
  free(p->sample);
}

static bool is_tile_set(const scw_table *table, const scwi_set *set) {
  return scwi_is_tile(table, &scw_table_readings(table)[set->reading[0]]);
}

static scw_status take_set(scw_context *context, const scw_table *table,
                           const scwi_table_facts *facts, const scwi_set *set,
                           size_t *first, pooled *p, scw_panel_result *out) {
  size_t n = scwi_first_readings(table, set->reading, set->n, first);
  if (n == 0 || is_tile_set(table, set)) return SCW_OK;
  size_t at = p->n++;
  scw_status status = scwi_values_of(context, table, &facts->decimals, first, n,
                                     1, &p->values[at]);
  if (status) return status;
  p->sample[at] = scwi_values_sample(&p->values[at], facts->step);
  return scwi_copy_text(context, set->label, strlen(set->label),
                        &out->set_label[at]);
}

static scw_status note_apart(scw_context *context,
                             const scw_panel_result *out, scwi_notes *notes) {
  enum { MOST_NAMED = 8 };
  const scw_pool *pool = &out->pool;
  scwi_text text = {0};
  size_t named = 0;
  if (pool->n_apart == 0) return SCW_OK;
  scwi_text_format(&text, "%zu of the %zu sets %s not belong with the others: ",
                   pool->n_apart, pool->sets,
                   pool->n_apart == 1 ? "does" : "do");
  for (size_t i = 0; i < pool->n_sets && named < MOST_NAMED; i++) {
    const scw_pooled_set *set = &pool->set[i];
    if (!set->apart) continue;
    scwi_text_format(&text, "%s%s", named++ ? ", " : "", out->set_label[i]);
    if (scwi_present(set->sd)) {
      scwi_text_add(&text, " (SD ");
      scwi_say_digits(&text, set->sd.value, 2, out->unit);
      scwi_text_add(&text, ")");
    }
  }
  if (named < pool->n_apart)
    scwi_text_format(&text, " and %zu more", pool->n_apart - named);
  scwi_text_format(&text, ". %s in the pooled SD all the same; leave sets out "
                          "of the file only for a reason you can write down.",
                   pool->n_apart == 1 ? "It is" : "They are");
  return scwi_note_take(context, notes, "sets_apart", &text);
}

scw_status scwi_panel_pool(scw_context *context, const scw_table *table,
                           const scwi_table_facts *facts,
                           scw_panel_result *out, scwi_notes *notes) {
  scwi_sets sets = {0};
  pooled p = {0};
  size_t *first = NULL;
  scw_status status = scwi_sets_of(context, table, &sets);
  if (!status) status = SCWI_ALLOCATE(context, sets.n, &p.values);
  if (!status) status = SCWI_ALLOCATE(context, sets.n, &p.sample);
  if (!status) status = SCWI_ALLOCATE(context, sets.n, &out->set_label);
  if (!status) status = SCWI_ALLOCATE(context, scw_table_size(table), &first);
  for (size_t i = 0; i < sets.n && !status; i++)
    status = take_set(context, table, facts, &sets.set[i], first, &p, out);
  if (!status)
    status = scwi_pool(context, p.sample, p.n, out->settings.level,
                       out->settings.stand_out, &out->pool);
  if (!status) status = note_apart(context, out, notes);
  if (status && !out->pool.n_sets) /* what scw_panel_result_free goes by */
    for (size_t i = 0; out->set_label && i < p.n; i++) free(out->set_label[i]);
  free(first);
  free_pooled(&p);
  scwi_sets_free(&sets);
  return status;
}

scw_status scwi_panel_pool_sentence(scw_context *context,
                                    const scw_panel_result *result,
                                    char **out) {
  const scw_pool *pool = &result->pool;
  scwi_text text = {0};
  if (!scwi_present(pool->sd) || !scwi_present(pool->df)) {
    scwi_text_format(&text, "The sets carry no scatter: %s.",
                     scw_presence_text(pool->sd.state));
    return scwi_text_take(context, &text, out);
  }
  scwi_text_format(&text, "Within %zu sets the readings scatter by ",
                   pool->sets);
  scwi_say_digits(&text, pool->sd.value, 2, result->unit);
  scwi_text_add(&text, " (pooled SD");
  if (pool->interval.state == SCW_PRESENT) {
    scwi_text_add(&text, ", ");
    scwi_say_percent(&text, pool->interval.level);
    scwi_text_add(&text, " interval ");
    scwi_say_interval(&text, pool->interval, pool->sd.value, result->unit);
  }
  scwi_text_format(&text, ", %zu degrees of freedom)", (size_t)pool->df.value);
  if (pool->n_apart == 0 && pool->sets > 1)
    scwi_text_add(&text, "; no set scatters apart from the others");
  scwi_text_add(&text, ".");
  return scwi_text_take(context, &text, out);
}
