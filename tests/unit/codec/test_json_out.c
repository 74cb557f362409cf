/* SPDX-License-Identifier: GPL-3.0-or-later */
/* JSON out: what is written, read back with the C library's strtod as judge
 * of numbers and cJSON's own parser as judge of the syntax. */
#include "check.h"

#include <cjson/cJSON.h>
#include <float.h>
#include <limits.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "full_sink.h"
#include "json_out.h"

/* The value as text; freed by the caller. */
static char *written(scwi_json *value) {
  full_sink sink = {.most = SIZE_MAX};
  scw_context *context;
  assert_int_equal(scwi_context_make(&context), SCW_OK);
  assert_int_equal(scwi_json_write(context, value, full_sink_of(&sink)),
                   SCW_OK);
  scw_context_free(context);
  assert_non_null(sink.text.data);
  return sink.text.data;
}

static void check_written(scwi_json *value, const char *wanted) {
  char *got = written(value);
  assert_string_equal(got, wanted);
  free(got);
}

static void values_of_every_kind(void **state) {
  scwi_json *object = scwi_json_object(), *array = scwi_json_array();
  (void)state;
  scwi_json_text(object, "label", "K1 / hull 3");
  scwi_json_text(object, "nothing", NULL);
  scwi_json_number(object, "mean", 87.4);
  scwi_json_whole(object, "bytes", ULLONG_MAX);
  scwi_json_bool(object, "yes", true);
  scwi_json_bool(object, "no", false);
  scwi_json_null(object, "gone");
  scwi_json_add(object, "list", array);
  scwi_json_number(array, NULL, -0.0); /* a child may be filled when added */
  scwi_json_text(array, NULL, "x");
  scwi_json_add(array, NULL, scwi_json_object());
  check_written(object,
                "{\"label\":\"K1 / hull 3\",\"nothing\":null,\"mean\":87.4,"
                "\"bytes\":18446744073709551615,\"yes\":true,\"no\":false,"
                "\"gone\":null,\"list\":[0,\"x\",{}]}");
}

static void figures_and_what_is_missing(void **state) {
  scwi_json *object = scwi_json_object();
  (void)state;
  scwi_json_figure(object, "mean", (scw_figure){87.4, SCW_PRESENT});
  scwi_json_figure(object, "sd", (scw_figure){NAN, SCW_ONE_READING});
  scwi_json_figure(object, "df", (scw_figure){0, SCW_NO_SCATTER});
  scwi_json_whole(object, "n", 1);
  check_written(object, "{\"mean\":87.4,\"sd\":null,\"df\":null,\"n\":1,"
                        "\"missing\":{\"sd\":\"one_reading\","
                        "\"df\":\"no_scatter\"}}");
}

static void intervals(void **state) {
  scwi_json *object = scwi_json_object();
  (void)state;
  scwi_json_interval(object, "interval",
                     (scw_interval){86.5, 88.25, 0.95, SCW_PRESENT});
  scwi_json_interval(object, "sd_interval",
                     (scw_interval){NAN, NAN, 0.9, SCW_ONE_READING});
  check_written(object,
                "{\"interval\":{\"level\":0.95,\"low\":86.5,\"high\":88.25},"
                "\"sd_interval\":{\"level\":0.9,\"low\":null,\"high\":null,"
                "\"missing\":{\"low\":\"one_reading\","
                "\"high\":\"one_reading\"}}}");
}

static void text_is_always_utf_8(void **state) {
  scwi_json *array = scwi_json_array();
  (void)state;
  scwi_json_text(array, NULL, "\xC3\xA4\xE2\x82\xAC\xF0\x9F\x9A\xA2");
  scwi_json_text(array, NULL, "a\xE4z\xC3");
  scwi_json_text(array, NULL, "\xED\xA0\x80");
  scwi_json_text(array, NULL, "\"\\/\b\f\n\r\t\x01");
  scwi_json_text(array, NULL, "");
  check_written(array,
                "[\"\xC3\xA4\xE2\x82\xAC\xF0\x9F\x9A\xA2\","
                "\"a\xEF\xBF\xBDz\xEF\xBF\xBD\","
                "\"\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD\","
                "\"\\\"\\\\/\\b\\f\\n\\r\\t\\u0001\",\"\"]");
}

static double random_double(unsigned long long *random) {
  double value;
  do {
    *random ^= *random << 13;
    *random ^= *random >> 7;
    *random ^= *random << 17;
    memcpy(&value, random, sizeof value);
  } while (!isfinite(value));
  return value;
}

static void check_round_trip(double value) {
  scwi_json *array = scwi_json_array();
  scwi_json_number(array, NULL, value);
  char *text = written(array);
  if (check_strtod(text + 1) != value) fail_msg("%.17g wrote %s", value, text);
  cJSON *read = cJSON_Parse(text); /* and the grammar is JSON's */
  assert_non_null(read);
  assert_true(cJSON_IsNumber(read->child));
  cJSON_Delete(read);
  free(text);
}

static void numbers_read_back_as_they_were(void **state) {
  static const double hard[] = {0.1,     1 / 3.0,  1 + DBL_EPSILON, DBL_MAX,
                                DBL_MIN, 5e-324,   -123456789.25,   1e23,
                                1e15,    1e17 + 4, 9007199254740993.0};
  unsigned long long random = 20260402;
  (void)state;
  for (size_t i = 0; i < sizeof hard / sizeof *hard; i++)
    check_round_trip(hard[i]);
  for (unsigned i = 0; i < 5000 * check_multiplier(); i++)
    check_round_trip(random_double(&random));
}

static void numbers_that_are_none_are_null(void **state) {
  scwi_json *array = scwi_json_array();
  (void)state;
  scwi_json_number(array, NULL, NAN);
  scwi_json_number(array, NULL, INFINITY);
  scwi_json_number(array, NULL, -INFINITY);
  check_written(array, "[null,null,null]");
}

static void a_failure_anywhere_is_told_at_the_end(void **state) {
  full_sink sink = {.most = SIZE_MAX};
  scw_context *context;
  scwi_json *object = scwi_json_object(), *array = scwi_json_array();
  (void)state;
  assert_int_equal(scwi_context_make(&context), SCW_OK);
  scwi_json_add(object, "list", array);
  scwi_json_add(array, NULL, NULL); /* as after a failed allocation */
  scwi_json_number(object, "n", 1);
  assert_int_equal(scwi_json_write(context, object, full_sink_of(&sink)),
                   SCW_OUT_OF_MEMORY);
  assert_int_equal(scwi_json_write(context, NULL, full_sink_of(&sink)),
                   SCW_OUT_OF_MEMORY);
  assert_int_equal(sink.text.length, 0);
  scwi_json_number(NULL, "n", 1); /* ignored, as documented */
  scwi_json_figure(NULL, "n", (scw_figure){0, SCW_TOO_FEW});
  scwi_json_add(NULL, "n", scwi_json_object());
  scw_context_free(context);
}

static void a_sink_that_refuses(void **state) {
  scw_context *context;
  size_t most = 0;
  scw_status status = SCW_NOT_WRITTEN;
  (void)state;
  assert_int_equal(scwi_context_make(&context), SCW_OK);
  for (; status == SCW_NOT_WRITTEN; most++) {
    full_sink sink = {.most = most};
    scwi_json *object = scwi_json_object();
    scwi_json_figure(object, "sd", (scw_figure){0, SCW_ONE_READING});
    status = scwi_json_write(context, object, full_sink_of(&sink));
    scwi_text_free(&sink.text);
  }
  assert_int_equal(status, SCW_OK);
  assert_int_equal(most - 1, strlen("{\"sd\":null,\"missing\":{\"sd\":"
                                    "\"one_reading\"}}"));
  scw_context_free(context);
}

/* The same object through both writers. */
static void check_flat(const char *label, unsigned long long n,
                       scw_figure mean, scw_interval interval) {
  scwi_json *object = scwi_json_object();
  scwi_json_flat flat = {0};
  scwi_json_text(object, "label", label);
  scwi_json_figure(object, "mean", mean);
  scwi_json_interval(object, "interval", interval);
  scwi_json_whole(object, "n", n);
  scwi_json_figure(object, "sd", (scw_figure){mean.value, interval.state});
  scwi_json_flat_open(&flat);
  scwi_json_flat_text(&flat, "label", label);
  scwi_json_flat_figure(&flat, "mean", mean);
  scwi_json_flat_interval(&flat, "interval", interval);
  scwi_json_flat_whole(&flat, "n", n);
  scwi_json_flat_figure(&flat, "sd", (scw_figure){mean.value, interval.state});
  scwi_json_flat_close(&flat);
  assert_false(flat.text.failed);
  check_written(object, flat.text.data);
  scwi_json_flat_free(&flat);
}

static void flat_objects_are_the_same_bytes(void **state) {
  static const char *const labels[] = {
      "K1",   "",      NULL,           "a\"b\\c/", "tab\there",
      "\x7F", "a\xE4z", "\xC3\xA4 60\xC2\xB0", "line\r\nend", "\x01\x1F"};
  static const scw_presence states[] = {SCW_PRESENT, SCW_ONE_READING,
                                        SCW_NO_SCATTER, SCW_PRESENT};
  unsigned long long random = 20260405;
  (void)state;
  for (unsigned i = 0; i < 2000; i++) {
    double value = random_double(&random), other = random_double(&random);
    scw_figure mean = {value, states[i % 4]};
    scw_interval interval = {value, other, 0.95, states[i / 4 % 4]};
    check_flat(labels[i % 10], i % 7 ? random : ULLONG_MAX, mean, interval);
  }
}

static void flat_objects_follow_each_other(void **state) {
  scwi_json_flat flat = {0};
  (void)state;
  scwi_json_flat_open(&flat);
  scwi_json_flat_figure(&flat, "sd", (scw_figure){0, SCW_ONE_READING});
  scwi_json_flat_close(&flat);
  scwi_json_flat_open(&flat);
  scwi_json_flat_close(&flat);
  assert_string_equal(flat.text.data,
                      "{\"sd\":null,\"missing\":{\"sd\":\"one_reading\"}}{}");
  scwi_json_flat_free(&flat);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(values_of_every_kind),
      cmocka_unit_test(figures_and_what_is_missing),
      cmocka_unit_test(intervals),
      cmocka_unit_test(text_is_always_utf_8),
      cmocka_unit_test(numbers_read_back_as_they_were),
      cmocka_unit_test(numbers_that_are_none_are_null),
      cmocka_unit_test(a_failure_anywhere_is_told_at_the_end),
      cmocka_unit_test(a_sink_that_refuses),
      cmocka_unit_test(flat_objects_are_the_same_bytes),
      cmocka_unit_test(flat_objects_follow_each_other),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
