/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "straight_line.h"

/* How a step depends on the input. */
enum { NOT_AT_ALL, STRAIGHT, CURVED };

static int larger(int a, int b) {
  return a > b ? a : b;
}

static int bent(int operand) {
  return operand == NOT_AT_ALL ? NOT_AT_ALL : CURVED;
}

static int of_step(const scwi_expression_step *step, const unsigned char *of,
                   size_t input) {
  switch (step->operation) {
    case SCWI_NUMBER:
      return NOT_AT_ALL;
    case SCWI_INPUT:
      return step->a == input ? STRAIGHT : NOT_AT_ALL;
    case SCWI_ADD:
    case SCWI_SUBTRACT:
      return larger(of[step->a], of[step->b]);
    case SCWI_MULTIPLY:
      return of[step->a] + of[step->b];
    case SCWI_DIVIDE:
      return of[step->b] == NOT_AT_ALL ? of[step->a] : CURVED;
    case SCWI_POWER:
      return bent(larger(of[step->a], of[step->b]));
    case SCWI_NEGATE:
      return of[step->a];
    default:
      return bent(of[step->a]);
  }
}

bool scwi_straight_line(const scwi_expression *expression, size_t input,
                        uint32_t *place) {
  unsigned char of[SCWI_EXPRESSION_STEPS];
  for (size_t i = 0; i < expression->n_steps; i++) {
    int found = of_step(&expression->step[i], of, input);
    if (found >= CURVED) {
      *place = expression->step[i].place;
      return false;
    }
    of[i] = (unsigned char)found;
  }
  return true;
}
