/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Layout: id and zero; a byte of flags; the stated numbers that are there;
 * counts as 7 bits a byte, lowest first; mean and SD of sides with readings. */
#include "audit_record.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

#include "decimal.h"

enum {
  STATED = 6,
  STANDARD_ERROR = 1 << STATED,
  PAIRED = 1 << (STATED + 1),
  LONG_FORM = 64 /* added to the decimals: a double follows */
};

static void put(scwi_text *to, const void *bytes, size_t n) {
  scwi_text_append(to, bytes, n);
}

static void put_count(scwi_text *to, size_t n) {
  do {
    unsigned char byte = (unsigned char)((n & 127) | (n > 127 ? 128 : 0));
    put(to, &byte, 1);
    n >>= 7;
  } while (n);
}

static size_t get_count(const char **at) {
  size_t n = 0;
  int shift = 0;
  unsigned char byte;
  do {
    byte = (unsigned char)*(*at)++;
    n |= (size_t)(byte & 127) << shift;
    shift += 7;
  } while (byte & 128);
  return n;
}

static double get_double(const char **at) {
  double value;
  memcpy(&value, *at, sizeof value);
  *at += sizeof value;
  return value;
}

/* Mantissa and decimals, or the double where 32 bits do not hold it. */
static void put_stated(scwi_text *to, const scw_stated *number) {
  scwi_decimal decimal = scwi_decimal_of(number->value);
  int64_t ticks;
  bool fits = number->digits >= 0 && number->digits < 32 &&
              scwi_decimal_ticks(&decimal, number->digits, &ticks) &&
              ticks >= INT32_MIN && ticks <= INT32_MAX;
  int digits = number->digits < -31 ? -31 : number->digits > 31 ? 31
                                                                : number->digits;
  signed char form = (signed char)(fits ? digits : digits + LONG_FORM);
  put(to, &form, 1);
  if (fits) {
    int32_t mantissa = (int32_t)ticks;
    put(to, &mantissa, sizeof mantissa);
  } else {
    put(to, &number->value, sizeof number->value);
  }
}

static scw_stated get_stated(const char **at) {
  static const double powers[] = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                  1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                                  1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};
  int digits = (signed char)*(*at)++;
  int32_t mantissa;
  if (digits > LONG_FORM / 2) {
    double value = get_double(at);
    return (scw_stated){true, value, digits - LONG_FORM};
  }
  memcpy(&mantissa, *at, sizeof mantissa);
  *at += sizeof mantissa;
  double value = digits <= 22 ? mantissa / powers[digits]
                              : mantissa / pow(10, digits);
  return (scw_stated){true, value, digits};
}

static scw_stated *stated_of(scwi_record *record, int i) {
  scw_stated *const all[STATED] = {&record->mean[0],    &record->mean[1],
                                   &record->scatter[0], &record->scatter[1],
                                   &record->change,     &record->points};
  return all[i];
}

void scwi_record_write(scwi_text *to, const scwi_record *record) {
  scwi_record copy = *record;
  unsigned flags = (record->standard_error ? STANDARD_ERROR : 0U) |
                   (record->paired ? PAIRED : 0U);
  for (int i = 0; i < STATED; i++)
    if (stated_of(&copy, i)->has) flags |= 1U << i;
  unsigned char byte = (unsigned char)flags;
  put(to, record->id, strlen(record->id) + 1);
  put(to, &byte, 1);
  for (int i = 0; i < STATED; i++)
    if (stated_of(&copy, i)->has) put_stated(to, stated_of(&copy, i));
  for (int side = 0; side < 2; side++) {
    const scwi_record_side *r = &record->readings[side];
    put_count(to, record->n[side]);
    put_count(to, r->n);
    if (!r->n) continue;
    put(to, &r->mean, sizeof r->mean);
    put(to, &r->sd, sizeof r->sd);
  }
  if (!record->paired) return;
  put(to, &record->paired_change, sizeof(double));
  put(to, &record->paired_u, sizeof(double));
  put(to, &record->paired_df, sizeof(double));
}

void scwi_record_read(const char *from, scwi_record *record) {
  const char *at = from + strlen(from) + 1;
  unsigned flags = (unsigned char)*at++;
  *record = (scwi_record){.id = from,
                          .standard_error = flags & STANDARD_ERROR,
                          .paired = flags & PAIRED};
  for (int i = 0; i < STATED; i++)
    if (flags & (1U << i)) *stated_of(record, i) = get_stated(&at);
  for (int side = 0; side < 2; side++) {
    scwi_record_side *r = &record->readings[side];
    record->n[side] = get_count(&at);
    r->n = get_count(&at);
    if (!r->n) continue;
    r->mean = get_double(&at);
    r->sd = get_double(&at);
  }
  if (!record->paired) return;
  record->paired_change = get_double(&at);
  record->paired_u = get_double(&at);
  record->paired_df = get_double(&at);
}
