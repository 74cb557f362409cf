/* SPDX-License-Identifier: GPL-3.0-or-later */
/* inputs[]: what is known of each. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "expression.h"
#include "input.h"
#include "memory.h"
#include "reading.h"
#include "text.h"

static const char *const keys[] = {
    "name",    "about",       "unit",       "kind",     "value",
    "relative", "shared",     "n",          "sd",       "step",
    "readings", "file",       "column",     "uncertainty", "df",
    "half_width", "top",      "limit_half_width", "expanded", "k",
    "level",   "unreliability"};

enum { KEYS = sizeof keys / sizeof *keys };

scw_status scwi_told_at(const scwi_fields *fields, scw_status status,
                        scwi_json_place place) {
  char words[SCWI_MESSAGE_SIZE];
  strncpy(words, scw_context_message(fields->context), sizeof words - 1);
  words[sizeof words - 1] = 0;
  return scwi_fail_at(fields->context, status, fields->name, place.line,
                      place.column, "%s", words);
}

/* "KEY WORDS", told at the key, and the words freed. */
static scw_status fails_with(const scwi_fields *fields, const char *key,
                             scwi_text *words) {
  scw_status status = scwi_text_status(fields->context, words);
  if (!status) status = scwi_field_fails(fields, key, words->data);
  scwi_text_free(words);
  return status;
}

scw_status scwi_read_name(const scwi_fields *fields, const scw_bench *bench,
                          const char **out) {
  scw_status status = scwi_field_text(fields, "name", true, out);
  if (status) return status;
  if (!scwi_expression_is_name(*out, strlen(*out)))
    return scwi_field_fails(fields, "name",
                            "must be a letter, then letters, digits and _, "
                            "and no function or constant, so that models can "
                            "use it");
  size_t line = 0;
  for (size_t i = 0; i < bench->n_inputs && !line; i++)
    if (!strcmp(bench->input[i].given.name, *out)) line = bench->input[i].line;
  for (size_t i = 0; i < bench->n_quantities && !line; i++)
    if (!strcmp(bench->quantity[i].name, *out)) line = bench->quantity[i].line;
  if (!line) return SCW_OK;
  scwi_text words = {0};
  scwi_text_format(&words, "is that of line %zu too; a name stands for one "
                           "thing in the whole file", line);
  return fails_with(fields, "name", &words);
}

static scw_status take_kind(const scwi_fields *fields, scw_budget_kind *out) {
  const char *word;
  scw_status status = scwi_field_text(fields, "kind", true, &word);
  *out = SCW_KIND_READINGS;
  while (!status && *out < SCW_KIND_END &&
         strcmp(word, scw_budget_kind_code(*out)))
    *out = (scw_budget_kind)(*out + 1);
  if (status || *out < SCW_KIND_END) return status;
  scwi_text words = {0};
  scwi_text_add(&words, "must be one of ");
  for (int kind = 0; kind < SCW_KIND_END; kind++)
    scwi_text_format(&words, "%s%s", kind ? ", " : "",
                     scw_budget_kind_code((scw_budget_kind)kind));
  return fails_with(fields, "kind", &words);
}

/* Keys that are there and of no use to the kind. */
static scw_status refuse_useless(const scwi_fields *fields,
                                 scw_budget_kind kind) {
  static const char *const of_any[] = {"name", "about", "unit", "kind",
                                       "value", "shared"};
  static const char *const of_readings[] = {"readings", "file", "column"};
  for (const scwi_json_value *m = fields->object->first; m; m = m->next) {
    bool useful = scwi_input_takes(kind, m->key);
    for (size_t i = 0; i < sizeof of_any / sizeof *of_any; i++)
      useful = useful || !strcmp(m->key, of_any[i]);
    for (size_t i = 0; i < sizeof of_readings / sizeof *of_readings; i++)
      useful = useful || (kind == SCW_KIND_READINGS &&
                          !strcmp(m->key, of_readings[i]));
    if (useful) continue;
    scwi_text words = {0};
    scwi_text_format(&words, "is of no use to an input of kind %s; it takes "
                             "value", scw_budget_kind_code(kind));
    for (size_t i = 0; i < KEYS; i++)
      if (strcmp(keys[i], "value") && scwi_input_takes(kind, keys[i]))
        scwi_text_format(&words, ", %s", keys[i]);
    if (kind == SCW_KIND_READINGS)
      scwi_text_add(&words, ", or readings, or file and column");
    return fails_with(fields, m->key, &words);
  }
  return SCW_OK;
}

static scw_status take_numbers(const scwi_fields *fields,
                               scw_budget_given *out) {
  scw_status status = SCW_OK;
  for (size_t i = 0; i < SCWI_INPUT_NUMBERS && !status; i++) {
    const scwi_input_number *number = &scwi_input_numbers[i];
    const scwi_json_value *found;
    status =
        scwi_field(fields, number->key, SCWI_JSON_NUMBER, false, &found);
    if (status || !found) continue;
    *scwi_input_number_of(out, number) = found->number;
    if (found->number == 0 && !number->may_be_zero)
      status = scwi_field_fails(fields, number->key,
                                "must be above 0; leave it out where there is "
                                "none");
    if (!status && found->number < 0 && i > 0)
      status = scwi_field_fails(fields, number->key, "must not be below 0");
  }
  return status;
}

static scw_status take_flag(const scwi_fields *fields, const char *key,
                            bool *said, bool *out) {
  const scwi_json_value *found;
  scw_status status = scwi_field(fields, key, SCWI_JSON_BOOL, false, &found);
  *said = !status && found;
  *out = *said && found->yes;
  return status;
}

static scw_status take_flags(const scwi_fields *fields, scw_bench_input *out) {
  bool said, yes;
  scw_status status = take_flag(fields, "relative", &said,
                                &out->given.relative);
  if (!status) status = take_flag(fields, "shared", &said, &yes);
  out->shared = !said ? SCW_SHARED_NOT_SAID
                      : yes ? SCW_SHARED : SCW_NOT_SHARED;
  return status;
}

static scw_status take_step(const scwi_fields *fields, scw_step *out) {
  const scwi_json_value *found;
  scw_status status =
      scwi_field(fields, "step", SCWI_JSON_NUMBER, false, &found);
  if (status || !found) return status;
  if (found->number < 0)
    return scwi_field_fails(fields, "step",
                            "must be 0 (continuous values) or more");
  *out = (scw_step){found->number, SCW_STEP_GIVEN};
  return SCW_OK;
}

static scw_status take_n(const scwi_fields *fields, scw_budget_given *out) {
  const scwi_json_value *found, *value;
  scw_status status = scwi_field(fields, "n", SCWI_JSON_NUMBER, true, &found);
  if (!status && (found->number < 2 || found->number > 1e9 ||
                  found->number != floor(found->number)))
    status = scwi_field_fails(fields, "n",
                              "must be a whole number of readings, 2 or more");
  if (!status)
    status = scwi_field(fields, "value", SCWI_JSON_NUMBER, true, &value);
  if (!status) status = scwi_field(fields, "sd", SCWI_JSON_NUMBER, true, &value);
  if (!status) out->n = (size_t)found->number;
  return status;
}

static scw_status take_list(const scwi_fields *fields,
                            const scwi_json_value *list, double **readings,
                            scw_bench_input *out) {
  if (list->n < 2 || list->n > SCWI_BENCH_READINGS)
    return scwi_field_fails(fields, "readings",
                            "must be a list of 2 to 100000 numbers");
  scw_status status = SCWI_ALLOCATE(fields->context, list->n, readings);
  if (status) return status;
  for (const scwi_json_value *v = list->first; v; v = v->next) {
    if (v->kind != SCWI_JSON_NUMBER)
      return scwi_fail_at(fields->context, SCW_BAD_INPUT, fields->name,
                          v->place.line, v->place.column,
                          "%s stands here, and a reading must be a number",
                          scwi_json_kind_words(v->kind));
    (*readings)[out->n_readings++] = v->number;
    if (v->digits > out->decimals)
      out->decimals = v->digits < SCWI_INPUT_DECIMALS ? v->digits
                                                      : SCWI_INPUT_DECIMALS;
  }
  out->readings = *readings;
  return scwi_input_from_readings(fields->context, out);
}

static bool has(const scwi_fields *fields, const char *key) {
  return scwi_json_find(fields->object, key) != NULL;
}

/* One of three ways: the readings, where they stand, or what they come to. */
static scw_status take_readings(const scwi_fields *fields, double **readings,
                                scw_bench_input *out) {
  const scwi_json_value *list;
  bool told = has(fields, "n") || has(fields, "sd") || has(fields, "value");
  int ways = has(fields, "readings") + has(fields, "file") + told;
  scw_status status = scwi_field_text(fields, "file", false, &out->file);
  if (!status)
    status = scwi_field_text(fields, "column", false, &out->column);
  if (!status)
    status = scwi_field(fields, "readings", SCWI_JSON_ARRAY, false, &list);
  if (!status) status = take_step(fields, &out->given.step);
  if (status) return status;
  if (ways != 1)
    return scwi_field_fails(fields, "kind",
                            "readings needs one of these and no more: "
                            "\"readings\" (a list), \"file\" (with "
                            "\"column\"), or \"n\", \"value\" and \"sd\"");
  if (has(fields, "column") && !has(fields, "file"))
    return scwi_field_fails(fields, "column",
                            "is a column of a \"file\"; name the file too");
  if (list) return take_list(fields, list, readings, out);
  return told ? take_n(fields, &out->given) : SCW_OK;
}

static scw_status check_known(const scwi_fields *fields,
                              const scw_bench_input *input) {
  scwi_known_input known;
  if (scwi_input_waits(input)) return SCW_OK;
  scw_status status =
      scwi_input_known(fields->context, &input->given, &known);
  if (!status) return SCW_OK;
  const scwi_json_value *at =
      known.fault ? scwi_json_find(fields->object, known.fault) : NULL;
  if (!at && known.fault) at = scwi_json_find(fields->object, "readings");
  return scwi_told_at(fields, status, (at ? at : fields->object)->place);
}

static scw_status take_input(const scwi_fields *fields, scw_bench *bench) {
  scw_bench_input input = {.line = fields->object->place.line};
  double *readings = NULL;
  const scwi_json_value *value;
  scw_status status = scwi_read_name(fields, bench, &input.given.name);
  if (!status) status = take_kind(fields, &input.given.kind);
  if (!status) status = refuse_useless(fields, input.given.kind);
  if (!status) status = scwi_field_text(fields, "about", false, &input.about);
  if (!status) status = scwi_field_text(fields, "unit", false, &input.unit);
  if (!status) status = take_numbers(fields, &input.given);
  if (!status) status = take_flags(fields, &input);
  if (!status && input.given.kind == SCW_KIND_READINGS)
    status = take_readings(fields, &readings, &input);
  else if (!status)
    status = scwi_field(fields, "value", SCWI_JSON_NUMBER, true, &value);
  if (!status) status = check_known(fields, &input);
  if (!status) status = scwi_input_append(fields->context, bench, &input);
  free(readings);
  return status;
}

scw_status scwi_read_inputs(const scwi_fields *file, scw_bench *out) {
  const scwi_json_value *list;
  scw_status status =
      scwi_field(file, "inputs", SCWI_JSON_ARRAY, false, &list);
  if (status || !list) return status;
  if (list->n > SCWI_BENCH_INPUTS)
    return scwi_field_fails(file, "inputs", "must be 1000 at the most");
  for (const scwi_json_value *v = list->first; v && !status; v = v->next) {
    scwi_fields fields;
    status = scwi_fields_of(file->context, file->name, "an input", v, keys,
                            KEYS, &fields);
    if (!status) status = take_input(&fields, out);
  }
  return status;
}
