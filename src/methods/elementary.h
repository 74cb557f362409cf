/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the operations of expressions are worth, and where they have no value
 * or no slope. */
#ifndef SCWI_ELEMENTARY_H
#define SCWI_ELEMENTARY_H

#include <math.h>

#include "expression.h"

/* x^p. Whole squares and cubes by multiplication, so that blocks of them are
 * fast and agree with single values to the last bit. */
static inline double scwi_power(double x, double p) {
  if (p == 2) return x * x;
  if (p == 3) return x * x * x;
  if (p == -1) return 1 / x;
  if (p == 0.5) return sqrt(x);
  return pow(x, p);
}

/* The value of an operation; b is not looked at where there is one operand. */
double scwi_apply(scwi_operation operation, double a, double b);

/* Value and first three derivatives of a function of one operand (SCWI_EXP to
 * SCWI_ABS), and of x^p for a fixed p. */
void scwi_function_slopes(scwi_operation operation, double x, double out[4]);
void scwi_power_slopes(double x, double p, double out[4]);

/* How the exponent of a power is known. */
typedef enum scwi_exponent {
  SCWI_EXPONENT_FIXED,
  SCWI_EXPONENT_VARIES
} scwi_exponent;

/* Whether an operation has a value at its operands, and `order` derivatives:
 * null, or why not, in words; *at is the operand it is about. */
const char *scwi_no_value(scwi_operation operation, double a, double b,
                          scwi_exponent exponent, int order, double *at);

#endif
