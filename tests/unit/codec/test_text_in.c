/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Encodings, and the promise that the size of the blocks a source gives
 * changes nothing. */
#include "check.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "rows_dump.h"
#include "text.h"

static const size_t blocks[] = {1, 2, 3, 7, 1023, 4096};
enum { BLOCKS = sizeof blocks / sizeof *blocks };

/* The dump of the bytes read whole, after checking it against every block
 * size. */
static char *dump_every_way(const char *bytes, size_t size,
                            dump_options options) {
  char *whole = rows_dump(bytes, size, options);
  for (size_t i = 0; i < BLOCKS; i++) {
    options.block = blocks[i];
    char *piecewise = rows_dump(bytes, size, options);
    if (strcmp(whole, piecewise) != 0)
      fail_msg("blocks of %zu: got\n%s\ninstead of\n%s", blocks[i], piecewise,
               whole);
    free(piecewise);
  }
  return whole;
}

static void check_bytes(const char *bytes, size_t size, const char *wanted,
                        int line) {
  dump_options options = {.facts = true, .offsets = true};
  char *got = dump_every_way(bytes, size, options);
  bool same = strcmp(got, wanted) == 0;
  if (!same) print_error("got:\n%s\nwanted:\n%s\n", got, wanted);
  free(got);
  if (!same) _fail(__FILE__, line);
}
#define CHECK_BYTES(literal, wanted)                                           \
  check_bytes((literal), sizeof(literal) - 1, (wanted), __LINE__)

#define NO_SENSE "the input cannot be read or does not make sense: panel.csv, "

static void utf_8(void **state) {
  (void)state;
  const char *rows = "1@0: 1.1[\xC3\xA4] 1.3[b]\n2@6: 2.1[1] 2.3[2]\n"
                     "UTF-8 separator ',' 10 bytes\n";
  CHECK_BYTES("\xC3\xA4,b\r\n1,2\n", rows);
  rows = "1@0: 1.1[\xC3\xA4] 1.3[b]\n2@6: 2.1[1] 2.3[2]\n"
         "UTF-8 separator ',' 13 bytes\n";
  CHECK_BYTES("\xEF\xBB\xBF\xC3\xA4,b\r\n1,2\n", rows);
  CHECK_BYTES("\xEF\xBB\xBF", "UTF-8 separator '0' 3 bytes\n");
  CHECK_BYTES("a;\xE2\x82\xAC;\xF0\x9F\x9A\xA2\n",
              "1@0: 1.1[a] 1.3[\xE2\x82\xAC] 1.5[\xF0\x9F\x9A\xA2]\n"
              "UTF-8 separator ';' 11 bytes\n");
}

static void utf_16(void **state) {
  (void)state;
  CHECK_BYTES("\xFF\xFE\xE4\0;\0b\0\r\0\n\0\x3D\xD8\xA2\xDE;\0\x12\x22\x31\0",
              "1@0: 1.1[\xC3\xA4] 1.3[b]\n"
              "2@6: 2.1[\xF0\x9F\x9A\xA2] 2.3[\xE2\x88\x92" "1]\n"
              "UTF-16LE separator ';' 22 bytes\n");
  CHECK_BYTES("\xFE\xFF\0\xE4\0;\0b\0\r\0\n\xD8\x3D\xDE\xA2\0;\x22\x12\0\x31",
              "1@0: 1.1[\xC3\xA4] 1.3[b]\n"
              "2@6: 2.1[\xF0\x9F\x9A\xA2] 2.3[\xE2\x88\x92" "1]\n"
              "UTF-16BE separator ';' 22 bytes\n");
  CHECK_BYTES("8\0" "7\0.\0" "4\0\n\0",
              "1@0: 1.1[87.4]\nUTF-16LE separator '0' 10 bytes\n");
  CHECK_BYTES("\0" "8\0" "7\0.\0" "4",
              "1@0: 1.1[87.4]\nUTF-16BE separator '0' 8 bytes\n");
  CHECK_BYTES("\xFF\xFE", "UTF-16LE separator '0' 2 bytes\n");
}

static void latin_1(void **state) {
  (void)state;
  CHECK_BYTES("gl\xE4nzend;20\xB0\n\x96" "1;\x93k\x94 5\x80\n",
              "1@0: 1.1[gl\xC3\xA4nzend] 1.10[20\xC2\xB0]\n"
              "2@15: 2.1[\xE2\x80\x93" "1] "
              "2.4[\xE2\x80\x9Ck\xE2\x80\x9D 5\xE2\x82\xAC]\n"
              "Latin-1 separator ';' 23 bytes\n");
  CHECK_BYTES("1\xA0" "234;\xA0" "5\xA0\n", /* no-break spaces */
              "1@0: 1.1[1\xC2\xA0" "234] 1.8[5]\n"
              "Latin-1 separator ';' 10 bytes\n");
  CHECK_BYTES("a\n\xE4", "1@0: 1.1[a]\n2@2: 2.1[\xC3\xA4]\n"
                         "Latin-1 separator '0' 3 bytes\n");
  /* decided once: what would be UTF-8 later stays Latin-1 */
  CHECK_BYTES("\xE4\n\xC3\xA4\n", "1@0: 1.1[\xC3\xA4]\n"
                                  "2@3: 2.1[\xC3\x83\xC2\xA4]\n"
                                  "Latin-1 separator '0' 5 bytes\n");
}

/* Every byte beyond ASCII as the first of its file: 80 to 9F as Python 3.11
 * decodes them (bytes(range(128, 160)).decode('cp1252', 'replace')), the rest
 * is the same in Unicode. */
static void latin_1_bytes_one_by_one(void **state) {
  static const char *const windows[32] = {
      "\u20AC", NULL, "\u201A", "\u0192", "\u201E", "\u2026", "\u2020",
      "\u2021", "\u02C6", "\u2030", "\u0160", "\u2039", "\u0152", NULL,
      "\u017D", NULL, NULL, "\u2018", "\u2019", "\u201C", "\u201D", "\u2022",
      "\u2013", "\u2014", "\u02DC", "\u2122", "\u0161", "\u203A", "\u0153",
      NULL, "\u017E", "\u0178"};
  (void)state;
  for (unsigned byte = 0x80; byte < 0x100; byte++) {
    char wanted[64], text[] = {'x', (char)byte, 'x', '\n'};
    const char *mapped = byte < 0xA0 ? windows[byte - 0x80] : NULL;
    char plain[3] = {(char)(0xC0 | byte >> 6), (char)(0x80 | (byte & 0x3F)), 0};
    snprintf(wanted, sizeof wanted, "1: 1.1[x%sx]\n", mapped ? mapped : plain);
    char *got = rows_dump(text, sizeof text, (dump_options){0});
    assert_string_equal(got, wanted);
    free(got);
  }
}

static void what_is_no_utf_8(void **state) {
  (void)state;
  CHECK_BYTES("\xC3\xA4,b\n1,\xC3\xA4 \xE4,2\n",
              "1@0: 1.1[\xC3\xA4] 1.3[b]\n" NO_SENSE
              "line 2, column 5: byte E4 does not belong in UTF-8, which the "
              "text before it is written in; save the file again as UTF-8\n");
  CHECK_BYTES("\xEF\xBB\xBF" "a\n\xC0\xAF", /* overlong */
              "1@0: 1.1[a]\n" NO_SENSE
              "line 2, column 1: byte C0 does not belong in UTF-8, which the "
              "text before it is written in; save the file again as UTF-8\n");
  static const char *const wrong[] = {
      "\xED\xA0\x80", "\xF4\x90\x80\x80", "\xE0\x80\x80", "\xF0\x8F\x80\x80",
      "\xF5\x80\x80\x80", "\x80", "\xE2\x82", "\xE2\x82(", "\xFF"};
  for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
    char text[16] = "\xC3\xA4\n";
    strcat(text, wrong[i]);
    char *got = dump_every_way(text, strlen(text), (dump_options){0});
    assert_non_null(strstr(got, "line 2, column 1: byte "));
    free(got);
    /* the same first in the file: the file is Latin-1 */
    got = dump_every_way(wrong[i], strlen(wrong[i]),
                         (dump_options){.facts = true});
    assert_non_null(strstr(got, "Latin-1"));
    free(got);
  }
}

static void what_is_no_utf_16(void **state) {
  (void)state;
  CHECK_BYTES("\xFF\xFE" "a\0\n\0b\0\xA2\xDE", "1@0: 1.1[a]\n" NO_SENSE
              "line 2, column 2: half a UTF-16 character (DEA2); save the "
              "file again as UTF-8\n");
  CHECK_BYTES("\xFF\xFE" "a\0\n\0\x3D\xD8x\0", "1@0: 1.1[a]\n" NO_SENSE
              "line 2, column 1: half a UTF-16 character (D83D); save the "
              "file again as UTF-8\n");
  CHECK_BYTES("\xFF\xFE" "a\0\n\0bb\x3D\xD8", "1@0: 1.1[a]\n" NO_SENSE
              "line 2, column 2: the file ends inside a UTF-16 character; it "
              "was cut off: save or copy it again\n");
  CHECK_BYTES("\xFF\xFE" "a\0\n", NO_SENSE
              "line 1, column 2: the file ends inside a UTF-16 character; it "
              "was cut off: save or copy it again\n");
}

static void zero_bytes(void **state) {
  (void)state;
  const char *told = "a zero byte: this is not a text file; if it comes from "
                     "a spreadsheet, save it as CSV first\n";
  char wanted[300];
  snprintf(wanted, sizeof wanted, NO_SENSE "line 1, column 5: %s", told);
  CHECK_BYTES("PK\3\4\0\0\x08\0\x08\0\x21\xB4\0\0", wanted);
  snprintf(wanted, sizeof wanted,
           "1@0: 1.1[a] 1.3[b]\n" NO_SENSE "line 2, column 3: %s", told);
  CHECK_BYTES("a,b\n1,\0,2\n", wanted);
  snprintf(wanted, sizeof wanted,
           "1@0: 1.1[\xC3\xA4]\n" NO_SENSE "line 2, column 2: %s", told);
  CHECK_BYTES("\xE4\nb\0 and more", wanted);
  snprintf(wanted, sizeof wanted,
           "1@0: 1.1[a]\n" NO_SENSE "line 2, column 1: %s", told);
  CHECK_BYTES("\xFF\xFE" "a\0\n\0\0\0", wanted);
}

/* A table with everything in it, beyond several blocks of the reader. */
static void make_table(scwi_text *text) {
  scwi_text_add(text, "# H\u00FCll 3; \"20\u00B0\nspot,K1,K2\r\n");
  for (unsigned i = 0; text->length < 300000; i++) {
    scwi_text_format(text, "%u,%u.%u", i, i % 97, i % 10);
    scwi_text_add(text, i % 3 == 0   ? ",\"a \"\"\u00E9\"\"\r\n; b\"\n"
                        : i % 7 == 0 ? ", \u00E4\u00F6 ,\r\n"
                        : i % 11 == 0 ? "\r\r\n# x,\n"
                                      : ",\u00B1 1\r\n");
  }
  scwi_text_add(text, "last,\u00FC");
  assert_false(text->failed);
}

/* The characters of the table are all below U+0100: easy to write in any
 * encoding. `wide`: 0 UTF-8, 1 Latin-1, 2 UTF-16LE, 3 UTF-16BE. */
static void encode(const scwi_text *text, int wide, scwi_text *to) {
  if (wide == 2) scwi_text_add(to, "\xFF\xFE");
  if (wide == 3) scwi_text_add(to, "\xFE\xFF");
  for (size_t i = 0; i < text->length; i++) {
    unsigned char c = (unsigned char)text->data[i];
    if (c >= 0x80)
      c = (unsigned char)(c << 6 | ((unsigned char)text->data[++i] & 0x3F));
    char low_first[] = {(char)c, 0}, high_first[] = {0, (char)c};
    if (wide == 1) scwi_text_append(to, low_first, 1);
    if (wide == 2) scwi_text_append(to, low_first, 2);
    if (wide == 3) scwi_text_append(to, high_first, 2);
  }
  if (wide == 0) scwi_text_append(to, text->data, text->length);
  assert_false(to->failed);
}

static void every_encoding_in_blocks_of_every_size(void **state) {
  scwi_text table = {0};
  char *first = NULL;
  (void)state;
  make_table(&table);
  for (int wide = 0; wide < 4; wide++) {
    scwi_text encoded = {0};
    encode(&table, wide, &encoded);
    char *got = dump_every_way(encoded.data, encoded.length,
                               (dump_options){.offsets = true});
    if (first) assert_string_equal(got, first);
    else first = strdup(got);
    free(got);
    scwi_text_free(&encoded);
  }
  assert_non_null(strstr(first, "[last]"));
  free(first);
  scwi_text_free(&table);
}

static void reading_errors_in_blocks(void **state) {
  (void)state;
  static const char cut[] = "\xC3\xA4\n1,2\n3,\xE2\x82"; /* in a character */
  dump_options options = {.error = EIO};
  char *got = dump_every_way(cut, sizeof cut - 1, options);
  assert_non_null(strstr(got, "line 3: reading stopped here: Input/output "
                              "error"));
  free(got);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(utf_8),
      cmocka_unit_test(utf_16),
      cmocka_unit_test(latin_1),
      cmocka_unit_test(latin_1_bytes_one_by_one),
      cmocka_unit_test(what_is_no_utf_8),
      cmocka_unit_test(what_is_no_utf_16),
      cmocka_unit_test(zero_bytes),
      cmocka_unit_test(every_encoding_in_blocks_of_every_size),
      cmocka_unit_test(reading_errors_in_blocks),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
