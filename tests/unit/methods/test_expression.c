/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The language of expressions: what is taken, what it is worth, where a
 * refusal points, the limits, and blocks against single values. */
#include "budget_case.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static double value_of(const char *text, const double *x) {
  scwi_expression e = parsed(text);
  double value;
  if (scwi_expression_value(context, &e, x, &value))
    fail_msg("%s", scw_context_message(context));
  scwi_expression_free(&e);
  return value;
}

static void binding_and_order(void **state) {
  static const double x[] = {3, 2, 5};
  (void)state;
  static const struct {
    const char *text;
    double wanted;
  } cases[] = {
      {"1 + 2 * 3", 7},
      {"(1 + 2) * 3", 9},
      {"10 - 4 - 3", 3},
      {"24 / 4 / 2", 3},
      {"2 ^ 3 ^ 2", 512},
      {"(2 ^ 3) ^ 2", 64},
      {"-3 ^ 2", -9},
      {"(-3) ^ 2", 9},
      {"2 ^ -1", 0.5},
      {"2 ^ -1 ^ 2", 0.5},
      {"--3", 3},
      {"+-+3", -3},
      {"2 - -3", 5},
      {"2*-3", -6},
      {"-a ^ 2", -9},
      {"a - b * c", -7},
      {"100 * a / b", 150},
      {"a / b * c", 7.5},
      {"a ^ b ^ -b", 1.3160740129524924}, /* 3^(2^-2), fourth root of 3 */
      {"1.5e2 + .5 - 2.E-1", 150.3},
      {"a\xE2\x88\x92"
       "b",
       1},
      {"a\xC3\x97"
       "b",
       6},
      {"a\xC2\xB7"
       "b",
       6},
      {"a\xC3\xB7"
       "b",
       1.5},
      {"\ta\xC2\xA0+\r\nb ", 5},
      {"e\xCC\x81t\xC3\xA9 * 0 + 1", 1}};
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
    check_relative(value_of(cases[i].text, x), cases[i].wanted, 4e-16);
}

static void functions_and_pi(void **state) {
  static const double x[] = {0.5};
  (void)state;
  static const struct {
    const char *text;
    double wanted; /* from tables, 16 digits */
  } cases[] = {{"exp(x)", 1.648721270700128},
               {"log(x)", -0.6931471805599453},
               {"log10(x)", -0.3010299956639812},
               {"sqrt(x)", 0.7071067811865475},
               {"sin(x)", 0.4794255386042030},
               {"cos(x)", 0.8775825618903728},
               {"tan(x)", 0.5463024898437905},
               {"asin(x)", 0.5235987755982989},
               {"acos(x)", 1.047197551196598},
               {"atan(x)", 0.4636476090008061},
               {"abs(-x)", 0.5},
               {"pi * x", 1.570796326794897},
               {"sin(30 * pi / 180) + 0 * x", 0.5}};
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
    check_relative(value_of(cases[i].text, x), cases[i].wanted, 5e-16);
}

static void names_are_listed_once(void **state) {
  scwi_expression e = parsed("after / before - after * block_2 + \xC2\xB5k");
  (void)state;
  static const char *const wanted[] = {"after", "before", "block_2",
                                       "\xC2\xB5k"};
  assert_int_equal(e.n_inputs, 4);
  for (size_t i = 0; i < 4; i++) {
    assert_string_equal(e.input[i], wanted[i]);
    assert_int_equal(scwi_expression_find(&e, wanted[i]), i);
  }
  assert_int_equal(scwi_expression_find(&e, "block"), 4);
  scwi_expression_free(&e);
}

static void what_can_be_a_name(void **state) {
  (void)state;
  static const char *const names[] = {"a", "pull", "x_1",
                                      "E", "logs", "H\xC3\xB6he"};
  static const char *const others[] = {"",    "1a",       "_a",           "a b",
                                       "log", "pi",       "sqrt",         "a-b",
                                       "a.b", "\xC3\x97", "a\xE2\x80\x94"};
  for (size_t i = 0; i < sizeof names / sizeof *names; i++)
    assert_true(scwi_expression_is_name(names[i], strlen(names[i])));
  for (size_t i = 0; i < sizeof others / sizeof *others; i++)
    assert_false(scwi_expression_is_name(others[i], strlen(others[i])));
}

static void refuse(const char *text, size_t length, size_t place,
                   const char *words) {
  scwi_expression e;
  assert_int_equal(scwi_expression_parse(context, text, length, NULL, 0, &e),
                   SCW_BAD_INPUT);
  if (!strstr(scw_context_message(context), words))
    fail_msg("`%s` is not in: %s", words, scw_context_message(context));
  if (place) assert_int_equal(scw_context_column(context), place);
  assert_null(e.step);
  assert_null(e.input);
  assert_null(e.text);
}

static void refusals_point_at_the_character(void **state) {
  (void)state;
  static const struct {
    const char *text;
    size_t place;
    const char *words;
  } cases[] = {
      {"", 1, "the expression ends here, where a number, a name or ("},
      {"   ", 4, "ends here"},
      {"a / / b", 5, "a number, a name or ( is expected here, not `/`"},
      {"a b", 3, "an operator (+ - * / ^) is expected here, not `b`"},
      {"2a", 2, "an operator"},
      {"1.2.3", 4, "an operator (+ - * / ^) is expected here, not `.3`"},
      {"(a", 3, "an operator (+ - * / ^) or ) "},
      {"(a b", 4, "an operator (+ - * / ^) or ) is expected here, not `b`"},
      {"a)", 2, "there is no ( for this )"},
      {"()", 2, "not `)`"},
      {"a +", 4, "ends here"},
      {"2 ^", 4, "ends here"},
      {"sqrt a", 6, "the ( of the function"},
      {"sqrt", 5, "ends here, where the ( of the function"},
      {"log()", 5, "a number, a name or ("},
      {"ln(a)", 1, "the natural logarithm is written log"},
      {"a(2)", 1, "this is no function"},
      {"pi(2)", 1, "this is no function"},
      {"a ** 2", 4, "a power is written with ^"},
      {"1,5", 2, "the decimal mark is a point"},
      {"a % b", 3, "`%` has no meaning"},
      {"a = b", 3, "`=` has no meaning"},
      {"\xC3\xA9 + \xE2\x82\xAC", 5, "`\xE2\x82\xAC` has no meaning"},
      {"\xC3\xA9\xC3\xA9 \xC3\xA9", 4, "an operator"},
      {"a \x01", 3, "a control character"},
      {"a + \xFF", 5, "not valid UTF-8"},
      {"a\xC3", 2, "not valid UTF-8"},
      {".", 1, "`.` has no meaning"},
      {"1e999", 1, "too large"},
      {"a + 1e-999", 5, "too small"},
      {"1e200 * 1e200", 7, "a number too large"},
      {"a + 1 / (2 - 2)", 7, "it divides by something that is 0"},
      {"log(-2) * a", 1, "a logarithm needs a number above 0, and this is -2"},
      {"(-8) ^ (1 / 3)", 6, "not a whole number"}};
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
    refuse(cases[i].text, strlen(cases[i].text), cases[i].place,
           cases[i].words);
  refuse("a\0b", 3, 2, "a control character");
}

/* `open` n times, `middle`, `close` n times. */
static char *nested(const char *open, size_t n, const char *middle,
                    const char *close) {
  char *text =
      calloc(1, n * (strlen(open) + strlen(close)) + strlen(middle) + 1);
  assert_non_null(text);
  for (size_t i = 0; i < n; i++)
    strcat(text, open);
  strcat(text, middle);
  for (size_t i = 0; i < n; i++)
    strcat(text, close);
  return text;
}

static void limits_of_depth_and_length(void **state) {
  static const struct {
    const char *open, *close;
  } ways[] = {{"(", ")"}, {"2^", ""}, {"-(", ")"}, {"sin(", ")"}};
  static const double x[] = {1};
  (void)state;
  for (size_t i = 0; i < sizeof ways / sizeof *ways; i++) {
    char *most =
        nested(ways[i].open, SCWI_EXPRESSION_DEPTH, "x", ways[i].close);
    char *over =
        nested(ways[i].open, SCWI_EXPRESSION_DEPTH + 1, "x", ways[i].close);
    scwi_expression e = parsed(most);
    scwi_expression_free(&e);
    refuse(over, strlen(over), 0, "inside each other too deeply");
    free(most);
    free(over);
  }
  char *signs = nested("-", 3999, "x", "");
  check_relative(value_of(signs, x), -1, 0);
  char *longer = nested("-", 4000, "x", "");
  refuse(longer, strlen(longer), 0, "an expression of 4001 bytes is too long");
  free(signs);
  free(longer);
}

static void limits_of_names_and_operations(void **state) {
  char text[1000] = "x0";
  (void)state;
  for (int i = 1; i < SCWI_EXPRESSION_INPUTS; i++)
    snprintf(text + strlen(text), 10, "+x%d", i);
  scwi_expression all = parsed(text);
  assert_int_equal(all.n_inputs, SCWI_EXPRESSION_INPUTS);
  strcat(text, "+one");
  refuse(text, strlen(text), strlen(text) - 2, "more than 64 different names");
  scwi_definition sum = {"sum", &all};
  char *sums = nested("sum*sum+", 400, "z", "");
  scwi_expression e;
  assert_int_equal(
      scwi_expression_parse(context, sums, strlen(sums), &sum, 1, &e),
      SCW_BAD_INPUT);                       /* a 65th name */
  char *many = nested("z-", 1999, "z", ""); /* 1 input, 1999 operations */
  scwi_expression_free(&all);
  all = parsed(many);
  assert_int_equal(all.n_steps, SCWI_EXPRESSION_STEPS);
  const scwi_definition longest = {"long", &all};
  assert_int_equal(scwi_expression_parse(context, "-long", 5, &longest, 1, &e),
                   SCW_BAD_INPUT);
  assert_non_null(strstr(scw_context_message(context), "too long: at most"));
  scwi_expression_free(&all);
  free(sums);
  free(many);
}

static void definitions_share_inputs(void **state) {
  scwi_expression before = parsed("gain * raw_1"), half = parsed("1 / 2");
  const scwi_definition d[] = {{"before", &before}, {"half", &half}};
  static const char text[] = "(gain * raw_2 - before) * half + 0 * before";
  static const double x[] = {1.5, 4, 3};
  double value;
  scwi_expression e;
  (void)state;
  assert_int_equal(scwi_expression_parse(context, text, strlen(text), d, 2, &e),
                   SCW_OK);
  assert_int_equal(e.n_inputs, 3); /* gain once */
  assert_string_equal(e.input[2], "raw_1");
  scwi_expression_value(context, &e, x, &value);
  check_relative(value, 0.75, 0);
  size_t products = 0; /* `before` is worked out once though used twice */
  for (size_t i = 0; i < e.n_steps; i++)
    products += e.step[i].operation == SCWI_MULTIPLY;
  assert_int_equal(products, 4);
  scwi_expression_free(&e);
  scwi_expression_free(&before);
  scwi_expression_free(&half);
}

static void no_value_in_words(void **state) {
  (void)state;
  static const struct {
    const char *text;
    double x;
    size_t place;
    const char *words;
  } cases[] = {
      {"3 * log(x - 2)", 1.5, 5,
       "a logarithm needs a number above 0, and this is -0.5"},
      {"log10(x)", 0, 1, "and this is 0"},
      {"sqrt(x)", -0.25, 1,
       "a square root needs a number of 0 or more, and this is -0.25"},
      {"1 / (x - 1)", 1, 3, "it divides by something that is 0"},
      {"asin(x)", 1.5, 1,
       "asin and acos need a number from -1 to 1, and this is 1.5"},
      {"acos(x)", -2, 1, "and this is -2"},
      {"x ^ 0.3", -1, 3,
       "not a whole number needs a base of 0 or more, and this base is -1"},
      {"x ^ -2", 0, 3, "divides by its base"},
      {"x ^ x", -2, 3, "an input in its exponent needs a base above 0"},
      {"exp(x)", 1000, 1, "too large to work with"},
      {"x * x", 1e200, 3, "too large to work with"}};
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    scwi_expression e = parsed(cases[i].text);
    double value = 7;
    assert_int_equal(scwi_expression_value(context, &e, &cases[i].x, &value),
                     SCW_NO_FIGURE);
    if (!strstr(scw_context_message(context), cases[i].words))
      fail_msg("%s", scw_context_message(context));
    assert_int_equal(scw_context_column(context), cases[i].place);
    assert_true(value == 0);
    scwi_expression_free(&e);
  }
}

/* A block must be the single values, to the last bit. */
static void check_block(const char *text, size_t n) {
  enum { INPUTS = 3 };
  static double x[INPUTS][SCWI_BLOCK], out[SCWI_BLOCK + 1];
  scwi_expression e = parsed(text);
  const double *columns[INPUTS] = {x[0], x[1], x[2]};
  double *room = calloc(scwi_expression_room(&e), sizeof *room);
  assert_non_null(room);
  for (size_t k = 0; k < INPUTS; k++)
    for (size_t i = 0; i < n; i++)
      x[k][i] = 0.3 + (double)k + 0.001 * (double)((i * 7919 + k) % 1009);
  out[n] = 4711;
  scwi_expression_block(&e, columns, n, room, out);
  assert_true(out[n] == 4711);
  for (size_t i = 0; i < n; i++) {
    double at[INPUTS] = {x[0][i], x[1][i], x[2][i]}, value;
    assert_int_equal(scwi_expression_value(context, &e, at, &value), SCW_OK);
    assert_true(out[i] == value);
  }
  for (size_t i = 0; i < e.n_steps; i++) /* no step writes over its operands */
    if (e.step[i].operation >= SCWI_ADD && i + 1 < e.n_steps)
      for (size_t k = 0; k < 2; k++) {
        const scwi_expression_step *from =
            &e.step[k ? e.step[i].b : e.step[i].a];
        assert_true(from->operation < SCWI_ADD || from->slot != e.step[i].slot);
      }
  free(room);
  scwi_expression_free(&e);
}

static void blocks_are_single_values(void **state) {
  static const char *const texts[] = {
      "100 * a / b",
      "a",
      "7",
      "a - b - c - a * b * c",
      "2 ^ a + a ^ b",
      "a ^ 2 + b ^ 3 - c ^ -1 + a ^ 0.5 - b ^ 1.7",
      "(a + b) * (a - c) / (b * c)",
      "exp(a) - log(b) + log10(c) * sqrt(a)",
      "1 - a + 2 / b - c / 3 + 4 * a",
      "sin(a) * cos(b) - tan(c / 9)",
      "abs(-a) + atan(b) - acos(a / 9) + asin(c / 9)",
      "((a - b) * (b - c) - (a + c) * (b + c)) / (a * b + c - (a + b) ^ 2)"};
  (void)state;
  for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
    check_block(texts[i], SCWI_BLOCK);
    check_block(texts[i], 1);
    check_block(texts[i], 37);
  }
}

/* Slots are used again: long sums and chains need few. */
static void slots_are_used_again(void **state) {
  (void)state;
  static const struct {
    const char *text;
    size_t most;
  } cases[] = {{"a*b + a*c + a*b + a*c + a*b + a*c + a*b + a*c", 3},
               {"sin(cos(sin(cos(sin(cos(sin(a)))))))", 2},
               {"a - b - c - a - b - c - a - b - c", 2}};
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    scwi_expression e = parsed(cases[i].text);
    assert_in_range(e.n_slots, 1, cases[i].most);
    assert_int_equal(scwi_expression_room(&e) % SCWI_BLOCK, 0);
    scwi_expression_free(&e);
  }
}

static void blocks_beyond_the_domain(void **state) {
  scwi_expression e = parsed("log(a) / b");
  const double a[] = {1, -1, 0, 4}, b[] = {0, 1, 1, 2};
  const double *x[] = {a, b};
  double *room = calloc(scwi_expression_room(&e), sizeof *room), out[4];
  (void)state;
  assert_non_null(room);
  scwi_expression_block(&e, x, 4, room, out);
  assert_true(isnan(out[0]) && isnan(out[1]) && isinf(out[2]));
  check_relative(out[3], log(2), 1e-15);
  free(room);
  scwi_expression_free(&e);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(binding_and_order),
      cmocka_unit_test(functions_and_pi),
      cmocka_unit_test(names_are_listed_once),
      cmocka_unit_test(what_can_be_a_name),
      cmocka_unit_test(refusals_point_at_the_character),
      cmocka_unit_test(limits_of_depth_and_length),
      cmocka_unit_test(limits_of_names_and_operations),
      cmocka_unit_test(definitions_share_inputs),
      cmocka_unit_test(no_value_in_words),
      cmocka_unit_test(blocks_are_single_values),
      cmocka_unit_test(slots_are_used_again),
      cmocka_unit_test(blocks_beyond_the_domain)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
