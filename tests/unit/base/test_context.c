/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The context, its message and place; codes and their texts; memory. */
#include "check.h"

#include <stdlib.h>
#include <string.h>

#include "memory.h"
#include "scatterwise/figures.h"
#include "scatterwise/version.h"

static int with_context(void **state) {
  return scw_context_new((scw_context **)state) != SCW_OK;
}

static int without(void **state) {
  scw_context_free(*state);
  return 0;
}

static void starts_silent(void **state) {
  assert_string_equal(scw_context_message(*state), "");
  assert_int_equal(scw_context_line(*state), 0);
  assert_int_equal(scw_context_column(*state), 0);
}

static void says_what_and_where(void **state) {
  scw_context *context = *state;
  assert_int_equal(scwi_fail_at(context, SCW_BAD_INPUT, "hull.csv", 7, 3,
                                "\"%s\" is no reading", "shiny"),
                   SCW_BAD_INPUT);
  assert_string_equal(scw_context_message(context),
                      "hull.csv, line 7, column 3: \"shiny\" is no reading");
  assert_int_equal(scw_context_line(context), 7);
  assert_int_equal(scw_context_column(context), 3);
  scwi_fail_at(context, SCW_BAD_INPUT, "hull.csv", 7, 0, "short");
  assert_string_equal(scw_context_message(context), "hull.csv, line 7: short");
  scwi_fail_at(context, SCW_BAD_INPUT, "hull.csv", 0, 0, "empty");
  assert_string_equal(scw_context_message(context), "hull.csv: empty");
  scwi_fail(context, SCW_BAD_ARGUMENT, "level %d", 2);
  assert_string_equal(scw_context_message(context), "level 2");
  assert_int_equal(scw_context_line(context), 0);
}

static void long_messages_are_cut(void **state) {
  char words[3000];
  scw_context *context = *state;
  memset(words, 'w', sizeof words - 1);
  words[sizeof words - 1] = 0;
  scwi_fail_at(context, SCW_BAD_INPUT, words, 1, 1, "%s", words);
  assert_int_equal(strlen(scw_context_message(context)),
                   SCWI_MESSAGE_SIZE - 1);
  scwi_fail_at(context, SCW_BAD_INPUT, "f", 1, 1, "%s", words);
  assert_int_equal(strlen(scw_context_message(context)),
                   SCWI_MESSAGE_SIZE - 1);
}

static void threads_have_limits(void **state) {
  assert_int_equal(scw_context_set_threads(*state, 1), SCW_OK);
  assert_int_equal(scw_context_set_threads(*state, 64), SCW_OK);
  assert_int_equal(scw_context_set_threads(*state, 65), SCW_BAD_ARGUMENT);
  assert_non_null(strstr(scw_context_message(*state), "65"));
  assert_int_equal(scw_context_set_threads(*state, 0), SCW_BAD_ARGUMENT);
}

static void assert_distinct(const char *(*text)(int), int end) {
  for (int i = 0; i < end; i++) {
    assert_true(text(i) && text(i)[0]);
    for (int j = 0; j < i; j++) assert_string_not_equal(text(i), text(j));
  }
  assert_non_null(strstr(text(end), "unknown"));
  assert_non_null(strstr(text(-1), "unknown"));
}

static const char *status_text(int i) { return scw_status_text((scw_status)i); }
static const char *presence_code(int i) {
  return scw_presence_code((scw_presence)i);
}
static const char *presence_text(int i) {
  return scw_presence_text((scw_presence)i);
}

static void every_code_has_its_own_text(void **state) {
  (void)state;
  assert_distinct(status_text, SCW_STATUS_END);
  assert_distinct(presence_code, SCW_PRESENCE_END);
  assert_distinct(presence_text, SCW_PRESENCE_END);
  assert_string_equal(scw_version(), SCATTERWISE_VERSION);
}

static void memory_is_zeroed_and_checked(void **state) {
  scw_context *context = *state;
  double *numbers = NULL;
  assert_int_equal(SCWI_ALLOCATE(context, 100, &numbers), SCW_OK);
  for (int i = 0; i < 100; i++) assert_true(numbers[i] == 0);
  free(numbers);
  assert_int_equal(SCWI_ALLOCATE(context, 0, &numbers), SCW_OK);
  assert_non_null(numbers);
  free(numbers);
  assert_int_equal(SCWI_ALLOCATE(context, SIZE_MAX / 4, &numbers),
                   SCW_OUT_OF_MEMORY);
  assert_null(numbers);
  assert_non_null(strstr(scw_context_message(context), "memory"));
}

static void reserve_keeps_the_old_items(void **state) {
  int *items = NULL;
  size_t capacity = 0;
  for (int i = 0; i < 1000; i++) {
    assert_int_equal(
        SCWI_RESERVE((scw_context *)*state, (size_t)i + 1, &items, &capacity),
        SCW_OK);
    items[i] = i;
  }
  for (int i = 0; i < 1000; i++) assert_int_equal(items[i], i);
  int *before = items;
  assert_int_equal(SCWI_RESERVE((scw_context *)*state, SIZE_MAX / 2, &items,
                                &capacity),
                   SCW_OUT_OF_MEMORY);
  assert_ptr_equal(items, before);
  assert_true(capacity >= 1000 && capacity < 2000);
  free(items);
}

static void copies_text(void **state) {
  char *text = NULL;
  assert_int_equal(scwi_copy_text(*state, "panel 3", 5, &text), SCW_OK);
  assert_string_equal(text, "panel");
  free(text);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(starts_silent),
      cmocka_unit_test(says_what_and_where),
      cmocka_unit_test(long_messages_are_cut),
      cmocka_unit_test(threads_have_limits),
      cmocka_unit_test(every_code_has_its_own_text),
      cmocka_unit_test(memory_is_zeroed_and_checked),
      cmocka_unit_test(reserve_keeps_the_old_items),
      cmocka_unit_test(copies_text),
  };
  return cmocka_run_group_tests(tests, with_context, without);
}
