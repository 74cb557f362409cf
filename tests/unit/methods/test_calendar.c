/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The C library's calendar is the judge of every day; dates in words are read
 * or refused for the right reason. */
#include "check.h"

#include <string.h>
#include <time.h>

#include "calendar.h"

static void every_day(void **state) {
  const long first = -141349, last = 2932896; /* 1583-01-01 to 9999-12-31 */
  (void)state;
  for (long day = first; day <= last; day += day % 400 ? 1 : 17) {
    time_t seconds = (time_t)day * 86400;
    struct tm parts;
    char wanted[64], got[SCWI_DATE_SIZE];
    long back = 0;
    assert_non_null(gmtime_r(&seconds, &parts));
    check_snprintf(wanted, sizeof wanted, "%04d-%02d-%02d",
                   parts.tm_year + 1900, parts.tm_mon + 1, parts.tm_mday);
    scwi_date_text(day, got);
    assert_string_equal(got, wanted);
    assert_int_equal(scwi_date_read(got, &back), SCWI_DATE_OK);
    assert_int_equal(back, day);
  }
}

static void forms(void **state) {
  static const char *const same[] = {
      "2026-03-14",          "2026-3-14",       "2026/03/14",
      "2026.03.14",          " 2026-03-14 ",    "14 March 2026",
      "14-Mar-2026",         "14.MARCH.2026",   "14 mar 2026 10:30",
      "2026-03-14 10:30",    "2026-03-14T10:30:15.5Z",
      "2026-03-14T10:30+01:00", "2026-03-14T23:59:60-0530"};
  (void)state;
  for (size_t i = 0; i < sizeof same / sizeof *same; i++) {
    long day = 0;
    assert_int_equal(scwi_date_read(same[i], &day), SCWI_DATE_OK);
    assert_int_equal(day, 20526);
  }
}

static void refusals(void **state) {
  static const struct {
    const char *text;
    scwi_date_fault fault;
  } cases[] = {{"", SCWI_DATE_NONE},
               {"Monday", SCWI_DATE_NONE},
               {"20260314", SCWI_DATE_NONE},
               {"2026-03", SCWI_DATE_NONE},
               {"2026-03/14", SCWI_DATE_NONE},
               {"2026-03-141", SCWI_DATE_NONE},
               {"14 Marc 2026", SCWI_DATE_NONE},
               {"14 March", SCWI_DATE_NONE},
               {"1582-12-31", SCWI_DATE_NONE},
               {"45000", SCWI_DATE_NONE},
               {"03/04/2026", SCWI_DATE_TWO},
               {"14.03.2026", SCWI_DATE_TWO},
               {"3-4-2026", SCWI_DATE_TWO},
               {"26-03-14", SCWI_DATE_SHORT_YEAR},
               {"14 Mar 26", SCWI_DATE_SHORT_YEAR},
               {"2026-13-01", SCWI_DATE_NO_MONTH},
               {"2026-00-01", SCWI_DATE_NO_MONTH},
               {"2026-02-29", SCWI_DATE_NO_DAY},
               {"2100-02-29", SCWI_DATE_NO_DAY},
               {"31 April 2026", SCWI_DATE_NO_DAY},
               {"2026-03-00", SCWI_DATE_NO_DAY},
               {"2026-03-14 noon", SCWI_DATE_BAD_TIME},
               {"2026-03-14 25:00", SCWI_DATE_BAD_TIME},
               {"2026-03-14T", SCWI_DATE_BAD_TIME},
               {"2026-03-14 10:61", SCWI_DATE_BAD_TIME},
               {"2026-03-14x", SCWI_DATE_BAD_TIME}};
  (void)state;
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    long day = 7;
    if (scwi_date_read(cases[i].text, &day) != cases[i].fault)
      fail_msg("'%s' is read otherwise", cases[i].text);
    assert_int_equal(day, 7);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(every_day),
                                     cmocka_unit_test(forms),
                                     cmocka_unit_test(refusals)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
