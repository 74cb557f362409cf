/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows that take back an earlier reading. */
#include "reading_table.h"

static void the_reading_goes_into_the_account(void **state) {
  (void)state;
  const char text[] = "order,spot,reading (GU),takes back,note\n"
                      "1,A,87.4,,\n2,B,80.1,,\n,,,2,\"slipped, off\"\n"
                      "3,B,87.9,,max\n";
  check_readings(text, NULL, "87.4 spot=A order=1; 87.9 spot=B order=3");
  check_account(text, NULL,
                "long|,|.|GU||; 1:36 column not read 'note'; "
                "4:4 takes back '2 | slipped, off'; 3:5 taken back '80.1'");
}

static void the_nearest_above_is_meant(void **state) {
  (void)state;
  /* A mark: the row takes back its own number and gives it anew. */
  check_readings("order,reading,takes back\n7,1.5,\n7,1.5*,7\n8,2.5,\n", NULL,
                 "1.5* order=7; 2.5 order=8");
  check_readings("order,reading,takes back\n7,1.5,\n7,1.5*,7\n,,7\n8,2.5,\n",
                 NULL, "2.5 order=8");
  /* The numbers are those of the order column, not of the rows. */
  check_readings("order,reading,takes back\n2,1.5,\n1,2.5,\n,,1\n3,4.5,-\n",
                 NULL, "1.5 order=2; 4.5 order=3");
}

static void a_wide_row_goes_as_one(void **state) {
  (void)state;
  check_readings("order,spot,before,after,takes back\n1,A,1.5,2.5,\n"
                 "2,B,3.5,4.5,\n,,,,1\n",
                 NULL, "3.5 spot=B before order=2; 4.5 spot=B after order=2");
}

static void refusals(void **state) {
  (void)state;
  check_refused("order,reading,takes back\n1,1.5,\n2,2.5,3\n3,3.5,\n", NULL,
                SCW_BAD_INPUT, 3, 0, "takes back reading 3", "no reading above");
  check_refused("order,reading,takes back\n1,1.5,\n,,1\n,,1\n2,3.5,\n", NULL,
                SCW_BAD_INPUT, 4, 0, "takes back reading 1");
  check_refused("order,reading,takes back\n1,1.5,\n,,first\n", NULL,
                SCW_BAD_INPUT, 3, 0, "'first' does not say which reading");
  check_refused("spot,reading,takes back\n1,1.5,\n,,1\n", NULL, SCW_BAD_INPUT,
                3, 0, "order column");
  check_refused("order,reading,takes back\n1,1.5,\n,,1\n", NULL, SCW_BAD_INPUT,
                0, 0, "no reading could be used");
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_reading_goes_into_the_account),
      cmocka_unit_test(the_nearest_above_is_meant),
      cmocka_unit_test(a_wide_row_goes_as_one), cmocka_unit_test(refusals)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
