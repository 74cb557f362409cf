/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plain mathematical expressions: `100 * after / before`. Parsed once into a
 * tape, then evaluated at one point, with exact first and second derivatives,
 * or over blocks of trials. The language: docs/manual/expressions.md. */
#ifndef SCWI_EXPRESSION_H
#define SCWI_EXPRESSION_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "context.h"

enum {
  SCWI_EXPRESSION_LENGTH = 4000, /* bytes of text */
  SCWI_EXPRESSION_DEPTH = 100,   /* parentheses and powers inside each other */
  SCWI_EXPRESSION_STEPS = 2000,  /* operations on the tape */
  SCWI_EXPRESSION_INPUTS = 64,   /* different names */
  SCWI_BLOCK = 512               /* trials evaluated at a time */
};

typedef enum scwi_operation {
  SCWI_NUMBER,
  SCWI_INPUT, /* these two have no operands */
  SCWI_ADD,
  SCWI_SUBTRACT,
  SCWI_MULTIPLY,
  SCWI_DIVIDE,
  SCWI_POWER,
  SCWI_NEGATE,
  SCWI_EXP,
  SCWI_LOG,
  SCWI_LOG10,
  SCWI_SQRT,
  SCWI_SIN,
  SCWI_COS,
  SCWI_TAN,
  SCWI_ASIN,
  SCWI_ACOS,
  SCWI_ATAN,
  SCWI_ABS
} scwi_operation;

/* One step of the tape; operands are earlier steps. No step has numbers for
 * all its operands: such are worked out while parsing. */
typedef struct scwi_expression_step {
  scwi_operation operation;
  uint16_t a, b;  /* operands; the input's index for SCWI_INPUT */
  uint16_t slot;  /* where evaluation keeps the value: slots are shared by
                     steps that are not needed at the same time, never by a
                     step and its operands; none for numbers and inputs */
  uint32_t place; /* character of the text, from 1 */
  double number;  /* SCWI_NUMBER; for SCWI_POWER with a number as exponent
                     this number, else 0 */
} scwi_expression_step;

/* The last step is the expression's value. */
typedef struct scwi_expression {
  char *text;
  scwi_expression_step *step;
  size_t n_steps, n_slots;
  char **input; /* names, in the order they appear in */
  size_t n_inputs;
} scwi_expression;

/* A name that stands for an earlier expression; its inputs become inputs of
 * the expression that uses it, shared by name. */
typedef struct scwi_definition {
  const char *name;
  const scwi_expression *expression;
} scwi_definition;

/* Parses `length` bytes of UTF-8. SCW_BAD_INPUT with a message that names the
 * character, what stands there and what was expected;
 * scw_context_column is that character (line 0). On failure *out is empty. */
scw_status scwi_expression_parse(scw_context *context, const char *text,
                                 size_t length,
                                 const scwi_definition *definitions,
                                 size_t n_definitions, scwi_expression *out);
void scwi_expression_free(scwi_expression *expression);

/* Whether a text can name an input: a letter, then letters, digits and _; not
 * a function or constant. */
bool scwi_expression_is_name(const char *text, size_t length);

/* Index of the input of that name; n_inputs when it does not occur. */
size_t scwi_expression_find(const scwi_expression *expression,
                            const char *name);

/* The value at x (n_inputs finite numbers, in the order of `input`).
 * SCW_NO_FIGURE with the operation and its character in words where there is
 * none: logarithm of a number that is not above 0, division by 0 ... */
scw_status scwi_expression_value(scw_context *context,
                                 const scwi_expression *expression,
                                 const double *x, double *value);

/* The value with exact derivatives by each input: gradient (n) and, unless
 * null, Hessian (n x n, symmetric, row after row). A slope that cancels but for
 * rounding is 0. Also SCW_NO_FIGURE where a slope does not exist or has no end:
 * square root at 0, abs at 0. */
scw_status scwi_expression_derivatives(scw_context *context,
                                       const scwi_expression *expression,
                                       const double *x, double *value,
                                       double *gradient, double *hessian);

/* d/ds d2/dt2 of f(x + t q + s w) at s = t = 0, exact; for the second-order
 * terms of JCGM 100 5.1.2. */
scw_status scwi_expression_third(scw_context *context,
                                 const scwi_expression *expression,
                                 const double *x, const double *q,
                                 const double *w, double *third);

/* Block evaluation: x[k] points to n <= SCWI_BLOCK values of input k, `out`
 * takes n values. `room` has scwi_expression_room doubles, one for each
 * thread. Nothing is allocated and nothing fails: outside the domain the
 * value is NaN or infinite, which the caller counts. out must not overlap x
 * or room. */
size_t scwi_expression_room(const scwi_expression *expression);
void scwi_expression_block(const scwi_expression *expression,
                           const double *const *x, size_t n, double *room,
                           double *out);

#endif
