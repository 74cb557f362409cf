/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which models are straight lines in an input: told from the tape, held
 * against exact second derivatives at scattered points, and the character at
 * which others bend. */
#include "budget_case.h"
#include "straight_line.h"

typedef struct model_case {
  const char *text;
  uint32_t bends_at; /* in x; 0: straight */
} model_case;

static const model_case cases[] = {
    {"x", 0},
    {"7 * a", 0},
    {"(x - a) * b / c", 0},
    {"-x / (a + sqrt(b)) + a ^ 2", 0},
    {"exp(a) * (x + x * b) - 3 * x", 0},
    {"a * (b - (c - x))", 0},
    {"x * x", 3},
    {"a / x", 3},
    {"a + x ^ 2", 7},
    {"2 ^ x", 3},
    {"exp(x)", 1},
    {"abs(x - a)", 1},
    {"(x + a) * (b - x)", 9},
    {"a * sin(b) + cos(a * x)", 14},
    {"x / (1 + x)", 3},
};

static const double points[][4] = {/* x, a, b, c by name */
                                   {0.3, 0.7, 0.4, 1.9},
                                   {1.7, 0.2, 2.1, 0.6},
                                   {2.9, 1.1, 0.9, 3.2}};

static double bend(const scwi_expression *e, size_t input, size_t point) {
  double x[4], gradient[4], hessian[16], value;
  for (size_t i = 0; i < e->n_inputs; i++)
    x[i] = points[point][e->input[i][0] == 'x' ? 0 : e->input[i][0] - 'a' + 1];
  assert_int_equal(
      scwi_expression_derivatives(context, e, x, &value, gradient, hessian),
      SCW_OK);
  return hessian[input * e->n_inputs + input];
}

static void against_second_derivatives(void **state) {
  (void)state;
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    scwi_expression e = parsed(cases[i].text);
    size_t x = scwi_expression_find(&e, "x");
    uint32_t place = 0;
    bool straight = scwi_straight_line(&e, x, &place);
    assert_int_equal(straight, cases[i].bends_at == 0);
    assert_int_equal(place, cases[i].bends_at);
    for (size_t p = 0; x < e.n_inputs && p < 3; p++) {
      if (straight) assert_true(bend(&e, x, p) == 0);
      /* abs has a corner and no bend beside it */
      if (!straight && cases[i].text[1] != 'b')
        assert_true(bend(&e, x, p) != 0);
    }
    scwi_expression_free(&e);
  }
}

/* Spliced in by name, a model bends where the name stands. */
static void spliced(void **state) {
  (void)state;
  scwi_expression inner = parsed("x ^ 2"), outer;
  scwi_definition above = {"square", &inner};
  const char *text = "3 + square";
  uint32_t place = 0;
  assert_int_equal(scwi_expression_parse(context, text, 10, &above, 1, &outer),
                   SCW_OK);
  assert_false(scwi_straight_line(&outer, 0, &place));
  assert_int_equal(place, 5);
  scwi_expression_free(&outer);
  scwi_expression_free(&inner);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(against_second_derivatives), cmocka_unit_test(spliced)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
