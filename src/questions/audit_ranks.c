/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which ranks survive: the places that claims could hold among those they can
 * be compared with, by their changes. */
#include <stdlib.h>
#include <string.h>

#include "audit_inside.h"
#include "figure.h"
#include "memory.h"
#include "places.h"

enum { MOST_RANKED = 100 }; /* in a group: the studentised range ends there */

/* Claims are compared within one category, method, rule, unit and geometry. */
static int compare_facts(const scwi_facts *a, const scwi_facts *b) {
  static const scwi_context_text same[] = {SCWI_OF_CATEGORY, SCWI_OF_METHOD,
                                           SCWI_OF_RULE, SCWI_OF_UNIT,
                                           SCWI_OF_GEOMETRY};
  for (size_t i = 0; i < sizeof same / sizeof *same; i++) {
    bool method = same[i] == SCWI_OF_METHOD;
    if (method && (a->convert || b->convert)) continue;
    int order = strcmp(a->text[same[i]], b->text[same[i]]);
    if (order) return order;
  }
  return 0;
}

typedef struct ranked {
  const scwi_facts *facts;
  size_t claim;
  scwi_entry entry;
} ranked;

static int by_group(const void *left, const void *right) {
  const ranked *a = left, *b = right;
  int order = compare_facts(a->facts, b->facts);
  if (order) return order;
  return (a->claim > b->claim) - (a->claim < b->claim);
}

/* Claims with a change and an uncertainty. A rule that takes points off for a
 * rise ranks the other way round. */
static scw_status gather(scw_context *context, const scw_audit *audit,
                         ranked **out, size_t *n) {
  scw_status status = SCWI_ALLOCATE(context, audit->n, out);
  *n = 0;
  for (size_t i = 0; i < audit->n && !status; i++) {
    const scwi_facts *facts = scwi_facts_of(audit, i);
    scwi_record record;
    scwi_judged judged;
    scwi_audit_record_of(audit, i, &record);
    scwi_audit_judge(audit, &record, facts, &judged);
    if (!judged.by_p || scwi_is_grave(scwi_audit_faults(&record, facts)))
      continue;
    bool turned = facts->rule && facts->rule->points < 0;
    double change = judged.change.value;
    (*out)[(*n)++] =
        (ranked){facts, i, {.estimate = turned ? -change : change,
                            .u = judged.u, .state = SCW_PRESENT}};
  }
  if (*n) qsort(*out, *n, sizeof **out, by_group);
  return status;
}

static scw_status rank_group(scw_context *context, const ranked *group,
                             size_t n, size_t number, scw_audit *audit) {
  scwi_entry entry[MOST_RANKED] = {0};
  scwi_place_range place[MOST_RANKED];
  for (size_t i = 0; i < n; i++) entry[i] = group[i].entry;
  scw_status status =
      scwi_places(context, entry, n, audit->settings.level, place);
  for (size_t i = 0; i < n && !status; i++)
    audit->rank[audit->n_ranks++] = (scw_audit_rank){
        group[i].claim, number, place[i].low, place[i].high, n};
  return status;
}

scw_status scwi_audit_ranks(scw_context *context, scw_audit *audit) {
  ranked *all = NULL;
  size_t n = 0, group = 0;
  scw_status status = gather(context, audit, &all, &n);
  if (!status) status = SCWI_ALLOCATE(context, n, &audit->rank);
  for (size_t i = 0, end; i < n && !status; i = end) {
    for (end = i + 1; end < n && !compare_facts(all[i].facts, all[end].facts);)
      end++;
    if (end - i >= 2 && end - i <= MOST_RANKED)
      status = rank_group(context, all + i, end - i, ++group, audit);
  }
  free(all);
  return status;
}
