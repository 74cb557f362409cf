/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A t distribution with df degrees of freedom falls off as |x|^-(df+1), so that
 * E|x|^p exists for p < df. Sums keep the heavier tail (independent or not),
 * products of independent factors do too; a factor that is there twice adds up
 * by Hoelder's inequality to 1/(1/a + 1/b). 1/x of a density that is not 0 at
 * 0 has E|x|^-p for p < 1 only. */
#include "tail_index.h"

#include <math.h>
#include <stdlib.h>

#include "memory.h"

typedef struct tail {
  double index;
  uint64_t heavy; /* inputs with tails of their own, one bit each */
} tail;

_Static_assert(SCWI_EXPRESSION_INPUTS <= 64, "an input has a bit");

static double smaller(double a, double b) { return a < b ? a : b; }

static double product(tail a, tail b) {
  return a.heavy & b.heavy ? 1 / (1 / a.index + 1 / b.index)
                           : smaller(a.index, b.index);
}

static double power(tail base, tail exponent, double number) {
  if (exponent.heavy) return 0;
  if (!base.heavy) return INFINITY;
  if (number > 0) return base.index / number;
  return number < 0 ? 1 / -number : smaller(base.index, 1);
}

static double index_of(const scwi_expression_step *step, tail a, tail b) {
  bool heavy = a.heavy != 0;
  switch (step->operation) {
    case SCWI_ADD:
    case SCWI_SUBTRACT:
      return smaller(a.index, b.index);
    case SCWI_MULTIPLY:
      return product(a, b);
    case SCWI_DIVIDE:
      b.index = b.heavy ? 1 : INFINITY;
      return product(a, b);
    case SCWI_POWER:
      return power(a, b, step->number);
    case SCWI_EXP:
      return heavy ? 0 : INFINITY;
    case SCWI_TAN:
      return heavy ? 1 : INFINITY;
    case SCWI_SQRT:
      return 2 * a.index;
    case SCWI_NEGATE:
    case SCWI_ABS:
      return a.index;
    default: /* bounded, or a logarithm, which has all moments */
      return INFINITY;
  }
}

scw_status scwi_tail_index(scw_context *context,
                           const scwi_expression *expression, const double *df,
                           double *out) {
  tail *tails = NULL;
  scw_status status = SCWI_ALLOCATE(context, expression->n_steps, &tails);
  if (status) return status;
  for (size_t i = 0; i < expression->n_steps; i++) {
    const scwi_expression_step *step = &expression->step[i];
    tail made = {INFINITY, 0};
    if (step->operation == SCWI_INPUT && isfinite(df[step->a]))
      made = (tail){df[step->a], UINT64_C(1) << step->a};
    else if (step->operation > SCWI_INPUT) {
      tail a = tails[step->a], b = tails[step->b];
      bool two = step->operation <= SCWI_POWER;
      made.heavy = a.heavy | (two ? b.heavy : 0);
      made.index = index_of(step, a, b);
    }
    tails[i] = made;
  }
  *out = tails[expression->n_steps - 1].index;
  free(tails);
  return SCW_OK;
}
