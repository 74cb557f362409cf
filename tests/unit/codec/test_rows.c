/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The row iterator, rule by rule, each cell with its line and column. */
#include "check.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "rows_dump.h"

static void a_plain_table(void **state) {
  (void)state;
  check_rows("spot,before,after\n1,87.4,88.1\n2,86.9,\n",
             "1: 1.1[spot] 1.6[before] 1.13[after]\n"
             "2: 2.1[1] 2.3[87.4] 2.8[88.1]\n"
             "3: 3.1[2] 3.3[86.9] 3.8[]\n");
  check_rows(",\n", "1: 1.1[] 1.2[]\n");
  check_rows("", "");
  check_rows("87.4", "1: 1.1[87.4]\n");
}

static void line_ends_of_every_kind(void **state) {
  (void)state;
  const char *same = "1: 1.1[a] 1.3[b]\n2: 2.1[c] 2.3[d]\n";
  check_rows("a,b\nc,d\n", same);
  check_rows("a,b\nc,d", same);
  check_rows("a,b\r\nc,d\r\n", same);
  check_rows("a,b\rc,d\r", same);
  check_rows("a,b\rc,d", same);
  check_rows("a\n\rb\r\r\nc", "1: 1.1[a]\n2:\n3: 3.1[b]\n4:\n5: 5.1[c]\n");
}

static void lines_of_blanks_are_rows_without_cells(void **state) {
  (void)state;
  check_rows("\na,b\n \t \n\n,\n\n",
             "1:\n2: 2.1[a] 2.3[b]\n3:\n4:\n5: 5.1[] 5.2[]\n6:\n");
  check_rows("\xC2\xA0\nx", "1:\n2: 2.1[x]\n");
  check_rows("\"\"\n", "1: 1.1q[]\n"); /* an empty cell someone wrote */
  check_rows("a\tb\n\t\n", "1: 1.1[a] 1.3[b]\n2: 2.1[] 2.2[]\n");
}

static void blanks_are_taken_off_outside_quotes(void **state) {
  (void)state;
  check_rows_by(" a ,\t b\t,\" c \" , d e \n", ',',
             "1: 1.2[a] 1.7[b] 1.10q[ c ] 1.18[d e]\n");
  check_rows("a;\xC2\xA0" "1\xE2\x80\xAF" "234\xC2\xA0 ;\xE2\x80\x87z\n",
             "1: 1.1[a] 1.4[1\xE2\x80\xAF" "234] 1.13[z]\n");
  check_rows("a\t b \t\tc\n", "1: 1.1[a] 1.4[b] 1.7[] 1.8[c]\n");
  check_rows("\xEF\xBB\xBF" "a,b\n\xEF\xBB\xBF" "c,d\n", /* two files joined */
             "1: 1.1[a] 1.3[b]\n2: 2.2[c] 2.4[d]\n");
}

static void columns_count_characters(void **state) {
  (void)state;
  check_rows("gl\xC3\xA4nzend,\xE2\x88\x92" "1,\xF0\x9F\x9A\xA2,z\n",
             "1: 1.1[gl\xC3\xA4nzend] 1.10[\xE2\x88\x92" "1] "
             "1.13[\xF0\x9F\x9A\xA2] 1.15[z]\n");
}

static void quoted_cells(void **state) {
  (void)state;
  check_rows("a,\"b,\"\"c\"\"\",d\n", "1: 1.1[a] 1.3q[b,\"c\"] 1.13[d]\n");
  check_rows("\"\"\"\",\"\"\n", "1: 1.1q[\"] 1.6q[]\n");
  check_rows("a,\"two\r\nlines\n\nfour\",b\nc,d\n",
             "1: 1.1[a] 1.3q[two\r\nlines\n\nfour] 4.7[b]\n"
             "5: 5.1[c] 5.3[d]\n");
  check_rows("\"old\rmac\",x\ry,z", "1: 1.1q[old\rmac] 2.6[x]\n"
                                    "3: 3.1[y] 3.3[z]\n");
  check_rows("\xC3\xA4,\"\xC3\xB6\n\xC3\xBC\",x\n",
             "1: 1.1[\xC3\xA4] 1.3q[\xC3\xB6\n\xC3\xBC] 2.4[x]\n");
}

static void quotes_elsewhere_are_characters(void **state) {
  (void)state;
  check_rows("5\" pad,it\"s\"\n6,7\n",
             "1: 1.1[5\" pad] 1.8[it\"s\"]\n2: 2.1[6] 2.3[7]\n");
}

static void what_is_wrong_with_quotes(void **state) {
  (void)state;
  check_rows("a,b\n1,\xC2\xB0\n2, \"x\ny\nz\n",
             "1: 1.1[a] 1.3[b]\n2: 2.1[1] 2.3[\xC2\xB0]\n"
             "the input cannot be read or does not make sense: "
             "panel.csv, line 3, column 4: the quote opened here is never "
             "closed: close it, or put the cell in quotes and double this "
             "one; seen: \"x\n");
  check_rows("a,b\n\"one\ntwo\" x,b\n",
             "1: 1.1[a] 1.3[b]\n"
             "the input cannot be read or does not make sense: "
             "panel.csv, line 3, column 6: text after a closing quote, where "
             "a separator or the line's end was expected: double the quotes "
             "that belong to the text; seen: x,b\n");
  check_rows("\"a\"\"b\"c,\n",
             "the input cannot be read or does not make sense: "
             "panel.csv, line 1, column 7: text after a closing quote, where "
             "a separator or the line's end was expected: double the quotes "
             "that belong to the text; seen: c,\n");
}

static void comments_hold_anything(void **state) {
  (void)state;
  check_rows("# hull 3; \"port, side\nspot,gloss\n  # it's 20\xC2\xB0, \" \n"
             "1,87.4\n#\n",
             "1: 1.1[# hull 3; \"port, side]\n2: 2.1[spot] 2.6[gloss]\n"
             "3: 3.3[# it's 20\xC2\xB0, \"]\n4: 4.1[1] 4.3[87.4]\n5: 5.1[#]\n");
  check_rows("\"# a\",b\n\"#\",c\n", "1: 1.1q[# a] 1.7[b]\n"
                                     "2: 2.1q[#] 2.5[c]\n");
}

static void error_values_are_no_comments(void **state) {
  (void)state;
  check_rows("a,b\n#DIV/0!,1\n #N/A,2\n#NV ,3\n#WERT!,4\n#NAME x,5\n#N,6\n",
             "1: 1.1[a] 1.3[b]\n2: 2.1[#DIV/0!] 2.9[1]\n"
             "3: 3.2[#N/A] 3.7[2]\n4: 4.1[#NV] 4.6[3]\n"
             "5: 5.1[#WERT!] 5.8[4]\n6: 6.1[#NAME x,5]\n7: 7.1[#N,6]\n");
}

/* Lines taken many at a time are those of the row iterator. */
static void lines_at_once(void **state) {
  static const char text[] = "a,b\n1,2\r\n# x, y\n\n 3,4\n\"5\",6\n7,8\rx,9\n"
                             "10,11\nlast,12";
  memory_source source = {text, sizeof text - 1, 0, 0, 0};
  char block[64];
  scw_context *context;
  scwi_rows *rows;
  scwi_row row;
  scwi_lines lines;
  bool more;
  (void)state;
  assert_int_equal(scwi_context_make(&context), SCW_OK);
  assert_int_equal(scwi_rows_open(context, memory_source_of(&source), 0, 0,
                                  &rows), SCW_OK);
  scwi_rows_next(context, rows, &row, &more);
  scwi_rows_lines(context, rows, block, 11, &lines); /* one line fits */
  assert_true(lines.size == 5 && lines.line == 2 && lines.count == 1);
  scwi_rows_lines(context, rows, block, 3, &lines); /* the line is longer */
  assert_true(lines.size == 0 && lines.line == 3);
  scwi_rows_lines(context, rows, block, sizeof block, &lines);
  /* up to the quote */
  assert_true(lines.size == 13 && lines.line == 3 && lines.count == 3);
  assert_memory_equal(block, "# x, y\n\n 3,4\n", 13);
  scwi_rows_split(context, rows, block, 7, 3, &row);
  assert_true(row.n == 1 && row.line == 3 && row.cells[0].length == 6);
  scwi_rows_split(context, rows, block + 7, 1, 4, &row);
  assert_true(row.n == 0 && row.line == 4);
  scwi_rows_split(context, rows, block + 8, 5, 5, &row);
  assert_true(row.n == 2 && row.cells[0].line == 5 && row.cells[0].column == 2);
  scwi_rows_lines(context, rows, block, sizeof block, &lines);
  assert_int_equal(lines.size, 0);
  scwi_rows_next(context, rows, &row, &more); /* the quoted row */
  assert_true(row.n == 2 && row.line == 6 && row.cells[0].quoted);
  scwi_rows_lines(context, rows, block, sizeof block, &lines); /* a lone CR */
  assert_int_equal(lines.size, 0);
  scwi_rows_next(context, rows, &row, &more);
  assert_true(row.line == 7 && row.cells[1].text[0] == '8');
  scwi_rows_lines(context, rows, block, sizeof block, &lines);
  assert_true(lines.size == 10 && lines.line == 8 && lines.count == 2);
  scwi_rows_lines(context, rows, block, sizeof block, &lines); /* not closed */
  assert_int_equal(lines.size, 0);
  scwi_rows_next(context, rows, &row, &more);
  assert_true(more && row.line == 10 && row.offset == 42);
  scwi_rows_next(context, rows, &row, &more);
  assert_false(more);
  assert_int_equal(strlen(scwi_rows_facts_of(rows).sha256), 64);
  scwi_rows_close(rows);
  scw_context_free(context);
}

static void a_lone_number_sign_heads_a_column(void **state) {
  (void)state;
  check_rows("\n#,gloss\n1,87.4\n#,no heading\n",
             "1:\n2: 2.1[#] 2.3[gloss]\n3: 3.1[1] 3.3[87.4]\n"
             "4: 4.1[#,no heading]\n");
  check_rows("# one, two\n#;gloss\n1;87,4\n",
             "1: 1.1[# one, two]\n2: 2.1[#] 2.3[gloss]\n"
             "3: 3.1[1] 3.3[87,4]\n");
}

static void separator_lines(void **state) {
  static const dump_options facts = {.facts = true};
  (void)state;
  check_rows_with("sep=;\r\na,b;c\r\n", facts,
                  "2: 2.1[a,b] 2.5[c]\n"
                  "UTF-8 separator ';', told by a line 14 bytes\n",
                  __FILE__, __LINE__);
  check_rows_with("\"SEP=|\"\na|c\n", facts,
                  "2: 2.1[a] 2.3[c]\n"
                  "UTF-8 separator '|', told by a line 12 bytes\n",
                  __FILE__, __LINE__);
  check_rows("sep=\\t\na,b\tc\n", "2: 2.1[a,b] 2.5[c]\n");
  check_rows("sep=\t\na,b\tc\n", "2: 2.1[a,b] 2.5[c]\n");
  check_rows("sep=;", "");
  check_rows("sep=;\r", "");
  check_rows_by("sep=;\na,b;c\n", ',', "2: 2.1[a] 2.3[b;c]\n"); /* asked for */
  check_rows("sep=ab,c\n", "1: 1.1[sep=ab] 1.8[c]\n");
  check_rows("a,b\nc,d\nsep=;\n",
             "1: 1.1[a] 1.3[b]\n2: 2.1[c] 2.3[d]\n3: 3.1[sep=;]\n");
}

static void blanks_as_separator(void **state) {
  (void)state;
  check_rows("87.4 88.1   86.9\n\n  85.0 - \n",
             "1: 1.1[87.4] 1.6[88.1] 1.13[86.9]\n2:\n3: 3.3[85.0] 3.8[-]\n");
  check_rows("1 2", "1: 1.1[1] 1.3[2]\n");
  check_rows("1 2 ", "1: 1.1[1] 1.3[2]\n");
  check_rows_by("a \"b c\"  d\n", ' ', "1: 1.1[a] 1.3q[b c] 1.10[d]\n");
  check_rows_by("1\xC2\xA0" "234,5 2\xC2\xA0 \n", ' ',
                "1: 1.1[1\xC2\xA0" "234,5] 1.9[2]\n");
}

static void separators_given(void **state) {
  (void)state;
  check_rows_by("a|b,c\n", '|', "1: 1.1[a] 1.3[b,c]\n");
  check_rows_by("87,88\n", ',', "1: 1.1[87] 1.4[88]\n");
  check_rows_by("a\n", '"',
                "an argument or setting cannot be used: the separator '\"' "
                "cannot be used: choose comma, semicolon, tab or blank\n");
  check_rows_by("a\n", '5',
                "an argument or setting cannot be used: the separator '5' "
                "cannot be used: choose comma, semicolon, tab or blank\n");
  check_rows_by("a\n", '\n',
                "an argument or setting cannot be used: the separator given "
                "cannot be used: choose comma, semicolon, tab or blank\n");
  check_rows_with("a\n", (dump_options){.separator = ',', .decimal_mark = ','},
                  "an argument or setting cannot be used: the character ',' "
                  "cannot be separator and decimal mark at once\n",
                  __FILE__, __LINE__);
}

static void offsets_are_bytes_before_the_row(void **state) {
  (void)state;
  check_rows_with("\xEF\xBB\xBF" "a,b\r\n\n\"x\ny\",2\n3,\xC3\xA4\n4,5",
                  (dump_options){.offsets = true},
                  "1@0: 1.1[a] 1.3[b]\n2@5:\n3@6: 3.1q[x\ny] 4.4[2]\n"
                  "5@14: 5.1[3] 5.3[\xC3\xA4]\n6@19: 6.1[4] 6.3[5]\n",
                  __FILE__, __LINE__);
}

static void reading_errors_come_after_the_rows_before_them(void **state) {
  (void)state;
  check_rows_with("a,b\n1,2\n3,", (dump_options){.error = EIO},
                  "1: 1.1[a] 1.3[b]\n2: 2.1[1] 2.3[2]\n"
                  "the input cannot be read or does not make sense: "
                  "panel.csv, line 3: reading stopped here: Input/output "
                  "error (system error 5); check the file and the drive it "
                  "is on, then try again\n", __FILE__, __LINE__);
  check_rows_with("", (dump_options){.error = EISDIR},
                  "the input cannot be read or does not make sense: "
                  "panel.csv, line 1: reading stopped here: Is a directory "
                  "(system error 21); check the file and the drive it is on, "
                  "then try again\n", __FILE__, __LINE__);
}

static char *filled_text(const char *start, char fill, size_t n,
                         const char *end) {
  size_t before = strlen(start), after = strlen(end);
  char *text = malloc(before + n + after + 1);
  assert_non_null(text);
  memcpy(text, start, before);
  memset(text + before, fill, n);
  memcpy(text + before + n, end, after + 1);
  return text;
}

static void check_limit(const char *start, char fill, size_t n,
                        const char *end, const char *told) {
  char *text = filled_text(start, fill, n, end);
  char *got = rows_dump(text, strlen(text), (dump_options){.separator = ','});
  if (told) assert_non_null(strstr(got, told));
  else assert_null(strstr(got, "cannot"));
  free(text);
  free(got);
}

static void limits_of_cells_and_rows(void **state) {
  enum { CELL = 1 << 20 };
  (void)state;
  check_limit("a\nb,", 'x', CELL, ",c\n", NULL);
  check_limit("a\nb,", 'x', CELL + 1, ",c\n",
              "line 2, column 3: a cell of more than 1 MiB");
  check_limit("a\nb,\"", 'x', CELL, "\",c\n", NULL);
  check_limit("a\nb,\"", 'x', CELL + 1, "\",c\n",
              "line 2, column 3: this quote is not closed within 1 MiB");
  check_limit("a\n", ',', 99999, "\n", NULL);
  check_limit("a\n", ',', 100000, "\n",
              "line 2, column 100001: a row of more than 100,000 cells");
}

static void rows_may_be_long_but_not_endless(void **state) {
  enum { CELL = 1 << 19, MOST = 40 };
  static const dump_options by_comma = {.separator = ','};
  char *text = malloc((size_t)CELL * MOST + 1);
  (void)state;
  assert_non_null(text);
  memset(text, 'x', (size_t)CELL * MOST);
  for (size_t i = 1; i <= MOST; i++) text[i * CELL - 1] = ',';
  char *got = rows_dump(text, (size_t)CELL * 32, by_comma);
  if (strstr(got, "cannot")) fail_msg("%s", strstr(got, "cannot"));
  free(got);
  got = rows_dump(text, (size_t)CELL * MOST, by_comma);
  assert_non_null(strstr(got, "line 1, column 1: a row of more than 16 MiB"));
  free(got);
  free(text);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_plain_table),
      cmocka_unit_test(line_ends_of_every_kind),
      cmocka_unit_test(lines_of_blanks_are_rows_without_cells),
      cmocka_unit_test(blanks_are_taken_off_outside_quotes),
      cmocka_unit_test(columns_count_characters),
      cmocka_unit_test(quoted_cells),
      cmocka_unit_test(quotes_elsewhere_are_characters),
      cmocka_unit_test(what_is_wrong_with_quotes),
      cmocka_unit_test(comments_hold_anything),
      cmocka_unit_test(error_values_are_no_comments),
      cmocka_unit_test(lines_at_once),
      cmocka_unit_test(a_lone_number_sign_heads_a_column),
      cmocka_unit_test(separator_lines),
      cmocka_unit_test(blanks_as_separator),
      cmocka_unit_test(separators_given),
      cmocka_unit_test(offsets_are_bytes_before_the_row),
      cmocka_unit_test(reading_errors_come_after_the_rows_before_them),
      cmocka_unit_test(limits_of_cells_and_rows),
      cmocka_unit_test(rows_may_be_long_but_not_endless),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
