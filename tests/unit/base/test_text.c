/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text that grows. */
#include "check.h"

#include <stdlib.h>
#include <string.h>

#include "text.h"

static void grows_piece_by_piece(void **state) {
  scwi_text text = {0};
  (void)state;
  for (int i = 0; i < 500; i++) scwi_text_format(&text, "%d;", i);
  assert_false(text.failed);
  assert_int_equal(text.length, 10 * 2 + 90 * 3 + 400 * 4);
  assert_int_equal(strlen(text.data), text.length);
  assert_memory_equal(text.data, "0;1;2;", 6);
  scwi_text_clear(&text);
  assert_string_equal(text.data, "");
  scwi_text_add(&text, "gloss ");
  scwi_text_append(&text, "60 degrees", 2);
  scwi_text_repeat(&text, '.', 3);
  assert_string_equal(text.data, "gloss 60...");
  scwi_text_free(&text);
  assert_null(text.data);
  scwi_text_free(&text);
}

static void take_hands_over(void **state) {
  scwi_text text = {0};
  scw_context *context = NULL;
  char *taken = NULL;
  (void)state;
  assert_int_equal(scw_context_new(&context), SCW_OK);
  assert_int_equal(scwi_text_take(context, &text, &taken), SCW_OK);
  assert_string_equal(taken, "");
  free(taken);
  scwi_text_add(&text, "panel");
  assert_int_equal(scwi_text_take(context, &text, &taken), SCW_OK);
  assert_string_equal(taken, "panel");
  assert_null(text.data);
  free(taken);
  scw_context_free(context);
}

static void failure_is_remembered(void **state) {
  scwi_text text = {0};
  scw_context *context = NULL;
  char *taken = (char *)&text;
  (void)state;
  assert_int_equal(scw_context_new(&context), SCW_OK);
  scwi_text_add(&text, "kept");
  scwi_text_repeat(&text, 'x', SIZE_MAX / 2);
  scwi_text_add(&text, "ignored");
  assert_true(text.failed);
  assert_string_equal(text.data, "kept");
  assert_int_equal(scwi_text_status(context, &text), SCW_OUT_OF_MEMORY);
  assert_int_equal(scwi_text_take(context, &text, &taken), SCW_OUT_OF_MEMORY);
  assert_null(taken);
  assert_null(text.data);
  scw_context_free(context);
}

static void columns_of_utf8(void **state) {
  static const struct {
    const char *text;
    size_t columns;
  } cases[] = {{"", 0},
               {"gloss", 5},
               {"20\xC2\xB0", 3},             /* degree sign */
               {"\xE2\x88\x92" "5", 2},       /* minus sign */
               {"e\xCC\x81tat", 4},           /* combining acute accent */
               {"\xC3\xA9tat", 4},
               {"\xF0\x9F\x94\xA7", 1}};
  (void)state;
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
    assert_int_equal(
        scwi_text_columns(cases[i].text, strlen(cases[i].text)),
        cases[i].columns);
}

static void letters_without_case(void **state) {
  (void)state;
  assert_true(scwi_same_letters("READING [g]", "reading [G]", 11));
  assert_true(scwi_same_letters("Spot", "sPOTs", 4));
  assert_false(scwi_same_letters("spot", "spat", 4));
  assert_false(scwi_same_letters("@", "`", 1)); /* beside the letters */
  assert_false(scwi_same_letters("[", "{", 1));
  assert_false(scwi_same_letters("\xC4", "\xE4", 1)); /* not ASCII: as is */
  assert_true(scwi_same_letters("a", "b", 0));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(grows_piece_by_piece),
      cmocka_unit_test(take_hands_over),
      cmocka_unit_test(failure_is_remembered),
      cmocka_unit_test(columns_of_utf8),
      cmocka_unit_test(letters_without_case),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
