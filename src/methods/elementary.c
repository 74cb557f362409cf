/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "elementary.h"

static const double log_of_10 = 2.302585092994045684;

double scwi_apply(scwi_operation operation, double a, double b) {
  switch (operation) {
    case SCWI_ADD:
      return a + b;
    case SCWI_SUBTRACT:
      return a - b;
    case SCWI_MULTIPLY:
      return a * b;
    case SCWI_DIVIDE:
      return a / b;
    case SCWI_POWER:
      return scwi_power(a, b);
    case SCWI_NEGATE:
      return -a;
    case SCWI_EXP:
      return exp(a);
    case SCWI_LOG:
      return log(a);
    case SCWI_LOG10:
      return log10(a);
    case SCWI_SQRT:
      return sqrt(a);
    case SCWI_SIN:
      return sin(a);
    case SCWI_COS:
      return cos(a);
    case SCWI_TAN:
      return tan(a);
    case SCWI_ASIN:
      return asin(a);
    case SCWI_ACOS:
      return acos(a);
    case SCWI_ATAN:
      return atan(a);
    case SCWI_ABS:
      return fabs(a);
    case SCWI_NUMBER:
    case SCWI_INPUT:
      break;
  }
  return NAN;
}

static void set(double out[4], double value, double first, double second,
                double third) {
  out[0] = value;
  out[1] = first;
  out[2] = second;
  out[3] = third;
}

static void log_slopes(double value, double scale, double x, double out[4]) {
  double r = 1 / x;
  set(out, value, r / scale, -r * r / scale, 2 * r * r * r / scale);
}

static void sqrt_slopes(double x, double out[4]) {
  double first = 0.5 / sqrt(x), second = -0.5 * first / x;
  set(out, sqrt(x), first, second, -1.5 * second / x);
}

static void tan_slopes(double x, double out[4]) {
  double t = tan(x), first = 1 + t * t;
  set(out, t, first, 2 * t * first, first * (2 + 6 * t * t));
}

/* sign 1: arc sine; -1: arc cosine. */
static void arc_slopes(double value, double sign, double x, double out[4]) {
  double c = (1 - x) * (1 + x), first = sign / sqrt(c);
  set(out, value, first, first * x / c, first * (1 + 2 * x * x) / (c * c));
}

/* With c and s the cosine and sine of the angle, nothing overflows. */
static void atan_slopes(double x, double out[4]) {
  double c = 1 / hypot(1, x), s = x * c, first = c * c;
  set(out, atan(x), first, -2 * s * first * c,
      (6 * s * s - 2 * c * c) * first * first);
}

void scwi_function_slopes(scwi_operation operation, double x, double out[4]) {
  double value = scwi_apply(operation, x, 0);
  switch (operation) {
    case SCWI_EXP:
      set(out, value, value, value, value);
      return;
    case SCWI_LOG:
      log_slopes(value, 1, x, out);
      return;
    case SCWI_LOG10:
      log_slopes(value, log_of_10, x, out);
      return;
    case SCWI_SQRT:
      sqrt_slopes(x, out);
      return;
    case SCWI_SIN:
      set(out, value, cos(x), -value, -cos(x));
      return;
    case SCWI_COS:
      set(out, value, -sin(x), -value, sin(x));
      return;
    case SCWI_TAN:
      tan_slopes(x, out);
      return;
    case SCWI_ASIN:
      arc_slopes(value, 1, x, out);
      return;
    case SCWI_ACOS:
      arc_slopes(value, -1, x, out);
      return;
    case SCWI_ATAN:
      atan_slopes(x, out);
      return;
    case SCWI_ABS:
      set(out, value, copysign(1, x), 0, 0);
      return;
    default:
      set(out, NAN, NAN, NAN, NAN);
      return;
  }
}

void scwi_power_slopes(double x, double p, double out[4]) {
  double factor = 1;
  for (int order = 0; order < 4; order++) {
    /* Beyond a whole exponent nothing is left, also at x = 0. */
    out[order] = factor == 0 ? 0 : factor * scwi_power(x, p - order);
    factor *= p - order;
  }
}

static const char *no_power(double a, double b, scwi_exponent exponent,
                            int order) {
  if (exponent == SCWI_EXPONENT_VARIES)
    return a > 0 ? NULL
                 : "a power with an input in its exponent needs a base above "
                   "0, and this base is";
  bool whole = nearbyint(b) == b;
  if (a < 0 && !whole)
    return "a power whose exponent is not a whole number needs a base of 0 or "
           "more, and this base is";
  if (a == 0 && b < 0)
    return "a power with an exponent below 0 divides by its base, and this "
           "base is";
  if (a == 0 && !whole && b < order)
    return "this power has no usable slope where its base is";
  return NULL;
}

const char *scwi_no_value(scwi_operation operation, double a, double b,
                          scwi_exponent exponent, int order, double *at) {
  *at = a;
  switch (operation) {
    case SCWI_DIVIDE:
      *at = b;
      return b != 0 ? NULL : "it divides by something that is";
    case SCWI_POWER:
      return no_power(a, b, exponent, order);
    case SCWI_LOG:
    case SCWI_LOG10:
      return a > 0 ? NULL : "a logarithm needs a number above 0, and this is";
    case SCWI_SQRT:
      if (a < 0)
        return "a square root needs a number of 0 or more, and this is";
      return order && a == 0 ? "a square root has no usable slope at" : NULL;
    case SCWI_ASIN:
    case SCWI_ACOS:
      if (fabs(a) > 1)
        return "asin and acos need a number from -1 to 1, and "
               "this is";
      return order && fabs(a) == 1 ? "asin and acos have no usable slope at"
                                   : NULL;
    case SCWI_ABS:
      return order && a == 0 ? "abs has no slope at" : NULL;
    default:
      return NULL;
  }
}
