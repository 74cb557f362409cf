/* SPDX-License-Identifier: GPL-3.0-or-later */
/* quantities[]: what is worked out of the inputs. */
#include <math.h>
#include <string.h>

#include "model.h"
#include "quantity.h"
#include "reading.h"

static const char *const keys[] = {"name",     "about", "measures", "unit",
                                   "geometry", "meter", "model",    "margin",
                                   "limits"};
static const char *const limit_keys[] = {"low", "high", "probability"};

#define COUNT(array) (sizeof(array) / sizeof(array)[0])

static scw_status take_measures(const scwi_fields *fields, scw_measures *out) {
  const char *word;
  scw_status status = scwi_field_text(fields, "measures", false, &word);
  *out = SCW_MEASURES_OTHER;
  if (status || !*word) return status;
  while (*out < SCW_MEASURES_END && strcmp(word, scw_measures_code(*out)))
    *out = (scw_measures)(*out + 1);
  return *out < SCW_MEASURES_END
             ? SCW_OK
             : scwi_field_fails(fields, "measures",
                                "must be gloss, friction, retention or other");
}

static scw_status take_texts(const scwi_fields *fields,
                             scw_bench_quantity *out) {
  const struct {
    const char *key;
    const char **to;
    bool required;
  } texts[] = {{"about", &out->about, false},
               {"unit", &out->unit, true},
               {"geometry", &out->geometry, false},
               {"meter", &out->meter, false},
               {"model", &out->model, true}};
  scw_status status = SCW_OK;
  for (size_t i = 0; i < COUNT(texts) && !status; i++)
    status =
        scwi_field_text(fields, texts[i].key, texts[i].required, texts[i].to);
  return status;
}

static scw_status check_geometry(const scwi_fields *fields,
                                 const scw_bench_quantity *quantity) {
  const char *angle = quantity->geometry;
  if (!*angle) return SCW_OK;
  if (quantity->measures != SCW_MEASURES_GLOSS)
    return scwi_field_fails(fields, "geometry",
                            "is the angle of a gloss meter; it goes with "
                            "\"measures\": \"gloss\"");
  if (!strcmp(angle, "20") || !strcmp(angle, "60") || !strcmp(angle, "85"))
    return SCW_OK;
  return scwi_field_fails(fields, "geometry",
                          "must be \"20\", \"60\" or \"85\", the angles of "
                          "ISO 2813");
}

static scw_status take_margin(const scwi_fields *fields, scw_figure *out) {
  const scwi_json_value *found;
  scw_status status =
      scwi_field(fields, "margin", SCWI_JSON_NUMBER, false, &found);
  *out = (scw_figure){0, SCW_NO_MARGIN};
  if (status || !found) return status;
  *out = (scw_figure){found->number, SCW_PRESENT};
  return found->number > 0 ? SCW_OK
                           : scwi_field_fails(fields, "margin",
                                              "must be above 0; leave it out "
                                              "where there is none");
}

static scw_status take_limit(const scwi_fields *fields, const char *key,
                             double *out) {
  const scwi_json_value *found;
  scw_status status = scwi_field(fields, key, SCWI_JSON_NUMBER, false, &found);
  if (!status && found) *out = found->number;
  return status;
}

static scw_status take_limits(const scwi_fields *fields,
                              scw_bench_quantity *out) {
  const scwi_json_value *object, *probability;
  scwi_fields limits;
  out->low = -INFINITY;
  out->high = INFINITY;
  out->conformance = (scw_figure){0, SCW_NOT_COMPUTED};
  scw_status status =
      scwi_field(fields, "limits", SCWI_JSON_OBJECT, false, &object);
  if (status || !object) return status;
  status = scwi_fields_of(fields->context, fields->name, "the limits", object,
                          limit_keys, COUNT(limit_keys), &limits);
  if (!status) status = take_limit(&limits, "low", &out->low);
  if (!status) status = take_limit(&limits, "high", &out->high);
  if (!status)
    status = scwi_field(&limits, "probability", SCWI_JSON_NUMBER, true,
                        &probability);
  if (status) return status;
  if (!isfinite(out->low) && !isfinite(out->high))
    return scwi_field_fails(fields, "limits",
                            "need a \"low\", a \"high\" or both");
  if (!(out->low < out->high))
    return scwi_field_fails(&limits, "low", "must be below \"high\"");
  if (!(probability->number > 0.5 && probability->number < 1))
    return scwi_field_fails(&limits, "probability",
                            "must lie between 0.5 and 1: the probability of "
                            "conformance wanted, such as 0.95");
  out->conformance = (scw_figure){probability->number, SCW_PRESENT};
  return SCW_OK;
}

static scw_status take_quantity(const scwi_fields *fields, scw_bench *bench) {
  scw_bench_quantity quantity = {.line = fields->object->place.line};
  scw_status status = scwi_read_name(fields, bench, &quantity.name);
  if (!status) status = take_measures(fields, &quantity.measures);
  if (!status) status = take_texts(fields, &quantity);
  if (!status) status = check_geometry(fields, &quantity);
  if (!status) status = take_margin(fields, &quantity.margin);
  if (!status) status = take_limits(fields, &quantity);
  return status ? status
                : scwi_quantity_append(fields->context, bench, &quantity);
}

/* A failure inside a model, told at the place of its character in the file. */
static scw_status told_inside(const scwi_fields *file, scw_status status,
                              const scwi_json_value *model) {
  if (status != SCW_BAD_INPUT) return status;
  return scwi_told_at(
      file, status,
      scwi_json_place_in(model, scw_context_column(file->context)));
}

static scw_status check_models(const scwi_fields *file,
                               const scwi_json_value *list,
                               const scw_bench *bench) {
  scwi_expression *parsed;
  size_t done;
  scw_status status = scwi_bench_expressions(
      file->context, bench, bench->n_quantities, &parsed, &done);
  const scwi_json_value *at = list->first;
  for (size_t i = 0; i < done && at; i++) at = at->next;
  if (status && at)
    status = told_inside(file, status, scwi_json_find(at, "model"));
  scwi_bench_expressions_free(parsed, done);
  return status;
}

scw_status scwi_read_quantities(const scwi_fields *file, scw_bench *out) {
  const scwi_json_value *list;
  scw_status status =
      scwi_field(file, "quantities", SCWI_JSON_ARRAY, false, &list);
  if (status || !list) return status;
  if (list->n > SCWI_BENCH_QUANTITIES)
    return scwi_field_fails(file, "quantities", "must be 200 at the most");
  for (const scwi_json_value *v = list->first; v && !status; v = v->next) {
    scwi_fields fields;
    status = scwi_fields_of(file->context, file->name, "a quantity", v, keys,
                            COUNT(keys), &fields);
    if (!status) status = take_quantity(&fields, out);
  }
  return status ? status : check_models(file, list, out);
}
