/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One third derivative along two directions, exact: arithmetic on polynomials
 * in s and t that keep s^0, s^1 and t^0, t^1, t^2 only. */
#include <stdlib.h>

#include "elementary.h"
#include "expression_value.h"
#include "memory.h"

typedef struct jet {
  double c[2][3]; /* c[i][j] belongs to s^i t^j */
} jet;

static jet times(const jet *a, const jet *b) {
  jet out = {{{0}}};
  for (int i = 0; i < 2; i++)
    for (int j = 0; j < 3; j++)
      for (int k = 0; k <= i; k++)
        for (int l = 0; l <= j; l++)
          out.c[i][j] += a->c[k][l] * b->c[i - k][j - l];
  return out;
}

/* factor_a * a + factor_b * b. */
static jet mix(double factor_a, const jet *a, double factor_b, const jet *b) {
  jet out;
  for (int i = 0; i < 2; i++)
    for (int j = 0; j < 3; j++)
      out.c[i][j] = factor_a * a->c[i][j] + factor_b * b->c[i][j];
  return out;
}

/* A function of the jet, by its value and three derivatives there. */
static jet compose(const double d[4], jet a) {
  a.c[0][0] = 0;
  jet square = times(&a, &a), cube = times(&square, &a);
  jet out = mix(d[1], &a, d[2] / 2, &square);
  out = mix(1, &out, d[3] / 6, &cube);
  out.c[0][0] = d[0];
  return out;
}

static jet function(scwi_operation operation, const jet *a) {
  double d[4];
  scwi_function_slopes(operation, a->c[0][0], d);
  return compose(d, *a);
}

static jet power(const jet *a, double exponent) {
  double d[4];
  scwi_power_slopes(a->c[0][0], exponent, d);
  return compose(d, *a);
}

static jet step_jet(const scwi_expression *e, const scwi_expression_step *step,
                    const jet *a, const jet *b) {
  jet other;
  switch (step->operation) {
    case SCWI_ADD:
      return mix(1, a, 1, b);
    case SCWI_SUBTRACT:
      return mix(1, a, -1, b);
    case SCWI_NEGATE:
      return mix(-1, a, 0, a);
    case SCWI_MULTIPLY:
      return times(a, b);
    case SCWI_DIVIDE:
      other = power(b, -1);
      return times(a, &other);
    case SCWI_POWER:
      if (e->step[step->b].operation == SCWI_NUMBER)
        return power(a, step->number);
      other = function(SCWI_LOG, a);
      other = times(b, &other);
      return function(SCWI_EXP, &other);
    default:
      return function(step->operation, a);
  }
}

static void all_jets(const scwi_expression *e, const double *x, const double *q,
                     const double *w, jet *out) {
  for (size_t i = 0; i < e->n_steps; i++) {
    const scwi_expression_step *step = &e->step[i];
    if (step->operation == SCWI_NUMBER)
      out[i] = (jet){{{step->number}}};
    else if (step->operation == SCWI_INPUT)
      out[i] = (jet){{{x[step->a], q[step->a]}, {w[step->a]}}};
    else
      out[i] = step_jet(e, step, &out[step->a], &out[step->b]);
  }
}

scw_status scwi_expression_third(scw_context *context,
                                 const scwi_expression *expression,
                                 const double *x, const double *q,
                                 const double *w, double *third) {
  size_t steps = expression->n_steps;
  double *values;
  jet *jets = NULL;
  *third = 0;
  scw_status status = SCWI_ALLOCATE(context, steps, &values);
  if (!status) status = SCWI_ALLOCATE(context, steps, &jets);
  if (!status) status = scwi_values(context, expression, x, 3, values);
  if (!status) {
    all_jets(expression, x, q, w, jets);
    double found = 2 * jets[steps - 1].c[1][2];
    if (isfinite(found))
      *third = found;
    else
      status =
          scwi_no_figure_at(context, expression, &expression->step[steps - 1],
                            "this is too curved to work with");
  }
  free(values);
  free(jets);
  return status;
}
