/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Options override every guess, and the account says so. */
#include "reading_table.h"

#include <string.h>

static void columns(void **state) {
  const char *text = "where,gloss,haze,who\nA,87.4,3,K1\nB,87.1,4,K2\n";
  scw_table_options options = {0};
  (void)state;
  options.column[SCW_ROLE_READING] = "HAZE";
  options.column[SCW_ROLE_SPOT] = "where";
  options.column[SCW_ROLE_PRODUCT] = "who";
  check_readings(text, &options, "3 product=K1 spot=A; 4 product=K2 spot=B");
  check_account(text, &options,
                "long|,|0||haze|; 1:7 column not read 'gloss'");
}

static void several_reading_columns(void **state) {
  const char *text = "spot,r1,r2,other\n1,87,88,5\n";
  scw_table_options options = {0};
  (void)state;
  options.column[SCW_ROLE_READING] = "r1, r2";
  check_readings(text, &options, "87 product=r1 spot=1; 88 product=r2 spot=1");
  options.column[SCW_ROLE_READING] = "r*";
  check_readings(text, &options, "87 product=r1 spot=1; 88 product=r2 spot=1");
}

static void sets_of_columns(void **state) {
  const char *text = "product,panel,gloss\nK1,H7,87\nK1,H8,88\n";
  scw_table_options options = {0};
  (void)state;
  options.column[SCW_ROLE_SET] = "product,panel";
  check_readings(text, &options, "87 set=K1 / H7; 88 set=K1 / H8");
  options.column[SCW_ROLE_SET] = "panel";
  check_readings(text, &options, "87 set=H7 product=K1; 88 set=H8 product=K1");
}

static void overruled_words(void **state) {
  const char *text = "spot,track,gloss\n1,A,87\n";
  scw_table_options options = {0};
  (void)state;
  options.column[SCW_ROLE_SPOT] = "track";
  check_readings(text, &options, "87 spot=A");
  check_account(text, &options, "long|,|0||gloss|; 1:1 column not read 'spot'");
}

static void states(void **state) {
  const char *text = "condition,gloss\nbare,87\nwaxed,88\nbefore,80\n";
  scw_table_options options = {.before_label = "Bare", .after_label = "waxed"};
  (void)state;
  check_readings(text, &options,
                 "87 state=bare before; 88 state=waxed after; "
                 "80 state=before");
}

static void patterns(void **state) {
  const char *text = "id,b1,b2,a1,a2,sum\nK1,1,2,3,4,10\n";
  scw_table_options options = {.before_label = "b*", .after_label = "a*"};
  (void)state;
  check_readings(text, &options,
                 "1 repeat=1 before; 2 repeat=2 before; 3 repeat=1 after; "
                 "4 repeat=2 after");
  check_account(text, &options,
                "wide repeats|,|0|||; 1:1 column not read 'id'; "
                "1:16 summary column 'sum'");
}

static void whole_file(void **state) {
  scw_table_options options = {
      .unit = "GU", .geometry = "60\xC2\xB0", .side = SCW_SIDE_BEFORE};
  (void)state;
  check_readings("87.4\n", &options, "87.4 geometry=60 before");
  check_account("87.4\n", &options, "bare list|0|.|GU||60");
  check_readings("gloss 60\xC2\xB0\n87.4\n", &options,
                 "87.4 geometry=60 before");
}

static void separator(void **state) {
  scw_table_options options = {.separator = ';'};
  (void)state;
  scw_table *table = table_of("spot;gloss, GU\n1;87\n", &options);
  assert_true(scw_table_input(table, 0)->separator_given);
  assert_int_equal(scw_table_input(table, 0)->separator, ';');
  scw_table_free(table);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(columns),
      cmocka_unit_test(several_reading_columns),
      cmocka_unit_test(sets_of_columns),
      cmocka_unit_test(overruled_words),
      cmocka_unit_test(states),
      cmocka_unit_test(patterns),
      cmocka_unit_test(whole_file),
      cmocka_unit_test(separator)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
