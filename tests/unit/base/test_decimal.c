/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Decimals as written. Judge: strtod of the C library in the C locale. */
#include "check.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "decimal.h"

static scwi_decimal read_text(const char *text) {
  scwi_decimal decimal;
  assert_int_equal(scwi_decimal_read(text, strlen(text), '.', &decimal),
                   SCWI_DECIMAL_OK);
  return decimal;
}

static void keeps_what_was_written(void **state) {
  (void)state;
  scwi_decimal d = read_text("-87.40");
  assert_true(d.exact && d.mantissa == -8740 && d.digits == 2);
  d = read_text("0.00");
  assert_true(d.exact && d.mantissa == 0 && d.digits == 2 && d.value == 0);
  d = read_text("12e3");
  assert_true(d.exact && d.mantissa == 12 && d.digits == -3);
  d = read_text("+.5");
  assert_true(d.exact && d.mantissa == 5 && d.digits == 1);
  d = read_text("5.");
  assert_true(d.exact && d.mantissa == 5 && d.digits == 0);
  d = read_text("999999999999999999");
  assert_true(d.exact && d.mantissa == 999999999999999999);
  d = read_text("1234567890123456789012");
  assert_false(d.exact);
  assert_true(d.value == 1234567890123456789012.0);
}

static void hard_roundings(void **state) {
  static const char *const texts[] = {
      "9007199254740993",
      "9007199254740992.99999999999999999999999",
      "2.2250738585072011e-308",
      "4.9406564584124654e-324",
      "2.4703282292062327e-324", /* just below half the smallest double */
      "1e-400",
      "0.000000000000000000000000000000000000000000000000000001e60",
      "179769313486231570814527423731704356798070e267",
      "6.1e-2",
      "123456789012345e22",
      "123456789012345e23",
      "3.0000000000000000000000000000001"};
  (void)state;
  for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
    assert_true(read_text(texts[i]).value == check_strtod(texts[i]));
}

/* A tie between two doubles, and the same tie with something far behind it:
 * 1 + 2^-53, then 800 zeros and a one. */
static void what_follows_a_tie_counts(void **state) {
  char text[1000] = "1.00000000000000011102230246251565404236316680908203125";
  (void)state;
  assert_true(read_text(text).value == 1.0);
  size_t length = strlen(text);
  memset(text + length, '0', 800);
  strcpy(text + length + 800, "1");
  assert_true(read_text(text).value == check_strtod(text));
  assert_true(read_text(text).value > 1.0);
}

static void random_texts(void **state) {
  unsigned long long random = 362436069ULL;
  (void)state;
  for (unsigned i = 0; i < 20000 * check_multiplier(); i++) {
    char text[64];
    random ^= random << 13;
    random ^= random >> 7;
    random ^= random << 17;
    snprintf(text, sizeof text, "%llu.%llue%d", random >> 40,
             random % 1000000000ULL, (int)(random % 600) - 300);
    double wanted = check_strtod(text);
    if (read_text(text).value != wanted) fail_msg("%s", text);
  }
}

static void what_is_no_number(void **state) {
  static const char *const texts[] = {"",     "-",   ".",   "1.2.3", "1e",
                                      "1e+",  "0x10", "nan", "inf",  "1 2",
                                      "1,5",  "--1", "+-1", "e5",    " 1",
                                      "1e5.5"};
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
  d = read_text("0.000");
  assert_true(scwi_decimal_ticks(&d, 0, &ticks) && ticks == 0);
  d = read_text("-3");
  assert_true(scwi_decimal_ticks(&d, 1, &ticks) && ticks == -30);
  d = read_text("12345678901234567890123");
  assert_false(scwi_decimal_ticks(&d, 0, &ticks));
}

static void decimal_of_a_double_is_its_shortest(void **state) {
  scwi_decimal d = scwi_decimal_of(87.4);
  (void)state;
  assert_true(d.exact && d.mantissa == 874 && d.digits == 1);
  d = scwi_decimal_of(-1200);
  assert_true(d.exact && d.value == -1200);
  assert_true(scwi_decimal_ticks(&d, 0, &d.mantissa) && d.mantissa == -1200);
}

/* Judge: the text of the difference, read by strtod. */
static void differences_are_those_of_the_text(void **state) {
  static const struct {
    double later, earlier;
    const char *wanted;
  } cases[] = {{85.2, 84.1, "1.1"},       {84.1, 85.2, "-1.1"},
               {0.3, 0.1, "0.2"},         {1e9 + 0.1, 1e9, "0.1"},
               {5, 5, "0"},               {1200, 0.25, "1199.75"},
               {3e-12, 1e-12, "2e-12"},   {1e20, 1e19, "9e19"}};
  (void)state;
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    double got = scwi_decimal_difference(cases[i].later, cases[i].earlier);
    if (got != check_strtod(cases[i].wanted))
      fail_msg("%.17g, not %s", got, cases[i].wanted);
  }
  assert_true(scwi_decimal_difference(1e300, -1e300) == 2e300);
  assert_true(isnan(scwi_decimal_difference(NAN, 1)));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(keeps_what_was_written),
      cmocka_unit_test(hard_roundings),
      cmocka_unit_test(what_follows_a_tie_counts),
      cmocka_unit_test(random_texts),
      cmocka_unit_test(what_is_no_number),
      cmocka_unit_test(ticks_are_whole_or_refused),
      cmocka_unit_test(decimal_of_a_double_is_its_shortest),
      cmocka_unit_test(differences_are_those_of_the_text),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
