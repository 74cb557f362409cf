/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An expression at one point: its value, or in words why it has none. */
#include "expression_value.h"

#include <stdlib.h>
#include <string.h>

#include "elementary.h"
#include "expression_scan.h"
#include "memory.h"
#include "number_text.h"

scw_status scwi_no_figure_at(scw_context *context,
                             const scwi_expression *expression,
                             const scwi_expression_step *step,
                             const char *why) {
  return scwi_expression_fail(context, SCW_NO_FIGURE, expression->text,
                              strlen(expression->text), step->place,
                              "at the estimates of the inputs %s", why);
}

static scw_status why_not(scw_context *context,
                          const scwi_expression *expression,
                          const scwi_expression_step *step, const char *why,
                          double at) {
  char number[SCWI_NUMBER_SIZE];
  return scwi_expression_fail(context, SCW_NO_FIGURE, expression->text,
                              strlen(expression->text), step->place,
                              "at the estimates of the inputs %s %s", why,
                              scwi_number_text(at, number));
}

static scw_status step_value(scw_context *context,
                             const scwi_expression *expression,
                             const scwi_expression_step *step, double a,
                             double b, int order, double *value) {
  double at;
  bool fixed = expression->step[step->b].operation == SCWI_NUMBER;
  const char *why = scwi_no_value(
      step->operation, a, b, fixed ? SCWI_EXPONENT_FIXED : SCWI_EXPONENT_VARIES,
      order, &at);
  *value = 0;
  if (why) return why_not(context, expression, step, why, at);
  *value = scwi_apply(step->operation, a, b);
  if (isfinite(*value)) return SCW_OK;
  return scwi_no_figure_at(context, expression, step,
                           "this comes to a number too large to work with");
}

scw_status scwi_values(scw_context *context, const scwi_expression *expression,
                       const double *x, int order, double *value) {
  scw_status status = SCW_OK;
  for (size_t i = 0; i < expression->n_steps && !status; i++) {
    const scwi_expression_step *step = &expression->step[i];
    if (step->operation == SCWI_NUMBER)
      value[i] = step->number;
    else if (step->operation == SCWI_INPUT)
      value[i] = x[step->a];
    else
      status = step_value(context, expression, step, value[step->a],
                          value[step->b], order, &value[i]);
  }
  return status;
}

scw_status scwi_expression_value(scw_context *context,
                                 const scwi_expression *expression,
                                 const double *x, double *value) {
  double *values;
  *value = 0;
  scw_status status = SCWI_ALLOCATE(context, expression->n_steps, &values);
  if (!status) status = scwi_values(context, expression, x, 0, values);
  if (!status) *value = values[expression->n_steps - 1];
  free(values);
  return status;
}
