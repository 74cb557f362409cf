/* SPDX-License-Identifier: GPL-3.0-or-later */
/* correlations[]: which inputs vary together. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "correlation.h"
#include "input.h"
#include "memory.h"
#include "reading.h"

static const char *const keys[] = {"between", "coefficient"};

static scw_status fail_at(const scwi_fields *fields,
                          const scwi_json_value *value, const char *words,
                          const char *name) {
  return scwi_fail_at(fields->context, SCW_BAD_INPUT, fields->name,
                      value->place.line, value->place.column, words, name);
}

static scw_status take_end(const scwi_fields *fields, const scw_bench *bench,
                           const scwi_json_value *value, size_t *out) {
  if (value->kind != SCWI_JSON_TEXT)
    return fail_at(fields, value, "the name of an input must stand here, not %s",
                   scwi_json_kind_words(value->kind));
  *out = scwi_input_find(bench, value->text);
  if (*out == bench->n_inputs)
    return fail_at(fields, value, "no input is called \"%s\"", value->text);
  if (bench->input[*out].given.kind == SCW_KIND_EXACT)
    return fail_at(fields, value,
                   "\"%s\" is exact, and what is exact varies with nothing",
                   value->text);
  return SCW_OK;
}

static scw_status take_pair(const scwi_fields *fields, const scw_bench *bench,
                            scw_bench_correlation *out) {
  const scwi_json_value *pair;
  scw_status status =
      scwi_field(fields, "between", SCWI_JSON_ARRAY, true, &pair);
  if (status) return status;
  if (pair->n != 2)
    return scwi_field_fails(fields, "between",
                            "must be two names of inputs, [\"a\", \"b\"]");
  status = take_end(fields, bench, pair->first, &out->a);
  if (!status) status = take_end(fields, bench, pair->first->next, &out->b);
  if (status) return status;
  if (out->a == out->b)
    return scwi_field_fails(fields, "between", "must be two different inputs");
  if (out->a > out->b) {
    size_t a = out->a;
    out->a = out->b;
    out->b = a;
  }
  for (size_t i = 0; i < bench->n_correlations; i++)
    if (bench->correlation[i].a == out->a && bench->correlation[i].b == out->b)
      return scwi_field_fails(fields, "between",
                              "names a pair that has its correlation already; "
                              "keep one of them");
  return SCW_OK;
}

static scw_status take_correlation(const scwi_fields *fields,
                                   scw_bench *out) {
  scw_bench_correlation found = {.line = fields->object->place.line};
  const scwi_json_value *number;
  size_t capacity = out->n_correlations;
  scw_status status = take_pair(fields, out, &found);
  if (!status)
    status =
        scwi_field(fields, "coefficient", SCWI_JSON_NUMBER, true, &number);
  if (status) return status;
  found.coefficient = number->number;
  if (fabs(found.coefficient) > 1)
    return scwi_field_fails(fields, "coefficient", "must lie from -1 to 1");
  status = SCWI_RESERVE(fields->context, out->n_correlations + 1,
                        &out->correlation, &capacity);
  if (!status) out->correlation[out->n_correlations++] = found;
  return status;
}

/* Rows of the matrix: the inputs that are correlated with any other. */
static size_t rows_of(const scw_bench *bench, size_t *row, size_t *input) {
  size_t n = 0;
  for (size_t i = 0; i < bench->n_inputs; i++) {
    bool correlated = false;
    for (size_t c = 0; c < bench->n_correlations && !correlated; c++)
      correlated = bench->correlation[c].a == i || bench->correlation[c].b == i;
    row[i] = n;
    if (correlated) input[n++] = i;
  }
  return n;
}

/* That all of them can hold together. */
static scw_status check_together(const scwi_fields *file,
                                 const scw_bench *bench) {
  size_t *row = NULL, *input = NULL, n = 0;
  const char **name = NULL;
  double *matrix = NULL;
  scw_status status = SCWI_ALLOCATE(file->context, bench->n_inputs, &row);
  if (!status)
    status = SCWI_ALLOCATE(file->context, bench->n_inputs, &input);
  if (!status) n = rows_of(bench, row, input);
  if (n > SCWI_BENCH_CORRELATED)
    status = scwi_field_fails(file, "correlations",
                              "must be between 200 inputs at the most");
  if (!status) status = SCWI_ALLOCATE(file->context, n, &name);
  if (!status) status = SCWI_ALLOCATE(file->context, n * n, &matrix);
  for (size_t i = 0; i < n && !status; i++) {
    name[i] = bench->input[input[i]].given.name;
    matrix[i * n + i] = 1;
  }
  for (size_t c = 0; c < bench->n_correlations && !status; c++) {
    const scw_bench_correlation *pair = &bench->correlation[c];
    size_t a = row[pair->a], b = row[pair->b];
    matrix[a * n + b] = matrix[b * n + a] = pair->coefficient;
  }
  if (!status) {
    status = scwi_correlation_check(file->context, name, matrix, n);
    if (status == SCW_BAD_INPUT)
      status = scwi_told_at(file, status,
                            scwi_json_find(file->object, "correlations")->place);
  }
  free(matrix);
  free((void *)name);
  free(input);
  free(row);
  return status;
}

scw_status scwi_read_correlations(const scwi_fields *file, scw_bench *out) {
  const scwi_json_value *list;
  scw_status status =
      scwi_field(file, "correlations", SCWI_JSON_ARRAY, false, &list);
  if (status || !list) return status;
  if (list->n > SCWI_BENCH_CORRELATIONS)
    return scwi_field_fails(file, "correlations", "must be 20000 at the most");
  for (const scwi_json_value *v = list->first; v && !status; v = v->next) {
    scwi_fields fields;
    status = scwi_fields_of(file->context, file->name, "a correlation", v, keys,
                            sizeof keys / sizeof *keys, &fields);
    if (!status) status = take_correlation(&fields, out);
  }
  return status || !out->n_correlations ? status : check_together(file, out);
}
