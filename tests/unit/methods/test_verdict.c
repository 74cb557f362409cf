/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The verdict of an interval: every row of the convention, and its edges. */
#include "check.h"

#include <math.h>

#include "figure.h"
#include "verdict.h"

typedef struct row {
  double low, high, margin; /* margin 0: none given */
  scw_verdict wanted;
} row;

static scw_verdict judge(const row *r, double sign) {
  scw_interval interval = sign > 0 ? scwi_interval(r->low, r->high, 0.95)
                                   : scwi_interval(-r->high, -r->low, 0.95);
  scw_figure margin =
      r->margin > 0 ? scwi_figure(r->margin) : scwi_missing(SCW_NO_MARGIN);
  return scwi_verdict(interval, margin);
}

static void check_rows(const row *rows, size_t n) {
  for (size_t i = 0; i < n; i++) {
    assert_int_equal(judge(&rows[i], 1), rows[i].wanted);
    assert_int_equal(judge(&rows[i], -1), rows[i].wanted);
  }
}

static void without_margin(void **state) {
  static const row rows[] = {{0.1, 0.9, 0, SCW_CHANGED},
                             {-0.1, 0.9, 0, SCW_CANNOT_TELL},
                             {-1e-9, 1e-9, 0, SCW_CANNOT_TELL}};
  (void)state;
  check_rows(rows, sizeof rows / sizeof *rows);
}

static void with_margin(void **state) {
  static const row rows[] = {{0.6, 0.9, 0.5, SCW_CHANGED},
                             {0.1, 0.9, 0.5, SCW_CHANGED_SIZE_UNCLEAR},
                             {0.1, 0.4, 0.5, SCW_CHANGED_BUT_SMALL},
                             {-0.1, 0.4, 0.5, SCW_NO_CHANGE_BEYOND_MARGIN},
                             {-0.1, 0.6, 0.5, SCW_CANNOT_TELL},
                             {-0.6, 0.6, 0.5, SCW_CANNOT_TELL}};
  (void)state;
  check_rows(rows, sizeof rows / sizeof *rows);
}

/* An end exactly on zero or on the margin never earns the stronger claim. */
static void exact_edges(void **state) {
  static const row rows[] = {{0, 0.9, 0, SCW_CANNOT_TELL},
                             {0, 0.9, 0.5, SCW_CANNOT_TELL},
                             {0, 0.4, 0.5, SCW_NO_CHANGE_BEYOND_MARGIN},
                             {0, 0.5, 0.5, SCW_CANNOT_TELL},
                             {0.5, 0.9, 0.5, SCW_CHANGED_SIZE_UNCLEAR},
                             {0.1, 0.5, 0.5, SCW_CHANGED_SIZE_UNCLEAR},
                             {-0.1, 0.5, 0.5, SCW_CANNOT_TELL},
                             {-0.5, 0.5, 0.5, SCW_CANNOT_TELL},
                             {0.5, 0.5, 0.5, SCW_CHANGED_SIZE_UNCLEAR}};
  (void)state;
  check_rows(rows, sizeof rows / sizeof *rows);
}

static void no_interval_no_verdict(void **state) {
  (void)state;
  assert_int_equal(
      scwi_verdict(scwi_no_interval(SCW_ONE_READING, 0.95), scwi_figure(0.5)),
      SCW_NO_VERDICT);
  assert_int_equal(scwi_verdict(scwi_interval(1, INFINITY, 0.95),
                                scwi_missing(SCW_NO_MARGIN)),
                   SCW_NO_VERDICT);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(without_margin), cmocka_unit_test(with_margin),
      cmocka_unit_test(exact_edges), cmocka_unit_test(no_interval_no_verdict)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
