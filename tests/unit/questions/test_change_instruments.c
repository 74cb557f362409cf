/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The instruments in a change against the law of propagation on the model put
 * down twice, once for each side: what is shared is one name, what is not is
 * two. The means are inputs with the uncertainty of their readings. Their
 * uncertainty and df then come out the same on both ways. */
#include "from_text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "propagate.h"

static const char table_text[] =
    "state,pull (g)\nbefore,161.2\nbefore,148.7\nbefore,171.3\nbefore,158.1\n"
    "after,121.9\nafter,118.2\nafter,126.8\nafter,117.3\nafter,131.4\n";

typedef struct sharing {
  bool zero, span, block;
  double r; /* correlation of span and block, where they are shared alike */
} sharing;

static const char *yes(bool shared) {
  return shared ? "true" : "false";
}

static void write_bench(sharing s, char *out, size_t size) {
  char pair[120] = "";
  if (s.r != 0)
    snprintf(pair, sizeof pair,
             "\"correlations\": [{\"between\": [\"span\", \"block\"], "
             "\"coefficient\": 0.6}], ");
  snprintf(out, size,
           "{\"version\": 1, \"inputs\": [{\"name\": \"pull\", \"unit\": "
           "\"g\", \"kind\": \"readings\", \"readings\": [1, 2]}, {\"name\": "
           "\"zero\", \"kind\": \"rectangular\", \"value\": 1.5, "
           "\"half_width\": 4, \"shared\": %s}, {\"name\": \"span\", "
           "\"kind\": \"normal\", \"value\": 1.02, \"uncertainty\": 0.03, "
           "\"shared\": %s}, {\"name\": \"block\", \"kind\": \"certificate\", "
           "\"value\": 500, \"expanded\": 12, \"k\": 2, \"shared\": %s}], "
           "%s\"quantities\": [{\"name\": \"friction\", \"unit\": \"1\", "
           "\"measures\": \"friction\", \"model\": \"(pull - zero) * span / "
           "block\"}], \"scatter\": []}",
           yes(s.zero), yes(s.span), yes(s.block), pair);
}

static scw_estimate by_change(scw_context *context, sharing s,
                              scw_set_report sides[2], scw_ratio *left) {
  static const scw_settings none = {.level = 0};
  char text[2000];
  scw_settings settings = none;
  scw_bench bench;
  scw_change_result result;
  scw_settings_init(&settings);
  settings.step = (scw_step){0, SCW_STEP_GIVEN};
  write_bench(s, text, sizeof text);
  text_place place = {text};
  went_well(context, scw_bench_read(context, source_of_text(&place), &bench));
  scw_table *table = table_from(context, table_text, NULL);
  const scw_change_options options = {.instruments = &bench,
                                      .retention = true};
  went_well(context, scw_change(context, table, &settings, &options, &result));
  assert_string_equal(result.quantity->name, "friction");
  scw_estimate found = result.changes[0].change;
  *left = result.changes[0].retention;
  sides[0].summary = result.changes[0].before.summary;
  sides[1].summary = result.changes[0].after.summary;
  scw_change_result_free(&result);
  scw_table_free(table);
  scw_bench_free(&bench);
  return found;
}

/* The name of an input on a side. */
static void name_on(char *out, const char *name, bool shared, int side) {
  snprintf(out, 12, "%s%s", name, shared ? "" : side ? "_a" : "_b");
}

/* The two sides joined by a minus or by a slash. */
static void write_twice(sharing s, char joint, char *out, size_t size) {
  char zero[2][12], span[2][12], block[2][12];
  for (int side = 0; side < 2; side++) {
    name_on(zero[side], "zero", s.zero, side);
    name_on(span[side], "span", s.span, side);
    name_on(block[side], "block", s.block, side);
  }
  snprintf(out, size, "(pull_a - %s) * %s / %s %c ((pull_b - %s) * %s / %s)",
           zero[1], span[1], block[1], joint, zero[0], span[0], block[0]);
}

/* What the bench says of the input called so; the means are the table's. */
static scw_budget_given given_of(const char *name,
                                 const scw_set_report sides[2]) {
  const scw_summary *s = &sides[strstr(name, "_a") != NULL].summary;
  double factor = 1.02 / 500;
  if (name[0] == 'p')
    return (scw_budget_given){
        .name = name,
        .kind = SCW_KIND_T,
        .value = s->mean.value / factor + 1.5,
        .uncertainty = s->standard_uncertainty.value / factor,
        .df = s->df.value};
  if (name[0] == 'z')
    return (scw_budget_given){.name = name,
                              .kind = SCW_KIND_RECTANGULAR,
                              .value = 1.5,
                              .half_width = 4};
  if (name[0] == 's')
    return (scw_budget_given){.name = name,
                              .kind = SCW_KIND_NORMAL,
                              .value = 1.02,
                              .uncertainty = 0.03};
  return (scw_budget_given){.name = name,
                            .kind = SCW_KIND_CERTIFICATE,
                            .value = 500,
                            .expanded = 12,
                            .k = 2};
}

/* span with block, on the same side where there are two. */
static double correlation_of(const char *a, const char *b, double r) {
  const char *end_a = strchr(a, '_'), *end_b = strchr(b, '_');
  if (!strcmp(a, b)) return 1;
  bool both = (a[0] == 's' && b[0] == 'b') || (a[0] == 'b' && b[0] == 's');
  bool one_side =
      (!end_a && !end_b) || (end_a && end_b && !strcmp(end_a, end_b));
  return both && one_side ? r : 0;
}

static scw_budget by_propagation(scw_context *context, sharing s, char joint,
                                 const scw_set_report sides[2]) {
  char text[200];
  scwi_expression twice;
  scw_budget_given given[8];
  scwi_known_input known[8];
  double correlation[64];
  scw_budget budget;
  write_twice(s, joint, text, sizeof text);
  went_well(context, scwi_expression_parse(context, text, strlen(text), NULL, 0,
                                           &twice));
  size_t n = twice.n_inputs;
  for (size_t i = 0; i < n; i++) {
    given[i] = given_of(twice.input[i], sides);
    went_well(context, scwi_input_known(context, &given[i], &known[i]));
    for (size_t j = 0; j < n; j++)
      correlation[i * n + j] =
          correlation_of(twice.input[i], twice.input[j], s.r);
  }
  went_well(context,
            scwi_propagate(context, &twice, given, known,
                           s.r != 0 ? correlation : NULL, 0.95, &budget));
  scwi_expression_free(&twice);
  return budget;
}

/* The ratio has the same uncertainty and df, and its interval on the log scale
 * is the expanded uncertainty of the logarithm. */
static void check_left(scw_context *context, sharing s,
                       const scw_set_report sides[2], const scw_ratio *left) {
  scw_budget ratio = by_propagation(context, s, '/', sides);
  double r = ratio.estimate, wide = exp(ratio.expanded.value / r);
  check_relative(left->estimate.value, 100 * r, 1e-13);
  check_relative(left->standard_uncertainty.value,
                 100 * ratio.standard_uncertainty.value, 1e-12);
  check_relative(left->df.value, ratio.df.value, 1e-11);
  check_relative(left->delta.low, 100 * r / wide, 1e-12);
  check_relative(left->delta.high, 100 * r * wide, 1e-12);
  assert_int_equal(left->set, SCW_RATIO_BETWEEN);
  /* at an end of Fieller's interval the difference after - end * before is t
   * of its uncertainty away from 0; near the middle both intervals agree */
  double half = 100 * ratio.expanded.value;
  check_relative(left->high.value - left->low.value, 2 * half, 0.05);
  scwi_budget_free(&ratio);
}

static void model_put_down_twice(void **state) {
  (void)state;
  scw_context *context = a_context();
  static const double correlations[] = {0, 0.6};
  for (int i = 0; i < 16; i++) {
    sharing s = {i & 1, i & 2, i & 4, correlations[i >> 3]};
    if (s.r != 0 && s.span != s.block)
      continue; /* sharing is then taken away */
    scw_set_report sides[2] = {{0}, {0}};
    scw_ratio left;
    scw_estimate change = by_change(context, s, sides, &left);
    scw_budget budget = by_propagation(context, s, '-', sides);
    check_left(context, s, sides, &left);
    check_relative(change.estimate.value, budget.estimate, 1e-13);
    check_relative(change.standard_uncertainty.value,
                   budget.standard_uncertainty.value, 1e-12);
    check_relative(change.df.value, budget.df.value, 1e-11);
    check_relative(change.interval.low, budget.interval.low, 1e-11);
    check_relative(change.interval.high, budget.interval.high, 1e-11);
    scwi_budget_free(&budget);
  }
  scw_context_free(context);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(model_put_down_twice)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
