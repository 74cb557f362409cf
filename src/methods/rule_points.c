/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "rule_points.h"

#include <math.h>
#include <stdlib.h>

#include "codes.h"
#include "decimal.h"
#include "figure.h"

SCWI_CODE_FUNCTION(scw_rule_kind_code, scw_rule_kind, SCW_RULE_LIST, SCWI_KEY,
                   SCW_RULE_KIND_END, "unknown")
SCWI_CODE_FUNCTION(scw_ties_code, scw_ties, SCW_TIES_LIST, SCWI_KEY,
                   SCW_TIES_END, "unknown")

/* Whole numbers of one small unit, 10^-digits; false where they do not fit. */
static bool common_ticks(double a, double b, int64_t *ticks_a,
                         int64_t *ticks_b, int *digits) {
  scwi_decimal x = scwi_decimal_of(a), y = scwi_decimal_of(b);
  *digits = x.digits > y.digits ? x.digits : y.digits;
  return scwi_decimal_ticks(&x, *digits, ticks_a) &&
         scwi_decimal_ticks(&y, *digits, ticks_b);
}

/* n steps as a number: so many hundredths, read as a decimal is. */
static double steps_of(double n, double step) {
  scwi_decimal decimal = scwi_decimal_of(step);
  int64_t ticks;
  int digits = decimal.digits > 0 ? decimal.digits : 0;
  if (digits > 15 || !scwi_decimal_ticks(&decimal, digits, &ticks))
    return n * step;
  double unit = pow(10, digits), whole = n * (double)ticks;
  return fabs(whole) < 9e15 ? whole / unit : n * step;
}

static double round_half(double quotient, scw_ties ties) {
  double down = floor(quotient), rest = quotient - down;
  if (rest != 0.5) return rest < 0.5 ? down : down + 1;
  if (ties == SCW_TIES_AWAY) return quotient < 0 ? down : down + 1;
  return fmod(down, 2) == 0 ? down : down + 1;
}

double scwi_round_to(double value, double step, scw_ties ties) {
  int64_t ticks, unit;
  int digits;
  if (!(step > 0) || !isfinite(value)) return value;
  if (fabs(value) / step > 9e15) return value; /* finer than its last digit */
  if (!common_ticks(value, step, &ticks, &unit, &digits) || unit == 0)
    return steps_of(round_half(value / step, ties), step);
  int64_t whole = ticks / unit, rest = llabs(ticks % unit);
  int64_t away = ticks < 0 ? whole - 1 : whole + 1;
  bool up = rest > unit - rest ||
            (rest == unit - rest && (ties == SCW_TIES_AWAY || whole % 2 != 0));
  return steps_of((double)(up ? away : whole), step);
}

/* a * b as decimals; the plain product where they do not fit. */
static double product(double a, double b) {
  scwi_decimal x = scwi_decimal_of(a), y = scwi_decimal_of(b);
  int64_t whole;
  int digits = x.digits + y.digits;
  if (!x.exact || !y.exact || digits < 0 || digits > 22 ||
      __builtin_mul_overflow(x.mantissa, y.mantissa, &whole) ||
      llabs(whole) > INT64_C(1) << 53)
    return a * b;
  return (double)whole / pow(10, digits);
}

/* The same of a / b: 0.07 / 0.01 is 7. */
static double quotient(double a, double b) {
  int64_t over, under;
  int digits;
  bool whole = common_ticks(a, b, &over, &under, &digits) &&
               llabs(over) <= INT64_C(1) << 53 &&
               llabs(under) <= INT64_C(1) << 53;
  return whole ? (double)over / (double)under : a / b;
}

static double ladder_points(const scw_rule *rule, double passes) {
  double points = rule->offset;
  for (size_t i = 0; i < rule->n_rungs && rule->rung[i].passes <= passes; i++)
    points = rule->rung[i].points;
  return points;
}

double scwi_rule_points(const scw_rule *rule, double quantity) {
  double points =
      rule->kind == SCW_RULE_LADDER
          ? ladder_points(rule, quantity)
          : scwi_decimal_difference(
                quotient(product(rule->points, quantity), rule->per),
                -rule->offset);
  return fmax(rule->low, fmin(rule->high, points));
}

scw_interval scwi_rule_image(const scw_rule *rule, scw_interval quantity) {
  if (quantity.state != SCW_PRESENT) return quantity;
  double a = scwi_rule_points(rule, quantity.low);
  double b = scwi_rule_points(rule, quantity.high);
  return scwi_interval(fmin(a, b), fmax(a, b), quantity.level);
}

scw_figure scwi_rule_quantity(const scw_rule *rule, double before,
                              double after) {
  switch (rule->kind) {
    case SCW_RULE_DIFFERENCE:
      return scwi_figure(scwi_decimal_difference(after, before));
    case SCW_RULE_PERCENT:
      return before == 0 ? scwi_missing(SCW_ZERO_BEFORE)
                         : scwi_figure(100 * (after / before));
    default:
      return scwi_figure(after);
  }
}

scwi_published scwi_rule_published(const scw_rule *rule, double before,
                                   double after) {
  const scw_rounding *r = &rule->rounding;
  scwi_published out = {.before = scwi_round_to(before, r->mean, r->ties),
                        .after = scwi_round_to(after, r->mean, r->ties)};
  out.quantity = scwi_rule_quantity(rule, out.before, out.after);
  out.points = out.quantity;
  if (!scwi_present(out.quantity)) return out;
  out.quantity.value =
      scwi_round_to(out.quantity.value, r->difference, r->ties);
  out.points = scwi_figure(scwi_round_to(
      scwi_rule_points(rule, out.quantity.value), r->points, r->ties));
  return out;
}

scw_interval scwi_rule_published_image(const scw_rule *rule, double low,
                                       double high) {
  const scw_rounding *r = &rule->rounding;
  scw_interval quantity =
      scwi_interval(scwi_round_to(low, r->difference, r->ties),
                    scwi_round_to(high, r->difference, r->ties), 1);
  scw_interval points = scwi_rule_image(rule, quantity);
  points.low = scwi_round_to(points.low, r->points, r->ties);
  points.high = scwi_round_to(points.high, r->points, r->ties);
  return points;
}

double scwi_score_sum(const scw_score_rule *score, const double *points) {
  double sum = 0;
  for (size_t i = 0; i < score->n_parts; i++)
    sum = scwi_decimal_difference(sum, -product(score->part[i].weight,
                                                points[i]));
  return fmax(score->low, fmin(score->high, sum));
}
