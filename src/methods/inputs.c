/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "inputs.h"

#include <math.h>
#include <string.h>

#include "codes.h"
#include "distributions.h"
#include "intervals.h"
#include "number_text.h"

/* The fields a kind needs or takes. */
enum {
  N = 1,
  SD = 1 << 1,
  UNCERTAINTY = 1 << 2,
  DF = 1 << 3,
  HALF_WIDTH = 1 << 4,
  TOP = 1 << 5,
  LIMIT = 1 << 6,
  EXPANDED = 1 << 7,
  K = 1 << 8,
  LEVEL = 1 << 9,
  UNRELIABILITY = 1 << 10,
  RELATIVE = 1 << 11,
  STEP = 1 << 12
};

static const struct {
  unsigned needs, takes;
} fields_of[] = {
    [SCW_KIND_READINGS] = {N, SD | STEP},
    [SCW_KIND_NORMAL] = {UNCERTAINTY, UNRELIABILITY | RELATIVE},
    [SCW_KIND_T] = {UNCERTAINTY | DF, RELATIVE},
    [SCW_KIND_RECTANGULAR] = {HALF_WIDTH, UNRELIABILITY | RELATIVE},
    [SCW_KIND_TRIANGULAR] = {HALF_WIDTH, UNRELIABILITY | RELATIVE},
    [SCW_KIND_TRAPEZOIDAL] = {HALF_WIDTH, TOP | UNRELIABILITY | RELATIVE},
    [SCW_KIND_UNCERTAIN_LIMITS] = {HALF_WIDTH | LIMIT,
                                   UNRELIABILITY | RELATIVE},
    [SCW_KIND_ARCSINE] = {HALF_WIDTH, UNRELIABILITY | RELATIVE},
    [SCW_KIND_CERTIFICATE] = {EXPANDED,
                              K | LEVEL | DF | UNRELIABILITY | RELATIVE},
    [SCW_KIND_EXACT] = {0, 0},
};

/* Name, place and range of the fields that are numbers. */
static const struct {
  const char *name;
  size_t offset;
  unsigned bit;
  double least, most;
} numbers[] = {
#define FIELD(name, bit, least, most)                                          \
  { #name, offsetof(scw_budget_given, name), bit, least, most }
    FIELD(sd, SD, 0, INFINITY),
    FIELD(uncertainty, UNCERTAINTY, 0, INFINITY),
    FIELD(df, DF, 0.5, INFINITY),
    FIELD(half_width, HALF_WIDTH, 0, INFINITY),
    FIELD(top, TOP, 0, 1),
    FIELD(limit_half_width, LIMIT, 0, INFINITY),
    FIELD(expanded, EXPANDED, 0, INFINITY),
    FIELD(k, K, 0, INFINITY),
    FIELD(level, LEVEL, 0, 0.999999),
    FIELD(unreliability, UNRELIABILITY, 0.0001, 1),
#undef FIELD
};

enum { NUMBERS = sizeof numbers / sizeof *numbers };

SCWI_CODE_FUNCTION(scw_budget_kind_code, scw_budget_kind, SCW_BUDGET_KIND_LIST,
                   SCWI_KEY_OF_3, SCW_KIND_END, "unknown")

SCWI_CODE_FUNCTION(scw_budget_kind_text, scw_budget_kind, SCW_BUDGET_KIND_LIST,
                   SCWI_TEXT_OF_3, SCW_KIND_END, "unknown")

static double number_of(const scw_budget_given *given, size_t i) {
  double value;
  memcpy(&value, (const char *)given + numbers[i].offset, sizeof value);
  return value;
}

bool scwi_input_takes(scw_budget_kind kind, const char *field) {
  static const struct {
    const char *name;
    unsigned bit;
  } others[] = {{"n", N}, {"step", STEP}, {"relative", RELATIVE}};
  unsigned takes = fields_of[kind].takes | fields_of[kind].needs;
  for (size_t i = 0; i < sizeof others / sizeof *others; i++)
    if (!strcmp(field, others[i].name)) return takes & others[i].bit;
  for (size_t i = 0; i < NUMBERS; i++)
    if (!strcmp(field, numbers[i].name)) return takes & numbers[i].bit;
  return !strcmp(field, "value");
}

static scw_status refuse_field(scw_context *context,
                               const scw_budget_given *given,
                               const char *field) {
  return scwi_fail(context, SCW_BAD_INPUT,
                   "input `%s`: `%s` is of no use to an input known as %s; "
                   "leave it out or choose another kind",
                   given->name, field, scw_budget_kind_text(given->kind));
}

static scw_status check_number(scw_context *context,
                               const scw_budget_given *given, size_t i) {
  char shown[SCWI_NUMBER_SIZE], limit[SCWI_NUMBER_SIZE];
  double value = number_of(given, i);
  unsigned needs = fields_of[given->kind].needs;
  unsigned takes = fields_of[given->kind].takes | needs;
  if (value == 0 && !(needs & numbers[i].bit)) return SCW_OK;
  if (!(takes & numbers[i].bit))
    return refuse_field(context, given, numbers[i].name);
  if (value == 0)
    return scwi_fail(context, SCW_BAD_INPUT,
                     "input `%s`: an input known as %s needs `%s`, a number "
                     "above 0",
                     given->name, scw_budget_kind_text(given->kind),
                     numbers[i].name);
  if (value >= numbers[i].least && value <= numbers[i].most && isfinite(value))
    return SCW_OK;
  if (!isfinite(value))
    return scwi_fail(context, SCW_BAD_INPUT,
                     "input `%s`: `%s` must be a finite number", given->name,
                     numbers[i].name);
  bool low = value < numbers[i].least;
  return scwi_fail(
      context, SCW_BAD_INPUT, "input `%s`: `%s` is %s; it must be %s %s",
      given->name, numbers[i].name, scwi_number_text(value, shown),
      low ? "at least" : "at most",
      scwi_number_text(low ? numbers[i].least : numbers[i].most, limit));
}

static scw_status check_fields(scw_context *context,
                               const scw_budget_given *given,
                               const char **fault) {
  unsigned takes = fields_of[given->kind].takes | fields_of[given->kind].needs;
  scw_status status = SCW_OK;
  *fault = "value";
  if (!isfinite(given->value))
    return scwi_fail(context, SCW_BAD_INPUT,
                     "input `%s`: its value must be a finite number",
                     given->name);
  for (size_t i = 0; i < NUMBERS && !status; i++) {
    *fault = numbers[i].name;
    status = check_number(context, given, i);
  }
  if (status) return status;
  *fault = "n";
  if (given->n && !(takes & N)) return refuse_field(context, given, *fault);
  *fault = "step";
  if (given->step.size != 0 && !(takes & STEP))
    return refuse_field(context, given, *fault);
  *fault = "relative";
  if (given->relative && !(takes & RELATIVE))
    return refuse_field(context, given, *fault);
  if (given->relative && given->value == 0)
    return scwi_fail(context, SCW_BAD_INPUT,
                     "input `%s`: a relative uncertainty of a value of 0 says "
                     "nothing; give it in the unit of the value",
                     given->name);
  *fault = NULL;
  return SCW_OK;
}

/* What the Type B kinds are worth: u as a part of the half-width. */
static double width_factor(const scw_budget_given *given) {
  switch (given->kind) {
    case SCW_KIND_RECTANGULAR:
    case SCW_KIND_UNCERTAIN_LIMITS:
      return sqrt(1.0 / 3);
    case SCW_KIND_TRIANGULAR:
      return sqrt(1.0 / 6);
    case SCW_KIND_TRAPEZOIDAL:
      return sqrt((1 + given->top * given->top) / 6);
    case SCW_KIND_ARCSINE:
      return sqrt(0.5);
    default:
      return 1;
  }
}

static scw_status from_readings(scw_context *context,
                                const scw_budget_given *given,
                                scwi_known_input *out) {
  scwi_uncertainty u;
  out->fault = "step";
  if (!(given->step.size >= 0) || !isfinite(given->step.size))
    return scwi_fail(context, SCW_BAD_INPUT,
                     "input `%s`: the display step must be 0 or more",
                     given->name);
  scwi_moments moments = {given->n, given->value, given->sd};
  scw_presence state = scwi_uncertainty_of_mean(moments, given->step, &u);
  out->fault = "n";
  if (state == SCW_ONE_READING)
    return scwi_fail(context, SCW_BAD_INPUT,
                     "input `%s`: fewer than two readings have no scatter; "
                     "take more, or give its uncertainty another way",
                     given->name);
  out->fault = "sd";
  if (state != SCW_PRESENT)
    return scwi_fail(context, SCW_BAD_INPUT,
                     "input `%s`: its readings are all the same, which does "
                     "not make it exact; give the display step as `step`",
                     given->name);
  out->u = u.u;
  out->df = u.df;
  out->scale = given->sd / sqrt((double)given->n);
  out->rounding = scwi_rounding_left(given->sd, given->step.size);
  return SCW_OK;
}

static scw_status from_certificate(scw_context *context,
                                   const scw_budget_given *given, double unit,
                                   scwi_known_input *out) {
  double k = given->k;
  scw_status status = SCW_OK;
  out->fault = "unreliability";
  if (given->df > 0 && given->unreliability > 0)
    return scwi_fail(context, SCW_BAD_INPUT,
                     "input `%s`: `df` and `unreliability` say the same thing; "
                     "give one of them",
                     given->name);
  out->fault = "expanded";
  if (given->df > 0) out->df = given->df;
  if (k == 0 && given->level == 0)
    return scwi_fail(context, SCW_BAD_INPUT,
                     "input `%s`: an expanded uncertainty says nothing without "
                     "its coverage factor: give `k`, or the `level` it was "
                     "stated for",
                     given->name);
  if (k == 0)
    status = scwi_t_quantile(context, 0.5 + given->level / 2, out->df, &k);
  if (!status) out->u = out->scale = given->expanded * unit / k;
  return status;
}

static void from_width(const scw_budget_given *given, double unit,
                       scwi_known_input *out) {
  bool direct = given->kind == SCW_KIND_NORMAL || given->kind == SCW_KIND_T;
  out->scale = unit * (direct ? given->uncertainty : given->half_width);
  out->limit = unit * given->limit_half_width;
  out->u = hypot(width_factor(given) * out->scale, out->limit / 3);
  if (given->kind == SCW_KIND_T) out->df = given->df;
}

static scw_status known(scw_context *context, const scw_budget_given *given,
                        scwi_known_input *out) {
  double unit = given->relative ? fabs(given->value) : 1;
  double r = given->unreliability;
  if (given->kind == SCW_KIND_EXACT) return SCW_OK;
  if (given->kind == SCW_KIND_READINGS)
    return from_readings(context, given, out);
  if (r > 0) out->df = 1 / (2 * r * r);
  if (given->kind == SCW_KIND_CERTIFICATE)
    return from_certificate(context, given, unit, out);
  out->fault = "limit_half_width";
  if (given->kind == SCW_KIND_UNCERTAIN_LIMITS &&
      given->limit_half_width >= given->half_width)
    return scwi_fail(context, SCW_BAD_INPUT,
                     "input `%s`: `limit_half_width` must be less than "
                     "`half_width`, else the limits could change places",
                     given->name);
  from_width(given, unit, out);
  return SCW_OK;
}

scw_status scwi_input_known(scw_context *context, const scw_budget_given *given,
                            scwi_known_input *out) {
  *out = (scwi_known_input){.estimate = given->value, .df = INFINITY};
  scw_status status = check_fields(context, given, &out->fault);
  if (!status) status = known(context, given, out);
  if (!status) out->fault = NULL;
  bool held = isfinite(out->u) && (out->u > 0 || given->kind == SCW_KIND_EXACT);
  if (!status && !held)
    status = scwi_fail(context, SCW_BAD_INPUT,
                       "input `%s`: its uncertainty is beyond what can be "
                       "worked with; choose another unit",
                       given->name);
  if (status) *out = (scwi_known_input){.fault = out->fault};
  return status;
}
