/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An expression over a block of trials, step by step, so that each loop is one
 * operation on arrays that fit the nearest cache. */
#include <string.h>

#include "elementary.h"
#include "expression_tape.h"

/* An operand: an array, or one number for all trials (null array). */
typedef struct operand {
  const double *x;
  double number;
} operand;

#define EACH(value)                                                            \
  do {                                                                         \
    for (size_t i = 0; i < n; i++)                                             \
      out[i] = (value);                                                        \
  } while (0)

/* At most one of the operands is a number. */
#define EACH_PAIR(operator)                                                    \
  do {                                                                         \
    if (!x)                                                                    \
      EACH(a.number operator y[i]);                                            \
    else if (!y)                                                               \
      EACH(x[i] operator b.number);                                            \
    else                                                                       \
      EACH(x[i] operator y[i]);                                                \
  } while (0)

static void run_power(operand a, operand b, size_t n, double *restrict out) {
  const double *restrict x = a.x, *restrict y = b.x;
  if (!x)
    EACH(scwi_power(a.number, y[i]));
  else if (y)
    EACH(scwi_power(x[i], y[i]));
  else if (b.number == 2)
    EACH(scwi_power(x[i], 2));
  else if (b.number == 3)
    EACH(scwi_power(x[i], 3));
  else if (b.number == -1)
    EACH(scwi_power(x[i], -1));
  else if (b.number == 0.5)
    EACH(sqrt(x[i]));
  else
    EACH(pow(x[i], b.number));
}

static void run_pair(scwi_operation operation, operand a, operand b, size_t n,
                     double *restrict out) {
  const double *restrict x = a.x, *restrict y = b.x;
  switch (operation) {
    case SCWI_ADD:
      EACH_PAIR(+);
      return;
    case SCWI_SUBTRACT:
      EACH_PAIR(-);
      return;
    case SCWI_MULTIPLY:
      EACH_PAIR(*);
      return;
    case SCWI_DIVIDE:
      EACH_PAIR(/);
      return;
    default:
      run_power(a, b, n, out);
      return;
  }
}

static void run_function(scwi_operation operation, const double *restrict x,
                         size_t n, double *restrict out) {
  switch (operation) {
    case SCWI_NEGATE:
      EACH(-x[i]);
      return;
    case SCWI_EXP:
      EACH(exp(x[i]));
      return;
    case SCWI_LOG:
      EACH(log(x[i]));
      return;
    case SCWI_SQRT:
      EACH(sqrt(x[i]));
      return;
    case SCWI_SIN:
      EACH(sin(x[i]));
      return;
    case SCWI_COS:
      EACH(cos(x[i]));
      return;
    case SCWI_ABS:
      EACH(fabs(x[i]));
      return;
    default:
      EACH(scwi_apply(operation, x[i], 0));
      return;
  }
}

static operand operand_at(const scwi_expression *e, uint16_t index,
                          const double *const *x, const double *room) {
  const scwi_expression_step *step = &e->step[index];
  if (step->operation == SCWI_NUMBER) return (operand){NULL, step->number};
  if (step->operation == SCWI_INPUT) return (operand){x[step->a], 0};
  return (operand){room + (size_t)step->slot * SCWI_BLOCK, 0};
}

size_t scwi_expression_room(const scwi_expression *expression) {
  return (expression->n_slots + 1) * SCWI_BLOCK;
}

/* An expression that is a number or an input, nothing else. */
static void run_alone(operand alone, size_t n, double *out) {
  if (alone.x)
    memcpy(out, alone.x, n * sizeof *out);
  else
    EACH(alone.number);
}

void scwi_expression_block(const scwi_expression *expression,
                           const double *const *x, size_t n, double *room,
                           double *out) {
  size_t last = expression->n_steps - 1;
  for (size_t i = 0; i <= last; i++) {
    const scwi_expression_step *step = &expression->step[i];
    if (step->operation == SCWI_NUMBER || step->operation == SCWI_INPUT) {
      if (i == last)
        run_alone(operand_at(expression, (uint16_t)i, x, room), n, out);
      continue;
    }
    double *to = i == last ? out : room + (size_t)step->slot * SCWI_BLOCK;
    operand a = operand_at(expression, step->a, x, room);
    operand b = operand_at(expression, step->b, x, room);
    if (scwi_has_two_operands(step->operation))
      run_pair(step->operation, a, b, n, to);
    else
      run_function(step->operation, a.x, n, to);
  }
}
