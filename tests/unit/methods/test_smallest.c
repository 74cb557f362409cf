/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The search for the smallest number, against a plain scan. */
#include "check.h"

#include "smallest.h"

typedef struct line {
  size_t from, calls;
} line;

static scw_status at_least(scw_context *context, void *parameters, size_t n,
                           bool *reached) {
  line *l = parameters;
  (void)context;
  l->calls++;
  *reached = n >= l->from;
  return SCW_OK;
}

static scw_status refuses(scw_context *context, void *parameters, size_t n,
                          bool *reached) {
  (void)context, (void)parameters, (void)n;
  *reached = false;
  return SCW_NOT_REACHED;
}

static void finds_the_first(void **state) {
  (void)state;
  for (size_t from = 0; from <= 45; from++)
    for (size_t guess = 0; guess <= 50; guess++) {
      line l = {.from = from};
      size_t n, wanted = from > 40 ? 0 : from < 3 ? 3 : from;
      assert_int_equal(scwi_smallest(NULL, at_least, &l, guess, 3, 40, &n),
                       SCW_OK);
      assert_int_equal(n, wanted);
      if (wanted && (guess == wanted || guess + 1 == wanted))
        assert_true(l.calls <= 2);
    }
}

static void far_guesses_stay_cheap(void **state) {
  line l = {.from = 800000};
  size_t n;
  (void)state;
  assert_int_equal(scwi_smallest(NULL, at_least, &l, 3, 3, 1000000, &n),
                   SCW_OK);
  assert_int_equal(n, 800000);
  assert_true(l.calls <= 45);
}

static void empty_range_and_failure(void **state) {
  line l = {.from = 1};
  size_t n;
  (void)state;
  assert_int_equal(scwi_smallest(NULL, at_least, &l, 5, 7, 6, &n), SCW_OK);
  assert_int_equal(n, 0);
  assert_int_equal(scwi_smallest(NULL, refuses, &l, 5, 3, 9, &n),
                   SCW_NOT_REACHED);
  assert_int_equal(n, 0);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(finds_the_first),
                                     cmocka_unit_test(far_guesses_stay_cheap),
                                     cmocka_unit_test(empty_range_and_failure)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
