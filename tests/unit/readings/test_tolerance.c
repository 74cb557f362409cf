/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What people and spreadsheets do to tables, and what is made of it. */
#include "reading_table.h"

#include <stdlib.h>
#include <string.h>

static void missing_and_censored(void **state) {
  (void)state;
  check_account("spot,gloss\n1,\n2,NA\n3,>100\n4,#DIV/0!\n5,-\n6,87.4\n7\n",
                NULL,
                "long|,|.||gloss|; 2:3 missing ''; 3:3 missing 'NA'; "
                "4:3 censored '>100'; 5:3 missing '#DIV/0!'; 6:3 missing '-'; "
                "8:0 missing ''");
  check_account("K1,K2\n#N/A,88\n87,>99\n", NULL,
                "side by side|,|0|||; 2:1 missing '#N/A'; "
                "3:4 censored '>99'");
}

static void marks_are_kept(void **state) {
  (void)state;
  check_readings("gloss\n87.4*\n(87.1)\n86\n", NULL, "87.4*; (87.1); 86");
}

static void summary_lines(void **state) {
  (void)state;
  check_account("spot,gloss\n1,87.4\nMean,87.4\nStd. dev.,0\nMAX:,87.4\n"
                "n,1\nCV %,0\nStandard deviation,0\n",
                NULL,
                "long|,|.||gloss|; 3:1 summary line 'Mean | 87.4'; "
                "4:1 summary line 'Std. dev. | 0'; "
                "5:1 summary line 'MAX: | 87.4'; 6:1 summary line 'n | 1'; "
                "7:1 summary line 'CV % | 0'; "
                "8:1 summary line 'Standard deviation | 0'");
  check_account("K1,K2\n87,88\nMean 87,\n", NULL,
                "side by side|,|0|||; 3:1 summary line 'Mean 87'");
  check_account("87.4\n87.2\nmean 87.3\n", NULL,
                "bare list|0|.|||; 3:1 summary line 'mean 87.3'");
  check_account("product,spot,gloss\nK1,1,87\nK1,Average,87\n", NULL,
                "long|,|0||gloss|; 3:1 summary line 'K1 | Average | 87'");
  check_account("spot,before 1,before 2,Mean,SD\n1,87,88,87.5,0.7\n", NULL,
                "wide repeats|,|0|||; 1:24 summary column 'Mean'; "
                "1:29 summary column 'SD'");
  check_readings("product,gloss\nMaxwell,87\nn7,88\nsd1,89\n", NULL,
                 "87 product=Maxwell; 88 product=n7; 89 product=sd1");
}

static void other_columns(void **state) {
  (void)state;
  check_account("No.,spot,gloss,temperature,remark\n1,A,87.4,21,wiped\n", NULL,
                "long|,|.||gloss|; 1:1 column not read 'No.'; "
                "1:16 column not read 'temperature'; "
                "1:28 column not read 'remark'");
  check_readings("No.,K1,K2\n1,87,88\n2,86,89\n", NULL,
                 "87 product=K1; 88 product=K2; 86 product=K1; 89 product=K2");
  check_account("spot,before,after,change\n1,87,88,1\n", NULL,
                "wide pair|,|0|||; 1:19 column not read 'change'");
  check_account("spot,gloss\n1,87.4,wiped twice\n", NULL,
                "long|,|.||gloss|; 2:8 cell beyond the header 'wiped twice'");
}

static void empty_edges(void **state) {
  (void)state;
  check_account("spot;gloss;;\n1;87,4;;\n;;;\n2;87,1;;\n;;;\n;;;\n", NULL,
                "long|;|,||gloss|");
  check_readings("spot;gloss;;\n1;87,4;;\n;;;\n2;87,1;;\n;;;\n", NULL,
                 "87.4 spot=1; 87.1 spot=2");
}

static void title_lines(void **state) {
  (void)state;
  check_account("Gloss, boat shed\n\nspot,before,after\n1,87,88\n", NULL,
                "wide pair|,|0|||; 1:1 title line 'Gloss | boat shed'");
  check_account("Meter,4711\nBlock mass,500\nspot,gloss\nA,87.4\n", NULL,
                "long|,|.||gloss|; 1:1 title line 'Meter | 4711'; "
                "2:1 title line 'Block mass | 500'");
  check_account("Panel,H7\nMeter,4711\nspot,before,after\n1,87,88\n", NULL,
                "wide pair|,|0|||; 1:1 title line 'Panel | H7'; "
                "2:1 title line 'Meter | 4711'");
  check_account("# from the shed\nspot,gloss\n1,87.4\n# done\n", NULL,
                "long|,|.||gloss|; 1:1 comment '# from the shed'; "
                "4:1 comment '# done'");
}

static void remarks_below(void **state) {
  (void)state;
  check_account("spot,gloss\n1,87.4*\n* wiped twice,\n", NULL,
                "long|,|.||gloss|; 3:1 remark '* wiped twice'");
  check_account(",gloss\n,87.4\nread at noon,\n", NULL,
                "bare list|,|.||gloss|; 3:1 remark 'read at noon'");
}

static void labels_are_carried(void **state) {
  const char *text = "product;panel;state;spot;gloss\nK1;H7;before;1;87,4\n"
                     ";;;2;87,1\n;;after;1;88\n;;;2;88,2\nK2;H8;before;1;80\n";
  (void)state;
  check_readings(
      text, NULL,
      "87.4 product=K1 panel=H7 state=before spot=1 before; "
      "87.1 product=K1 panel=H7 state=before spot=2 before; "
      "88 product=K1 panel=H7 state=after spot=1 after; "
      "88.2 product=K1 panel=H7 state=after spot=2 after; "
      "80 product=K2 panel=H8 state=before spot=1 before");
  scw_table *table = table_of(text, NULL);
  assert_int_equal(scw_table_input(table, 0)->labels_carried, 8);
  assert_int_equal(scw_table_input(table, 0)->labels_carried_line, 3);
  scw_table_free(table);
}

static void spots_are_not_invented(void **state) {
  (void)state;
  check_account("spot,gloss\n1,87.4\n,87.1\nNA,86\n", NULL,
                "long|,|.||gloss|; 3:2 no spot '87.1'; 4:4 no spot '86'");
  check_readings("spot,repeat,gloss\n1,1,87\n,2,88\n2,1,86\n", NULL,
                 "87 spot=1 repeat=1; 88 spot=1 repeat=2; 86 spot=2 repeat=1");
  check_readings("product,gloss\n,87\nK1,88\n", NULL, "87; 88 product=K1");
}

static void decimal_marks(void **state) {
  (void)state;
  check_account("spot,gloss\n1,\"87,4\"\n2,\"88\"\n", NULL,
                "long|,|,||gloss|");
  check_readings("gloss\n1.236\n1.234\n", NULL, "1.236; 1.234");
  check_readings("gloss\n0.312\n1.234\n987\n", NULL, "0.312; 1.234; 987");
  check_readings("spot;pull (g)\n1;1.234,5\n2;1.236\n", NULL,
                 "1234.5 spot=1; 1236 spot=2");
  check_readings("pull\t(g)\n\"1,234\"\n\"2,345.5\"\n", NULL, "1234; 2345.5");
  check_readings("pull;x\n1,234,567;1\n1,234;2\n", NULL,
                 "1234567 x=1; 1234 x=2");
  check_readings("spot;gloss\n1;\xE2\x88\x92" "87,4\n2;1\xC2\xA0" "234,5\n",
                 NULL, "-87.4 spot=1; 1234.5 spot=2");
  check_readings("spot;x;gloss\n1;2,5;987\n2;5,0;988\n", NULL,
                 "987 spot=1 x=2.5; 988 spot=2 x=5");
}

static void given_marks(void **state) {
  scw_table_options comma = {.decimal_mark = ','}, point = {.decimal_mark = '.'};
  (void)state;
  check_readings("spot;gloss\n1;1,234\n2;1,236\n", &comma,
                 "1.234 spot=1; 1.236 spot=2");
  check_readings("spot;gloss\n1;1,234\n2;1,236\n", &point,
                 "1234 spot=1; 1236 spot=2");
  check_readings("spot;gloss\n1;1.234\n2;987\n", &comma,
                 "1234 spot=1; 987 spot=2");
  scw_table *table = table_of("spot;gloss\n1;1,234\n", &comma);
  assert_true(scw_table_input(table, 0)->decimal_mark_given);
  assert_false(scw_table_input(table, 0)->separator_given);
  scw_table_free(table);
}

static void units_and_angles(void **state) {
  static const char *const headers[][2] = {
      {"gloss (GU)", "long|,|.|GU|gloss|"},
      {"gloss [GU]", "long|,|.|GU|gloss|"},
      {"Gloss GU", "long|,|.|GU|gloss|"},
      {"gloss/GU", "long|,|.|GU|gloss|"},
      {"\"gloss, GU\"", "long|,|.|GU|gloss|"},
      {"gloss GU 60\xC2\xB0", "long|,|.|GU|gloss|60"},
      {"gloss (60\xC2\xB0 GU)", "long|,|.|GU|gloss|60"},
      {"gloss 60 degrees", "long|,|.||gloss|60"},
      {"60-degree gloss (GU)", "long|,|.|GU|gloss|60"},
      {"gloss at 20deg", "long|,|.||gloss|20"},
      {"gloss_gu", "long|,|.|gu|gloss|"},
      {"reading (HV)", "long|,|.|HV||"},
      {"gloss\xC2\xA0(GU)", "long|,|.|GU|gloss|"}};
  (void)state;
  for (size_t i = 0; i < sizeof headers / sizeof *headers; i++) {
    char text[120] = "spot,";
    strcat(text, headers[i][0]);
    strcat(text, "\n1,87.4\n");
    check_account(text, NULL, headers[i][1]);
  }
  check_readings("K1 (new),K1 (old)\n87,88\n", NULL,
                 "87 product=K1 (new); 88 product=K1 (old)");
  check_readings("panel N,panel S\n87,88\n", NULL, "87 panel=N; 88 panel=S");
  check_account("x (mm),y (mm),gloss\n1,2,87\n", NULL, "long|,|0||gloss|");
}

static void labels_are_trimmed(void **state) {
  (void)state;
  check_readings("product,gloss\n\" K1\xC2\xA0old \",87\nK1 old,88\n", NULL,
                 "87 product=K1 old; 88 product=K1 old");
}

static void encodings(void **state) {
  scw_context *context;
  scw_table *table;
  const char utf16[] = "\xFF\xFEs\0p\0o\0t\0\t\0g\0l\0o\0s\0s\0\n\0" "1\0\t\0"
                       "8\0" "7\0,\0" "4\0\n\0";
  (void)state;
  assert_int_equal(scw_context_new(&context), SCW_OK);
  assert_int_equal(read_bytes(context, NULL, utf16, sizeof utf16 - 1, 3, &table),
                   SCW_OK);
  assert_string_equal(scw_table_input(table, 0)->encoding, "UTF-16LE");
  char *found = described(table);
  assert_string_equal(found, "87.4 spot=1");
  free(found);
  scw_table_free(table);
  scw_context_free(context);
  check_account("gloss 60\xB0 (GU)\n87\n", NULL, "bare list|0|0|GU|gloss|60");
  check_readings("\xEF\xBB\xBFsep=;\r\nspot;gloss\r\n1;87,4\r\n", NULL,
                 "87.4 spot=1");
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(missing_and_censored),
      cmocka_unit_test(marks_are_kept),
      cmocka_unit_test(summary_lines),
      cmocka_unit_test(other_columns),
      cmocka_unit_test(empty_edges),
      cmocka_unit_test(title_lines),
      cmocka_unit_test(remarks_below),
      cmocka_unit_test(labels_are_carried),
      cmocka_unit_test(spots_are_not_invented),
      cmocka_unit_test(decimal_marks),
      cmocka_unit_test(given_marks),
      cmocka_unit_test(units_and_angles),
      cmocka_unit_test(labels_are_trimmed),
      cmocka_unit_test(encodings)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
