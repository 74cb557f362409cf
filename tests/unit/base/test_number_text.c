/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers as text. Judges: strtod of the C library in the C locale, Python's
 * shortest round-trip text and its exact decimals (number_judge.py), identities. */
#include "check.h"

#include <float.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "decimal.h"
#include "number_text.h"

static double random_double(unsigned long long *state) {
  double value;
  do {
    *state ^= *state << 13;
    *state ^= *state >> 7;
    *state ^= *state << 17;
    memcpy(&value, state, sizeof value);
  } while (!isfinite(value));
  return value;
}

static void round_trip_of_any_double(void **state) {
  unsigned long long random = 88172645463325252ULL;
  (void)state;
  for (unsigned i = 0; i < 20000 * check_multiplier(); i++) {
    char text[SCWI_NUMBER_SIZE];
    scwi_decimal read;
    double value = random_double(&random);
    scwi_number_text(value, text);
    if (check_strtod(text) != value) fail_msg("%.17g wrote %s", value, text);
    assert_int_equal(scwi_decimal_read(text, strlen(text), '.', &read),
                     SCWI_DECIMAL_OK);
    if (read.value != value) fail_msg("%.17g read %s", value, text);
    if (scwi_decimal_of(value).value != value) fail_msg("%.17g", value);
  }
}

static void shortest_text(void **state) {
  static const struct {
    double value;
    const char *text;
  } cases[] = {{87.4, "87.4"},           {0.1 + 0.2, "0.30000000000000004"},
               {1e300, "1e+300"},        {-1.0 / 3, "-0.3333333333333333"},
               {5e-324, "5e-324"},       {0.0, "0"},
               {-0.0, "0"},              {DBL_MAX, "1.7976931348623157e+308"},
               {1200, "1200"},           {1e-5, "0.00001"},
               {1.5e-7, "1.5e-07"},      {NAN, "null"},
               {INFINITY, "null"},       {-INFINITY, "null"},
               {1e16, "10000000000000000"}};
  (void)state;
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    char text[SCWI_NUMBER_SIZE];
    assert_string_equal(scwi_number_text(cases[i].value, text), cases[i].text);
  }
}

static double from_bits(const char *hex) {
  unsigned long long bits = strtoull(hex, NULL, 16);
  double value;
  memcpy(&value, &bits, sizeof value);
  return value;
}

static size_t digits_in(const char *text) {
  size_t n = 0, zeros = 0;
  for (; *text && *text != 'e'; text++) {
    if (*text < '0' || *text > '9' || (n == 0 && *text == '0')) continue;
    zeros = *text == '0' ? zeros + 1 : 0;
    n++;
  }
  return n - zeros;
}

/* As many digits as Python's repr, and the same decimals as its exact
 * decimal arithmetic, for every row of number_judge.py. */
static void as_python_writes_them(void **state) {
  check_table table = check_table_read(NUMBERS_CSV);
  (void)state;
  assert_true(table.rows >= 2000);
  for (size_t i = 0; i < table.rows; i++) {
    char text[SCWI_NUMBER_SIZE];
    double value = from_bits(check_table_text(&table, i, "bits"));
    scwi_number_text(value, text);
    if (digits_in(text) != digits_in(check_table_text(&table, i, "repr")))
      fail_msg("%s, Python %s", text, check_table_text(&table, i, "repr"));
    int decimals = (int)check_table_number(&table, i, "decimals");
    assert_string_equal(scwi_fixed_text(value, decimals, text),
                        check_table_text(&table, i, "fixed"));
    int significant = (int)check_table_number(&table, i, "significant");
    scwi_significant_text(value, significant, text);
    if (check_strtod(text) != check_table_number(&table, i, "rounded"))
      fail_msg("%.17g to %d: %s, Python %s", value, significant, text,
               check_table_text(&table, i, "rounded"));
  }
  check_table_free(&table);
}

static void rounding_by_the_uncertainty(void **state) {
  static const struct {
    double uncertainty, value;
    int decimals;
  } cases[] = {{0.137, 5, 2},   {0.0996, 5, 2}, {0.0994, 5, 3}, {13.7, 5, 0},
               {1370, 5, -2},   {0, 87.4, 1},   {NAN, 87.45, 2}, {0, 0, 0},
               {INFINITY, 5, 0}, {1e-300, 1, 301}, {9.96, 5, 0}};
  (void)state;
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
    assert_int_equal(scwi_decimals_for(cases[i].uncertainty, cases[i].value),
                     cases[i].decimals);
}

/* The same decimals as printf's two digits, in the C locale. */
static void two_digits_of_any_uncertainty(void **state) {
  unsigned long long random = 20260406;
  (void)state;
  for (unsigned i = 0; i < 200000 * check_multiplier(); i++) {
    char text[64];
    double u = fabs(random_double(&random));
    if (i % 2) u = ldexp(frexp(u, &(int){0}), (int)(random % 80) - 60);
    if (i % 4 == 1) u = pow(10, rint(log10(u))) * (1 + (double)(i % 9) / 2048);
    if (u == 0) continue;
    check_snprintf(text, sizeof text, "%.1e", u);
    int wanted = 1 - atoi(strchr(text, 'e') + 1);
    if (scwi_decimals_for(u, 1) != wanted)
      fail_msg("%.17g: %d decimals, not %d", u, scwi_decimals_for(u, 1),
               wanted);
  }
}

static void whole_numbers(void **state) {
  char text[SCWI_NUMBER_SIZE];
  (void)state;
  assert_string_equal(scwi_whole_text(0, text), "0");
  assert_string_equal(scwi_whole_text(1200, text), "1200");
  assert_string_equal(scwi_whole_text(UINT64_MAX, text),
                      "18446744073709551615");
}

static void never_minus_zero(void **state) {
  char text[SCWI_NUMBER_SIZE];
  (void)state;
  assert_string_equal(scwi_fixed_text(-0.04, 1, text), "0.0");
  assert_string_equal(scwi_fixed_text(-0.0, 2, text), "0.00");
  assert_string_equal(scwi_fixed_text(-4, -1, text), "0");
  assert_string_equal(scwi_fixed_text(0, -2, text), "0");
  assert_string_equal(scwi_fixed_text(0, -299, text), "0");
  assert_string_equal(scwi_fixed_text(-1e-30, 25, text), "0");
  /* tiny numbers of many decimals take an exponent */
  assert_string_equal(scwi_fixed_text(3e-12, 15, text), "3.000e-12");
  assert_string_equal(scwi_fixed_text(3e-12, 4, text), "0.0000");
  assert_string_equal(scwi_fixed_text(0, 12, text), "0.000000000000");
  assert_string_equal(scwi_fixed_text(0, 13, text), "0");
  assert_string_equal(scwi_fixed_text(0, 25, text), "0");
  assert_string_equal(scwi_fixed_text(-4e-16, 15, text), "0");
  assert_string_equal(scwi_fixed_text(-6e-16, 15, text), "-1e-15");
  assert_string_equal(scwi_fixed_text(9.9996e-13, 15, text), "1.000e-12");
  assert_string_equal(scwi_fixed_text(9.9e-13, 12, text), "0.000000000001");
  assert_string_equal(scwi_fixed_text(9.9e-14, 13, text), "1e-13");
  assert_string_equal(scwi_significant_text(-0.0, 3, text), "0");
}

static void tens_and_hundreds(void **state) {
  char text[SCWI_NUMBER_SIZE];
  (void)state;
  assert_string_equal(scwi_fixed_text(1234.5, -2, text), "1200");
  assert_string_equal(scwi_fixed_text(1250, -2, text), "1200");
  assert_string_equal(scwi_fixed_text(1350, -2, text), "1400");
  assert_string_equal(scwi_fixed_text(-1299, -2, text), "-1300");
  assert_string_equal(scwi_fixed_text(NAN, 1, text), "null");
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(round_trip_of_any_double),
      cmocka_unit_test(shortest_text),
      cmocka_unit_test(as_python_writes_them),
      cmocka_unit_test(rounding_by_the_uncertainty),
      cmocka_unit_test(two_digits_of_any_uncertainty),
      cmocka_unit_test(whole_numbers),
      cmocka_unit_test(never_minus_zero),
      cmocka_unit_test(tens_and_hundreds),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
