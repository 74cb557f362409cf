/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bench file into a bench. A new member of the file is a line in
 * bench_keys and a function of its own. */
#include <math.h>
#include <string.h>

#include "memory.h"
#include "reading.h"
#include "scatter.h"

static const char *const bench_keys[] = {"version",      "about",
                                         "inputs",       "correlations",
                                         "quantities",   "scatter",
                                         "rules",        "scores"};
static const char *const scatter_keys[] = {
    "panel_type", "quantity", "unit", "geometry", "meter",
    "sd",         "df",       "sets", "date"};

#define COUNT(array) (sizeof(array) / sizeof(array)[0])

static scw_status take_texts(const scwi_fields *fields,
                             scw_bench_scatter *out) {
  scw_status status = SCW_OK;
  for (size_t i = 0; i < SCWI_SCATTER_TEXTS && !status; i++) {
    const scwi_scatter_text *text = &scwi_scatter_texts[i];
    const scwi_json_value *found;
    status = scwi_field(fields, text->key, SCWI_JSON_TEXT, text->required,
                        &found);
    *scwi_scatter_text_of(out, text) = !status && found ? found->text : "";
    if (!status && found && !*found->text && !text->required)
      status = scwi_field_fails(fields, text->key,
                                "is empty; leave it out where there is none");
  }
  return status;
}

static scw_status take_number(const scwi_fields *fields, const char *key,
                              double *out) {
  const scwi_json_value *found;
  scw_status status =
      scwi_field(fields, key, SCWI_JSON_NUMBER, true, &found);
  *out = status ? 0 : found->number;
  return status;
}

static scw_status take_sets(const scwi_fields *fields, size_t *out) {
  double number;
  scw_status status = take_number(fields, "sets", &number);
  if (status) return status;
  if (!(number >= 1) || number > 1e9 || number != floor(number))
    return scwi_field_fails(fields, "sets",
                            "must be a whole number from 1 to 1000000000");
  *out = (size_t)number;
  return SCW_OK;
}

/* The entry's texts are borrowed from the file. */
static scw_status take_entry(const scwi_fields *fields,
                             scw_bench_scatter *out) {
  *out = (scw_bench_scatter){.line = fields->object->place.line};
  scw_status status = take_texts(fields, out);
  if (!status) status = take_number(fields, "sd", &out->sd);
  if (!status) status = take_number(fields, "df", &out->df);
  if (!status) status = take_sets(fields, &out->sets);
  if (status) return status;
  const char *words, *key = scwi_scatter_fault(out, &words);
  return key ? scwi_field_fails(fields, key, words) : SCW_OK;
}

static scw_status refuse_twin(const scwi_fields *fields,
                              const scw_bench *bench,
                              const scw_bench_scatter *entry) {
  for (size_t i = 0; i < bench->n_scatter; i++)
    if (scwi_same_scatter(&bench->scatter[i], entry))
      return scwi_fail_at(fields->context, SCW_BAD_INPUT, fields->name,
                          entry->line, fields->object->place.column,
                          "this entry is of the same panel type, quantity, "
                          "unit, geometry and meter as that of line %zu; keep "
                          "one of them",
                          bench->scatter[i].line);
  return SCW_OK;
}

static scw_status take_scatter(const scwi_fields *file, scw_bench *out) {
  const scwi_json_value *list;
  scw_status status =
      scwi_field(file, "scatter", SCWI_JSON_ARRAY, false, &list);
  if (status || !list) return status;
  for (const scwi_json_value *v = list->first; v && !status; v = v->next) {
    scwi_fields fields;
    scw_bench_scatter entry;
    status = scwi_fields_of(file->context, file->name, "a scatter entry", v,
                            scatter_keys, COUNT(scatter_keys), &fields);
    if (!status) status = take_entry(&fields, &entry);
    if (!status) status = refuse_twin(&fields, out, &entry);
    if (!status) status = scwi_bench_append(file->context, out, &entry);
  }
  return status;
}

static scw_status take_about(const scwi_fields *file, scw_bench *out) {
  const char *about;
  scw_status status = scwi_field_text(file, "about", false, &about);
  return status || !*about ? status
                           : scwi_copy_text(file->context, about,
                                            strlen(about), &out->about);
}

static scw_status check_version(const scwi_fields *file) {
  double version;
  scw_status status = take_number(file, "version", &version);
  if (!status && version != SCW_BENCH_VERSION)
    status = scwi_field_fails(file, "version",
                              "must be 1: this program knows no other layout "
                              "of the bench file");
  return status;
}

scw_status scw_bench_read(scw_context *context, scw_source source,
                          scw_bench *out) {
  scwi_json_file json;
  scwi_fields file;
  *out = (scw_bench){0};
  scw_status status = scwi_json_read(context, source, &json);
  if (!status)
    status = scwi_copy_text(context, source.name, strlen(source.name),
                            &out->name);
  if (!status)
    status = scwi_fields_of(context, source.name, "a bench file", json.root,
                            bench_keys, COUNT(bench_keys), &file);
  if (!status) status = check_version(&file);
  if (!status) status = take_about(&file, out);
  if (!status) status = scwi_read_inputs(&file, out);
  if (!status) status = scwi_read_correlations(&file, out);
  if (!status) status = scwi_read_quantities(&file, out);
  if (!status) status = take_scatter(&file, out);
  if (!status) status = scwi_read_rules(&file, out);
  if (!status) memcpy(out->sha256, json.sha256, sizeof out->sha256);
  scwi_json_file_free(&json);
  if (status) scw_bench_free(out);
  return status;
}
