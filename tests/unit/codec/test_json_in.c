/* SPDX-License-Identifier: GPL-3.0-or-later */
/* JSON in: what RFC 8259 allows is taken, with its places; everything else is
 * refused at its place and in words. cJSON, which is lenient, must read the
 * same values from whatever is taken. */
#include "check.h"

#include <cjson/cJSON.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "json_in.h"
#include "rows_dump.h"

static scw_context *context;

static int make_context(void **state) {
  (void)state;
  return scw_context_new(&context) == SCW_OK ? 0 : -1;
}

static int free_context(void **state) {
  (void)state;
  scw_context_free(context);
  return 0;
}

static scw_status read_bytes(const char *bytes, size_t size,
                             scwi_json_file *out) {
  memory_source source = {.bytes = bytes, .size = size, .block = 7};
  scw_source from = memory_source_of(&source);
  from.name = "bench.json";
  return scwi_json_read(context, from, out);
}

static void same_as_cjson(const scwi_json_value *ours, const cJSON *theirs) {
  static const int kinds[] = {cJSON_NULL,   cJSON_True,  cJSON_Number,
                              cJSON_String, cJSON_Array, cJSON_Object};
  int kind = theirs->type & 0xFF;
  assert_int_equal(kind == cJSON_False ? cJSON_True : kind, kinds[ours->kind]);
  if (ours->kind == SCWI_JSON_BOOL)
    assert_int_equal(ours->yes, kind == cJSON_True);
  if (ours->kind == SCWI_JSON_NUMBER)
    assert_true(ours->number == theirs->valuedouble);
  if (ours->kind == SCWI_JSON_TEXT)
    assert_string_equal(ours->text, theirs->valuestring);
  if (ours->key) assert_string_equal(ours->key, theirs->string);
  const cJSON *twin = theirs->child;
  size_t n = 0;
  for (const scwi_json_value *one = ours->first; one; one = one->next) {
    assert_non_null(twin);
    same_as_cjson(one, twin);
    twin = twin->next;
    n++;
  }
  assert_null(twin);
  assert_int_equal(n, ours->n);
}

static void taken(void **state) {
  static const char *const good[] = {
      "{}", "[]", "null", "true", "false", "0", "-0", "\"\"", " [ ] ",
      "\t{\r\n}\n", "[1,2.5,-3e2,4E-2,5e+1,0.10,-0.0]", "\"a/b\\/c\"",
      "\"\\\"\\\\\\b\\f\\n\\r\\t\"", "\"\\u00e9 \\uD83D\\uDE00 \\u20AC\"",
      "\"caf\xC3\xA9 \xF0\x9F\x98\x80\"", "\"\x7F\"",
      "{\"a\":1,\"A\":2,\"\":[{},[],{\"b\":null}]}",
      ("[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[["
      "]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]"),
      "1.7976931348623157e308", "1e-999", "123456789012345678901234567890"};
  (void)state;
  for (size_t i = 0; i < sizeof good / sizeof *good; i++) {
    scwi_json_file file;
    cJSON *judge = cJSON_Parse(good[i]);
    assert_non_null(judge);
    if (read_bytes(good[i], strlen(good[i]), &file) != SCW_OK)
      fail_msg("%s: %s", good[i], scw_context_message(context));
    same_as_cjson(file.root, judge);
    cJSON_Delete(judge);
    scwi_json_file_free(&file);
  }
}

/* The mark some editors put first. */
static void byte_order_mark(void **state) {
  scwi_json_file file;
  (void)state;
  assert_int_equal(read_bytes("\xEF\xBB\xBF[7]", 6, &file), SCW_OK);
  assert_int_equal(file.root->place.column, 1);
  assert_true(file.root->first->number == 7);
  scwi_json_file_free(&file);
}

static void places(void **state) {
  static const char text[] = "{\n  \"m\xC3\xA9ter\" : [1,\r\n\t\"\xC3\xA9\", 3]\r}";
  scwi_json_file file;
  (void)state;
  assert_int_equal(read_bytes(text, strlen(text), &file), SCW_OK);
  const scwi_json_value *list = scwi_json_find(file.root, "m\xC3\xA9ter");
  assert_non_null(list);
  assert_null(scwi_json_find(file.root, "meter"));
  assert_int_equal(list->key_place.line, 2);
  assert_int_equal(list->key_place.column, 3);
  assert_int_equal(list->place.column, 13);
  assert_int_equal(list->first->place.column, 14);
  assert_int_equal(list->first->next->place.line, 3);
  assert_int_equal(list->first->next->place.column, 2);
  assert_int_equal(list->first->next->next->place.column, 7);
  assert_int_equal(list->n, 3);
  scwi_json_file_free(&file);
}

/* A text's characters are found again in the file, however they are written. */
static void places_in_texts(void **state) {
  static const char text[] =
      "[\n  \"a\xC3\xA9\\u00e9\\n\\ud83d\\uDE00\\\\z\", \"b\xC3\xA9z\"]";
  static const size_t wanted[] = {4, 5, 6, 12, 14, 26, 28, 29, 29};
  scwi_json_file file;
  (void)state;
  assert_int_equal(read_bytes(text, strlen(text), &file), SCW_OK);
  const scwi_json_value *first = file.root->first, *second = first->next;
  assert_string_equal(first->text,
                      "a\xC3\xA9\xC3\xA9\n\xF0\x9F\x98\x80\\z");
  for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++) {
    scwi_json_place place = scwi_json_place_in(first, i + 1);
    assert_int_equal(place.line, 2);
    assert_int_equal(place.column, wanted[i]);
  }
  assert_int_equal(scwi_json_place_in(second, 3).column, 35);
  scwi_json_file_free(&file);
  static const char plain[] = "[\"b\xC3\xA9z\"]"; /* nothing to decode */
  assert_int_equal(read_bytes(plain, strlen(plain), &file), SCW_OK);
  assert_int_equal(scwi_json_place_in(file.root->first, 3).column, 5);
  assert_int_equal(scwi_json_place_in(file.root->first, 9).column, 6);
  scwi_json_file_free(&file);
}

typedef struct refusal {
  const char *text;
  size_t size; /* 0: the length of the text */
  size_t line, column;
  const char *words;
} refusal;

static const refusal refusals[] = {
    {"", 0, 1, 1, "empty"},
    {" \n ", 0, 2, 2, "empty"},
    {"\xEF\xBB\xBF", 0, 1, 1, "empty"},
    {"\xFF\xFE{\0}\0", 6, 1, 1, "UTF-16"},
    {"\xFE\xFF\0{\0}", 6, 1, 1, "UTF-16"},
    {"{\0}\0", 4, 1, 2, "a byte of value 0"},
    {"\xEF\xBB\xBF\xEF\xBB\xBF[]", 0, 1, 1, "stands where a value"},
    /* numbers */
    {"01", 0, 1, 3, "leading zeros"},
    {"[-012]", 0, 1, 6, "leading zeros"},
    {"1.", 0, 1, 3, "a digit after the decimal point"},
    {"[1.e3]", 0, 1, 4, "'e' stands where a digit after the decimal point"},
    {".5", 0, 1, 1, "'.' stands where a value"},
    {"+1", 0, 1, 1, "'+' stands where a value"},
    {"-", 0, 1, 2, "a digit"},
    {"-a", 0, 1, 2, "'a' stands where a digit"},
    {"1e", 0, 1, 3, "a digit of the exponent"},
    {"1e+", 0, 1, 4, "a digit of the exponent"},
    {"1e999", 0, 1, 1, "too large"},
    {"[0, -1e999]", 0, 1, 5, "too large"},
    {"1,5", 0, 1, 2, "',' stands where the end of the file"},
    {"0x10", 0, 1, 2, "'x' stands where the end of the file"},
    {"NaN", 0, 1, 1, "'N' stands where a value"},
    {"Infinity", 0, 1, 1, "'I' stands where a value"},
    {"[-Infinity]", 0, 1, 3, "'I' stands where a digit"},
    {"1 2", 0, 1, 3, "'2' stands where the end of the file"},
    /* words */
    {"tru", 0, 1, 1, "'t' stands where a value"},
    {"True", 0, 1, 1, "'T' stands where a value"},
    {"nul", 0, 1, 1, "'n' stands where a value"},
    {"truex", 0, 1, 5, "'x' stands where the end of the file"},
    /* texts */
    {"\"a", 0, 1, 1, "never closed"},
    {"[\n \"a]", 0, 2, 2, "never closed"},
    {"'a'", 0, 1, 1, "''' stands where a value"},
    {"\"a\tb\"", 0, 1, 3, "control character"},
    {"\"a\nb\"", 0, 1, 3, "the line ends inside a text"},
    {"\"a\rb\"", 0, 1, 3, "the line ends inside a text"},
    {"\"\x01\"", 0, 1, 2, "control character"},
    {"\"\0\"", 3, 1, 2, "control character"},
    {"\"\\x\"", 0, 1, 2, "begins no escape"},
    {"\"\\", 0, 1, 2, "begins no escape"},
    {"\"\\u12\"", 0, 1, 2, "four hexadecimal digits"},
    {"\"\\u12G4\"", 0, 1, 2, "four hexadecimal digits"},
    {"\"\\u", 0, 1, 2, "four hexadecimal digits"},
    {"\"\\u0000\"", 0, 1, 2, "zero character"},
    {"\"\\uD800\"", 0, 1, 2, "half of a \\u pair"},
    {"\"\\uDC00\"", 0, 1, 2, "half of a \\u pair"},
    {"\"\\uD800\\u0041\"", 0, 1, 2, "half of a \\u pair"},
    {"\"\\uD800\\uD800\"", 0, 1, 2, "half of a \\u pair"},
    {"\"\\uD800\\uZZZZ\"", 0, 1, 2, "half of a \\u pair"},
    {"\"\xE9\"", 0, 1, 2, "not UTF-8"},
    {"\"\xC0\xAF\"", 0, 1, 2, "not UTF-8"},
    {"\"\xED\xA0\x80\"", 0, 1, 2, "not UTF-8"},
    {"\"\xF4\x90\x80\x80\"", 0, 1, 2, "not UTF-8"},
    {"\"\xE2\x82", 0, 1, 2, "not UTF-8"},
    {"[\xA0]", 0, 1, 2, "a byte of value 160"},
    {"[\xC2\xA0]", 0, 1, 2, "'\xC2\xA0' stands where a value"},
    {"[\f1]", 0, 1, 2, "a byte of value 12"},
    /* structure */
    {"[", 0, 1, 2, "the file ends where a value"},
    {"[1", 0, 1, 3, "the file ends where a comma or ]"},
    {"[1}", 0, 1, 3, "'}' stands where a comma or ]"},
    {"[1,]", 0, 1, 4, "another member after the comma"},
    {"[,1]", 0, 1, 2, "',' stands where a value"},
    {"[1 2]", 0, 1, 4, "'2' stands where a comma or ]"},
    {"[1] // note", 0, 1, 5, "'/' stands where the end of the file"},
    {"[1]]", 0, 1, 4, "']' stands where the end of the file"},
    {"{", 0, 1, 2, "the file ends where a key"},
    {"{a:1}", 0, 1, 2, "'a' stands where a key in \"quotes\""},
    {"{\"a\"}", 0, 1, 5, "'}' stands where a colon"},
    {"{\"a\" 1}", 0, 1, 6, "'1' stands where a colon"},
    {"{\"a\":}", 0, 1, 6, "'}' stands where a value"},
    {"{\"a\":1,}", 0, 1, 8, "another member after the comma"},
    {"{\"a\":1 \"b\":2}", 0, 1, 8, "'\"' stands where a comma or }"},
    {"{\"a\":1,\n \"a\":2}", 0, 2, 2, "\"a\" stands here again, after line 1"},
    {"{\"a\":1,\"\\u0061\":2}", 0, 1, 8, "\"a\" stands here again"},
    {"{\"a\":{\"b\":1,\"b\":1}}", 0, 1, 13, "\"b\" stands here again"},
    {"[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[", 0, 1, 65,
     "nested too deeply"},
};

static void refused(void **state) {
  (void)state;
  for (size_t i = 0; i < sizeof refusals / sizeof *refusals; i++) {
    const refusal *r = &refusals[i];
    scwi_json_file file = {.bytes = NULL};
    size_t size = r->size ? r->size : strlen(r->text);
    if (read_bytes(r->text, size, &file) != SCW_BAD_INPUT)
      fail_msg("'%s' was taken", r->text);
    const char *message = scw_context_message(context);
    if (!strstr(message, r->words) || !strstr(message, "bench.json, line "))
      fail_msg("'%s': '%s' does not say '%s'", r->text, message, r->words);
    if (scw_context_line(context) != r->line ||
        scw_context_column(context) != r->column)
      fail_msg("'%s': %s, not line %zu, column %zu", r->text, message, r->line,
               r->column);
    assert_null(file.root);
    assert_null(file.bytes);
  }
}

/* Limits that keep a hostile file from costing time or memory. */
static void limits(void **state) {
  enum { SIZE = SCWI_JSON_BYTES + 1 };
  scwi_json_file file;
  char *text = malloc(SIZE);
  (void)state;
  assert_non_null(text);
  memset(text, ' ', SIZE);
  memory_source source = {.bytes = text, .size = SIZE};
  assert_int_equal(scwi_json_read(context, memory_source_of(&source), &file),
                   SCW_BAD_INPUT);
  assert_non_null(strstr(scw_context_message(context), "16 MiB"));
  size_t at = 0;
  text[at++] = '{';
  for (int i = 0; i <= SCWI_JSON_KEYS; i++)
    at += (size_t)check_snprintf(text + at, SIZE - at, "%s\"k%d\":%d",
                                 i ? "," : "", i, i);
  text[at++] = '}';
  assert_int_equal(read_bytes(text, at, &file), SCW_BAD_INPUT);
  assert_non_null(strstr(scw_context_message(context), "more keys"));
  free(text);
}

static void reading_fails(void **state) {
  memory_source source = {.bytes = "[1", .size = 2, .error = EIO};
  scwi_json_file file;
  (void)state;
  assert_int_equal(scwi_json_read(context, memory_source_of(&source), &file),
                   SCW_BAD_INPUT);
  assert_non_null(strstr(scw_context_message(context), "Input/output error"));
}

/* The hash is of the bytes: FIPS 180-4's "abc" in quotes, by sha256sum. */
static void hash(void **state) {
  scwi_json_file file;
  (void)state;
  assert_int_equal(read_bytes("\"abc\"", 5, &file), SCW_OK);
  assert_string_equal(file.sha256, "6cc43f858fbb763301637b5af970e2a46b46f461"
                                   "f27e5a0f41e009c59b827b25");
  scwi_json_file_free(&file);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(taken),   cmocka_unit_test(byte_order_mark),
      cmocka_unit_test(places),  cmocka_unit_test(places_in_texts),
      cmocka_unit_test(refused),
      cmocka_unit_test(limits),  cmocka_unit_test(reading_fails),
      cmocka_unit_test(hash)};
  return cmocka_run_group_tests(tests, make_context, free_context);
}
