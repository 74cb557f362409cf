/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Input that cannot be used: the message names file, line and column, shows
 * the text, says what was expected and what to do. */
#include "reading_table.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void nothing_there(void **state) {
  (void)state;
  check_refused("", NULL, SCW_BAD_INPUT, 0, 0, "no readings",
                "Give one reading in each line");
  check_refused("\n\n  \n", NULL, SCW_BAD_INPUT, 0, 0, "no readings");
  check_refused("# only a comment\n", NULL, SCW_BAD_INPUT, 0, 0,
                "no readings");
  check_refused("spot,before,after\n", NULL, SCW_BAD_INPUT, 1, 0,
                "a header but no reading below it", "Add the readings");
  check_refused("title\n\nspot,before,after\n,,\n", NULL, SCW_BAD_INPUT, 3, 0,
                "a header but no reading");
  check_refused("spot,gloss\n1,NA\n2,>100\n", NULL, SCW_BAD_INPUT, 0, 0,
                "no reading could be used", "2 rows", "2 cells", "gloss");
  check_refused("hello there\nthis is prose\n", NULL, SCW_BAD_INPUT, 0, 0,
                "no readings");
}

static void other_kinds_of_file(void **state) {
  static const char *const heads[] = {
      "PK\3\4rest", "\xD0\xCF\x11\xE0rest", "%PDF-1.4", "\x89PNG", "{\\rtf1"};
  (void)state;
  for (size_t i = 0; i < sizeof heads / sizeof *heads; i++)
    check_refused(heads[i], NULL, SCW_BAD_INPUT, 0, 0, "not text",
                  "Save the sheet with the readings as CSV");
}

static void text_among_readings(void **state) {
  (void)state;
  check_refused("spot,before,after\n1,87.4,abc\n", NULL, SCW_BAD_INPUT, 2, 8,
                "'abc'", "is not a number", "such as 87.4", "Correct the cell");
  check_refused("spot;gloss\n1;87,4\n2;87,4 GU\n", NULL, SCW_BAD_INPUT, 3, 3,
                "'87,4 GU'", "is not a number");
  check_refused("K1,K2\n87,88\nread in the shade,\n", NULL, SCW_BAD_INPUT, 3, 1,
                "'read in the shade'", "put # in front of it");
  check_refused("x,gloss\nleft,87\n", NULL, SCW_BAD_INPUT, 2, 1, "'left'",
                "the x needs one", "leave it empty");
  check_refused("87.4\n87.1\noops\n", NULL, SCW_BAD_INPUT, 3, 1, "'oops'",
                "is not a number");
}

static void no_real_numbers(void **state) {
  (void)state;
  check_refused("gloss\n87\n inf\n", NULL, SCW_BAD_INPUT, 3, 2, "'inf'",
                "is no reading", "leave it empty");
  check_refused("gloss\n87\n-Infinity\n", NULL, SCW_BAD_INPUT, 3, 1,
                "is no reading");
  check_refused("gloss\n1e308\n1e309\n", NULL, SCW_BAD_INPUT, 3, 1, "'1e309'",
                "1.8e308", "Correct the reading");
  check_readings("gloss\n1e308\n-1.5e308\n", NULL, "1e+308; -1.5e+308");
  check_account("gloss\n87\nNaN\n", NULL,
                "bare list|0|0||gloss|; 3:1 missing 'NaN'");
}

static void two_decimal_marks(void **state) {
  (void)state;
  check_refused("spot;gloss\n1;87,4\n2;87.5\n", NULL, SCW_BAD_INPUT, 3, 3,
                "'87.5'", "'87,4' in line 2", "Use one decimal mark");
  check_refused("spot;gloss\n1;87,4\n2;1.234\n", NULL, SCW_BAD_INPUT, 3, 3,
                "'1.234'", "1234 or as 1.234", "--decimal-mark point",
                "--decimal-mark comma");
  check_refused("spot;gloss\n1;1,234\n2;1,236\n", NULL, SCW_BAD_INPUT, 2, 3,
                "'1,234' can be read as 1234 or as 1.234", "--decimal-mark");
  check_refused("gloss\n987\n1.234\n", NULL, SCW_BAD_INPUT, 3, 1,
                "'1.234' can be read as");
  check_refused("gloss;x\n1.234.567;1\n1,234,567;1\n", NULL, SCW_BAD_INPUT, 3,
                1, "'1,234,567'", "'1.234.567' in line 2");
  check_refused("spot;gloss\n1;87.4\n2;1,234\n", NULL, SCW_BAD_INPUT, 3, 3,
                "'1,234' can be read as");
  scw_table_options comma = {.decimal_mark = ','};
  check_refused("spot;gloss\n1;87.4\n", &comma, SCW_BAD_INPUT, 2, 3, "'87.4'",
                "decimal comma", "the mark that was given");
}

/* Beyond the first 64 KiB the decision stands, and what contradicts it is an
 * error. */
static void marks_far_below(void **state) {
  enum { ROWS = 30000 };
  char *text = malloc(ROWS * 8 + 64), *at = text;
  (void)state;
  assert_non_null(text);
  at += sprintf(at, "gloss;x\n");
  for (int i = 0; i < ROWS; i++) at += sprintf(at, "87,%d;1\n", i % 10);
  sprintf(at, "87.5;1\n");
  check_refused(text, NULL, SCW_BAD_INPUT, ROWS + 2, 1, "'87.5'",
                "'87,0' in line 2");
  sprintf(at, "1.234;1\n");
  check_refused(text, NULL, SCW_BAD_INPUT, ROWS + 2, 1,
                "'1.234' can be read as");
  free(text);
}

static void headers(void **state) {
  (void)state;
  check_refused("spot,gloss,gloss\n1,2,3\n", NULL, SCW_BAD_INPUT, 1, 12,
                "'gloss' (column 6)", "have the same name",
                "Give each column its own");
  check_refused("spot,Gloss_a,gloss a\n1,2,3\n", NULL, SCW_BAD_INPUT, 1, 14,
                "have the same name");
  check_refused("spot,track,gloss\n1,2,3\n", NULL, SCW_BAD_INPUT, 1, 6,
                "both say the same thing: the spot", "--spot COLUMN");
  check_refused("spot,gloss,haze\n1,2,3\n", NULL, SCW_BAD_INPUT, 1, 12,
                "hold different quantities", "--reading COLUMN");
  check_refused("spot,before (GU),after (%)\n1,2,3\n", NULL, SCW_BAD_INPUT, 1,
                18, "different units", "--reading COLUMN");
  check_refused("spot,reading,value\n1,2,3\n", NULL, SCW_BAD_INPUT, 1, 14,
                "nothing tells them apart", "--reading COLUMN");
  check_refused("spot,gloss,gloss before\n1,2,3\n", NULL, SCW_BAD_INPUT, 1, 6,
                "only one says before or after");
  check_refused("state,before,after\nfresh,2,3\n", NULL, SCW_BAD_INPUT, 1, 1,
                "both say what is before");
  check_refused("1,87.4,88\n2,87.5,88\n3,87,88\n", NULL, SCW_BAD_INPUT, 1, 1,
                "counts 1, 2, 3", "Add a first line such as");
  check_refused("K1,87.4\nK1,87.5\nK2,88\n", NULL, SCW_BAD_INPUT, 1, 1,
                "'K1' stands among numbers", "Add a first line such as");
  check_refused("spot,remark\n1,fine\n", NULL, SCW_BAD_INPUT, 1, 0,
                "no column of readings found among: spot, remark",
                "--reading COLUMN");
}

static void summaries(void **state) {
  (void)state;
  check_refused("product,n,mean,sd\nK1,5,87,1\n", NULL, SCW_BAD_INPUT, 1, 0,
                "hold summaries (product, n, mean, sd)",
                "the readings themselves");
  check_refused("product,before,after,n,points\nK1,80,82,5,4\n", NULL,
                SCW_BAD_INPUT, 1, 22, "column 'n'", "sums up several readings",
                "the readings themselves");
}

static void wide_rows(void **state) {
  (void)state;
  check_refused("spot,gloss\n1,87,4\n", NULL, SCW_BAD_INPUT, 2, 6,
                "'4' stands beyond the last column", "which has 2",
                "Name the column");
}

static void several_blocks(void **state) {
  (void)state;
  check_refused("spot,gloss\n1,87.4\nspot,gloss\n1,88\n", NULL, SCW_BAD_INPUT,
                3, 0, "another table starts here", "Split the file");
  check_refused("spot,gloss\n1,87.4\n\nspot,before,after\n1,88,89\n", NULL,
                SCW_BAD_INPUT, 4, 0, "another table starts here ('before')");
  check_refused("K1,K2\n1,87.4\n\nK3,before\n1,88\n", NULL, SCW_BAD_INPUT, 4,
                1, "'K3' is not a number");
  check_refused("spot,gloss\n1,87.4\n\nPanel H8,\n1,88\n", NULL, SCW_BAD_INPUT,
                4, 0, "another table starts here ('Panel H8')");
  check_refused(",gloss,haste\n,87.4,1\n\nSecond go,,\n,88,1\n", NULL,
                SCW_BAD_INPUT, 4, 0,
                "another table starts here ('Second go')");
}

static void columns_by_name(void **state) {
  const char *text = "spot,gloss (GU),haze,panel\n1,87.4,3,H7\n";
  scw_table_options options = {0};
  (void)state;
  options.column[SCW_ROLE_READING] = "glos";
  check_refused(text, &options, SCW_BAD_ARGUMENT, 1, 0,
                "there is no column 'glos'",
                "The columns are: spot, gloss (GU), haze, panel");
  options.column[SCW_ROLE_READING] = "gloss";
  options.column[SCW_ROLE_SPOT] = "gloss";
  check_refused(text, &options, SCW_BAD_ARGUMENT, 1, 6,
                "column 'gloss (GU)' is named for two roles");
  options.column[SCW_ROLE_SPOT] = "*a*";
  check_refused(text, &options, SCW_BAD_ARGUMENT, 1, 22,
                "column 'panel' fits the name as well as another");
  options = (scw_table_options){0};
  options.column[SCW_ROLE_READING] = "gloss";
  check_refused("87.4\n87.5\n", &options, SCW_BAD_ARGUMENT, 0, 0,
                "the file has no header", "Add a first line");
}

static void states_by_label(void **state) {
  const char *text = "condition,gloss\nbare,87\nwaxed,88\n";
  scw_table_options options = {.before_label = "bare", .after_label = "wax"};
  (void)state;
  check_refused(text, &options, SCW_BAD_ARGUMENT, 0, 0,
                "no row has the state 'wax'", "The states are: bare, waxed");
  options = (scw_table_options){.before_label = "b*", .after_label = "c*"};
  check_refused("id,b1,a1\nK1,2,3\n", &options, SCW_BAD_ARGUMENT, 1, 0,
                "there is no column 'c*'", "id, b1, a1");
  options = (scw_table_options){.before_label = "b*", .after_label = "*1"};
  check_refused("id,b1,a1\nK1,2,3\n", &options, SCW_BAD_ARGUMENT, 1, 4,
                "both the label of before and that of after");
}

static void whole_file_options(void **state) {
  scw_table_options options = {.geometry = "20"};
  (void)state;
  check_refused("gloss 60\xC2\xB0\n87\n", &options, SCW_BAD_INPUT, 2, 1,
                "taken at 60 degrees", "20 was given");
  check_refused("angle,gloss\n20,30\n60,87\n", &options, SCW_BAD_INPUT, 3, 4,
                "taken at 60 degrees", "Leave the option out");
  options = (scw_table_options){.side = SCW_SIDE_AFTER};
  check_refused("spot,before\n1,87\n", &options, SCW_BAD_INPUT, 2, 3,
                "marked as before, in a file given as after");
}

static void no_file(void **state) {
  scw_context *context;
  scw_table *table = (scw_table *)&context;
  (void)state;
  assert_int_equal(scw_context_new(&context), SCW_OK);
  assert_int_equal(
      scw_table_read_file(context, NULL, "/nowhere/boat.csv", &table),
      SCW_BAD_INPUT);
  assert_null(table);
  assert_string_equal(
      scw_context_message(context),
      "boat.csv: there is no such file. Check the name and the folder");
  assert_int_equal(scw_table_read_file(context, NULL, REFERENCE_DATA, &table),
                   SCW_BAD_INPUT);
  assert_non_null(strstr(scw_context_message(context), "it is a folder"));
  scw_context_free(context);
}

static int broken(void *user, char *buffer, size_t size, size_t *got) {
  int *calls = user;
  (void)size;
  if ((*calls)++) return 5;
  memcpy(buffer, "87.4\n", 5);
  *got = 5;
  return 0;
}

static void failing_source(void **state) {
  scw_context *context;
  scw_table *table;
  int calls = 0;
  (void)state;
  assert_int_equal(scw_context_new(&context), SCW_OK);
  assert_int_equal(scw_table_read(context, NULL,
                                  (scw_source){broken, &calls, "gauge"},
                                  &table),
                   SCW_BAD_INPUT);
  assert_null(table);
  assert_non_null(strstr(scw_context_message(context), "gauge"));
  scw_context_free(context);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(nothing_there),
      cmocka_unit_test(other_kinds_of_file),
      cmocka_unit_test(text_among_readings),
      cmocka_unit_test(no_real_numbers),
      cmocka_unit_test(two_decimal_marks),
      cmocka_unit_test(marks_far_below),
      cmocka_unit_test(headers),
      cmocka_unit_test(summaries),
      cmocka_unit_test(wide_rows),
      cmocka_unit_test(several_blocks),
      cmocka_unit_test(columns_by_name),
      cmocka_unit_test(states_by_label),
      cmocka_unit_test(whole_file_options),
      cmocka_unit_test(no_file),
      cmocka_unit_test(failing_source)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
