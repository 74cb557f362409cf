/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What changed since an earlier audit, and why. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "audit_inside.h"
#include "earlier_audit.h"
#include "figure.h"
#include "memory.h"

static void stated_numbers(const scw_claim *claim, double *out) {
  const scw_claim_stated *s = &claim->stated;
  const scw_stated numbers[] = {s->mean[0], s->mean[1], s->scatter[0],
                                s->scatter[1]};
  for (int i = 0; i < 4; i++) out[i] = numbers[i].has ? numbers[i].value : NAN;
  for (int i = 0; i < 2; i++)
    out[4 + i] = s->n[i] ? (double)s->n[i] : NAN;
  out[6] = s->change.has ? s->change.value : NAN;
  out[7] = s->points.has ? s->points.value : NAN;
}

static bool same(double a, double b) {
  return a == b || (isnan(a) && isnan(b));
}

/* The names of the stated figures that differ. */
static void say_figures(scwi_text *text, const scwi_earlier_claim *was,
                        const scw_claim *is) {
  double now[SCWI_EARLIER_STATED];
  size_t n = 0;
  stated_numbers(is, now);
  for (size_t i = 0; i < SCWI_EARLIER_STATED; i++)
    if (!same(now[i], was->stated[i]))
      scwi_text_format(text, "%s%s", n++ ? ", " : "stated figures changed: ",
                       scwi_earlier_stated_keys[i]);
}

static void say_why(scwi_text *text, const scw_audit *audit,
                    const scwi_earlier_audit *earlier,
                    const scwi_earlier_claim *was, const scw_claim *is) {
  double p = scwi_present(is->change.p) ? is->change.p.value : NAN;
  say_figures(text, was, is);
  if (text->length) return;
  if (was->faults != is->n_faults)
    scwi_text_add(text, "its figures were checked with another step, rule or "
                        "readings");
  else if (earlier->level != audit->settings.level)
    scwi_text_add(text, "another level was asked for");
  else if (!same(p, was->p))
    scwi_text_add(text, "its scatter comes from elsewhere now: readings, a "
                        "bench, a step or a conversion");
  else if (earlier->judged != audit->summary.judged)
    scwi_text_format(text, "%zu claims are judged together now, %zu were then",
                     audit->summary.judged, earlier->judged);
  else
    scwi_text_add(text, "other claims judged with it changed");
}

static scw_status add(scw_context *context, scw_audit *audit, size_t *capacity,
                      const char *id, const char *was, const char *is,
                      const char *why) {
  scw_status status = SCWI_RESERVE(context, audit->n_differences + 1,
                                   &audit->difference, capacity);
  if (status) return status;
  scw_audit_difference *to = &audit->difference[audit->n_differences++];
  *to = (scw_audit_difference){0};
  const struct {
    const char *from;
    char **to;
  } texts[] = {{id, &to->id}, {was, &to->was}, {is, &to->is}, {why, &to->why}};
  for (size_t i = 0; i < 4 && !status; i++)
    status = scwi_copy_text(context, texts[i].from, strlen(texts[i].from),
                            texts[i].to);
  return status;
}

static bool is_changed(const scwi_earlier_claim *was, const scw_claim *is) {
  double now[SCWI_EARLIER_STATED];
  stated_numbers(is, now);
  bool changed = strcmp(was->verdict, scw_claim_verdict_code(is->verdict)) ||
                 was->faults != is->n_faults;
  for (size_t i = 0; i < SCWI_EARLIER_STATED; i++)
    changed = changed || !same(now[i], was->stated[i]);
  return changed;
}

static scw_status compare(scw_context *context, scw_audit *audit,
                          const scwi_earlier_audit *earlier,
                          const scwi_earlier_claim *was, const scw_claim *is,
                          size_t *capacity) {
  const char *verdict = scw_claim_verdict_code(is->verdict);
  scwi_text why = {0};
  if (!was)
    return add(context, audit, capacity, is->id, "", verdict,
               "not in the earlier audit");
  if (!is_changed(was, is)) return SCW_OK;
  say_why(&why, audit, earlier, was, is);
  scw_status status = scwi_text_status(context, &why);
  if (!status)
    status = add(context, audit, capacity, is->id, was->verdict, verdict,
                 why.data ? why.data : "");
  scwi_text_free(&why);
  return status;
}

/* The claims of the earlier audit by their ids. An id that stands there more than
 * once is met in the order of the file: first[label] and then next[], as index + 1;
 * 0 where there is no other. */
typedef struct earlier_ids {
  scwi_labels labels;
  size_t *first, *next;
  bool *met;
} earlier_ids;

static scw_status index_of(scw_context *context,
                           const scwi_earlier_audit *earlier,
                           earlier_ids *ids) {
  scw_status status = SCWI_ALLOCATE(context, earlier->n, &ids->first);
  if (!status) status = SCWI_ALLOCATE(context, earlier->n, &ids->next);
  if (!status) status = SCWI_ALLOCATE(context, earlier->n, &ids->met);
  for (size_t i = earlier->n; i-- > 0 && !status;) {
    const char *id = earlier->claim[i].id;
    int32_t label;
    status =
        scwi_labels_intern(context, &ids->labels, id, strlen(id), &label);
    if (status) break;
    ids->next[i] = ids->first[label];
    ids->first[label] = i + 1;
  }
  return status;
}

/* Takes the next claim of that id; null: there is none. */
static scw_status meet(scw_context *context, const scwi_earlier_audit *earlier,
                       earlier_ids *ids, size_t known, const char *id,
                       const scwi_earlier_claim **out) {
  int32_t label;
  *out = NULL;
  scw_status status =
      scwi_labels_intern(context, &ids->labels, id, strlen(id), &label);
  if (status || (size_t)label >= known || !ids->first[label]) return status;
  size_t i = ids->first[label] - 1;
  ids->first[label] = ids->next[i];
  ids->met[i] = true;
  *out = &earlier->claim[i];
  return SCW_OK;
}

static scw_status compare_all(scw_context *context, scw_audit *audit,
                              const scwi_earlier_audit *earlier,
                              earlier_ids *ids) {
  size_t capacity = 0, known = ids->labels.n;
  scw_status status = SCW_OK;
  for (size_t i = 0; i < audit->n && !status; i++) {
    const scwi_earlier_claim *was;
    scw_claim claim;
    status = scw_audit_claim(context, audit, i, &claim);
    if (status) break;
    status = meet(context, earlier, ids, known, claim.id, &was);
    if (!status)
      status = compare(context, audit, earlier, was, &claim, &capacity);
    scw_claim_free(&claim);
  }
  for (size_t i = 0; i < earlier->n && !status; i++)
    if (!ids->met[i])
      status = add(context, audit, &capacity, earlier->claim[i].id,
                   earlier->claim[i].verdict, "",
                   "no longer in the archive");
  return status;
}

scw_status scw_audit_against(scw_context *context, scw_audit *audit,
                             scw_source source) {
  scwi_earlier_audit earlier;
  earlier_ids ids = {.first = NULL};
  scwi_audit_differences_free(audit);
  scw_status status = scwi_earlier_audit_read(context, source, &earlier);
  if (!status) status = index_of(context, &earlier, &ids);
  if (!status) status = compare_all(context, audit, &earlier, &ids);
  if (status) scwi_audit_differences_free(audit);
  scwi_labels_free(&ids.labels);
  free(ids.first);
  free(ids.next);
  free(ids.met);
  scwi_earlier_audit_free(&earlier);
  return status;
}

void scwi_audit_differences_free(scw_audit *audit) {
  for (size_t i = 0; i < audit->n_differences; i++) {
    free(audit->difference[i].id);
    free(audit->difference[i].was);
    free(audit->difference[i].is);
    free(audit->difference[i].why);
  }
  free(audit->difference);
  audit->difference = NULL;
  audit->n_differences = 0;
}
