/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inputs put into a bench by a program, held to what a bench file may hold. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "expression.h"
#include "input.h"
#include "memory.h"
#include "reading.h"
#include "texts.h"

static scw_status refuse(scw_context *context, const scw_bench_input *input,
                         const char *words) {
  const char *name = input->given.name;
  return scwi_fail(context, SCW_BAD_INPUT, "input `%s`: %s", name ? name : "",
                   words);
}

static scw_status check_name(scw_context *context, const scw_bench *bench,
                             const scw_bench_input *input) {
  const char *name = input->given.name;
  if (!name || !scwi_expression_is_name(name, strlen(name)))
    return refuse(context, input,
                  "its name must be a letter, then letters, digits and _, and "
                  "no function or constant");
  for (size_t i = 0; i < bench->n_quantities; i++)
    if (!strcmp(bench->quantity[i].name, name))
      return refuse(context, input, "a quantity of the bench has that name");
  return SCW_OK;
}

static bool is_said(const char *text) { return text && *text; }

static scw_status check_texts(scw_context *context,
                              const scw_bench_input *input) {
  const char *const texts[] = {input->about, input->unit, input->file,
                               input->column};
  for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
    if (texts[i] && !scwi_is_readable(texts[i]))
      return refuse(context, input,
                    "about, unit, file and column " SCWI_READABLE);
  if (is_said(input->column) && !is_said(input->file))
    return refuse(context, input, "a column is one of a file; name the file");
  return SCW_OK;
}

/* Where the readings are, and that nothing beside them would be lost. */
static scw_status check_readings(scw_context *context,
                                 const scw_bench_input *input) {
  size_t n = input->n_readings;
  if (input->given.kind != SCW_KIND_READINGS)
    return n || is_said(input->file)
               ? refuse(context, input,
                        "readings are for an input of kind readings")
               : SCW_OK;
  if (n == 1 || n > SCWI_BENCH_READINGS)
    return refuse(context, input, "its readings must be 2 to 100000 numbers");
  for (size_t i = 0; i < n; i++)
    if (!isfinite(input->readings[i]))
      return refuse(context, input, "each reading must be a finite number");
  if (is_said(input->file) && !n && input->given.n)
    return refuse(context, input,
                  "its readings are in a file; leave n, value and sd to them");
  if (input->decimals < 0 || input->decimals > SCWI_INPUT_DECIMALS)
    return refuse(context, input, "decimals must be 0 to 17");
  if (input->given.n > 1000000000)
    return refuse(context, input, "n must be at most 1000000000");
  return SCW_OK;
}

static scw_status check(scw_context *context, const scw_bench *bench,
                        const scw_bench_input *input) {
  scw_status status = check_name(context, bench, input);
  if (!status && (unsigned)input->given.kind >= SCW_KIND_END)
    status = refuse(context, input, "its kind is none of those there are");
  if (!status) status = check_texts(context, input);
  if (!status) status = check_readings(context, input);
  return status;
}

static bool is_correlated(const scw_bench *bench, size_t input) {
  for (size_t i = 0; i < bench->n_correlations; i++)
    if (bench->correlation[i].a == input || bench->correlation[i].b == input)
      return true;
  return false;
}

/* Its figures, from its readings where it has them. */
static scw_status work_out(scw_context *context, scw_bench_input *input) {
  scwi_known_input known;
  bool listed = input->n_readings > 0;
  scw_status status = SCW_OK;
  if (listed) status = scwi_input_from_readings(context, input);
  if (status || (!listed && is_said(input->file))) return status;
  return scwi_input_known(context, &input->given, &known);
}

scw_status scw_bench_put_input(scw_context *context, scw_bench *bench,
                               const scw_bench_input *input) {
  scw_bench_input made = *input, copy;
  made.line = 0;
  if (made.n_readings && made.given.step.origin != SCW_STEP_GIVEN)
    made.given.step = (scw_step){0, SCW_STEP_UNSET};
  scw_status status = check(context, bench, input);
  if (!status) status = work_out(context, &made);
  if (status) return status;
  size_t i = scwi_input_find(bench, input->given.name);
  if (i == SCWI_BENCH_INPUTS)
    return refuse(context, input, "the bench holds 1000 inputs already");
  if (made.given.kind == SCW_KIND_EXACT && is_correlated(bench, i))
    return refuse(context, input,
                  "it is correlated with another, and what is exact varies "
                  "with nothing");
  if (i == bench->n_inputs) return scwi_input_append(context, bench, &made);
  status = scwi_input_copy(context, &made, &copy);
  if (status) return status;
  scwi_input_free(&bench->input[i]);
  bench->input[i] = copy;
  return SCW_OK;
}

/* The readings take the place of those there were; the bench stays as it was
 * where nothing comes of them. */
scw_status scw_bench_take_readings(scw_context *context, scw_bench *bench,
                                   size_t input, const double *values,
                                   size_t n, scw_step step) {
  if (input >= bench->n_inputs || !*bench->input[input].file)
    return scwi_fail(context, SCW_BAD_ARGUMENT,
                     "input %zu of the bench has no readings in a file",
                     input);
  scw_bench_input *to = &bench->input[input], made = *to;
  made.readings = values;
  made.n_readings = n;
  if (n == 0)
    return refuse(context, to, "its file holds no readings of it");
  if (made.given.step.origin != SCW_STEP_GIVEN) made.given.step = step;
  scw_status status = check_readings(context, &made);
  if (!status) status = work_out(context, &made);
  double *copy = NULL;
  if (!status) status = SCWI_ALLOCATE(context, n, &copy);
  if (status) return status;
  memcpy(copy, values, n * sizeof *copy);
  free((void *)to->readings);
  *to = made;
  to->readings = copy;
  return SCW_OK;
}
