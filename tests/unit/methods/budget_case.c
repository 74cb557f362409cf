/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "budget_case.h"

#include <math.h>
#include <string.h>

scw_context *context;

int make_context(void **state) {
  (void)state;
  return (int)scw_context_new(&context);
}

int drop_context(void **state) {
  (void)state;
  scw_context_free(context);
  return 0;
}

static void must(scw_status status) {
  if (status) fail_msg("%s", scw_context_message(context));
}

scwi_expression parsed(const char *text) {
  scwi_expression out;
  must(scwi_expression_parse(context, text, strlen(text), NULL, 0, &out));
  return out;
}

static size_t index_of(const budget_case *c, const char *name) {
  for (size_t i = 0; i < CASE_INPUTS && c->given[i].name; i++)
    if (!strcmp(c->given[i].name, name)) return i;
  fail_msg("no input `%s` in the case", name);
  return 0;
}

static void into_order(const budget_case *c, const scwi_expression *e,
                       scw_budget *b) {
  scw_budget_line lines[CASE_INPUTS];
  memcpy(lines, b->lines, b->n_lines * sizeof *lines);
  if (b->most_help < b->n_lines)
    b->most_help = index_of(c, e->input[b->most_help]);
  for (size_t i = 0; i < b->n_lines; i++)
    b->lines[index_of(c, e->input[i])] = lines[i];
}

/* A case with everything in the order of its expression. */
typedef struct ordered {
  scwi_expression e;
  scw_budget_given given[CASE_INPUTS];
  scwi_known_input known[CASE_INPUTS];
  double r[CASE_INPUTS * CASE_INPUTS];
  const double *correlation;
  double level;
} ordered;

static void put_in_order(const budget_case *c,
                         const scwi_definition *definitions,
                         size_t n_definitions, ordered *out) {
  const char *name[CASE_INPUTS];
  size_t all = 0;
  while (all < CASE_INPUTS && c->given[all].name)
    all++;
  must(scwi_expression_parse(context, c->model, strlen(c->model), definitions,
                             n_definitions, &out->e));
  assert_int_equal(out->e.n_inputs, all);
  for (size_t i = 0; i < all; i++) {
    size_t at = index_of(c, out->e.input[i]);
    out->given[i] = c->given[at];
    name[i] = out->given[i].name;
    must(scwi_input_known(context, &out->given[i], &out->known[i]));
    for (size_t j = 0; j < all; j++)
      out->r[i * all + j] = scwi_correlation_of(
          c->correlation, all, at, index_of(c, out->e.input[j]));
  }
  must(scwi_correlation_check(context, name, out->r, all));
  out->correlation = c->correlation ? out->r : NULL;
  out->level = c->level > 0 ? c->level : 0.95;
}

static scw_budget propagated(ordered *o) {
  scw_budget out;
  must(scwi_propagate(context, &o->e, o->given, o->known, o->correlation,
                      o->level, &out));
  return out;
}

scw_budget budget_of(const budget_case *c, const scwi_definition *definitions,
                     size_t n_definitions) {
  ordered o;
  put_in_order(c, definitions, n_definitions, &o);
  scw_budget out = propagated(&o);
  into_order(c, &o.e, &out);
  scwi_expression_free(&o.e);
  return out;
}

scw_monte_carlo trials_of(const budget_case *c,
                          const scw_trials_options *options) {
  ordered o;
  scw_monte_carlo out;
  put_in_order(c, NULL, 0, &o);
  scw_budget law = propagated(&o);
  must(scwi_monte_carlo(context, &o.e, o.given, o.known, o.correlation, o.level,
                        options, &law, &out));
  scwi_budget_free(&law);
  scwi_expression_free(&o.e);
  return out;
}

static double last_digit(const char *text) {
  const char *point = strchr(text, '.');
  return point ? pow(10, -(double)strlen(point + 1)) : 1;
}

void check_published(const char *example, const char *item, double got) {
  check_table t = check_table_read(REFERENCE_DATA "/budgets/published.csv");
  bool found = false;
  for (size_t i = 0; i < t.rows; i++) {
    if (strcmp(check_table_text(&t, i, "example"), example) != 0 ||
        strcmp(check_table_text(&t, i, "item"), item) != 0)
      continue;
    double wanted = check_table_number(&t, i, "published");
    double unit = last_digit(check_table_text(&t, i, "published"));
    found = true;
    if (!strcmp(check_table_text(&t, i, "how"), "truncated"))
      check_absolute(got - copysign(unit / 2, wanted), wanted,
                     unit / 2 * (1 + 1e-9));
    else
      check_absolute(got, wanted, unit / 2 * (1 + 1e-9));
  }
  if (!found) fail_msg("no figure `%s` of %s", item, example);
  check_table_free(&t);
}
