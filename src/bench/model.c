/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model.h"

#include <stdlib.h>
#include <string.h>

#include "expression_scan.h"
#include "input.h"
#include "memory.h"

/* The character at which an input stands in the model. */
static uint32_t place_of(const scwi_expression *expression, size_t input) {
  size_t i = 0;
  while (expression->step[i].operation != SCWI_INPUT ||
         expression->step[i].a != input)
    i++;
  return expression->step[i].place;
}

static scw_status unknown_name(scw_context *context, const scw_bench *bench,
                               size_t quantity,
                               const scwi_expression *expression,
                               size_t input) {
  const char *name = expression->input[input], *model = expression->text;
  uint32_t place = place_of(expression, input);
  for (size_t i = quantity; i < bench->n_quantities; i++)
    if (!strcmp(bench->quantity[i].name, name))
      return scwi_expression_fail(
          context, SCW_BAD_INPUT, model, strlen(model), place,
          "%s, and a model may use the quantities above it only",
          i == quantity ? "this is the quantity itself"
                        : "this quantity stands further down");
  return scwi_expression_fail(context, SCW_BAD_INPUT, model, strlen(model),
                              place,
                              "no input and no quantity above is called `%s`",
                              name);
}

static scw_status parse_one(scw_context *context, const scw_bench *bench,
                            size_t quantity, const scwi_definition *above,
                            size_t n_above, scwi_expression *out) {
  const char *model = bench->quantity[quantity].model;
  scw_status status = scwi_expression_parse(context, model, strlen(model),
                                            above, n_above, out);
  for (size_t i = 0; !status && i < out->n_inputs; i++)
    if (scwi_input_find(bench, out->input[i]) == bench->n_inputs)
      status = unknown_name(context, bench, quantity, out, i);
  if (status) scwi_expression_free(out);
  return status;
}

/* Of the first n quantities those that are `used` (null: all). */
static scw_status parse(scw_context *context, const scw_bench *bench, size_t n,
                        const bool *used, scwi_expression **out,
                        size_t *done) {
  scwi_definition *above = NULL;
  size_t n_above = 0;
  *out = NULL;
  *done = 0;
  scw_status status = SCWI_ALLOCATE(context, n, out);
  if (!status) status = SCWI_ALLOCATE(context, n, &above);
  for (; !status && *done < n; ++*done) {
    scwi_expression *parsed = &(*out)[*done];
    if (used && !used[*done]) continue;
    status = parse_one(context, bench, *done, above, n_above, parsed);
    if (status) break;
    above[n_above++] =
        (scwi_definition){bench->quantity[*done].name, parsed};
  }
  free(above);
  return status;
}

scw_status scwi_bench_expressions(scw_context *context, const scw_bench *bench,
                                  size_t n, scwi_expression **out,
                                  size_t *done) {
  return parse(context, bench, n, NULL, out, done);
}

void scwi_bench_expressions_free(scwi_expression *expressions, size_t n) {
  for (size_t i = 0; i < n; i++) scwi_expression_free(&expressions[i]);
  free(expressions);
}

/* The quantities that this one may rest on: those whose name is anywhere in
 * its text, and theirs. One too many does no harm. */
static void mark_used(const scw_bench *bench, size_t quantity, bool *used) {
  used[quantity] = true;
  for (size_t i = quantity + 1; i-- > 0;)
    for (size_t j = 0; used[i] && j < i; j++)
      if (!used[j])
        used[j] =
            strstr(bench->quantity[i].model, bench->quantity[j].name) != NULL;
}

/* The last of the models, the others freed. */
static scw_status parse_up_to(scw_context *context, const scw_bench *bench,
                              size_t quantity, scwi_expression *out) {
  scwi_expression *parsed = NULL;
  bool *used = NULL;
  size_t done = 0;
  scw_status status = SCWI_ALLOCATE(context, quantity + 1, &used);
  if (!status) {
    mark_used(bench, quantity, used);
    status = parse(context, bench, quantity + 1, used, &parsed, &done);
  }
  if (!status) *out = parsed[--done];
  scwi_bench_expressions_free(parsed, done);
  free(used);
  return status;
}

static scw_status know_inputs(scw_context *context, const scw_bench *bench,
                              scwi_bench_compiled *out) {
  scw_status status = SCW_OK;
  for (size_t i = 0; i < out->n && !status; i++) {
    size_t at = scwi_input_find(bench, out->expression.input[i]);
    const scw_bench_input *input = &bench->input[at];
    out->index[i] = at;
    out->given[i] = input->given;
    status = scwi_input_waits(input)
                 ? scwi_fail(context, SCW_BAD_INPUT,
                             "input `%s`: its readings are in %s, which has "
                             "not been read",
                             input->given.name, input->file)
                 : scwi_input_known(context, &input->given, &out->known[i]);
  }
  return status;
}

static scw_status correlate(scw_context *context, const scw_bench *bench,
                            scwi_bench_compiled *out) {
  size_t n = out->n;
  for (size_t c = 0; c < bench->n_correlations; c++) {
    const scw_bench_correlation *pair = &bench->correlation[c];
    size_t a = 0, b = 0;
    while (a < n && out->index[a] != pair->a) a++;
    while (b < n && out->index[b] != pair->b) b++;
    if (a == n || b == n || pair->coefficient == 0) continue;
    if (!out->correlation) {
      scw_status status = SCWI_ALLOCATE(context, n * n, &out->correlation);
      if (status) return status;
      for (size_t i = 0; i < n; i++) out->correlation[i * n + i] = 1;
    }
    out->correlation[a * n + b] = out->correlation[b * n + a] =
        pair->coefficient;
  }
  return SCW_OK;
}

scw_status scwi_bench_model(scw_context *context, const scw_bench *bench,
                            size_t quantity, scwi_bench_compiled *out) {
  *out = (scwi_bench_compiled){.n = 0};
  scw_status status = parse_up_to(context, bench, quantity, &out->expression);
  if (status) return status;
  out->n = out->expression.n_inputs;
  status = SCWI_ALLOCATE(context, out->n, &out->index);
  if (!status) status = SCWI_ALLOCATE(context, out->n, &out->given);
  if (!status) status = SCWI_ALLOCATE(context, out->n, &out->known);
  if (!status) status = know_inputs(context, bench, out);
  if (!status) status = correlate(context, bench, out);
  return status;
}

void scwi_bench_compiled_free(scwi_bench_compiled *compiled) {
  scwi_expression_free(&compiled->expression);
  free(compiled->index);
  free(compiled->given);
  free(compiled->known);
  free(compiled->correlation);
  *compiled = (scwi_bench_compiled){.n = 0};
}
