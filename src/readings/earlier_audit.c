/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "earlier_audit.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "json_in.h"
#include "memory.h"

const char *const scwi_earlier_stated_keys[SCWI_EARLIER_STATED] = {
    "before", "after", "scatter_before", "scatter_after",
    "n_before", "n_after", "change", "points"};

typedef struct reader {
  scw_context *context;
  const char *name;
} reader;

static scw_status fail(const reader *r, const scwi_json_value *at,
                       const char *words) {
  return scwi_fail_at(r->context, SCW_BAD_INPUT, r->name, at->place.line,
                      at->place.column,
                      "%s; give a file written by audit --json", words);
}

/* The member of that kind; SCWI_JSON_NULL is allowed for numbers. */
static scw_status member(const reader *r, const scwi_json_value *object,
                         const char *key, scwi_json_kind kind,
                         const scwi_json_value **out) {
  *out = object->kind == SCWI_JSON_OBJECT ? scwi_json_find(object, key) : NULL;
  bool null = *out && (*out)->kind == SCWI_JSON_NULL &&
              kind == SCWI_JSON_NUMBER;
  if (*out && ((*out)->kind == kind || null)) return SCW_OK;
  return scwi_fail_at(r->context, SCW_BAD_INPUT, r->name, object->place.line,
                      object->place.column,
                      "what begins here has no \"%s\" that is %s; give a file "
                      "written by audit --json",
                      key, scwi_json_kind_words(kind));
}

static scw_status number(const reader *r, const scwi_json_value *object,
                         const char *key, double *out) {
  const scwi_json_value *found;
  scw_status status = member(r, object, key, SCWI_JSON_NUMBER, &found);
  *out = !status && found->kind == SCWI_JSON_NUMBER ? found->number : NAN;
  return status;
}

static scw_status text(const reader *r, const scwi_json_value *object,
                       const char *key, char **out) {
  const scwi_json_value *found;
  scw_status status = member(r, object, key, SCWI_JSON_TEXT, &found);
  return status ? status
                : scwi_copy_text(r->context, found->text, strlen(found->text),
                                 out);
}

static scw_status take_claim(const reader *r, const scwi_json_value *object,
                             scwi_earlier_claim *out) {
  const scwi_json_value *stated = NULL, *faults = NULL;
  scw_status status = text(r, object, "id", &out->id);
  if (!status) status = text(r, object, "verdict", &out->verdict);
  if (!status) status = number(r, object, "p", &out->p);
  if (!status) status = member(r, object, "stated", SCWI_JSON_OBJECT, &stated);
  if (!status) status = member(r, object, "faults", SCWI_JSON_ARRAY, &faults);
  for (size_t i = 0; i < SCWI_EARLIER_STATED && !status; i++)
    status = number(r, stated, scwi_earlier_stated_keys[i], &out->stated[i]);
  if (!status) out->faults = faults->n;
  return status;
}

static scw_status take_all(const reader *r, const scwi_json_value *root,
                           scwi_earlier_audit *out) {
  const scwi_json_value *command, *settings, *results, *summary, *claims;
  double judged = 0;
  scw_status status = member(r, root, "command", SCWI_JSON_TEXT, &command);
  if (!status && strcmp(command->text, "audit"))
    status = fail(r, command, "this is the answer to another question");
  if (!status) status = member(r, root, "settings", SCWI_JSON_OBJECT, &settings);
  if (!status) status = number(r, settings, "level", &out->level);
  if (!status) status = member(r, root, "results", SCWI_JSON_OBJECT, &results);
  if (!status) status = member(r, results, "summary", SCWI_JSON_OBJECT, &summary);
  if (!status) status = number(r, summary, "judged", &judged);
  if (!status) status = member(r, results, "claims", SCWI_JSON_ARRAY, &claims);
  if (!status) status = SCWI_ALLOCATE(r->context, claims->n, &out->claim);
  if (status) return status;
  out->judged = judged >= 0 && judged < 1e15 ? (size_t)judged : 0;
  for (const scwi_json_value *c = claims->first; c && !status; c = c->next)
    status = take_claim(r, c, &out->claim[out->n++]);
  return status;
}

scw_status scwi_earlier_audit_read(scw_context *context, scw_source source,
                                   scwi_earlier_audit *out) {
  scwi_json_file file;
  const reader r = {context, source.name};
  *out = (scwi_earlier_audit){0};
  scw_status status = scwi_json_read(context, source, &file);
  if (!status) status = take_all(&r, file.root, out);
  scwi_json_file_free(&file);
  return status;
}

void scwi_earlier_audit_free(scwi_earlier_audit *audit) {
  for (size_t i = 0; i < audit->n; i++) {
    free(audit->claim[i].id);
    free(audit->claim[i].verdict);
  }
  free(audit->claim);
  *audit = (scwi_earlier_audit){0};
}
