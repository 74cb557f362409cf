/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A change judged on the scatter of a bench: each design's interval against R
 * 4.2.2 (qt, pt, pf on the terms written out beside the case; SciPy 1.10.1
 * differs from the tenth digit on, mpmath sides with R), the answer
 * that own and bank verdicts allow, and where a bank is not used or refused. */
#include "from_text.h"

#include <math.h>
#include <string.h>

static scw_bench_scatter hull = {.panel_type = "hull white",
                                 .quantity = "gloss",
                                 .unit = "GU",
                                 .geometry = "60",
                                 .sd = 0.62,
                                 .df = 80,
                                 .sets = 20,
                                 .date = "2026-03-14"};

typedef struct run {
  scw_context *context;
  scw_table *table;
  scw_bench bench;
  scw_change_result result;
} run;

static const scw_table_options at_60 = {.geometry = "60"};

/* `options` without the bench, which is one of `entry` alone. */
static run change_on(const char *text, scw_bench_scatter entry,
                     scw_change_options options) {
  run r = {.context = a_context()};
  r.table = table_from(r.context, text, &at_60);
  went_well(r.context, scw_bench_put_scatter(r.context, &r.bench, &entry));
  options.bench = &r.bench;
  went_well(r.context,
            scw_change(r.context, r.table, NULL, &options, &r.result));
  assert_non_null(r.result.scatter);
  return r;
}

static void done(run *r) {
  scw_change_result_free(&r->result);
  scw_bench_free(&r->bench);
  scw_table_free(r->table);
  scw_context_free(r->context);
}

static scw_bench_scatter with_sd(double sd) {
  scw_bench_scatter entry = hull;
  entry.sd = sd;
  return entry;
}

static const char five[] =
    "before (GU),after (GU)\n82.4,83.9\n81.7,83.0\n83.0,83.2\n82.2,84.4\n"
    "82.6,83.7\n";

/* 1.26 -+ t(0.975, 80) 0.62 sqrt(2/5); F = (0.5220.../0.62)^2. */
static void unpaired(void **state) {
  run r = change_on(five, hull, (scw_change_options){0});
  const scw_change_report *c = &r.result.changes[0];
  const scw_bank_view *b = &c->bank;
  (void)state;
  assert_int_equal(b->state, SCW_PRESENT);
  check_relative(b->change.standard_uncertainty.value, 0.39212242986087903,
                 1e-14);
  assert_true(b->change.df.value == 80);
  check_relative(b->change.interval.low, 0.47965149568045262, 1e-12);
  check_relative(b->change.interval.high, 2.0403485043195473, 1e-12);
  check_relative(b->change.p.value, 0.0018921943104428678, 1e-11);
  check_relative(b->own_sd.value, 0.5220153254455278, 1e-13);
  assert_true(b->own_df.value == 8);
  check_relative(b->f.value, 0.7088969823100943, 1e-13);
  check_relative(b->f_p.value, 0.634263485504161, 1e-11);
  assert_int_equal(c->verdict, SCW_CHANGED);
  assert_int_equal(b->verdict, SCW_CHANGED);
  assert_int_equal(b->own_verdict, SCW_CHANGED);
  assert_false(b->alone);
  assert_non_null(strstr(c->sentence, "; the scatter bank agrees (95 % "
                                      "interval 0.48 to 2.04 GU)."));
  assert_null(note_text(c->notes, c->n_notes, "unlike_the_bank"));
  done(&r);
}

/* A bank finer than the display: both sides' rounding stays. */
static void display_step(void **state) {
  run r = change_on(five, with_sd(0.02), (scw_change_options){0});
  const scw_bank_view *b = &r.result.changes[0].bank;
  (void)state;
  check_relative(b->change.standard_uncertainty.value, 0.039496835316263,
                 1e-13);
  check_relative(b->change.df.value, 7605.0000000000055, 1e-12);
  assert_non_null(note_text(r.result.changes[0].notes,
                            r.result.changes[0].n_notes, "unlike_the_bank"));
  done(&r);
}

/* Own scatter sees it, the bank does not; then the other way round. */
static void they_differ(void **state) {
  run r = change_on(five, with_sd(1.2), (scw_change_options){0});
  const scw_change_report *c = &r.result.changes[0];
  (void)state;
  assert_int_equal(c->bank.own_verdict, SCW_CHANGED);
  assert_int_equal(c->bank.verdict, SCW_CANNOT_TELL);
  assert_int_equal(c->verdict, SCW_CANNOT_TELL);
  assert_int_equal(c->settle.more.state, SCW_VIEWS_DIFFER);
  assert_non_null(strstr(c->sentence, "Cannot tell whether gloss changed"));
  assert_non_null(strstr(c->sentence, "own scatter says \"changed\" (95 % "
                                      "interval 0.50 to 2.02 GU)"));
  assert_non_null(strstr(c->sentence, "bank says \"cannot tell\" (95 %"));
  done(&r);
  r = change_on("before (GU),after (GU)\n82.4,83.2\n81.0,83.0\n83.0,82.1\n",
                with_sd(0.3), (scw_change_options){0});
  c = &r.result.changes[0];
  assert_int_equal(c->bank.own_verdict, SCW_CANNOT_TELL);
  assert_int_equal(c->bank.verdict, SCW_CHANGED);
  assert_int_equal(c->verdict, SCW_CANNOT_TELL);
  assert_int_equal(c->settle.more.state, SCW_PRESENT);
  done(&r);
}

/* One reading a side: no own verdict, the bank's answers and says so. */
static void one_reading_each(void **state) {
  run r = change_on("before (GU),after (GU)\n82.4,83.9\n", hull,
                    (scw_change_options){.margin = 0.5});
  const scw_change_report *c = &r.result.changes[0];
  (void)state;
  check_relative(c->bank.change.interval.low, -0.24491230179879642, 1e-12);
  check_relative(c->bank.change.interval.high, 3.2449123017987964, 1e-12);
  assert_true(c->bank.alone);
  assert_int_equal(c->verdict, SCW_CANNOT_TELL);
  assert_int_equal(c->bank.f.state, SCW_ONE_READING);
  assert_non_null(strstr(c->sentence, "by the scatter bank alone."));
  done(&r);
  r = change_on("before (GU),after (GU)\n82.4,85.9\n", hull,
                (scw_change_options){0});
  c = &r.result.changes[0];
  assert_int_equal(c->verdict, SCW_CHANGED);
  assert_int_equal(c->settle.more.state, SCW_SETTLED);
  assert_non_null(strstr(c->sentence, "Gloss rose by 3.50 GU"));
  done(&r);
}

/* A number of unknown readings stays conditional; the bank says up to where:
 * t(df) sqrt(0.62^2 + u_b^2) + 0.05 = 1.9, df Satterthwaite. With its number of
 * readings known it is one more side. */
static void against_a_number(void **state) {
  scw_change_options options = {.has_baseline = true,
                                .baseline = {.mean = 81.2, .step = 0.1}};
  run r = change_on("reading (GU)\n83.1\n", hull, options);
  const scw_change_report *c = &r.result.changes[0];
  (void)state;
  assert_int_equal(c->verdict, SCW_CONDITIONAL);
  check_relative(c->bank.break_even_baseline_u.value, 0.708144720125683,
                 1e-11);
  assert_true(c->bank.alone);
  assert_true(c->change.estimate.value == 1.9); /* as decimals */
  done(&r);
  options.baseline.n = 5;
  r = change_on("reading (GU)\n83.1\n83.4\n", hull, options);
  c = &r.result.changes[0];
  check_relative(c->bank.change.standard_uncertainty.value,
                 0.62 * sqrt(1.0 / 2 + 1.0 / 5), 1e-14);
  assert_int_equal(c->bank.own_verdict, SCW_CONDITIONAL);
  assert_int_equal(c->verdict, SCW_CHANGED);
  done(&r);
}

/* Treated less control, none paired: four sides, one SD. */
static void control(void **state) {
  run r = change_on(
      "product,state,gloss (GU)\nK1,before,80.1\nK1,before,80.9\n"
      "K1,after,83.0\nK1,after,83.5\nK1,after,82.7\nK0,before,80.4\n"
      "K0,before,80.0\nK0,after,80.2\nK0,after,81.1\nK0,after,80.6\n",
      hull, (scw_change_options){.control = "K0"});
  const scw_change_report *c = &r.result.changes[0];
  (void)state;
  assert_int_equal(c->design, SCW_CONTROL);
  check_relative(c->bank.change.standard_uncertainty.value,
                 0.62 * sqrt(2.0 / 2 + 2.0 / 3), 1e-14);
  assert_true(c->bank.own_df.value == 6);
  assert_true(c->bank.change.df.value == 80);
  done(&r);
}

/* Two products: the bank's verdict is read at the family's level as well. */
static void family(void **state) {
  run r = change_on(
      "product,state,gloss (GU)\nK1,before,80.1\nK1,before,80.9\n"
      "K1,after,81.2\nK1,after,81.5\nK2,before,80.4\nK2,before,80.0\n"
      "K2,after,84.2\nK2,after,85.1\n",
      hull, (scw_change_options){0});
  const scw_bank_view *b = &r.result.changes[1].bank;
  (void)state;
  assert_int_equal(b->family_interval.state, SCW_PRESENT);
  check_relative(b->family_interval.level, 0.975, 1e-15);
  /* 4.45 - t(0.9875, 80) 0.62 */
  check_relative(b->family_interval.low, 3.0336895968731428, 1e-12);
  done(&r);
}

/* From numbers: the number of readings is all a side needs. */
static void from_numbers(void **state) {
  scw_context *context = a_context();
  scw_bench bench = {0};
  scw_change_result result;
  scw_given_change given = {.before = {.mean = 82, .n = 5},
                            .after = {.mean = 83.4, .n = 5}};
  scw_change_options options = {.bench = &bench,
                                .scatter = {.geometry = "60"}};
  (void)state;
  went_well(context, scw_bench_put_scatter(context, &bench, &hull));
  went_well(context, scw_change_from_numbers(context, &given, 1, "GU", NULL,
                                             NULL, &options, &result));
  assert_int_equal(result.changes[0].verdict, SCW_CHANGED);
  check_relative(result.changes[0].bank.change.standard_uncertainty.value,
                 0.62 * sqrt(0.4), 1e-14);
  scw_change_result_free(&result);
  given.before.n = given.after.n = 0;
  went_well(context, scw_change_from_numbers(context, &given, 1, "GU", NULL,
                                             NULL, &options, &result));
  assert_int_equal(result.changes[0].bank.state, SCW_BARE_NUMBER);
  scw_change_result_free(&result);
  scw_bench_free(&bench);
  scw_context_free(context);
}

static void check_not_used(const char *text, scw_change_options options,
                           scw_presence why) {
  run r = change_on(text, hull, options);
  const scw_change_report *c = &r.result.changes[0];
  assert_int_equal(c->bank.state, why);
  assert_int_equal(c->verdict, c->bank.own_verdict);
  assert_non_null(note_text(c->notes, c->n_notes, "bank_not_used"));
  done(&r);
}

static void not_used(void **state) {
  scw_change_options halves = {.control = "K0", .paired_halves = true};
  (void)state;
  check_not_used("spot,before (GU),after (GU)\n1,80,81\n2,81,82.4\n3,80,82\n",
                 (scw_change_options){0}, SCW_PAIRS_CANCEL);
  check_not_used("product,spot,before (GU),after (GU)\nK1,1,80,81\n"
                 "K1,2,81,82.4\nK0,1,80,80.3\nK0,2,81,81.1\n",
                 halves, SCW_PAIRS_CANCEL);
  check_not_used("spot,state,gloss (GU)\n1,before,80\n1,before,80.2\n"
                 "1,after,82\n1,after,82.4\n",
                 (scw_change_options){0}, SCW_ONE_SPOT);
  check_not_used("panel,state,gloss (GU)\nA,before,80\nA,after,81\n"
                 "B,before,81\nB,after,82.2\nC,before,80.5\nC,after,81.7\n",
                 (scw_change_options){0}, SCW_PANELS_DIFFER);
}

static void refused(const char *text, const scw_table_options *how,
                    scw_scatter_wanted wanted, const char *word_a,
                    const char *word_b) {
  scw_context *context = a_context();
  scw_table *table = table_from(context, text, how);
  scw_bench bench = {0};
  scw_change_result result;
  went_well(context, scw_bench_put_scatter(context, &bench, &hull));
  scw_change_options options = {.bench = &bench, .scatter = wanted};
  assert_int_equal(scw_change(context, table, NULL, &options, &result),
                   SCW_BAD_INPUT);
  assert_int_equal(result.n_changes, 0);
  message_names(context, word_a, word_b, NULL);
  scw_change_result_free(&result);
  scw_bench_free(&bench);
  scw_table_free(table);
  scw_context_free(context);
}

static void other_benches(void **state) {
  static const scw_table_options at_20 = {.geometry = "20"};
  const scw_scatter_wanted keel = {.panel_type = "keel"};
  const scw_scatter_wanted m2 = {.meter = "M2"};
  (void)state;
  refused(five, NULL, (scw_scatter_wanted){0}, "no geometry", "--geometry");
  refused(five, &at_20, (scw_scatter_wanted){0}, "at 20 degrees",
          "at 60 degrees");
  refused(five, &at_60, keel, "panel type keel", "hull white");
  refused(five, &at_60, m2, "meter M2", "not carried");
  refused("before (g),after (g)\n1,2\n2,3\n", &at_60, (scw_scatter_wanted){0},
          "in g at", "in GU at");
  refused("state,haze (GU)\nbefore,1\nbefore,2\nafter,3\nafter,2\n", &at_60,
          (scw_scatter_wanted){0}, "haze in GU", "gloss in GU");
}

/* The bank is of the pulls; over the block it is of coefficients. */
static void friction(void **state) {
  scw_bench_scatter pulls = {.panel_type = "hull white",
                             .quantity = "pull",
                             .unit = "g",
                             .sd = 12,
                             .df = 60,
                             .sets = 15,
                             .date = "2026-03-14"};
  scw_context *context = a_context();
  scw_bench bench = {0};
  scw_change_result result;
  scw_table *table = table_from(
      context, "state,pull (g)\nbefore,160\nbefore,150\nbefore,170\n"
               "after,110\nafter,120\nafter,130\n", NULL);
  (void)state;
  went_well(context, scw_bench_put_scatter(context, &bench, &pulls));
  scw_change_options options = {.bench = &bench, .has_block = true,
                                .block = 500};
  went_well(context, scw_change(context, table, NULL, &options, &result));
  check_relative(result.changes[0].bank.sd, 12.0 / 500, 1e-15);
  check_relative(result.changes[0].bank.change.standard_uncertainty.value,
                 12.0 / 500 * sqrt(2.0 / 3), 1e-14);
  scw_change_result_free(&result);
  scw_bench_free(&bench);
  scw_table_free(table);
  scw_context_free(context);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(unpaired),         cmocka_unit_test(display_step),
      cmocka_unit_test(they_differ),      cmocka_unit_test(one_reading_each),
      cmocka_unit_test(against_a_number), cmocka_unit_test(control),
      cmocka_unit_test(family),           cmocka_unit_test(from_numbers),
      cmocka_unit_test(not_used),         cmocka_unit_test(other_benches),
      cmocka_unit_test(friction)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
