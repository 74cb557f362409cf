/* SPDX-License-Identifier: GPL-3.0-or-later */
/* quantities[]: what is taken, what is refused and where, also inside a
 * model, and how one is found. */
#include "bench_case.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "text.h"

#define INPUT(name)                                                            \
  "{\"name\": \"" name                                                         \
  "\", \"kind\": \"normal\", \"value\": 1, \"uncertainty\": 0.1}"
#define QUANTITIES(text)                                                       \
  "{\"version\": 1, \"inputs\": [" INPUT("a") ", " INPUT("b")                  \
  "], \"quantities\": [\n" text "]}"
#define Q "{\"name\": \"q\", \"unit\": \"1\", "

static void fields(void **state) {
  char *text = text_of_file("whole.json");
  scw_bench bench = bench_of(text);
  (void)state;
  assert_int_equal(bench.n_quantities, 4);
  const scw_bench_quantity *q = bench.quantity;
  assert_string_equal(q[0].name, "friction");
  assert_string_equal(q[0].about, "static coefficient");
  assert_string_equal(q[0].model, "(pull - zero) / block");
  assert_true(q[0].measures == SCW_MEASURES_FRICTION);
  assert_true(q[0].margin.state == SCW_PRESENT && q[0].margin.value == 0.02);
  assert_true(q[0].low == 0.1 && q[0].high == 0.4 &&
              q[0].conformance.state == SCW_PRESENT &&
              q[0].conformance.value == 0.95);
  assert_string_equal(q[0].geometry, "");
  assert_string_equal(q[1].geometry, "60");
  assert_string_equal(q[1].meter, "M1");
  assert_string_equal(q[1].unit, "GU");
  assert_true(q[1].measures == SCW_MEASURES_GLOSS);
  assert_true(isinf(q[1].low) && q[1].low < 0 && q[1].high == 70);
  assert_true(q[1].margin.state == SCW_NO_MARGIN);
  assert_true(q[2].measures == SCW_MEASURES_RETENTION);
  assert_true(q[2].low == 80 && isinf(q[2].high) && q[2].high > 0);
  assert_true(q[3].measures == SCW_MEASURES_OTHER);
  assert_true(q[3].conformance.state != SCW_PRESENT);
  assert_string_equal(q[3].about, "");
  assert_string_equal(q[3].meter, "");
  free(text);
  scw_bench_free(&bench);
}

static const char *const refused[][2] = {
    {"@7", "a quantity is a number here and must be an object"},
    {"@{}", "a quantity begins here and has no \"name\"; add it"},
    {"@{\"name\": \"q\"}", "has no \"unit\"; add it"},
    {"@{\"name\": \"q\", \"unit\": \"1\"}", "has no \"model\"; add it"},
    {"{@\"names\": \"q\"}", "\"names\" is no key of a quantity; its keys are "
                            "name, about, measures, unit, geometry, meter, "
                            "model, margin, limits"},
    {"{\"name\": @[]}", "name is a list in [ ] here and must be a text"},
    {"{\"name\": @\"log\"}", "no function or constant"},
    {"{\"name\": @\"a\"}", "name is that of line 1 too"},
    {Q "\"model\": \"a\"}, {\"name\": @\"q\"}", "name is that of line 2 too"},
    {Q "\"model\": @7}", "model is a number here and must be a text"},
    {Q "\"model\": @\"\"}", "model"},
    {"{\"name\": \"q\", \"unit\": @\"\", \"model\": \"a\"}", "unit"},
    {"{\"name\": \"q\", \"unit\": @1, \"model\": \"a\"}", "must be a text"},
    {Q "\"about\": @true, \"model\": \"a\"}", "must be a text"},
    {Q "\"about\": @\"x \", \"model\": \"a\"}", "readable text"},
    {Q "\"meter\": @1, \"model\": \"a\"}", "must be a text"},
    {Q "\"meter\": @\"\", \"model\": \"a\"}", "meter"},
    {Q "\"measures\": @\"shine\", \"model\": \"a\"}",
     "measures must be gloss, friction, retention or other"},
    {Q "\"measures\": @2, \"model\": \"a\"}", "must be a text"},
    {Q "\"geometry\": @\"60\", \"model\": \"a\"}",
     "it goes with \"measures\": \"gloss\""},
    {Q "\"measures\": \"friction\", \"geometry\": @\"60\", \"model\": \"a\"}",
     "it goes with \"measures\": \"gloss\""},
    {Q "\"measures\": \"gloss\", \"geometry\": @\"45\", \"model\": \"a\"}",
     "must be \"20\", \"60\" or \"85\""},
    {Q "\"measures\": \"gloss\", \"geometry\": @60, \"model\": \"a\"}",
     "must be a text"},
    {Q "\"margin\": @0, \"model\": \"a\"}", "margin must be above 0"},
    {Q "\"margin\": @-1, \"model\": \"a\"}", "margin must be above 0"},
    {Q "\"margin\": @\"1\", \"model\": \"a\"}", "must be a number"},
    {Q "\"limits\": @[0, 1], \"model\": \"a\"}", "must be an object"},
    {Q "\"limits\": {@\"least\": 0}, \"model\": \"a\"}",
     "\"least\" is no key of the limits; its keys are low, high, probability"},
    {Q "\"limits\": @{\"low\": 0}, \"model\": \"a\"}",
     "has no \"probability\""},
    {Q "\"limits\": @{\"probability\": 0.9}, \"model\": \"a\"}",
     "limits need a \"low\", a \"high\" or both"},
    {Q "\"limits\": {\"low\": @\"0\", \"probability\": 0.9}, \"model\": \"a\"}",
     "must be a number"},
    {Q "\"limits\": {\"high\": @null, \"probability\": 0.9}, "
       "\"model\": \"a\"}",
     "must be a number"},
    {Q "\"limits\": {\"low\": @1, \"high\": 1, \"probability\": 0.9}, "
       "\"model\": \"a\"}",
     "low must be below \"high\""},
    {Q "\"limits\": {\"low\": 1, \"probability\": @0.5}, \"model\": \"a\"}",
     "probability must lie between 0.5 and 1"},
    {Q "\"limits\": {\"low\": 1, \"probability\": @1}, \"model\": \"a\"}",
     "probability must lie between 0.5 and 1"},
    {Q "\"limits\": {\"low\": 1, \"probability\": @\"1\"}, \"model\": \"a\"}",
     "must be a number"},
    /* inside the model */
    {Q "\"model\": \"a @b\"}", "character 3 of `a b`"},
    {Q "\"model\": \"a * (b + @)\"}", "character 10 of `a * (b + )`"},
    {Q "\"model\": \"a * (b@\"}", "the expression ends here"},
    {Q "\"model\": \"a + @c\"}",
     "character 5 of `a + c`: no input and no quantity above is called `c`"},
    {Q "\"model\": \"@q + a\"}", "this is the quantity itself"},
    {Q "\"model\": \"a / @later\"}, {\"name\": \"later\", \"unit\": \"1\", "
       "\"model\": \"b\"}",
     "this quantity stands further down, and a model may use the quantities "
     "above it only"},
    {Q "\"model\": \"a\"}, {\"name\": \"r\", \"unit\": \"1\", \"model\": "
       "\"q * @x\"}",
     "is called `x`"},
    {Q "\"model\": \"1 @/ (2 - 2)\"}", "character 3"},
};

static void refused_at_the_key(void **state) {
  (void)state;
  for (size_t i = 0; i < sizeof refused / sizeof *refused; i++) {
    scwi_text text = {0};
    scwi_text_format(&text, QUANTITIES("%s"), refused[i][0]);
    check_refused_at(text.data, refused[i][1]);
    scwi_text_free(&text);
  }
}

/* The column in the file is that of the character, however it is written. */
static void places_behind_escapes(void **state) {
  (void)state;
  check_refused_at(QUANTITIES(Q "\"model\": \"\\u0061 \\u00d7 @c\"}"),
                   "character 5 of `a \xC3\x97 c`: no input");
  check_refused_at(QUANTITIES(Q "\"model\": \"a \xC3\x97 @c\"}"),
                   "character 5 of `a \xC3\x97 c`: no input");
  check_refused_at(QUANTITIES(Q "\"model\": \"a \\/ @\\u0063\"}"),
                   "no input");
  check_refused_at(QUANTITIES(Q "\"model\": \"a \\/@\"}"),
                   "the expression ends here");
  check_refused_at(QUANTITIES(Q "\"model\": @\"a\\n+ b\"}"),
                   "model must be readable text");
}

/* 300 terms in each of four, each on top of the one above: 900 steps at a
 * time with the numbers, and the third would have more than the 2000 there
 * may be. */
static void long_chains(void **state) {
  scwi_text text = {0};
  scw_bench bench;
  (void)state;
  scwi_text_add(&text, "{\"version\": 1, \"inputs\": [" INPUT("a")
                       "], \"quantities\": [\n");
  for (int q = 0; q < 4; q++) {
    scwi_text_format(&text, "{\"name\": \"q%d\", \"unit\": \"1\", \"model\": "
                            "\"%s%d", q, q ? "q" : "a * ", q ? q - 1 : 2);
    for (int i = 1; i <= 300; i++) scwi_text_format(&text, " + a / %d.%d", i, q);
    scwi_text_add(&text, q < 3 ? "\"},\n" : "\"}]}");
  }
  assert_int_equal(read_bench(text.data, &bench), SCW_BAD_INPUT);
  assert_int_equal(scw_context_line(context), 4);
  check_message("2000");
  scwi_text_free(&text);
}

static void found(void **state) {
  scw_bench bench = bench_of(QUANTITIES(
      Q "\"model\": \"a\"}, {\"name\": \"r\", \"unit\": \"1\", \"model\": "
        "\"b\"}"));
  scw_bench one = bench_of(QUANTITIES(Q "\"model\": \"a\"}")), none = {0};
  const scw_bench_quantity *quantity;
  (void)state;
  assert_int_equal(scw_bench_find_quantity(context, &bench, "r", &quantity),
                   SCW_OK);
  assert_ptr_equal(quantity, &bench.quantity[1]);
  assert_int_equal(scw_bench_find_quantity(context, &one, NULL, &quantity),
                   SCW_OK);
  assert_ptr_equal(quantity, one.quantity);
  assert_int_equal(scw_bench_find_quantity(context, &one, "", &quantity),
                   SCW_OK);
  assert_int_equal(scw_bench_find_quantity(context, &bench, "", &quantity),
                   SCW_BAD_INPUT);
  check_message("bench.json: holds several quantities, choose one of q, r");
  assert_null(quantity);
  assert_int_equal(scw_bench_find_quantity(context, &bench, "Q", &quantity),
                   SCW_BAD_INPUT);
  check_message("no quantity is called Q; it has q, r");
  assert_int_equal(scw_bench_find_quantity(context, &none, "q", &quantity),
                   SCW_BAD_INPUT);
  check_message("the bench: holds no quantities");
  scw_bench_free(&bench);
  scw_bench_free(&one);
}

static void words(void **state) {
  (void)state;
  assert_string_equal(scw_measures_code(SCW_MEASURES_GLOSS), "gloss");
  assert_string_equal(scw_measures_code(SCW_MEASURES_OTHER), "other");
  assert_string_equal(scw_measures_text(SCW_MEASURES_OTHER), "something else");
  assert_string_equal(scw_measures_text(SCW_MEASURES_END), "unknown");
  assert_string_equal(scw_measures_code((scw_measures)-1), "unknown");
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(fields),      cmocka_unit_test(refused_at_the_key),
      cmocka_unit_test(places_behind_escapes), cmocka_unit_test(long_chains),
      cmocka_unit_test(found),       cmocka_unit_test(words)};
  return cmocka_run_group_tests(tests, make_context, free_context);
}
