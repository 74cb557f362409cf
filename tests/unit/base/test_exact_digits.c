/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exact digits against the C library's printf and strtod, run in the C
 * locale: both are exact there. */
#include "check.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "exact_digits.h"

static double next_random(unsigned long long *random) {
  *random ^= *random << 13;
  *random ^= *random >> 7;
  *random ^= *random << 17;
  return (double)(*random >> 11) * 0x1p-53;
}

/* printf's shortest digits that read back, as digits * 10^-decimals. */
static void judge_shortest(double value, uint64_t *digits, int *decimals) {
  char text[40];
  int length = 0;
  do check_snprintf(text, sizeof text, "%.*e", length, value);
  while (check_strtod(text) != value && ++length);
  *digits = 0;
  for (const char *c = text; *c != 'e'; c++)
    if (*c != '.') *digits = *digits * 10 + (uint64_t)(*c - '0');
  *decimals = length - atoi(strchr(text, 'e') + 1);
}

static void check_shortest(double value) {
  uint64_t digits, wanted;
  int decimals, wanted_decimals;
  if (!scwi_shortest_decimal(value, &digits, &decimals))
    fail_msg("%.17g refused", value);
  judge_shortest(value, &wanted, &wanted_decimals);
  if (digits != wanted || decimals != wanted_decimals)
    fail_msg("%.17g: got %llu at %d, wanted %llu at %d", value,
             (unsigned long long)digits, decimals, (unsigned long long)wanted,
             wanted_decimals);
}

static void shortest_digits(void **state) {
  unsigned long long random = 20260403;
  (void)state;
  for (unsigned i = 0; i < 50000 * check_multiplier(); i++) {
    double u = next_random(&random);
    check_shortest(pow(10, -5 + 20.9 * u) * (1 + next_random(&random) / 1e3));
    check_shortest(rint(u * 1e6) / 1e3 + 1e-3); /* few digits */
    check_shortest(rint(u * 1e9) / 7);
  }
}

static void around_powers(void **state) {
  (void)state;
  for (int e = -16; e < 53; e++)
    for (int k = -2; k <= 2; k++) {
      double value = ldexp(1, e);
      for (int step = 0; step < abs(k); step++)
        value = nextafter(value, k < 0 ? 0 : INFINITY);
      check_shortest(value);
    }
  for (int e = -5; e < 16; e++)
    for (int k = 0; k <= 2; k++) {
      double value = pow(10, e);
      check_shortest(nextafter(value, INFINITY));
      check_shortest(e > -5 ? nextafter(value, 0) : value);
      check_shortest(value);
    }
}

static void rounding_to_decimals(void **state) {
  unsigned long long random = 20260404;
  (void)state;
  for (unsigned i = 0; i < 50000 * check_multiplier(); i++) {
    double value = pow(10, -8 + 15 * next_random(&random));
    int decimals = (int)(10 * next_random(&random));
    if (i % 3 == 0) value = rint(value) / 8; /* many exact halves */
    char text[64], *to = text;
    uint64_t whole;
    check_snprintf(text, sizeof text, "%.*f", decimals, value);
    for (const char *from = text; *from; from++)
      if (*from != '.') *to++ = *from;
    *to = 0;
    assert_true(scwi_whole_at(value, decimals, &whole));
    if (whole != strtoull(text, NULL, 10))
      fail_msg("%.17g at %d: got %llu, wanted %s", value, decimals,
               (unsigned long long)whole, text);
  }
}

static void out_of_reach(void **state) {
  static const double values[] = {0, 9.99e-6, 0x1p53, 1e300, 5e-324, INFINITY,
                                  NAN};
  uint64_t digits;
  int decimals;
  (void)state;
  for (size_t i = 0; i < sizeof values / sizeof *values; i++)
    assert_false(scwi_shortest_decimal(values[i], &digits, &decimals));
  assert_true(scwi_whole_at(0, 3, &digits) && digits == 0);
  assert_true(scwi_whole_at(-2.5, 0, &digits) && digits == 2);
  assert_false(scwi_whole_at(0x1p53, 0, &digits));
  assert_false(scwi_whole_at(1e-30, 2, &digits));
  assert_false(scwi_whole_at(1, 18, &digits));
  assert_false(scwi_whole_at(NAN, 2, &digits));
  assert_false(scwi_whole_at(1, -1, &digits));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(shortest_digits),
      cmocka_unit_test(around_powers),
      cmocka_unit_test(rounding_to_decimals),
      cmocka_unit_test(out_of_reach),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
