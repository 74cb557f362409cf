/* SPDX-License-Identifier: GPL-3.0-or-later */
/* inputs[] and correlations[]: what is taken, what is refused and where. */
#include "bench_case.h"

#include <stdlib.h>
#include <string.h>

#include "text.h"

/* Every kind, every key, every way to give readings, written as the program
 * writes it. */
static void whole_file_comes_back(void **state) {
  char *text = text_of_file("whole.json");
  scw_bench bench = bench_of(text);
  char *again = written(&bench);
  (void)state;
  assert_string_equal(again, text);
  free(again);
  free(text);
  scw_bench_free(&bench);
}

/* The file's input of that name. */
static scw_bench_input input_of(const scw_bench *bench, const char *name) {
  for (size_t i = 0; i < bench->n_inputs; i++)
    if (!strcmp(bench->input[i].given.name, name)) return bench->input[i];
  fail_msg("no input %s", name);
  return (scw_bench_input){0};
}

static void fields(void **state) {
  char *text = text_of_file("whole.json");
  scw_bench bench = bench_of(text);
  (void)state;
  assert_string_equal(bench.about,
                      "friction rig and gloss meter of the shed, \"M1\" and M2");
  assert_int_equal(bench.n_inputs, 15);
  scw_bench_input pull = input_of(&bench, "pull");
  assert_string_equal(pull.about, "peak of each pull");
  assert_string_equal(pull.unit, "g");
  assert_true(pull.shared == SCW_NOT_SHARED && pull.n_readings == 3);
  assert_true(pull.readings[1] == 150.5 && pull.decimals == 1);
  assert_int_equal(pull.line, 5);
  scw_bench_input later = input_of(&bench, "pull_later");
  assert_string_equal(later.file, "pulls.csv");
  assert_string_equal(later.column, "pull [g]");
  assert_true(later.given.n == 0 && later.given.step.size == 10 &&
              later.given.step.origin == SCW_STEP_GIVEN);
  assert_true(later.shared == SCW_SHARED_NOT_SAID);
  scw_bench_input told = input_of(&bench, "pull_told");
  assert_true(told.given.n == 5 && told.given.value == 158 &&
              told.given.sd == 8.4 && !told.readings);
  scw_bench_input zero = input_of(&bench, "zero");
  assert_true(zero.given.kind == SCW_KIND_RECTANGULAR &&
              zero.given.half_width == 2 && zero.given.unreliability == 0.25 &&
              zero.shared == SCW_SHARED);
  scw_bench_input tile = input_of(&bench, "tile");
  assert_true(tile.given.expanded == 0.8 && tile.given.level == 0.95 &&
              tile.given.df == 18 && tile.given.k == 0);
  assert_true(input_of(&bench, "span").given.relative);
  assert_true(input_of(&bench, "drift").given.top == 0.5);
  assert_true(input_of(&bench, "warm_up").given.limit_half_width == 0.1);
  assert_true(input_of(&bench, "gr\xC3\xB6\xC3\x9F"
                               "e").given.kind == SCW_KIND_EXACT);
  assert_int_equal(bench.n_correlations, 2);
  assert_true(bench.correlation[1].a == 6 && bench.correlation[1].b == 8 &&
              bench.correlation[1].coefficient == 1);
  free(text);
  scw_bench_free(&bench);
}

#define INPUTS(text) "{\"version\": 1, \"inputs\": [\n" text "]}"

/* JCGM 100, 4.2: mean and SD, here by hand; the step by the digits written. */
static void readings_worked_out(void **state) {
  scw_bench bench = bench_of(INPUTS(
      "{\"name\": \"a\", \"kind\": \"readings\", \"readings\": [160, 150, 170]},"
      "{\"name\": \"b\", \"kind\": \"readings\", \"readings\": [82, 82.00, 82]},"
      "{\"name\": \"c\", \"kind\": \"readings\", \"readings\": [1e20, 3e20]},"
      "{\"name\": \"d\", \"kind\": \"readings\", \"readings\": "
      "[0.00000000000000000010, 2]},"
      "{\"name\": \"e\", \"kind\": \"readings\", \"readings\": [1, 2], "
      "\"step\": 0}"));
  const scw_bench_input *in = bench.input;
  (void)state;
  assert_true(in[0].given.n == 3 && in[0].given.value == 160 &&
              in[0].given.sd == 10);
  assert_true(in[0].given.step.size == 10 &&
              in[0].given.step.origin == SCW_STEP_INFERRED);
  assert_true(in[1].given.sd == 0 && in[1].given.step.size == 0.01 &&
              in[1].given.step.origin == SCW_STEP_ASSUMED);
  check_relative(in[2].given.value, 2e20, 1e-15);
  assert_int_equal(in[3].decimals, 17);
  assert_true(in[4].given.step.origin == SCW_STEP_GIVEN);
  char *text = written(&bench);
  assert_non_null(strstr(text, "[160, 150, 170]"));
  assert_non_null(strstr(text, "[82.00, 82.00, 82.00]"));
  assert_non_null(strstr(text, "e+20, 3e+20]"));
  scw_bench again = bench_of(text);
  char *twice = written(&again);
  assert_string_equal(twice, text);
  assert_true(again.input[1].given.step.size == 0.01);
  free(twice);
  free(text);
  scw_bench_free(&again);
  scw_bench_free(&bench);
}

/* A good input of each kind, and which of the keys below it has a use for. */
enum { USES = 14 };
static const char *const keys[USES] = {
    "n",          "sd",  "step",             "readings", "file",
    "column",     "df",  "half_width",       "top",      "uncertainty",
    "limit_half_width", "expanded", "unreliability", "relative"};
static const struct {
  const char *members, *uses; /* one + for each key it takes */
} kinds[] = {
    {"\"readings\", \"readings\": [1, 2]", "++++++--------"},
    {"\"normal\", \"value\": 1, \"uncertainty\": 1", "---------+--++"},
    {"\"t\", \"value\": 1, \"uncertainty\": 1, \"df\": 3", "------+--+---+"},
    {"\"rectangular\", \"value\": 1, \"half_width\": 1", "-------+----++"},
    {"\"triangular\", \"value\": 1, \"half_width\": 1", "-------+----++"},
    {"\"trapezoidal\", \"value\": 1, \"half_width\": 1", "-------++---++"},
    {"\"uncertain_limits\", \"value\": 1, \"half_width\": 1, "
     "\"limit_half_width\": 0.1",
     "-------+--+-++"},
    {"\"arcsine\", \"value\": 1, \"half_width\": 1", "-------+----++"},
    {"\"certificate\", \"value\": 1, \"expanded\": 1, \"k\": 2",
     "------+----+++"},
    {"\"exact\", \"value\": 1", "--------------"}};

static void each_kind_has_its_keys(void **state) {
  (void)state;
  assert_int_equal(sizeof kinds / sizeof *kinds, SCW_KIND_END);
  for (size_t k = 0; k < SCW_KIND_END; k++) {
    scwi_text text = {0};
    scwi_text_format(&text, INPUTS("{\"name\": \"a\", \"kind\": %s}"),
                     kinds[k].members);
    scw_bench bench = bench_of(text.data);
    assert_int_equal(bench.input[0].given.kind, k);
    scw_bench_free(&bench);
    for (size_t i = 0; i < USES; i++) {
      char quoted[64], words[128];
      check_snprintf(quoted, sizeof quoted, "\"%s\": ", keys[i]);
      if (kinds[k].uses[i] == '+' || strstr(kinds[k].members, quoted)) continue;
      scwi_text_clear(&text);
      scwi_text_format(&text, INPUTS("{\"name\": \"a\", \"kind\": %s, %s@7}"),
                       kinds[k].members, quoted);
      check_snprintf(words, sizeof words,
                     "%s is of no use to an input of kind %s; it takes value",
                     keys[i], scw_budget_kind_code((scw_budget_kind)k));
      check_refused_at(text.data, words);
    }
    scwi_text_free(&text);
  }
  check_refused_at(INPUTS("{\"name\": \"a\", \"kind\": \"t\", \"k\": @2}"),
                   "it takes value, relative, uncertainty, df");
}

#define A "{\"name\": \"a\", "
#define NORMAL "\"kind\": \"normal\", \"value\": 1, \"uncertainty\": 1"
#define READINGS "\"kind\": \"readings\", "

static const char *const refused[][2] = {
    {"@7", "an input is a number here and must be an object"},
    {"@{}", "an input begins here and has no \"name\"; add it"},
    {"@{\"name\": \"a\"}", "has no \"kind\"; add it"},
    {A "@\"mass\": 1}", "\"mass\" is no key of an input; its keys are name"},
    {"{\"name\": @7}", "name is a number here and must be a text"},
    {"{\"name\": @\"\"}", "name"},
    {"{\"name\": @\"2a\", " NORMAL "}", "name must be a letter"},
    {"{\"name\": @\"a b\", " NORMAL "}", "name must be a letter"},
    {"{\"name\": @\"exp\", " NORMAL "}", "no function or constant"},
    {"{\"name\": @\"pi\", " NORMAL "}", "no function or constant"},
    {A NORMAL "},\n{\"name\": @\"a\", " NORMAL "}",
     "name is that of line 2 too"},
    {A "\"kind\": @\"gauss\"}",
     "kind must be one of readings, normal, t, rectangular"},
    {A "\"kind\": @3}", "kind is a number here and must be a text"},
    {A NORMAL ", \"about\": @\" x\"}", "about must be readable text"},
    {A NORMAL ", \"unit\": @\"\"}", "unit"},
    {A NORMAL ", \"unit\": @null}", "unit is null here and must be a text"},
    {A NORMAL ", \"relative\": @1}", "must be true or false"},
    {A NORMAL ", \"shared\": @\"yes\"}", "must be true or false"},
    {"@" A "\"kind\": \"normal\", \"uncertainty\": 1}", "has no \"value\""},
    {A "\"kind\": \"exact\", \"value\": @\"1\"}", "must be a number"},
    {"@" A "\"kind\": \"normal\", \"value\": 1}",
     "an input known as normal needs `uncertainty`"},
    {A "\"kind\": \"normal\", \"value\": 1, \"uncertainty\": @0}",
     "uncertainty must be above 0"},
    {A "\"kind\": \"normal\", \"value\": 1, \"uncertainty\": @-1}",
     "uncertainty must not be below 0"},
    {A "\"kind\": \"normal\", \"value\": 0, \"uncertainty\": 1, "
       "\"relative\": @true}",
     "a relative uncertainty of a value of 0 says nothing"},
    {A NORMAL ", \"unreliability\": @1.5}",
     "`unreliability` is 1.5; it must be at most 1"},
    {A NORMAL ", \"unreliability\": @0.00001}", "at least 0.0001"},
    {"@" A "\"kind\": \"t\", \"value\": 1, \"uncertainty\": 1}",
     "needs `df`"},
    {A "\"kind\": \"t\", \"value\": 1, \"uncertainty\": 1, \"df\": @0.4}",
     "`df` is 0.4; it must be at least 0.5"},
    {A "\"kind\": \"trapezoidal\", \"value\": 1, \"half_width\": 1, "
       "\"top\": @1.01}",
     "`top` is 1.01; it must be at most 1"},
    {A "\"kind\": \"uncertain_limits\", \"value\": 1, \"half_width\": 1, "
       "\"limit_half_width\": @1}",
     "`limit_half_width` must be less than `half_width`"},
    {A "\"kind\": \"certificate\", \"value\": 1, \"expanded\": @1}",
     "give `k`, or the `level`"},
    {A "\"kind\": \"certificate\", \"value\": 1, \"expanded\": 1, "
       "\"level\": @1}",
     "`level` is 1; it must be at most 0.999999"},
    {A "\"kind\": \"certificate\", \"value\": 1, \"expanded\": 1, \"k\": 2, "
       "\"df\": 5, \"unreliability\": @0.1}",
     "say the same thing"},
    {"@" A "\"kind\": \"normal\", \"value\": 1e300, \"uncertainty\": 1e300, "
          "\"relative\": true}",
     "its uncertainty is beyond what can be worked with"},
    {A "\"kind\": @\"readings\"}", "readings needs one of these and no more"},
    {A "\"kind\": @\"readings\", \"readings\": [1, 2], \"n\": 2, \"value\": 1, "
       "\"sd\": 1}",
     "readings needs one of these"},
    {A "\"kind\": @\"readings\", \"readings\": [1, 2], \"file\": \"x.csv\"}",
     "readings needs one of these"},
    {A "\"kind\": @\"readings\", \"file\": \"x.csv\", \"value\": 2}",
     "readings needs one of these"},
    {A READINGS "\"readings\": [1, 2], \"column\": @\"pull\"}",
     "name the file too"},
    {A READINGS "\"readings\": @[1]}", "must be a list of 2 to 100000 numbers"},
    {A READINGS "\"readings\": [1, @\"2\"]}",
     "a text stands here, and a reading must be a number"},
    {A READINGS "\"readings\": @{}}", "must be a list"},
    {A READINGS "\"readings\": @[160, 160]}",
     "its readings are all the same, which does not make it exact"},
    {A READINGS "\"readings\": [1, 2], \"step\": @-1}", "step must be 0"},
    {A READINGS "\"readings\": [1, 2], \"step\": @true}", "must be a number"},
    {A READINGS "\"readings\": @[82, 82], \"step\": 0}", "all the same"},
    {A READINGS "\"n\": 3, \"value\": 1, \"sd\": @0}", "all the same"},
    {"@" A READINGS "\"n\": 3, \"value\": 1}", "has no \"sd\""},
    {"@" A READINGS "\"n\": 3, \"sd\": 1}", "has no \"value\""},
    {"@" A READINGS "\"value\": 3, \"sd\": 1}", "has no \"n\""},
    {A READINGS "\"n\": @1, \"value\": 1, \"sd\": 1}",
     "n must be a whole number of readings, 2 or more"},
    {A READINGS "\"n\": @2.5, \"value\": 1, \"sd\": 1}", "n must be a whole"},
    {A READINGS "\"n\": @2e9, \"value\": 1, \"sd\": 1}", "n must be a whole"},
    {A READINGS "\"n\": 3, \"value\": 1, \"sd\": @-1}", "not be below 0"},
    {A READINGS "\"file\": @7}", "file is a number here and must be a text"},
    {A READINGS "\"file\": \"x.csv\", \"column\": @\"\"}", "column"},
};

static void refused_at_the_key(void **state) {
  (void)state;
  for (size_t i = 0; i < sizeof refused / sizeof *refused; i++) {
    scwi_text text = {0};
    scwi_text_format(&text, INPUTS("%s"), refused[i][0]);
    check_refused_at(text.data, refused[i][1]);
    scwi_text_free(&text);
  }
}

#define PAIRS(text)                                                            \
  "{\"version\": 1, \"inputs\": [" A NORMAL "}, {\"name\": \"b\", " NORMAL     \
  "}, {\"name\": \"c\", " NORMAL "}, {\"name\": \"d\", \"kind\": \"exact\", "  \
  "\"value\": 2}], \"correlations\": " text "}"
#define PAIR(a, b, r)                                                          \
  "{\"between\": [\"" a "\", \"" b "\"], \"coefficient\": " r "}"

static void correlations_refused(void **state) {
  static const char *const texts[][2] = {
      {PAIRS("@7"), "correlations is a number here and must be a list"},
      {PAIRS("[@7]"), "a correlation is a number here and must be an object"},
      {PAIRS("[@{}]"), "has no \"between\""},
      {PAIRS("[{@\"of\": 1}]"),
       "\"of\" is no key of a correlation; its keys are between, coefficient"},
      {PAIRS("[@{\"between\": [\"a\", \"b\"]}]"), "has no \"coefficient\""},
      {PAIRS("[{\"between\": @\"a\", \"coefficient\": 0}]"), "must be a list"},
      {PAIRS("[{\"between\": @[\"a\"], \"coefficient\": 0}]"),
       "must be two names"},
      {PAIRS("[{\"between\": @[\"a\", \"b\", \"c\"], \"coefficient\": 0}]"),
       "must be two names"},
      {PAIRS("[{\"between\": [\"a\", @7], \"coefficient\": 0}]"),
       "the name of an input must stand here, not a number"},
      {PAIRS("[{\"between\": [@\"e\", \"a\"], \"coefficient\": 0}]"),
       "no input is called \"e\""},
      {PAIRS("[{\"between\": [\"a\", @\"d\"], \"coefficient\": 0}]"),
       "\"d\" is exact"},
      {PAIRS("[{\"between\": @[\"a\", \"a\"], \"coefficient\": 1}]"),
       "must be two different inputs"},
      {PAIRS("[" PAIR("a", "b", "0.1") ", {\"between\": @[\"b\", \"a\"], "
                                       "\"coefficient\": 0.1}]"),
       "a pair that has its correlation already"},
      {PAIRS("[" PAIR("a", "b", "@1.01") "]"), "must lie from -1 to 1"},
      {PAIRS("[" PAIR("a", "b", "@-1.01") "]"), "must lie from -1 to 1"},
      {PAIRS("[" PAIR("a", "b", "@\"0\"") "]"), "must be a number"},
      /* 1 - 0.9 sqrt(2) */
      {PAIRS("@[" PAIR("a", "b", "0.9") ", " PAIR("b", "c", "0.9") "]"),
       "its smallest eigenvalue is -0.273 (look at `b` and"}};
  (void)state;
  for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
    check_refused_at(texts[i][0], texts[i][1]);
  scw_bench bench = bench_of(PAIRS("[" PAIR("c", "a", "-1") "]"));
  assert_true(bench.correlation[0].a == 0 && bench.correlation[0].b == 2);
  scw_bench_free(&bench);
}

/* n items, the item with its number in it, between two texts. */
static char *many(const char *before, const char *item, size_t n,
                  const char *after) {
  scwi_text text = {0};
  scwi_text_add(&text, before);
  for (size_t i = 0; i < n; i++) {
    const char *number = strchr(item, '#');
    scwi_text_add(&text, i ? "," : "");
    scwi_text_append(&text, item, number ? (size_t)(number - item) : strlen(item));
    if (number) scwi_text_format(&text, "%zu%s", i, number + 1);
  }
  scwi_text_add(&text, after);
  assert_false(text.failed);
  return text.data;
}

/* As many as the documents say, and not one more. */
static void sizes(void **state) {
  static const struct {
    const char *before, *item, *after;
    size_t most;
    const char *words;
  } lists[] = {
      {"{\"version\": 1, \"inputs\": [",
       "{\"name\": \"a#\", \"kind\": \"exact\", \"value\": 1}", "]}", 1000,
       "inputs must be 1000 at the most"},
      {"{\"version\": 1, \"inputs\": [" A NORMAL "}], \"quantities\": [",
       "{\"name\": \"q#\", \"unit\": \"1\", \"model\": \"a\"}", "]}", 200,
       "quantities must be 200 at the most"},
      {"{\"version\": 1, \"inputs\": [" A READINGS "\"readings\": [", "1.#",
       "]}]}", 100000, "must be a list of 2 to 100000 numbers"}};
  (void)state;
  for (size_t i = 0; i < sizeof lists / sizeof *lists; i++) {
    const char *before = lists[i].before, *after = lists[i].after;
    char *text = many(before, lists[i].item, lists[i].most, after);
    scw_bench bench = bench_of(text);
    free(text);
    scw_bench_free(&bench);
    text = many(before, lists[i].item, lists[i].most + 1, after);
    assert_int_equal(read_bench(text, &bench), SCW_BAD_INPUT);
    check_message(lists[i].words);
    free(text);
  }
}

/* A ring of inputs: 200 of them are taken, 201 are not. */
static void correlated_at_most(void **state) {
  (void)state;
  for (size_t n = 200; n <= 201; n++) {
    scwi_text text = {0};
    char *inputs = many("{\"version\": 1, \"inputs\": [",
                        "{\"name\": \"a#\", \"kind\": \"normal\", \"value\": 1, "
                        "\"uncertainty\": 1}",
                        n, "], \"correlations\": [");
    scwi_text_add(&text, inputs);
    for (size_t i = 1; i < n; i++)
      scwi_text_format(&text, "%s{\"between\": [\"a%zu\", \"a%zu\"], "
                              "\"coefficient\": 0.4}",
                       i > 1 ? "," : "", i - 1, i);
    scwi_text_add(&text, "]}");
    scw_bench bench;
    assert_int_equal(read_bench(text.data, &bench),
                     n == 200 ? SCW_OK : SCW_BAD_INPUT);
    if (n > 200) check_message("between 200 inputs at the most");
    scw_bench_free(&bench);
    scwi_text_free(&text);
    free(inputs);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(whole_file_comes_back), cmocka_unit_test(fields),
      cmocka_unit_test(readings_worked_out),
      cmocka_unit_test(each_kind_has_its_keys),
      cmocka_unit_test(refused_at_the_key),
      cmocka_unit_test(correlations_refused),  cmocka_unit_test(sizes),
      cmocka_unit_test(correlated_at_most)};
  return cmocka_run_group_tests(tests, make_context, free_context);
}
