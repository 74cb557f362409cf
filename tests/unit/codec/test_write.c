/* SPDX-License-Identifier: GPL-3.0-or-later */
/* CSV rows out: what is quoted, what is made harmless; the row iterator reads
 * them back as judge. */
#include "check.h"

#include <stdlib.h>
#include <string.h>

#include "full_sink.h"
#include "rows_dump.h"
#include "write.h"

static void check_row(const char *const *cells, size_t n,
                      const char *wanted) {
  full_sink sink = {.most = SIZE_MAX};
  scw_context *context;
  assert_int_equal(scwi_context_make(&context), SCW_OK);
  assert_int_equal(scwi_write_row(context, full_sink_of(&sink), cells, n),
                   SCW_OK);
  assert_string_equal(sink.text.data, wanted);
  scwi_text_free(&sink.text);
  scw_context_free(context);
}
#define CHECK_ROW(wanted, ...)                                                 \
  check_row((const char *const[]){__VA_ARGS__},                                \
            sizeof((const char *const[]){__VA_ARGS__}) / sizeof(char *),       \
            (wanted))

static void quotes_where_needed(void **state) {
  (void)state;
  CHECK_ROW("set,n,mean\n", "set", "n", "mean");
  CHECK_ROW("\"a,b\",\"a \"\"b\"\"\",\"a\nb\",\"a\rb\"\n", "a,b", "a \"b\"",
            "a\nb", "a\rb");
  CHECK_ROW("\" a\",\"a \",a b\n", " a", "a ", "a b");
  CHECK_ROW(",x,\n", NULL, "x", "");
  CHECK_ROW("\"\"\n", "");    /* a row, not an empty line */
  CHECK_ROW("\"# a\"\n", "# a"); /* a row, not a comment */
  CHECK_ROW("\"#1\",#2\n", "#1", "#2");
}

static void formulas_are_made_harmless(void **state) {
  (void)state;
  CHECK_ROW("'=1+1,'@x,'+x,'-x,\"'=a,b\"\n", "=1+1", "@x", "+x", "-x", "=a,b");
  CHECK_ROW("-1.5,+2,-1e-7,87.4\n", "-1.5", "+2", "-1e-7", "87.4");
}

static void rows_read_back(void **state) {
  static const char *const cells[] = {"a\"b", "", " c, ", "x\r\nd", "\"", "#"};
  enum { N = sizeof cells / sizeof *cells };
  full_sink sink = {.most = SIZE_MAX};
  scw_context *context;
  (void)state;
  assert_int_equal(scwi_context_make(&context), SCW_OK);
  assert_int_equal(scwi_write_row(context, full_sink_of(&sink), cells, N),
                   SCW_OK);
  char *got = rows_dump(sink.text.data, sink.text.length,
                        (dump_options){.separator = ','});
  assert_string_equal(got, "1: 1.1q[a\"b] 1.8[] 1.9q[ c, ] 1.16q[x\r\nd] "
                           "2.4q[\"] 2.9[#]\n");
  free(got);
  scwi_text_free(&sink.text);
  scw_context_free(context);
}

static void a_sink_that_refuses_at_any_byte(void **state) {
  static const char *const cells[] = {"K1", "87.4", "a,b"};
  static const char row[] = "K1,87.4,\"a,b\"\n";
  scw_context *context;
  (void)state;
  assert_int_equal(scwi_context_make(&context), SCW_OK);
  for (size_t most = 0; most < sizeof row; most++) {
    full_sink sink = {.most = most};
    scw_status wanted = most < sizeof row - 1 ? SCW_NOT_WRITTEN : SCW_OK;
    assert_int_equal(scwi_write_row(context, full_sink_of(&sink), cells, 3),
                     wanted);
    scwi_text_free(&sink.text);
    sink = (full_sink){.most = most};
    assert_int_equal(scwi_write_text(context, full_sink_of(&sink), row),
                     wanted);
    scwi_text_free(&sink.text);
  }
  assert_non_null(strstr(scw_context_message(context), "could not be written"));
  scw_context_free(context);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(quotes_where_needed),
      cmocka_unit_test(formulas_are_made_harmless),
      cmocka_unit_test(rows_read_back),
      cmocka_unit_test(a_sink_that_refuses_at_any_byte),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
