/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The grammar is checked here; strtod only converts what has passed. The
 * program never sets LC_NUMERIC, so strtod reads a decimal point. */
#include "number.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const char not_a_number[] = "is not a number";

static bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

static const char *past_digits(const char *text) {
  while (is_digit(*text)) {
    text++;
  }
  return text;
}

static const char *past_exponent(const char *text) {
  if (*text != 'e' && *text != 'E') {
    return text;
  }
  const char *digits = text + 1;
  if (*digits == '+' || *digits == '-') {
    digits++;
  }
  return is_digit(*digits) ? past_digits(digits) : text;
}

/* The end of the number `text` begins with, or null where there is none. */
static const char *past_number(const char *text) {
  if (*text == '+' || *text == '-') {
    text++;
  }
  const char *whole = past_digits(text);
  const char *end = whole;
  if (*end == '.') {
    end = past_digits(end + 1);
    if (end == whole + 1 && whole == text) {
      return NULL; /* a point alone */
    }
  }
  return end == text ? NULL : past_exponent(end);
}

/* Reads the number at the front of `text`; *rest is what follows it. */
static const char *read_front(const char *text, double *value,
                              const char **rest) {
  const char *end = past_number(text);
  if (end == NULL) {
    return not_a_number;
  }
  if (*end == ',') {
    return "has a comma; write the number with a decimal point, such as 0.5";
  }
  *value = strtod(text, NULL);
  if (!isfinite(*value)) {
    return "is beyond the largest number that can be held";
  }
  *rest = end;
  return NULL;
}

const char *cli_read_number(const char *text, double *out) {
  double value;
  const char *rest;
  const char *wrong = read_front(text, &value, &rest);
  if (wrong == NULL && *rest != '\0') {
    wrong = not_a_number;
  }
  if (wrong == NULL) {
    *out = value;
  }
  return wrong;
}

const char *cli_read_quantity(const char *text, cli_quantity *out) {
  double value;
  const char *rest;
  const char *wrong = read_front(text, &value, &rest);
  if (wrong != NULL) {
    return wrong;
  }
  rest += strspn(rest, " ");
  if (*rest == '%') {
    return "is a percentage; give it in the unit of the readings";
  }
  if (*rest != '\0' && strchr("0123456789.+-", *rest) != NULL) {
    return not_a_number;
  }
  out->value = value;
  out->unit = *rest != '\0' ? rest : NULL;
  out->given = true;
  return NULL;
}

const char *cli_read_share(const char *text, double *out) {
  double value;
  const char *rest;
  const char *wrong = read_front(text, &value, &rest);
  if (wrong != NULL) {
    return wrong;
  }
  bool percent = strcmp(rest, "%") == 0 || strcmp(rest, " %") == 0;
  if (!percent && *rest != '\0') {
    return not_a_number;
  }
  if (!percent && value >= 2.0 && value < 100.0) {
    return "is not between 0 and 1; put a % sign after it if it is a "
           "percentage, such as 95%";
  }
  value = percent ? value / 100.0 : value;
  if (!(value > 0.0 && value < 1.0)) {
    return "is not between 0 and 1; write 0.95 or 95%";
  }
  *out = value;
  return NULL;
}

const char *cli_read_count(const char *text, size_t *out) {
  static const char expected[] = "is not a whole number of 1 or more";
  size_t value = 0;
  if (!is_digit(*text) || *past_digits(text) != '\0') {
    return expected;
  }
  for (const char *digit = text; *digit != '\0'; digit++) {
    if (value > 100000000000000u) {
      return "is too large a count";
    }
    value = value * 10 + (size_t)(*digit - '0');
  }
  if (value == 0) {
    return expected;
  }
  *out = value;
  return NULL;
}
