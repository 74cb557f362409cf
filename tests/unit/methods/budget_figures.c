/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Filter for judge_budget.py. Inputs are called x0, x1 ...; an expression is
 * the rest of its line. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "conformance.h"
#include "figures_filter.h"
#include "propagate.h"

enum { MOST = 16 };

typedef struct question {
  size_t n;
  double x[MOST];
  scwi_expression expression;
  size_t at[MOST]; /* x-index of each input of the expression */
} question;

static void take_numbers(char **rest, size_t n, double *out) {
  for (size_t i = 0; i < n; i++)
    out[i] = take_number(rest);
}

static void take_expression(scw_context *context, char *rest, question *q) {
  rest[strcspn(rest, "\n")] = 0;
  must(context, scwi_expression_parse(context, rest, strlen(rest), NULL, 0,
                                      &q->expression));
  for (size_t k = 0; k < q->expression.n_inputs; k++)
    q->at[k] = (size_t)(q->expression.input[k][1] - '0');
}

static void pick(const question *q, const double *from, double *to) {
  for (size_t k = 0; k < q->expression.n_inputs; k++)
    to[k] = from[q->at[k]];
}

/* slopes N x1.. q1.. w1.. TEXT -> value gradient hessian third */
static void answer_slopes(scw_context *context, char *rest) {
  question q = {.n = take_count(&rest)};
  double along[MOST], across[MOST], x[MOST], v[MOST], w[MOST];
  double gradient[MOST], hessian[MOST * MOST],
      out[2 + MOST + MOST * MOST] = {0};
  take_numbers(&rest, q.n, q.x);
  take_numbers(&rest, q.n, along);
  take_numbers(&rest, q.n, across);
  take_expression(context, rest, &q);
  pick(&q, q.x, x);
  pick(&q, along, v);
  pick(&q, across, w);
  size_t n = q.expression.n_inputs;
  must(context, scwi_expression_derivatives(context, &q.expression, x, out,
                                            gradient, hessian));
  for (size_t i = 0; i < n; i++) {
    out[1 + q.at[i]] = gradient[i];
    for (size_t j = 0; j < n; j++)
      out[1 + q.n + q.at[i] * q.n + q.at[j]] = hessian[i * n + j];
  }
  must(context, scwi_expression_third(context, &q.expression, x, v, w,
                                      &out[1 + q.n + q.n * q.n]));
  say(out, 2 + q.n + q.n * q.n);
  scwi_expression_free(&q.expression);
}

/* budget N LEVEL x1.. u1.. df1.. r11.. TEXT (every x occurs; df 0: infinite)
 * -> y u df k expanded part both shift, then by input: sensitivity
 * contribution share if_perfect */
static void answer_budget(scw_context *context, char *rest) {
  question q = {.n = take_count(&rest)};
  double level = take_number(&rest), u[MOST], df[MOST], r[MOST * MOST];
  double mixed[MOST * MOST], out[8 + 4 * MOST];
  scw_budget_given given[MOST] = {{0}};
  scwi_known_input known[MOST];
  scw_budget budget;
  take_numbers(&rest, q.n, q.x);
  take_numbers(&rest, q.n, u);
  take_numbers(&rest, q.n, df);
  take_numbers(&rest, q.n * q.n, r);
  take_expression(context, rest, &q);
  for (size_t i = 0; i < q.n; i++) {
    size_t a = q.at[i];
    known[i] = (scwi_known_input){
        .estimate = q.x[a], .u = u[a], .df = df[a] > 0 ? df[a] : INFINITY};
    for (size_t j = 0; j < q.n; j++)
      mixed[i * q.n + j] = r[a * q.n + q.at[j]];
  }
  must(context, scwi_propagate(context, &q.expression, given, known, mixed,
                               level, &budget));
  double head[] = {budget.estimate,
                   shown(budget.standard_uncertainty),
                   shown(budget.df),
                   shown(budget.k),
                   shown(budget.expanded),
                   shown(budget.second_order.part),
                   shown(budget.second_order.standard_uncertainty),
                   budget.second_order.shift};
  memcpy(out, head, sizeof head);
  for (size_t i = 0; i < q.n; i++) {
    const scw_budget_line *line = &budget.lines[i];
    double *to = out + 8 + 4 * q.at[i];
    to[0] = line->sensitivity;
    to[1] = line->contribution;
    to[2] = shown(line->share);
    to[3] = shown(line->if_perfect);
  }
  say(out, 8 + 4 * q.n);
  scwi_budget_free(&budget);
  scwi_expression_free(&q.expression);
}

/* matrix N r11.. -> 1 when it is taken, else 0 and what the message says the
 * smallest eigenvalue is */
static void answer_matrix(scw_context *context, char *rest) {
  static const char *const names[MOST] = {"a", "b", "c", "d", "e", "f",
                                          "g", "h", "i", "j", "k", "l",
                                          "m", "n", "o", "p"};
  size_t n = take_count(&rest);
  double r[MOST * MOST], out[2] = {1, 0};
  take_numbers(&rest, n * n, r);
  if (scwi_correlation_check(context, names, r, n) != SCW_OK) {
    static const char before[] = "smallest eigenvalue is ";
    const char *at = strstr(scw_context_message(context), before);
    out[0] = 0;
    if (!at || sscanf(at + sizeof before - 1, "%lf", &out[1]) != 1)
      out[1] = NAN;
  }
  say(out, 2);
}

/* conform y u df low high wanted (df 0, limits nan: none) */
static void answer_conform(scw_context *context, char *rest) {
  double v[6];
  scw_conformance c;
  take_numbers(&rest, 6, v);
  must(context,
       scwi_conformance(context, v[0], v[1], v[2] > 0 ? v[2] : INFINITY,
                        isnan(v[3]) ? -INFINITY : v[3],
                        isnan(v[4]) ? INFINITY : v[4], v[5], &c));
  double out[] = {shown(c.probability), shown(c.accept_low),
                  shown(c.accept_high), shown(c.guard)};
  say(out, 4);
}

int main(void) {
  static const verb verbs[] = {{"slopes", answer_slopes},
                               {"budget", answer_budget},
                               {"matrix", answer_matrix},
                               {"conform", answer_conform}};
  return answer_lines(verbs, sizeof verbs / sizeof *verbs);
}
