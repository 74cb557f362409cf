/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any bytes as an expression, and once more with the part before the first
 * NUL as a definition `d`: a refusal has its message and points into the text;
 * what is taken keeps its promises: slots apart, one value by all ways. */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "expression.h"

static void demand(int holds) {
  if (!holds) abort();
}

static int same(double a, double b) {
  return memcmp(&a, &b, sizeof a) == 0 || a == b || (isnan(a) && isnan(b));
}

static void check_tape(const scwi_expression *e) {
  demand(e->n_steps > 0 && e->n_steps <= SCWI_EXPRESSION_STEPS);
  demand(e->n_inputs <= SCWI_EXPRESSION_INPUTS);
  for (size_t i = 0; i < e->n_steps; i++) {
    const scwi_expression_step *step = &e->step[i];
    if (step->operation == SCWI_NUMBER) demand(isfinite(step->number));
    if (step->operation == SCWI_INPUT) demand(step->a < e->n_inputs);
    if (step->operation < SCWI_ADD) continue;
    demand(step->a < i && step->b < i);
    const scwi_expression_step *a = &e->step[step->a], *b = &e->step[step->b];
    demand(a->operation != SCWI_NUMBER || b->operation != SCWI_NUMBER);
    if (i + 1 == e->n_steps) continue;
    demand(step->slot < e->n_slots);
    demand(a->operation < SCWI_ADD || a->slot != step->slot);
    demand(b->operation < SCWI_ADD || b->slot != step->slot);
  }
}

static void check_values(scw_context *context, const scwi_expression *e) {
  static double x[SCWI_EXPRESSION_INPUTS][3];
  static double gradient[SCWI_EXPRESSION_INPUTS];
  static double hessian[SCWI_EXPRESSION_INPUTS * SCWI_EXPRESSION_INPUTS];
  const double *columns[SCWI_EXPRESSION_INPUTS];
  double first[SCWI_EXPRESSION_INPUTS], value, again, third, out[3];
  for (size_t k = 0; k < SCWI_EXPRESSION_INPUTS; k++) {
    for (size_t i = 0; i < 3; i++)
      x[k][i] = 0.7 + 0.3 * (double)k - 0.9 * (double)i;
    columns[k] = x[k];
    first[k] = x[k][0];
  }
  double *room = malloc(scwi_expression_room(e) * sizeof *room);
  demand(room != NULL);
  scwi_expression_block(e, columns, 3, room, out);
  free(room);
  if (scwi_expression_value(context, e, first, &value)) {
    demand(strncmp(scw_context_message(context), "character ", 10) == 0);
    return;
  }
  demand(isfinite(value) && same(value, out[0]));
  if (scwi_expression_derivatives(context, e, first, &again, gradient, hessian))
    return;
  demand(same(value, again));
  for (size_t k = 0; k < e->n_inputs; k++)
    for (size_t j = 0; j < e->n_inputs; j++)
      demand(isfinite(gradient[k]) &&
             hessian[k * e->n_inputs + j] == hessian[j * e->n_inputs + k]);
  if (!scwi_expression_third(context, e, first, first, first, &third))
    demand(isfinite(third));
}

static size_t characters(const char *text, size_t length) {
  size_t n = 0;
  for (size_t i = 0; i < length; i++)
    n += ((unsigned char)text[i] & 0xC0) != 0x80;
  return n;
}

static scw_status parse(scw_context *context, const char *text, size_t length,
                        const scwi_definition *definition,
                        scwi_expression *out) {
  scw_status status = scwi_expression_parse(context, text, length, definition,
                                            definition != NULL, out);
  if (status == SCW_OK) {
    check_tape(out);
    check_values(context, out);
    return status;
  }
  demand(status == SCW_BAD_INPUT && !out->step && !out->text && !out->input);
  demand(scw_context_message(context)[0] != 0);
  demand(scw_context_column(context) <= characters(text, length) + 1);
  return status;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  scw_context *context;
  const char *text = (const char *)data;
  const char *end = size ? memchr(text, 0, size) : NULL;
  size_t before = end ? (size_t)(end - text) : size;
  scwi_expression part, whole;
  if (scw_context_new(&context) != SCW_OK) return 0;
  if (parse(context, text, before, NULL, &part) == SCW_OK) {
    scwi_definition d = {"d", &part};
    if (end) parse(context, end + 1, size - before - 1, &d, &whole);
    if (end) scwi_expression_free(&whole);
    scwi_expression_free(&part);
  }
  scw_context_free(context);
  return 0;
}
