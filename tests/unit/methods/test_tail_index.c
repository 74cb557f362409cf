/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which moments a model has: answers known from the distributions. */
#include "budget_case.h"

#include <math.h>

#include "tail_index.h"

/* df of x, of y; others are without tails of their own. */
static double index_of_model(const char *model, double x, double y) {
  scwi_expression e = parsed(model);
  double df[CASE_INPUTS], out;
  for (size_t i = 0; i < e.n_inputs; i++)
    df[i] = e.input[i][0] == 'x' ? x : e.input[i][0] == 'y' ? y : INFINITY;
  if (scwi_tail_index(context, &e, df, &out))
    fail_msg("%s", scw_context_message(context));
  scwi_expression_free(&e);
  return out;
}

static void known(void **state) {
  static const struct {
    const char *model;
    double x, y, wanted;
  } cases[] = {
      {"x", 4, 0, 4},                 /* t: moments below its df */
      {"2 * x - 7", 4, 0, 4},
      {"x + y", 4, 9, 4},             /* the heavier tail stays */
      {"x - y", 9, 3, 3},
      {"x * y", 4, 9, 4},             /* independent factors too */
      {"x * x", 4, 0, 2},             /* F(1, df): mean above 2, SD above 4 */
      {"x^2", 4, 0, 2},
      {"x^3", 6, 0, 2},
      {"sqrt(x)", 4, 0, 8},
      {"1 / x", 4, 0, 1},             /* no mean: the density is not 0 at 0 */
      {"x^(-1)", 4, 0, 1},
      {"x^(-2)", 4, 0, 0.5},
      {"a / x", 40, 0, 1},
      {"x / a", 4, 0, 4},
      {"x / y", 4, 4, 1},             /* F-like ratio of two t */
      {"x / x", 4, 0, 0.8},           /* not known to cancel: cautious */
      {"exp(x)", 4, 0, 0},
      {"2^x", 4, 0, 0},
      {"a^2 * exp(b)", 0, 0, INFINITY},
      {"log(x)", 4, 0, INFINITY},
      {"sin(x) + atan(x)", 1, 0, INFINITY},
      {"tan(x)", 4, 0, 1},
      {"abs(x) + a", 2, 0, 2},
      {"-x", 3, 0, 3},
      {"a / b", 0, 0, INFINITY},      /* normal: its far tail is nobody's */
  };
  (void)state;
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    double got = index_of_model(cases[i].model, cases[i].x, cases[i].y);
    if (got != cases[i].wanted &&
        !(fabs(got - cases[i].wanted) <= 1e-15 * cases[i].wanted))
      fail_msg("%s: %f, not %f", cases[i].model, got, cases[i].wanted);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(known)};
  return cmocka_run_group_tests(tests, make_context, drop_context);
}
