/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "input.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "decimal.h"
#include "display_step.h"
#include "memory.h"
#include "moments.h"
#include "texts.h"

#define NUMBER(key, zero) {#key, offsetof(scw_budget_given, key), zero}

const scwi_input_number scwi_input_numbers[SCWI_INPUT_NUMBERS] = {
    NUMBER(value, true),       NUMBER(sd, true),
    NUMBER(uncertainty, false), NUMBER(df, false),
    NUMBER(half_width, false),
    NUMBER(top, true),         NUMBER(limit_half_width, false),
    NUMBER(expanded, false),   NUMBER(k, false),
    NUMBER(level, false),      NUMBER(unreliability, false)};

static const size_t texts[] = {
    offsetof(scw_bench_input, given) + offsetof(scw_budget_given, name),
    offsetof(scw_bench_input, about), offsetof(scw_bench_input, unit),
    offsetof(scw_bench_input, file), offsetof(scw_bench_input, column)};
enum { TEXTS = sizeof texts / sizeof *texts };

double *scwi_input_number_of(scw_budget_given *given,
                             const scwi_input_number *number) {
  return (double *)(void *)((char *)given + number->offset);
}

/* The readings in whole units of their last decimal, and which that is; false
 * where they have none in common. At least `decimals` of them, which 160.0 has
 * and 160 has not. */
static bool ticks_of(const double *x, size_t n, int decimals, int64_t *ticks,
                     int *digits) {
  *digits = scwi_decimal_of(x[0]).digits;
  for (size_t i = 1; i < n; i++) {
    int own = scwi_decimal_of(x[i]).digits;
    if (own > *digits) *digits = own;
  }
  if (decimals > 0 && decimals > *digits) *digits = decimals;
  for (size_t i = 0; i < n; i++) {
    scwi_decimal decimal = scwi_decimal_of(x[i]);
    if (!decimal.exact || !scwi_decimal_ticks(&decimal, *digits, &ticks[i]))
      return false;
  }
  return true;
}

scw_status scwi_input_from_readings(scw_context *context,
                                    scw_bench_input *input) {
  scw_budget_given *given = &input->given;
  int64_t *ticks = NULL;
  int digits;
  scw_status status = SCWI_ALLOCATE(context, input->n_readings, &ticks);
  if (status) return status;
  scwi_sample sample = {.n = input->n_readings, .x = input->readings};
  if (ticks_of(sample.x, sample.n, input->decimals, ticks, &digits)) {
    sample.ticks = ticks;
    sample.tick_size = pow(10, -digits);
    if (given->step.origin == SCW_STEP_UNSET)
      given->step = scwi_display_step(ticks, sample.n, digits);
  }
  scwi_moments moments = scwi_moments_of(&sample);
  given->n = moments.n;
  given->value = moments.mean;
  given->sd = moments.sd;
  free(ticks);
  return SCW_OK;
}

bool scwi_input_waits(const scw_bench_input *input) {
  return input->given.kind == SCW_KIND_READINGS && input->given.n == 0;
}

scw_status scwi_input_copy(scw_context *context, const scw_bench_input *from,
                           scw_bench_input *out) {
  double *readings = NULL;
  *out = *from;
  out->readings = NULL;
  scw_status status = scwi_texts_own(context, out, texts, TEXTS);
  if (!status && from->n_readings)
    status = SCWI_ALLOCATE(context, from->n_readings, &readings);
  for (size_t i = 0; i < from->n_readings && !status; i++)
    readings[i] = from->readings[i];
  out->readings = readings;
  if (status) scwi_input_free(out);
  return status;
}

void scwi_input_free(scw_bench_input *input) {
  scwi_texts_free(input, texts, TEXTS);
  free((void *)input->readings);
  *input = (scw_bench_input){0};
}

scw_status scwi_input_append(scw_context *context, scw_bench *bench,
                             const scw_bench_input *input) {
  size_t capacity = bench->n_inputs;
  scw_status status = SCWI_RESERVE(context, bench->n_inputs + 1, &bench->input,
                                   &capacity);
  if (!status)
    status = scwi_input_copy(context, input, &bench->input[bench->n_inputs]);
  if (!status) bench->n_inputs++;
  return status;
}

size_t scwi_input_find(const scw_bench *bench, const char *name) {
  size_t i = 0;
  while (i < bench->n_inputs && strcmp(bench->input[i].given.name, name)) i++;
  return i;
}
