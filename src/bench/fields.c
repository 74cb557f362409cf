/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fields.h"

#include <stdlib.h>
#include <string.h>

#include "text.h"
#include "texts.h"

static scw_status unknown_key(const scwi_fields *fields,
                              const scwi_json_value *member,
                              const char *const *known, size_t n) {
  scwi_text list = {0};
  for (size_t i = 0; i < n; i++)
    scwi_text_format(&list, "%s%s", i ? ", " : "", known[i]);
  scw_status status = scwi_text_status(fields->context, &list);
  if (!status)
    status = scwi_fail_at(fields->context, SCW_BAD_INPUT, fields->name,
                          member->key_place.line, member->key_place.column,
                          "\"%s\" is no key of %s; its keys are %s",
                          member->key, fields->what, list.data);
  scwi_text_free(&list);
  return status;
}

static scw_status wrong_kind(const scwi_fields *fields, const char *what,
                             const scwi_json_value *value,
                             scwi_json_kind wanted) {
  return scwi_fail_at(fields->context, SCW_BAD_INPUT, fields->name,
                      value->place.line, value->place.column,
                      "%s is %s here and must be %s", what,
                      scwi_json_kind_words(value->kind),
                      scwi_json_kind_words(wanted));
}

scw_status scwi_fields_of(scw_context *context, const char *name,
                          const char *what, const scwi_json_value *value,
                          const char *const *known, size_t n,
                          scwi_fields *out) {
  *out = (scwi_fields){context, name, what, value};
  if (value->kind != SCWI_JSON_OBJECT)
    return wrong_kind(out, what, value, SCWI_JSON_OBJECT);
  for (const scwi_json_value *m = value->first; m; m = m->next) {
    size_t i = 0;
    while (i < n && strcmp(m->key, known[i])) i++;
    if (i == n) return unknown_key(out, m, known, n);
  }
  return SCW_OK;
}

scw_status scwi_field(const scwi_fields *fields, const char *key,
                      scwi_json_kind kind, bool required,
                      const scwi_json_value **out) {
  *out = scwi_json_find(fields->object, key);
  if (!*out && required)
    return scwi_fail_at(fields->context, SCW_BAD_INPUT, fields->name,
                        fields->object->place.line,
                        fields->object->place.column,
                        "%s begins here and has no \"%s\"; add it",
                        fields->what, key);
  if (*out && (*out)->kind != kind) return wrong_kind(fields, key, *out, kind);
  return SCW_OK;
}

scw_status scwi_field_fails(const scwi_fields *fields, const char *key,
                            const char *words) {
  const scwi_json_value *member = scwi_json_find(fields->object, key);
  if (!member) member = fields->object;
  return scwi_fail_at(fields->context, SCW_BAD_INPUT, fields->name,
                      member->place.line, member->place.column, "%s %s", key,
                      words);
}

scw_status scwi_field_text(const scwi_fields *fields, const char *key,
                           bool required, const char **out) {
  const scwi_json_value *found;
  scw_status status =
      scwi_field(fields, key, SCWI_JSON_TEXT, required, &found);
  *out = !status && found ? found->text : "";
  if (status || !found) return status;
  if (!*found->text)
    return scwi_field_fails(fields, key,
                            required ? "must not be empty"
                                     : "is empty; leave it out where there is "
                                       "none");
  return scwi_is_readable(found->text)
             ? SCW_OK
             : scwi_field_fails(fields, key, SCWI_READABLE);
}
