/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every shape of table becomes the same list of readings. */
#include "reading_table.h"

#include <stdio.h>

static void bare_lists(void **state) {
  (void)state;
  check_readings("87.4\n87.1\n\n86.9\n", NULL, "87.4; 87.1; 86.9");
  check_readings("87.4 87.1 86.9\n88 88.2\n", NULL,
                 "87.4; 87.1; 86.9; 88; 88.2");
  check_readings("87.4, 87.1, 86.9\n88.0, 88.2, 88.1\n", NULL,
                 "87.4; 87.1; 86.9; 88; 88.2; 88.1");
  check_readings("87,4; 87,1\n88; 88,2\n", NULL, "87.4; 87.1; 88; 88.2");
  check_readings("87,4\n87,1\n", NULL, "87.4; 87.1");
  check_readings("# gloss of H7\n87.4 # first\n87.1\n", NULL, "87.4; 87.1");
  check_account("# gloss of H7\n87.4 # first\n", NULL,
                "bare list|0|.|||; 1:1 comment '# gloss of H7'; "
                "2:6 comment '# first'");
  check_account("gloss\n87.4 # first\n", NULL,
                "bare list|0|.||gloss|; 2:1 comment '# first'");
  check_account("87.4 NA\n>100 87.1\n", NULL,
                "bare list| |.|||; 1:6 missing 'NA'; 2:1 censored '>100'");
}

static void list_with_title(void **state) {
  (void)state;
  check_readings("gloss (GU)\n87.4\n87.1\n", NULL, "87.4; 87.1");
  check_account("gloss (GU)\n87.4\n87.1\n", NULL, "bare list|0|.|GU|gloss|");
  check_readings("after (GU)\n87.4,87.1\n87.3,87\n", NULL,
                 "87.4 after; 87.1 after; 87.3 after; 87 after");
  check_account("after (GU)\n87.4,87.1\n87.3,87\n", NULL,
                "bare list|,|.|GU||");
}

static void wide_pair(void **state) {
  (void)state;
  check_readings("spot,before,after\n1,87.4,88\n2,87.1,88.2\n", NULL,
                 "87.4 spot=1 before; 88 spot=1 after; 87.1 spot=2 before; "
                 "88.2 spot=2 after");
  check_account("spot,before,after\n1,87.4,88\n", NULL, "wide pair|,|.|||");
  check_readings("before,after\n87.4,88\n,88.2\n", NULL,
                 "87.4 before; 88 after; 88.2 after");
  check_readings("gloss before waxing;gloss after waxing\n87,4;88\n", NULL,
                 "87.4 before; 88 after");
}

static void wide_repeats(void **state) {
  (void)state;
  check_readings("track;before 1;before 2;after 1;after 2\nA;1;2;3;4\n", NULL,
                 "1 spot=A repeat=1 before; 2 spot=A repeat=2 before; "
                 "3 spot=A repeat=1 after; 4 spot=A repeat=2 after");
  check_account("track;before 1;before_2;after1;after-2\nA;1;2;3;4\n", NULL,
                "wide repeats|;|0|||");
  check_readings("panel,state,pull 1 [g],pull 2 [g]\nP2,before,310,290\n",
                 NULL,
                 "310 panel=P2 state=before repeat=1 before; "
                 "290 panel=P2 state=before repeat=2 before");
  check_readings("state,spot 1,spot 2\nbefore,1,2\nafter,3,4\n", NULL,
                 "1 state=before spot=1 before; 2 state=before spot=2 before; "
                 "3 state=after spot=1 after; 4 state=after spot=2 after");
}

static void side_by_side(void **state) {
  (void)state;
  check_readings("K1,K2\n87.4,88\n87.1,\n", NULL,
                 "87.4 product=K1; 88 product=K2; 87.1 product=K1");
  check_account("K1,K2\n87.4,88\n", NULL, "side by side|,|.|||");
  check_readings("panel H7,panel H8\n87.4,88\n", NULL,
                 "87.4 panel=H7; 88 panel=H8");
  check_readings("spot,K1 before,K1 after,K2 before,K2 after\n1,1,2,3,4\n",
                 NULL,
                 "1 product=K1 spot=1 before; 2 product=K1 spot=1 after; "
                 "3 product=K2 spot=1 before; 4 product=K2 spot=1 after");
  check_readings("dressing,old H7,old H8\nK1,1,2\n", NULL,
                 "1 product=K1 panel=old H7; 2 product=K1 panel=old H8");
  check_readings("gloss 20,gloss 60\n34.1,87.4\n", NULL,
                 "34.1 geometry=20; 87.4 geometry=60");
  check_readings("20\xC2\xB0,60\xC2\xB0\n34.1,87.4\n", NULL,
                 "34.1 geometry=20; 87.4 geometry=60");
  check_readings("gloss 20,gloss 21\n34.1,87.4\n", NULL,
                 "34.1 repeat=20; 87.4 repeat=21");
}

static void long_form(void **state) {
  (void)state;
  check_readings(
      "reading,product,panel,state,spot,repeat,x,y,order,session,direction,"
      "geometry\n87.4,K1,H7,before,A,1,10,-2.5,3,Mon,up,60\xC2\xB0\n",
      NULL,
      "87.4 product=K1 panel=H7 state=before spot=A repeat=1 session=Mon "
      "direction=up geometry=60 before order=3 x=10 y=-2.5");
  check_account("product,gloss\nK1,87.4\n", NULL, "long|,|.||gloss|");
  check_readings("set,reading\na,1\nb,2\n", NULL, "1 set=a; 2 set=b");
  check_readings("spot,foam\nA,87.4\n", NULL, "87.4 spot=A");
  check_account("spot,foam (mm)\nA,87.4\n", NULL, "long|,|.|mm|foam|");
  check_readings("state,gloss\nfresh,87.4\nweek 4,86\n", NULL,
                 "87.4 state=fresh; 86 state=week 4");
}

static void places(void **state) {
  (void)state;
  check_readings("position x (mm),position y (mm),gloss\n1,2,87\n", NULL,
                 "87 x=1 y=2");
  check_readings("spot,x position,y,gloss\nA,1,2,87\n", NULL,
                 "87 spot=A x=1 y=2");
}

static void pulls(void **state) {
  (void)state;
  check_readings("track,pull,force (g)\n1,1,140\n1,2,150\n", NULL,
                 "140 spot=1 repeat=1; 150 spot=1 repeat=2");
  check_readings("track,pull (g)\n1,140\n", NULL, "140 spot=1");
}

static void header_words(void **state) {
  static const char *const words[][2] = {
      {"track", "spot"},       {"position", "spot"},  {"place", "spot"},
      {"point", "spot"},       {"location", "spot"},  {"Spot No.", "spot"},
      {"replicate", "repeat"}, {"rep", "repeat"},     {"date", "session"},
      {"day", "session"},      {"sample", "product"}, {"coating", "product"},
      {"dressing", "product"}, {"wax", "product"},    {"treatment", "product"},
      {"sealant", "product"},  {"polish", "product"}, {"formula", "product"},
      {"plate", "panel"},      {"board", "panel"},    {"hull", "panel"},
      {"coupon", "panel"},     {"specimen", "panel"}, {"group", "set"},
      {"series", "set"},       {"condition", "state"}, {"stage", "state"},
      {"when", "state"},       {"phase", "state"},     {"before/after", "state"},
      {"dir", "direction"},    {"angle", "geometry"},
      {"date of reading", "session"}};
  (void)state;
  for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
    char text[80], wanted[80];
    snprintf(text, sizeof text, "%s,gloss\nQ,87.4\n", words[i][0]);
    snprintf(wanted, sizeof wanted, "87.4 %s=Q", words[i][1]);
    check_readings(text, NULL, wanted);
  }
  check_readings("run order,gloss\n2,87.4\n", NULL, "87.4 order=2");
}

static void side_words(void **state) {
  static const char *const words[][2] = {
      {"before", "before"},    {"Baseline", "before"}, {"INITIAL", "before"},
      {"pre", "before"},       {"pre-treatment", "before"},
      {"after", "after"},      {"final", "after"},     {"post", "after"},
      {"before waxing", "before"}, {"after treatment", "after"}};
  static const char *const none[] = {"untreated", "treated", "tile", "after 4",
                                     "control"};
  (void)state;
  for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
    char text[80], wanted[80];
    snprintf(text, sizeof text, "state,gloss\n%s,87.4\n", words[i][0]);
    snprintf(wanted, sizeof wanted, "87.4 state=%s %s", words[i][0],
             words[i][1]);
    check_readings(text, NULL, wanted);
    snprintf(text, sizeof text, "%s\n87.4\n", words[i][0]);
    snprintf(wanted, sizeof wanted, "87.4 %s", words[i][1]);
    check_readings(text, NULL, wanted);
  }
  for (size_t i = 0; i < sizeof none / sizeof *none; i++) {
    char text[80], wanted[80];
    snprintf(text, sizeof text, "state,gloss\n%s,87.4\n", none[i]);
    snprintf(wanted, sizeof wanted, "87.4 state=%s", none[i]);
    check_readings(text, NULL, wanted);
  }
}

static void two_line_headers(void **state) {
  (void)state;
  check_readings(",before,,after,\nspot,1,2,1,2\nA,1.5,2,3,4\n", NULL,
                 "1.5 spot=A repeat=1 before; 2 spot=A repeat=2 before; "
                 "3 spot=A repeat=1 after; 4 spot=A repeat=2 after");
  check_readings("panel H7,,panel H8,\nbefore,after,before,after\n1,2,3,4\n",
                 NULL,
                 "1 panel=H7 before; 2 panel=H7 after; 3 panel=H8 before; "
                 "4 panel=H8 after");
  check_account("spot,before,after\n,(GU),GU\n1,87.4,88\n", NULL,
                "wide pair|,|.|GU||");
  check_readings(",before,after\nWax,87,88\n", NULL, "87 before; 88 after");
}

static void operators(void **state) {
  (void)state;
  check_readings("operator,spot,gloss\nAnna,1,87\n,2,86\nBen,1,88\n", NULL,
                 "87 spot=1 operator=Anna; 86 spot=2 operator=Anna; "
                 "88 spot=1 operator=Ben");
  check_readings("lab,gloss\nquay,87\ndock,86\n", NULL,
                 "87 operator=quay; 86 operator=dock");
  check_readings("spot,measured by,gloss\n1,Anna,87\n", NULL,
                 "87 spot=1 operator=Anna");
  check_readings("spot,operator 1,operator 2\nA,1,2\n", NULL,
                 "1 spot=A operator=1; 2 spot=A operator=2");
}

static void rows_and_columns(void **state) {
  (void)state;
  check_readings("row,column,gloss\nA,1,87\nB,2,86\n", NULL,
                 "87 row=A column=1; 86 row=B column=2");
  check_readings("gloss,col,row\n87,1,3\n", NULL, "87 row=3 column=1");
  /* one of them alone is none */
  check_account("row,gloss\n1,87\n2,86\n", NULL,
                "bare list|,|0||gloss|; 1:1 column not read 'row'");
  check_readings("spot,column 1,column 2\nA,1,2\n", NULL,
                 "1 product=column 1 spot=A; 2 product=column 2 spot=A");
  check_readings("row,x,y,gloss\n1,10,20,87\n", NULL, "87 x=10 y=20");
  scw_table_options options = {.column = {[SCW_ROLE_ROW] = "up",
                                          [SCW_ROLE_COLUMN] = "along",
                                          [SCW_ROLE_OPERATOR] = "hand"}};
  check_readings("up,along,hand,gloss\nA,1,Ben,87\n", &options,
                 "87 operator=Ben row=A column=1");
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(bare_lists),   cmocka_unit_test(list_with_title),
      cmocka_unit_test(wide_pair),    cmocka_unit_test(wide_repeats),
      cmocka_unit_test(side_by_side), cmocka_unit_test(long_form),
      cmocka_unit_test(pulls),        cmocka_unit_test(places),
      cmocka_unit_test(operators),    cmocka_unit_test(rows_and_columns),
      cmocka_unit_test(header_words),
      cmocka_unit_test(side_words),   cmocka_unit_test(two_line_headers)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
