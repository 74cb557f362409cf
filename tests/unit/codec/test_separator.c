/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The separator guess, rule by rule. */
#include "check.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "separator.h"
#include "text.h"

/* What is found, in a word: the separator ('0' for none), 'd' behind it when
 * the commas were taken for decimal marks, '?' and the offset in doubt. */
static void check_guess(const char *text, char decimal_mark,
                        const char *wanted, int line) {
  char got[40];
  scwi_separator found =
      scwi_separator_guess(text, strlen(text), true, decimal_mark);
  if (found.doubt)
    snprintf(got, sizeof got, "?%d", (int)(found.doubt - text));
  else
    snprintf(got, sizeof got, "%c%s", found.separator ? found.separator : '0',
             found.decimal_commas ? "d" : "");
  if (strcmp(got, wanted) == 0) return;
  print_error("from:\n%s\ngot %s, wanted %s\n", text, got, wanted);
  _fail(__FILE__, line);
}
#define FOUND(text, wanted) check_guess((text), 0, (wanted), __LINE__)

static void the_plain_cases(void **state) {
  (void)state;
  FOUND("spot,before,after\n1,87.4,88.1\n2,86.9,88.0\n", ",");
  FOUND("spot;before;after\n1;87,4;88,1\n2;86,9;88,0\n", ";");
  FOUND("spot\tbefore\tafter\n1\t87,4\t88,1\n2\t86,9\t88,0\n", "\t");
  FOUND("spot\tnote\n1\ta, b\n2\tc, d; e\n", "\t");
  FOUND("spot;note\n1;a, b\n2;c, d\n", ";");
  FOUND("spot,note\n1,a; b\n2,c\n3,d\n", ",");
  FOUND("87.4\n88.1\n", "0");
  FOUND("", "0");
  FOUND("\n\n \n", "0");
}

static void what_stands_inside_quotes_does_not_count(void **state) {
  (void)state;
  FOUND("\"a;b;c\",\"d;e\"\n\"f;g\",\"h\"\n", ",");
  FOUND("\"87,4\"\n\"88,1\"\n", "0");
  FOUND("\"87,4\",\"88,1\"\n\"87,5\",\"88,2\"\n", ",");
  FOUND("\"one, \"\"two\n3, 4; 5\",6\n", ",");
  FOUND("5\" pad;a\n6\" pad;b\n", ";"); /* inches open nothing */
}

static void comments_and_blank_lines_do_not_count(void **state) {
  (void)state;
  FOUND("# a, b, c\n# d, e, f\n# g, h\n\n\n1;2\n3;4\n", ";");
  FOUND("# it's \"so, and\n87,4\n88,1\n", "0d");
  FOUND("#;gloss, 20\n1;87,4\n", ";");
  FOUND("#DIV/0!;1\n#N/A;2\n", ";");
  FOUND("#NAME;1\n#N;2\n", "0");
}

static void decimal_commas(void **state) {
  (void)state;
  FOUND("87,4\n88,1\n86,9\n", "0d");
  FOUND("gloss\n87,4\n88,1\n", "0d");
  FOUND("gloss\n87,4\n88,1\nMean 87,8\n", "0d");
  FOUND("gloss\n87,4 GU\n(88,1)\n\xE2\x88\x92" "86,9*\n1,5e3\n>100,0\n", "0d");
  FOUND("87,4GU\n88,1GU\n", "0d");
  FOUND("1\xC2\xA0" "234,5\n1\xE2\x80\xAF" "301,0\xC2\xA0g\n", "0d");
  FOUND("before,after\n87,88\n86,90\n", ",");
  FOUND("\"before\",\"after\"\n87,88\n86,90\n", ",");
  FOUND("K1,87\nK2,88\n", ",");
  FOUND("87.4,88.1\n86.9,88.0\n", ",");
  FOUND("87,88,86\n87,90,88\n", ",");
  FOUND("87,\n88,\n", ",");
  FOUND(",87\n,88\n", ",");
}

static void numbered_lines_are_no_decimals(void **state) {
  (void)state;
  FOUND("1,87\n2,88\n3,86\n", ",");
  FOUND("1,87\n2,88\n", "0d");         /* two lines prove nothing */
  FOUND("1,87\n2,88\n4,86\n", "0d");
  FOUND("0,87\n1,88\n2,86\n3,87\n", ",");
  FOUND("87,4\n88,1\n89,0\n", "0d");   /* counts up, but not from 1 */
  check_guess("1,87\n2,88\n3,86\n", ',', "0", __LINE__);
}

static void two_possible_readings_are_told(void **state) {
  (void)state;
  FOUND("87,4, 88,1, 86,9\n", "?2");
  FOUND("Gloss, hull 3\n87,4\n88,1\n", "?16");
  FOUND("pull\n1,234.5\n1,301.0\n", "?6");
  FOUND("1.234,5\n1.301,0\n", "?5");
  FOUND("0.234,5\n0.301,0\n", ",");
  check_guess("Gloss, hull 3\n87,4\n88,1\n", ',', "0", __LINE__);
  check_guess("Gloss, hull 3\n87,4\n88,1\n", '.', ",", __LINE__);
}

static void a_decimal_mark_given(void **state) {
  (void)state;
  check_guess("87,88\n86,90\n", '.', ",", __LINE__);
  check_guess("before,after\n87,88\n", ',', "0", __LINE__);
  check_guess("before;after\n87,4;88,1\n", ',', ";", __LINE__);
}

static void ragged_files(void **state) {
  (void)state;
  FOUND("87,4;88,1;86,9\n87,4;88\n85;86;87;88\n", ";");
  FOUND("meter: M1\nday: 3\noperator: none\nprobe: 60\n\nspot;gloss\n1;87,4\n",
        ";");
  FOUND("one\ntwo\nthree\nfour,five\n", "0"); /* one line of four */
}

static void blanks(void **state) {
  (void)state;
  FOUND("87.4 88.1 86.9\n85 NA - 87\n", " ");
  FOUND("87,4 88,1 86,9\n", " d");
  FOUND("-1.5 +2e3 (3)\n", " ");
  FOUND("gloss\n87.4 88.1\n", "0");
  FOUND("hull 3\nhull 4\n", "0");
  FOUND("87.4 GU\n", "0");
  FOUND("\"1\" 2\n", "0");
  FOUND("1\xC2\xA0" "234\n1\xC2\xA0" "301\n", "0");
}

static void a_cut_sample_leaves_its_last_line_out(void **state) {
  static const char text[] = "a,b\nc,d\ne;f;g;h;i;j \"";
  (void)state;
  scwi_separator cut = scwi_separator_guess(text, sizeof text - 1, false, 0);
  assert_int_equal(cut.separator, ',');
  static const char only[] = "1;2;3;4";
  cut = scwi_separator_guess(only, sizeof only - 1, false, 0);
  assert_int_equal(cut.separator, ';');
}

static void many_columns(void **state) {
  scwi_text text = {0};
  (void)state;
  for (int line = 0; line < 3; line++) {
    scwi_text_repeat(&text, ',', 400);
    scwi_text_add(&text, "x; y\n");
  }
  FOUND(text.data, ";"); /* semicolon is looked at first ... */
  scwi_text_clear(&text);
  for (int line = 0; line < 3; line++) {
    scwi_text_repeat(&text, ',', 400);
    scwi_text_add(&text, "x\n");
  }
  FOUND(text.data, ","); /* ... and counts beyond 255 are one count */
  scwi_text_free(&text);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_plain_cases),
      cmocka_unit_test(what_stands_inside_quotes_does_not_count),
      cmocka_unit_test(comments_and_blank_lines_do_not_count),
      cmocka_unit_test(decimal_commas),
      cmocka_unit_test(numbered_lines_are_no_decimals),
      cmocka_unit_test(two_possible_readings_are_told),
      cmocka_unit_test(a_decimal_mark_given),
      cmocka_unit_test(ragged_files),
      cmocka_unit_test(blanks),
      cmocka_unit_test(a_cut_sample_leaves_its_last_line_out),
      cmocka_unit_test(many_columns),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
