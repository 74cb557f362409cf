/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers to text and back: the judge is strtod of the C library, run in the
 * C locale, and identities. */
#include "check.h"

#include <float.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "decimal.h"
#include "number_text.h"

static scwi_decimal read_text(const char *text) {
  scwi_decimal decimal;
  assert_int_equal(scwi_decimal_read(text, strlen(text), '.', &decimal),
                   SCWI_DECIMAL_OK);
  return decimal;
}

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
    double value = random_double(&random);
    scwi_number_text(value, text);
    if (strtod(text, NULL) != value) fail_msg("%.17g wrote %s", value, text);
    if (read_text(text).value != value) fail_msg("%.17g read %s", value, text);
  }
}

static void shortest_text(void **state) {
  static const struct { double value; const char *text; } cases[] = {
      {87.4, "87.4"},       {0.1 + 0.2, "0.30000000000000004"},
      {1e300, "1e+300"},    {-1.0 / 3, "-0.3333333333333333"},
      {5e-324, "5e-324"},   {0.0, "0"},
      {-0.0, "0"},          {DBL_MAX, "1.7976931348623157e+308"},
      {1200, "1200"},       {1e-5, "0.00001"},
      {1.5e-7, "1.5e-07"},  {NAN, "null"},
      {INFINITY, "null"}};
  (void)state;
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    char text[SCWI_NUMBER_SIZE];
    assert_string_equal(scwi_number_text(cases[i].value, text), cases[i].text);
  }
}

static void decimal_keeps_what_was_written(void **state) {
  (void)state;
  scwi_decimal d = read_text("-87.40");
  assert_true(d.exact && d.mantissa == -8740 && d.digits == 2);
  d = read_text("0.00");
  assert_true(d.exact && d.mantissa == 0 && d.digits == 2);
  d = read_text("12e3");
  assert_true(d.exact && d.mantissa == 12 && d.digits == -3);
  d = read_text("1234567890123456789012");
  assert_false(d.exact);
  assert_true(d.value == 1234567890123456789012.0);
}

static void hard_roundings_read_correctly(void **state) {
  static const char *const texts[] = {
      "9007199254740993", "9007199254740992.99999999999999999999999",
      "2.2250738585072011e-308", "4.9406564584124654e-324", "1e-400",
      "0.000000000000000000000000000000000000000000000000000001e60",
      "179769313486231570814527423731704356798070e267",
      "6.1e-2", "123456789012345e22", "3.0000000000000000000000000000001"};
  (void)state;
  for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
    assert_true(read_text(texts[i]).value == strtod(texts[i], NULL));
}

static void what_is_no_number(void **state) {
  static const char *const texts[] = {"", "-", ".", "1.2.3", "1e", "1e+",
                                      "0x10", "nan", "inf", "1 2", "1,5"};
  scwi_decimal d;
  (void)state;
  for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
    assert_int_equal(scwi_decimal_read(texts[i], strlen(texts[i]), '.', &d),
                     SCWI_DECIMAL_NOT_A_NUMBER);
  assert_int_equal(scwi_decimal_read("1e999", 5, '.', &d),
                   SCWI_DECIMAL_TOO_LARGE);
  assert_int_equal(scwi_decimal_read("1,5", 3, ',', &d), SCWI_DECIMAL_OK);
  assert_true(d.value == 1.5);
}

static void ticks_are_whole_or_refused(void **state) {
  int64_t ticks;
  scwi_decimal d = read_text("87.4");
  (void)state;
  assert_true(scwi_decimal_ticks(&d, 2, &ticks) && ticks == 8740);
  assert_false(scwi_decimal_ticks(&d, 0, &ticks));
  d = read_text("1000");
  assert_true(scwi_decimal_ticks(&d, -2, &ticks) && ticks == 10);
  assert_false(scwi_decimal_ticks(&d, 17, &ticks));
}

static void rounding_by_the_uncertainty(void **state) {
  char text[SCWI_NUMBER_SIZE];
  (void)state;
  assert_int_equal(scwi_decimals_for(0.137, 5), 2);
  assert_int_equal(scwi_decimals_for(0.0996, 5), 2);
  assert_int_equal(scwi_decimals_for(13.7, 5), 0);
  assert_int_equal(scwi_decimals_for(1370, 5), -2);
  assert_int_equal(scwi_decimals_for(0, 87.4), 1);
  assert_string_equal(scwi_fixed_text(-0.04, 1, text), "0.0");
  assert_string_equal(scwi_fixed_text(1234.5, -2, text), "1200");
  assert_string_equal(scwi_fixed_text(87.449, 1, text), "87.4");
  assert_string_equal(scwi_significant_text(0.0012345, 3, text), "0.00123");
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(round_trip_of_any_double),
      cmocka_unit_test(shortest_text),
      cmocka_unit_test(decimal_keeps_what_was_written),
      cmocka_unit_test(hard_roundings_read_correctly),
      cmocka_unit_test(what_is_no_number),
      cmocka_unit_test(ticks_are_whole_or_refused),
      cmocka_unit_test(rounding_by_the_uncertainty),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
