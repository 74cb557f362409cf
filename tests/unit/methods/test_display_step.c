/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rule of the conventions, case by case; and that chance rarely fools it:
 * readings of a finer display seldom look like those of a coarser one. */
#include "check.h"

#include <math.h>

#include "display_step.h"
#include "one_set.h"

#define STEP(digits, ...)                                                      \
  scwi_display_step((const int64_t[]){__VA_ARGS__},                            \
                    sizeof((int64_t[]){__VA_ARGS__}) / sizeof(int64_t),        \
                    (digits))

static void check_step(scw_step got, double size, scw_step_origin origin) {
  assert_int_equal(got.origin, origin);
  assert_true(got.size == size);
}

static void last_decimal_used(void **state) {
  (void)state;
  check_step(STEP(1, 874, 880, 879), 0.1, SCW_STEP_INFERRED);
  check_step(STEP(3, 12345, 12346, 12347, 12349), 0.001, SCW_STEP_INFERRED);
  check_step(STEP(0, 41, 43, 47), 1, SCW_STEP_INFERRED);
  check_step(STEP(0, -41, 43, 0), 1, SCW_STEP_INFERRED);
}

static void tens_from_three_readings_on(void **state) {
  (void)state;
  check_step(STEP(0, 410, 430, 470), 10, SCW_STEP_INFERRED);
  check_step(STEP(0, 4100, 4300, 4700), 100, SCW_STEP_INFERRED);
  check_step(STEP(2, 8740, 8800, 8790), 0.1, SCW_STEP_INFERRED);
  check_step(STEP(0, 410, 430, 475), 1, SCW_STEP_INFERRED);
  check_step(STEP(-2, 12, 13, 17), 100, SCW_STEP_INFERRED); /* 12e2 ... */
}

static void fives_from_five_and_twos_from_ten(void **state) {
  (void)state;
  check_step(STEP(0, 405, 410, 415, 430), 1, SCW_STEP_INFERRED);
  check_step(STEP(0, 405, 410, 415, 430, 420), 5, SCW_STEP_INFERRED);
  check_step(STEP(1, 2, 4, 6, 8, 2, 4, 6, 8, 12), 0.1, SCW_STEP_INFERRED);
  check_step(STEP(1, 2, 4, 6, 8, 2, 4, 6, 8, 12, 14), 0.2, SCW_STEP_INFERRED);
  check_step(STEP(0, 4050, 4100, 4150, 4300, 4200), 50, SCW_STEP_INFERRED);
}

static void too_few_to_infer(void **state) {
  (void)state;
  check_step(STEP(1, 874), 0.1, SCW_STEP_ASSUMED);
  check_step(STEP(1, 880, 870), 0.1, SCW_STEP_ASSUMED);
  check_step(STEP(1, 800, 800, 800, 800), 0.1, SCW_STEP_ASSUMED);
  check_step(STEP(0, 85, 85, 85), 1, SCW_STEP_ASSUMED);
  check_step(STEP(2, 8740, 8740), 0.01, SCW_STEP_ASSUMED);
  assert_int_equal(scwi_display_step(NULL, 0, 1).origin, SCW_STEP_UNSET);
}

static void whole_numbers_ending_in_zero(void **state) {
  (void)state;
  check_step(STEP(0, 80), 0, SCW_STEP_NOT_KNOWN);
  check_step(STEP(0, 80, 90), 0, SCW_STEP_NOT_KNOWN);
  check_step(STEP(0, 80, 80, 80, 80), 0, SCW_STEP_NOT_KNOWN);
  check_step(STEP(0, 80, 90, 80, 90), 0, SCW_STEP_NOT_KNOWN);
  check_step(STEP(1, 800, 900, 800, 900), 0, SCW_STEP_NOT_KNOWN);
  check_step(STEP(-1, 8, 8, 8), 0, SCW_STEP_NOT_KNOWN);
  check_step(STEP(0, 80, 90, 80, 70), 10, SCW_STEP_INFERRED);
  check_step(STEP(1, 80, 90, 80, 90), 1, SCW_STEP_INFERRED); /* 8, 9, 8, 9 */
}

static void sizes_are_the_nearest_doubles(void **state) {
  (void)state;
  check_step(STEP(22, 1, 2, 3), 1e-22, SCW_STEP_INFERRED);
  check_step(STEP(12, 5, 10, 25, 30, 35), 5e-12, SCW_STEP_INFERRED);
  check_step(STEP(-12, 1, 2, 3), 1e12, SCW_STEP_INFERRED);
  check_step(
      STEP(0, 4000000000000000000, 1000000000000000000, 3000000000000000000),
      1e18, SCW_STEP_INFERRED);
}

/* The rule promises at most 0.001 for each way of going up: ten steps, and
 * five or two. 200,000 sets of each size, three standard errors allowed. */
static void chance_rarely_hides_the_step(void **state) {
  unsigned long long random = 20250817;
  (void)state;
  for (size_t n = 3; n <= 12; n++) {
    unsigned fooled = 0, sets = 200000;
    for (unsigned s = 0; s < sets; s++) {
      int64_t ticks[12];
      for (size_t i = 0; i < n; i++)
        ticks[i] = (int64_t)(one_set_random(&random) % 1000);
      fooled += scwi_display_step(ticks, n, 0).size != 1;
    }
    double allowed = 0.002 + 3 * sqrt(0.002 / sets);
    if (fooled > allowed * sets) fail_msg("n %zu: %u fooled", n, fooled);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(last_decimal_used),
      cmocka_unit_test(tens_from_three_readings_on),
      cmocka_unit_test(fives_from_five_and_twos_from_ten),
      cmocka_unit_test(too_few_to_infer),
      cmocka_unit_test(whole_numbers_ending_in_zero),
      cmocka_unit_test(sizes_are_the_nearest_doubles),
      cmocka_unit_test(chance_rarely_hides_the_step),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
