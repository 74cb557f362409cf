/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers as sentences write them. Judge of what a percentage is worth:
 * strtod of the C library in the C locale. */
#include "check.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "number_words.h"

static void check_text(scwi_text *text, const char *wanted) {
  assert_string_equal(text->data, wanted);
  scwi_text_free(text);
}

static void a_p_is_never_zero(void **state) {
  static const struct {
    double p;
    const char *words;
  } cases[] = {{0, "below 0.0001"},      {0.0000999, "below 0.0001"},
               {0.0001, "0.0001"},       {0.00094, "0.0009"},
               {0.0021, "0.002"},        {0.0994, "0.099"},
               {0.1, "0.10"},            {1, "1.00"}};
  (void)state;
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    scwi_text text = {0};
    scwi_put_p(&text, cases[i].p);
    check_text(&text, cases[i].words);
  }
}

static void ranges_and_digits(void **state) {
  scwi_text text = {0};
  (void)state;
  scwi_put_range(&text, -0.5, 84.931, 2);
  check_text(&text, "-0.50 to 84.93");
  scwi_put_digits(&text, 3, 2);
  check_text(&text, "3.0");
  scwi_put_short(&text, 3, 2);
  check_text(&text, "3");
  scwi_put_short(&text, 8.146, 3);
  check_text(&text, "8.15");
  scwi_put_short(&text, 1200, 3);
  check_text(&text, "1200");
  scwi_put_short(&text, 2.5e-12, 4);
  check_text(&text, "2.5e-12");
  scwi_put_short(&text, -3e-12, 6);
  check_text(&text, "-3e-12");
}

/* As many digits as the share has, and exactly its value. */
static void percentages(void **state) {
  static const char *const shares[] = {"0.95",  "0.56",     "0.999",
                                       "0.125", "0.999975", "0.29"};
  (void)state;
  for (size_t i = 0; i < sizeof shares / sizeof *shares; i++) {
    scwi_text text = {0};
    double share = check_strtod(shares[i]);
    scwi_put_percentage(&text, share);
    assert_true(fabs(check_strtod(text.data) / 100 - share) < 1e-15);
    assert_true(strlen(text.data) <= strlen(shares[i]));
    scwi_text_free(&text);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(a_p_is_never_zero),
                                     cmocka_unit_test(ranges_and_digits),
                                     cmocka_unit_test(percentages)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
