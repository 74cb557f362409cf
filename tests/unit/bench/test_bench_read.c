/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bench files: what is taken, what is refused and where, and that what is
 * written is read again. */
#include "bench_case.h"

#include <stdlib.h>
#include <string.h>

#define ENTRY                                                                  \
  "{\"panel_type\": \"hull white\", \"quantity\": \"gloss\", "                 \
  "\"unit\": \"GU\", \"geometry\": \"60\", \"meter\": \"M2\", \"sd\": 0.62, "  \
  "\"df\": 80, \"sets\": 20, \"date\": \"2026-03-14\"}"

static const char whole[] =
    "{\n  \"version\": 1,\n  \"scatter\": [\n"
    "    {\n      \"panel_type\": \"hull white\",\n"
    "      \"quantity\": \"gloss\",\n      \"unit\": \"GU\",\n"
    "      \"geometry\": \"60\",\n      \"meter\": \"M2\",\n"
    "      \"sd\": 0.62,\n      \"df\": 80,\n      \"sets\": 20,\n"
    "      \"date\": \"2026-03-14\"\n    },\n"
    "    {\n      \"panel_type\": \"transom \\\"b\\\" \xC3\xA9\",\n"
    "      \"quantity\": \"pull\",\n      \"unit\": \"g\",\n"
    "      \"sd\": 12.5,\n      \"df\": 33.5,\n      \"sets\": 8,\n"
    "      \"date\": \"2024-02-29\"\n    }\n  ]\n}\n";

static void every_field(void **state) {
  scw_bench bench;
  (void)state;
  assert_int_equal(read_bench(whole, &bench), SCW_OK);
  assert_string_equal(bench.name, "bench.json");
  assert_int_equal(strlen(bench.sha256), 64);
  assert_int_equal(bench.n_scatter, 2);
  const scw_bench_scatter *a = &bench.scatter[0], *b = &bench.scatter[1];
  assert_string_equal(a->panel_type, "hull white");
  assert_string_equal(a->quantity, "gloss");
  assert_string_equal(a->unit, "GU");
  assert_string_equal(a->geometry, "60");
  assert_string_equal(a->meter, "M2");
  assert_string_equal(a->date, "2026-03-14");
  assert_true(a->sd == 0.62 && a->df == 80);
  assert_int_equal(a->sets, 20);
  assert_int_equal(a->line, 4);
  assert_string_equal(b->panel_type, "transom \"b\" \xC3\xA9");
  assert_string_equal(b->geometry, "");
  assert_string_equal(b->meter, "");
  assert_true(b->df == 33.5);
  assert_int_equal(b->line, 15);
  scw_bench_free(&bench);
}

static void same_bytes_out(void **state) {
  (void)state;
  scw_bench bench = bench_of(whole);
  char *text = written(&bench);
  assert_string_equal(text, whole);
  free(text);
  scw_bench_free(&bench);
}

static void empty_benches(void **state) {
  static const char *const texts[] = {"{\"version\": 1}",
                                      "{\"scatter\": [], \"version\": 1.0}"};
  (void)state;
  for (size_t i = 0; i < 2; i++) {
    scw_bench bench = bench_of(texts[i]);
    assert_int_equal(bench.n_scatter, 0);
    char *text = written(&bench);
    assert_string_equal(text, "{\n  \"version\": 1,\n  \"scatter\": []\n}\n");
    free(text);
    scw_bench_free(&bench);
  }
}

typedef struct refusal {
  const char *text;
  size_t line, column;
  const char *words;
} refusal;

static const refusal refusals[] = {
    {"[]", 1, 1, "a bench file is a list in [ ] here and must be an object"},
    {"{}", 1, 1, "has no \"version\""},
    {"{\"version\": \"1\"}", 1, 13, "version is a text here and must be a number"},
    {"{\"version\": 2}", 1, 13, "must be 1"},
    {"{\"version\": 1,\n \"scatters\": []}", 2, 2,
     "\"scatters\" is no key of a bench file; its keys are version, about, inputs"},
    {"{\"version\": 1, \"scatter\": {}}", 1, 27,
     "scatter is an object in { } here and must be a list in [ ]"},
    {"{\"version\": 1, \"scatter\": [\n3]}", 2, 1,
     "a scatter entry is a number here and must be an object"},
    {"{\"version\": 1, \"scatter\": [\n {}]}", 2, 2, "has no \"panel_type\""},
    {"{\"version\": 1, \"scatter\": [\n" ENTRY ",\n" ENTRY "]}", 3, 1,
     "the same panel type, quantity, unit, geometry and meter as that of line "
     "2"},
    {"{\"version\": 1,}", 1, 15, "another member after the comma"},
};

static void refused(void **state) {
  (void)state;
  for (size_t i = 0; i < sizeof refusals / sizeof *refusals; i++)
    check_refused(refusals[i].text, refusals[i].line, refusals[i].column,
                  refusals[i].words);
}

/* The good entry with `old` replaced, in a file of its own on line 2. */
static void check_entry(const char *old, const char *new, const char *words) {
  static const char entry[] = ENTRY;
  char text[1024];
  const char *at = strstr(entry, old);
  assert_non_null(at);
  check_snprintf(text, sizeof text,
                 "{\"version\": 1, \"scatter\": [\n%.*s%s%s]}",
                 (int)(at - entry), entry, new, at + strlen(old));
  check_refused(text, 2, 0, words);
}

/* Every field: missing, of another kind, and beyond what it may hold. */
static void every_field_refused(void **state) {
  static const char *const texts[][2] = {{"panel_type", "hull white"},
                                         {"quantity", "gloss"},
                                         {"unit", "GU"},
                                         {"geometry", "60"},
                                         {"meter", "M2"},
                                         {"date", "2026-03-14"}};
  char old[64], new[64], words[64];
  (void)state;
  for (size_t i = 0; i < 6; i++) {
    const char *key = texts[i][0];
    check_snprintf(old, sizeof old, "\"%s\": \"%s\"", key, texts[i][1]);
    check_snprintf(new, sizeof new, "\"%s\": 7", key);
    check_snprintf(words, sizeof words, "%s is a number here and must be a text",
                   key);
    check_entry(old, new, words);
    check_snprintf(new, sizeof new, "\"%s\": \" x\"", key);
    check_entry(old, new, "readable text without blanks");
    check_snprintf(new, sizeof new, "\"%s\": \"a\\u0007b\"", key);
    check_entry(old, new, "readable text without blanks");
    check_snprintf(new, sizeof new, "\"%s\": \"\"", key);
    check_entry(old, new, "empty");
    if (!strcmp(key, "geometry") || !strcmp(key, "meter")) continue;
    check_snprintf(new, sizeof new, "\"%s\": null", key);
    check_entry(old, new, "is null here and must be a text");
    check_snprintf(old, sizeof old, "\"%s\"", key);
    check_snprintf(new, sizeof new, "\"%s_\"", key);
    check_entry(old, new, "is no key of a scatter entry; its keys are "
                          "panel_type, quantity, unit, geometry, meter, sd, "
                          "df, sets, date");
  }
  check_entry("\"unit\": \"GU\"", "\"unit\": \"\"",
              "write \"1\" for a plain ratio");
}

static void numbers_refused(void **state) {
  (void)state;
  check_entry("\"sd\": 0.62, ", "", "has no \"sd\"");
  check_entry("0.62", "0", "sd must be a finite number larger than 0");
  check_entry("0.62", "-0.62", "sd must be a finite number larger than 0");
  check_entry("0.62", "1e-999", "sd must be a finite number larger than 0");
  check_entry("0.62", "1e999", "too large");
  check_entry("0.62", "\"0.62\"", "sd is a text here and must be a number");
  check_entry("\"df\": 80, ", "", "has no \"df\"");
  check_entry("80", "0", "df must be a number from 1");
  check_entry("80", "0.99", "df must be a number from 1");
  check_entry("80", "1e10", "df must be a number from 1");
  check_entry("\"sets\": 20, ", "", "has no \"sets\"");
  check_entry("20,", "0,", "sets must be a whole number");
  check_entry("20,", "2.5,", "sets must be a whole number");
  check_entry("20,", "1e300,", "sets must be a whole number");
  check_entry("20,", "true,", "sets is true or false here and must be a number");
}

static void days(void **state) {
  static const char *const wrong[] = {"2026-3-14",  "2026-02-29", "1900-02-29",
                                      "2026-00-10", "2026-13-01", "2026-04-31",
                                      "2026-01-00", "14.03.2026", "2026-03-14T",
                                      "20260314",   "2O26-03-14"};
  (void)state;
  for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++)
    check_entry("2026-03-14", wrong[i], "date must be a day of the calendar");
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(every_field),     cmocka_unit_test(same_bytes_out),
      cmocka_unit_test(empty_benches),   cmocka_unit_test(refused),
      cmocka_unit_test(every_field_refused), cmocka_unit_test(numbers_refused),
      cmocka_unit_test(days)};
  return cmocka_run_group_tests(tests, make_context, free_context);
}
