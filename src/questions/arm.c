/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "arm.h"

#include <stdlib.h>
#include <string.h>

#include "memory.h"
#include "text.h"

typedef struct side_index {
  const size_t *index;
  size_t n;
} side_index;

static scw_status say_unmatched(scw_context *context, scwi_arm *arm,
                                scwi_match_words words, const char *label,
                                bool on_after, size_t line) {
  scwi_text text = {0};
  char *told = NULL;
  scw_status status = SCWI_RESERVE(context, arm->n_unmatched + 1,
                                   &arm->unmatched, &arm->unmatched_capacity);
  if (status) return status;
  scwi_text_format(&text, "%s %s was read %s (line %zu) but not %s",
                   words.thing, label, on_after ? words.after : words.before,
                   line, on_after ? words.before : words.after);
  status = scwi_text_take(context, &text, &told);
  if (!status) arm->unmatched[arm->n_unmatched++] = told;
  return status;
}

/* 1 + place of each spot label among the values; 0 where it is absent. */
static scw_status places_by_label(scw_context *context,
                                  const scwi_values *values, size_t labels,
                                  size_t **out) {
  scw_status status = SCWI_ALLOCATE(context, labels, out);
  for (size_t i = 0; i < values->n && !status; i++)
    if (values->spot[i] != SCW_NO_LABEL)
      (*out)[values->spot[i]] = i + 1;
  return status;
}

static size_t most_labels(const scwi_values *a, const scwi_values *b) {
  size_t most = 0;
  for (size_t i = 0; i < a->n; i++)
    if (a->spot[i] >= (int32_t)most) most = (size_t)a->spot[i] + 1;
  for (size_t i = 0; i < b->n; i++)
    if (b->spot[i] >= (int32_t)most) most = (size_t)b->spot[i] + 1;
  return most;
}

static scw_status list_unmatched(scw_context *context, const scw_table *table,
                                 scwi_match_words words, scwi_arm *arm,
                                 bool on_after, const size_t *other_place) {
  const scwi_values *mine = on_after ? &arm->after : &arm->before;
  scw_status status = SCW_OK;
  for (size_t i = 0; i < mine->n && !status; i++)
    if (mine->spot[i] == SCW_NO_LABEL || !other_place[mine->spot[i]])
      status = say_unmatched(context, arm, words,
                             mine->spot[i] == SCW_NO_LABEL
                                 ? "without a name"
                                 : scw_table_label(table, mine->spot[i]),
                             on_after, mine->line[i]);
  return status;
}

scw_status scwi_arm_match(scw_context *context, const scw_table *table,
                          scwi_match_words words, scwi_arm *arm) {
  size_t labels = most_labels(&arm->before, &arm->after);
  size_t *in_before = NULL, *in_after = NULL;
  scw_status status = places_by_label(context, &arm->before, labels,
                                      &in_before);
  if (!status)
    status = places_by_label(context, &arm->after, labels, &in_after);
  if (!status)
    status = SCWI_ALLOCATE(context, arm->before.n, &arm->pair_before);
  if (!status)
    status = SCWI_ALLOCATE(context, arm->before.n, &arm->pair_after);
  for (size_t i = 0; i < arm->before.n && !status; i++) {
    int32_t spot = arm->before.spot[i];
    if (spot == SCW_NO_LABEL || !in_after[spot]) continue;
    arm->pair_before[arm->n_pairs] = i;
    arm->pair_after[arm->n_pairs++] = in_after[spot] - 1;
  }
  arm->paired = arm->n_pairs > 0;
  if (!status && table && arm->paired)
    status = list_unmatched(context, table, words, arm, false, in_after);
  if (!status && table && arm->paired)
    status = list_unmatched(context, table, words, arm, true, in_before);
  free(in_before);
  free(in_after);
  return status;
}

/* The readings of one spot, each for itself: for "this spot only". */
static scw_status as_repeats(scw_context *context, const scw_table *table,
                             const scwi_table_facts *facts, side_index side,
                             double divisor, scwi_values *out) {
  scwi_values_free(out);
  return scwi_values_each(context, table, &facts->decimals, side.index,
                          side.n, divisor, out);
}

/* An arm within one panel (or where no panel is named). */
static scw_status within_panel(scw_context *context, const scw_table *table,
                               const scwi_table_facts *facts,
                               side_index before, side_index after,
                               double divisor, scwi_arm *arm) {
  scw_status status =
      scwi_values_of(context, table, &facts->decimals, before.index, before.n,
                     divisor, &arm->before);
  if (!status)
    status = scwi_values_of(context, table, &facts->decimals, after.index,
                            after.n, divisor, &arm->after);
  if (status) return status;
  bool spots = arm->before.by_spot && arm->after.by_spot;
  arm->one_spot = spots && arm->before.n == 1 && arm->after.n == 1;
  if (arm->one_spot) {
    status = as_repeats(context, table, facts, before, divisor, &arm->before);
    if (!status)
      status = as_repeats(context, table, facts, after, divisor, &arm->after);
    return status;
  }
  scwi_match_words words = {"spot", "before", "after"};
  return spots ? scwi_arm_match(context, table, words, arm) : SCW_OK;
}

static double mean_of(const double *x, const size_t *place, size_t n) {
  long double sum = 0;
  for (size_t i = 0; i < n; i++) sum += (long double)x[place ? place[i] : i];
  return (double)(sum / (long double)n);
}

double scwi_arm_mean(const scwi_arm *arm, bool after) {
  const scwi_values *side = after ? &arm->after : &arm->before;
  const size_t *pair = after ? arm->pair_after : arm->pair_before;
  return arm->paired ? mean_of(side->x, pair, arm->n_pairs)
                     : mean_of(side->x, NULL, side->n);
}

void scwi_arm_shift(scwi_arm *arm, double offset) {
  scwi_values_shift(&arm->before, offset);
  scwi_values_shift(&arm->after, offset);
}

/* One panel as one value a side: the mean of its matched spots where there
 * are pairs, so that the difference is that of the pairs. */
static void add_panel(scwi_arm *arm, const scwi_arm *panel, int32_t label) {
  const scwi_values *from[2] = {&panel->before, &panel->after};
  scwi_values *to[2] = {&arm->before, &arm->after};
  for (int side = 0; side < 2; side++) {
    if (from[side]->n == 0) continue;
    size_t at = to[side]->n++;
    to[side]->x[at] = scwi_arm_mean(panel, side == 1);
    to[side]->spot[at] = label;
    to[side]->line[at] = from[side]->line[0];
    to[side]->place[at] = at + 1;
    to[side]->count[at] = from[side]->readings;
    to[side]->readings += from[side]->readings;
    to[side]->by_spot = true;
  }
}

/* The readings of one side that lie on `panel`, written to `out`. */
static side_index on_panel(const scw_table *table, side_index side,
                           int32_t panel, size_t *out) {
  side_index mine = {out, 0};
  for (size_t i = 0; i < side.n; i++)
    if (scw_table_readings(table)[side.index[i]].panel == panel)
      out[mine.n++] = side.index[i];
  return mine;
}

static scw_status one_panel(scw_context *context, const scw_table *table,
                            const scwi_table_facts *facts, side_index before,
                            side_index after, double divisor, int32_t label,
                            scwi_arm *arm) {
  scwi_arm panel = {0};
  scw_status status = SCW_OK;
  if (before.n && after.n)
    status = within_panel(context, table, facts, before, after, divisor,
                          &panel);
  else
    status = scwi_values_of(context, table, &facts->decimals,
                            before.n ? before.index : after.index,
                            before.n + after.n, divisor,
                            before.n ? &panel.before : &panel.after);
  if (!status) add_panel(arm, &panel, label);
  for (size_t i = 0; i < panel.n_unmatched && !status; i++) {
    status = SCWI_RESERVE(context, arm->n_unmatched + 1, &arm->unmatched,
                          &arm->unmatched_capacity);
    if (status) break;
    arm->unmatched[arm->n_unmatched++] = panel.unmatched[i];
    panel.unmatched[i] = NULL;
  }
  scwi_arm_free(&panel);
  return status;
}

/* The different panel labels of both sides, in order of appearance. */
static size_t list_panels(const scw_table *table, side_index before,
                          side_index after, int32_t *out) {
  const scw_reading *readings = scw_table_readings(table);
  size_t found = 0;
  for (size_t i = 0; i < before.n + after.n; i++) {
    int32_t panel = readings[i < before.n ? before.index[i]
                                          : after.index[i - before.n]].panel;
    size_t j = 0;
    while (j < found && out[j] != panel) j++;
    if (j == found && panel != SCW_NO_LABEL) out[found++] = panel;
  }
  return found;
}

/* With several panels, a reading that names none belongs nowhere. */
static scw_status all_name_panels(scw_context *context, const scw_table *table,
                                  side_index side) {
  const scw_reading *readings = scw_table_readings(table);
  for (size_t i = 0; i < side.n; i++) {
    const scw_reading *reading = &readings[side.index[i]];
    if (reading->panel != SCW_NO_LABEL) continue;
    const scw_input *input =
        scw_table_input(table, scw_table_input_of(table, side.index[i]));
    return scwi_fail_at(context, SCW_BAD_INPUT, input->name, reading->line, 0,
                        "a reading without a panel among readings of several "
                        "panels; fill in its panel");
  }
  return SCW_OK;
}

static scw_status across_panels(scw_context *context, const scw_table *table,
                                const scwi_table_facts *facts,
                                side_index before, side_index after,
                                double divisor, const int32_t *panel,
                                scwi_arm *arm) {
  size_t *room = NULL;
  scw_status status = all_name_panels(context, table, before);
  if (!status) status = all_name_panels(context, table, after);
  if (!status) status = SCWI_ALLOCATE(context, before.n + after.n, &room);
  if (!status)
    status = scwi_values_room(context, arm->panels, &arm->before);
  if (!status) status = scwi_values_room(context, arm->panels, &arm->after);
  for (size_t p = 0; p < arm->panels && !status; p++) {
    side_index b = on_panel(table, before, panel[p], room);
    side_index a = on_panel(table, after, panel[p], room + b.n);
    status = one_panel(context, table, facts, b, a, divisor, panel[p], arm);
  }
  free(room);
  scwi_match_words words = {"panel", "before", "after"};
  return status ? status : scwi_arm_match(context, table, words, arm);
}

scw_status scwi_arm_of(scw_context *context, const scw_table *table,
                       const scwi_table_facts *facts, const size_t *before,
                       size_t n_before, const size_t *after, size_t n_after,
                       double divisor, scwi_arm *out) {
  side_index b = {before, n_before}, a = {after, n_after};
  int32_t *panel = NULL;
  *out = (scwi_arm){0};
  scw_status status = SCWI_ALLOCATE(context, n_before + n_after, &panel);
  if (!status) out->panels = list_panels(table, b, a, panel);
  if (!status)
    status = out->panels > 1
                 ? across_panels(context, table, facts, b, a, divisor, panel,
                                 out)
                 : within_panel(context, table, facts, b, a, divisor, out);
  free(panel);
  if (status) scwi_arm_free(out);
  return status;
}

void scwi_arm_free(scwi_arm *arm) {
  scwi_values_free(&arm->before);
  scwi_values_free(&arm->after);
  free(arm->pair_before);
  free(arm->pair_after);
  for (size_t i = 0; i < arm->n_unmatched; i++) free(arm->unmatched[i]);
  free(arm->unmatched);
  *arm = (scwi_arm){0};
}

/* New places of the values that stay: place[i] counts those kept before i. */
static scw_status kept_places(scw_context *context, const bool *drop, size_t n,
                              size_t **out) {
  size_t kept = 0;
  scw_status status = SCWI_ALLOCATE(context, n, out);
  for (size_t i = 0; i < n && !status; i++) {
    (*out)[i] = kept;
    kept += !drop[i];
  }
  return status;
}

static scw_status keep_pairs(scw_context *context, const scwi_arm *arm,
                             const bool *drop_before, const bool *drop_after,
                             scwi_arm *out) {
  size_t *b = NULL, *a = NULL;
  scw_status status = kept_places(context, drop_before, arm->before.n, &b);
  if (!status) status = kept_places(context, drop_after, arm->after.n, &a);
  if (!status) status = SCWI_ALLOCATE(context, arm->n_pairs, &out->pair_before);
  if (!status) status = SCWI_ALLOCATE(context, arm->n_pairs, &out->pair_after);
  for (size_t i = 0; i < arm->n_pairs && !status; i++) {
    size_t pb = arm->pair_before[i], pa = arm->pair_after[i];
    if (drop_before[pb] || drop_after[pa]) continue;
    out->pair_before[out->n_pairs] = b[pb];
    out->pair_after[out->n_pairs++] = a[pa];
  }
  free(b);
  free(a);
  return status;
}

scw_status scwi_arm_without(scw_context *context, const scwi_arm *arm,
                            const bool *drop_before, const bool *drop_after,
                            scwi_arm *out) {
  *out = (scwi_arm){.paired = arm->paired,
                    .one_spot = arm->one_spot,
                    .panels = arm->panels};
  scw_status status =
      scwi_values_without(context, &arm->before, drop_before, &out->before);
  if (!status)
    status =
        scwi_values_without(context, &arm->after, drop_after, &out->after);
  if (!status)
    status = keep_pairs(context, arm, drop_before, drop_after, out);
  if (status) scwi_arm_free(out);
  return status;
}

scw_status scwi_arm_differences(scw_context *context, const scwi_arm *arm,
                                scwi_values *out) {
  return scwi_values_minus(context, &arm->after, arm->pair_after, &arm->before,
                           arm->pair_before, arm->n_pairs, out);
}
