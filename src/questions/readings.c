/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Question 1: what does this reading set say? */
#include "scatterwise/readings.h"

#include <stdlib.h>
#include <string.h>

#include "angle_advice.h"
#include "friction.h"
#include "memory.h"
#include "notes.h"
#include "read_again.h"
#include "set_report.h"
#include "sets.h"
#include "settings.h"
#include "table_facts.h"

typedef struct leave_outs {
  const scw_leave_out *item;
  size_t n;
} leave_outs;

static bool concerns(const scw_leave_out *item, const char *label,
                     size_t sets) {
  return item->set ? !strcmp(item->set, label) : sets == 1;
}

/* Every leave-out must name a set, a place in it and a reason. */
static scw_status check_leave_outs(scw_context *context, leave_outs asked,
                                   const scwi_sets *sets) {
  for (size_t i = 0; i < asked.n; i++) {
    bool known = false;
    for (size_t s = 0; s < sets->n && !known; s++)
      known = concerns(&asked.item[i], sets->set[s].label, sets->n);
    if (!asked.item[i].because || !*asked.item[i].because)
      return scwi_fail(context, SCW_BAD_ARGUMENT,
                       "leaving out reading %zu needs a reason: add --because "
                       "\"what was wrong with it\"",
                       asked.item[i].place);
    if (!known && asked.item[i].set)
      return scwi_fail(context, SCW_BAD_ARGUMENT,
                       "no set is called '%s'; the first is '%s'",
                       asked.item[i].set, sets->set[0].label);
    if (!known)
      return scwi_fail(context, SCW_BAD_ARGUMENT,
                       "there are %zu sets: say which one reading %zu is to be "
                       "left out of, such as '%s:%zu'",
                       sets->n, asked.item[i].place, sets->set[0].label,
                       asked.item[i].place);
  }
  return SCW_OK;
}

/* The leave-outs of this set, copied into the report, and their marks. */
static scw_status mark_left_out(scw_context *context, leave_outs asked,
                                const char *label, size_t sets, size_t n,
                                bool *drop, scw_set_report *report) {
  scw_status status = SCWI_ALLOCATE(context, asked.n, &report->left_out);
  for (size_t i = 0; i < asked.n && !status; i++) {
    const scw_leave_out *item = &asked.item[i];
    char *because = NULL;
    if (!concerns(item, label, sets)) continue;
    if (item->place < 1 || item->place > n)
      return scwi_fail(context, SCW_BAD_ARGUMENT,
                       "there is no reading %zu to leave out: %s%sthe set has "
                       "%zu",
                       item->place, label, *label ? ": " : "", n);
    if (drop[item->place - 1])
      return scwi_fail(context, SCW_BAD_ARGUMENT,
                       "reading %zu is left out twice", item->place);
    drop[item->place - 1] = true;
    status = scwi_copy_text(context, item->because, strlen(item->because),
                            &because);
    if (!status)
      report->left_out[report->n_left_out++] =
          (scw_leave_out){.place = item->place, .because = because};
  }
  return status;
}

/* One set without its left-out values. */
static scw_status report_rest(scw_context *context, const scwi_values *values,
                              const bool *drop, scwi_set_words words,
                              scw_step step, const scw_settings *settings,
                              scw_set_report *out) {
  scwi_values rest = {0};
  scw_status status = scwi_values_without(context, values, drop, &rest);
  if (!status && rest.n == 0)
    status = scwi_fail(context, SCW_BAD_ARGUMENT,
                       "every reading of '%s' is left out", words.label);
  if (!status)
    status = scwi_set_report(context, &rest, words, step, settings, out);
  scwi_values_free(&rest);
  return status;
}

static scw_status report_set(scw_context *context, const scw_table *table,
                             const scwi_table_facts *facts,
                             const scwi_sets *sets, const scwi_set *set,
                             leave_outs asked, const scw_settings *settings,
                             scw_set_report *out, size_t *again) {
  scwi_values values = {0};
  scw_set_report left = {0};
  bool *drop = NULL;
  scwi_set_words words = {set->label, facts->unit, sets->n == 1};
  size_t *first = NULL, n = 0;
  scw_status status = SCWI_ALLOCATE(context, set->n, &first);
  if (!status) n = scwi_first_readings(table, set->reading, set->n, first);
  *again += set->n - n;
  if (!status)
    status = scwi_values_of(context, table, &facts->decimals,
                            n ? first : set->reading, n ? n : set->n, 1,
                            &values);
  if (!status) status = SCWI_ALLOCATE(context, values.n, &drop);
  if (!status)
    status = mark_left_out(context, asked, set->label, sets->n, values.n, drop,
                           &left);
  if (!status)
    status = report_rest(context, &values, drop, words, facts->step, settings,
                         out);
  if (!status) {
    out->left_out = left.left_out;
    out->n_left_out = left.n_left_out;
    left = (scw_set_report){0};
  }
  free(first);
  scwi_set_report_free(&left);
  scwi_values_free(&values);
  free(drop);
  return status;
}

static scw_status advise(scw_context *context, const scw_readings_result *of,
                         const char *geometry, scwi_notes *notes) {
  scwi_best_angle best = {0, false};
  for (size_t i = 0; i < of->n_sets; i++)
    scwi_see_gloss(&best, of->sets[i].summary.mean);
  return scwi_angle_advice(context, best, geometry, notes);
}

scw_status scw_readings(scw_context *context, const scw_table *table,
                        const scw_settings *settings,
                        const scw_leave_out *leave_out, size_t n_leave_out,
                        scw_readings_result *out) {
  scwi_table_facts facts = {0};
  scwi_sets sets = {0};
  leave_outs asked = {leave_out, n_leave_out};
  scwi_notes notes = {0};
  size_t again = 0;
  *out = (scw_readings_result){0};
  scw_status status = scwi_settings_take(context, settings, &out->settings);
  if (!status)
    status = scwi_table_facts_of(context, table, &out->settings, &facts);
  if (!status) status = scwi_sets_of(context, table, &sets);
  if (!status) status = check_leave_outs(context, asked, &sets);
  if (!status) status = SCWI_ALLOCATE(context, sets.n, &out->sets);
  for (size_t i = 0; i < sets.n && !status; i++) {
    status = report_set(context, table, &facts, &sets, &sets.set[i], asked,
                        &out->settings, &out->sets[i], &again);
    if (!status) out->n_sets++;
  }
  if (!status && scwi_is_friction(facts.quantity))
    status = scwi_friction_caution(context, &notes);
  if (!status) status = advise(context, out, facts.geometry, &notes);
  if (!status && again)
    status = scwi_note(context, &notes, "read_again",
                       "%zu readings that replace earlier ones are not counted: "
                       "a reading taken again is a choice, and the first ones "
                       "stand.",
                       again);
  out->notes = notes.note;
  out->n_notes = notes.n;
  scwi_sets_free(&sets);
  scwi_table_facts_free(&facts);
  if (status) scw_readings_result_free(out);
  return status;
}

void scw_readings_result_free(scw_readings_result *result) {
  for (size_t i = 0; i < result->n_sets; i++)
    scwi_set_report_free(&result->sets[i]);
  free(result->sets);
  scwi_notes_free(result->notes, result->n_notes);
  *result = (scw_readings_result){0};
}
