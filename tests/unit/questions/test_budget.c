/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Budgets of a bench: what is answered, what is refused, what is noted. The
 * figures themselves are judged in tests/cli/test_budget.py. */
#include "from_text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

typedef struct run {
  scw_context *context;
  scw_bench bench;
  scw_bench_budget result;
} run;

/* The bench of inputs and quantities, without trials unless asked. */
static scw_status budget_on(run *r, const char *inputs, const char *quantities,
                            const scw_bench_budget_options *options) {
  static const scw_bench_budget_options no_trials = {.no_trials = true};
  char text[4096];
  *r = (run){.context = a_context()};
  snprintf(text, sizeof text,
           "{\"version\": 1, \"inputs\": [%s], \"quantities\": [%s]}", inputs,
           quantities);
  text_place place = {text};
  went_well(r->context,
            scw_bench_read(r->context, source_of_text(&place), &r->bench));
  return scw_bench_budget_of(r->context, &r->bench, NULL,
                             options ? options : &no_trials, &r->result);
}

static void done(run *r) {
  scw_bench_budget_free(&r->result);
  scw_bench_budget_free(&r->result); /* twice is allowed */
  scw_bench_free(&r->bench);
  scw_context_free(r->context);
}

static const char *note(const run *r, size_t quantity, const char *code) {
  const scw_quantity_budget *of = &r->result.quantities[quantity];
  return note_text(of->notes, of->n_notes, code);
}

#define NORMAL(name, value, u)                                                 \
  "{\"name\": \"" name "\", \"kind\": \"normal\", \"value\": " value           \
  ", \"uncertainty\": " u "}"
#define READINGS(name, values)                                                 \
  "{\"name\": \"" name "\", \"kind\": \"readings\", \"readings\": [" values    \
  "]}"
#define QUANTITY(name, model)                                                  \
  "{\"name\": \"" name "\", \"unit\": \"g\", \"model\": \"" model "\"}"

static void one_quantity_or_all(void **state) {
  static const char inputs[] = NORMAL("x", "2", "0.3") "," NORMAL("y", "5",
                                                                  "0.4");
  static const char quantities[] = QUANTITY("a", "x + y") "," QUANTITY(
      "b", "2 * y");
  scw_bench_budget_options only = {.quantity = "b", .no_trials = true};
  run r;
  (void)state;
  assert_int_equal(budget_on(&r, inputs, quantities, NULL), SCW_OK);
  assert_int_equal(r.result.n_quantities, 2);
  check_relative(
      r.result.quantities[0].budget.standard_uncertainty.value, 0.5, 1e-15);
  assert_ptr_equal(r.result.quantities[1].quantity, &r.bench.quantity[1]);
  assert_ptr_equal(r.result.quantities[1].input[0], &r.bench.input[1]);
  assert_int_equal(r.result.options.trials.digits, 2);
  assert_string_equal(r.result.bench.name, "shed.csv");
  done(&r);
  assert_int_equal(budget_on(&r, inputs, quantities, &only), SCW_OK);
  assert_int_equal(r.result.n_quantities, 1);
  assert_string_equal(r.result.quantities[0].quantity->name, "b");
  assert_null(r.result.options.quantity); /* nothing of the caller is kept */
  done(&r);
  only.quantity = "c";
  assert_int_equal(budget_on(&r, inputs, quantities, &only), SCW_BAD_INPUT);
  message_names(r.context, "c", "a", "b", NULL);
  assert_null(r.result.quantities);
  done(&r);
}

static void no_value_leaves_the_others(void **state) {
  run r;
  (void)state;
  assert_int_equal(
      budget_on(&r, NORMAL("x", "-2", "0.3"),
                QUANTITY("lost", "sqrt(x)") "," QUANTITY("there", "x"), NULL),
      SCW_OK);
  assert_non_null(r.result.quantities[0].why_not);
  assert_non_null(strstr(r.result.quantities[0].sentence, "has no value"));
  assert_int_equal(r.result.quantities[0].budget.expanded.state,
                   SCW_NOT_COMPUTED);
  assert_null(r.result.quantities[1].why_not);
  assert_int_equal(r.result.quantities[1].budget.expanded.state, SCW_PRESENT);
  done(&r);
}

/* Readings that pull the result the same way move together; the others, and
 * what is no reading, stay. */
static void what_moves(void **state) {
  run r;
  (void)state;
  assert_int_equal(
      budget_on(&r,
                READINGS("there", "160, 150, 170") "," READINGS(
                    "back", "150, 140, 150") "," READINGS("tile",
                                                          "90, 91, 92") ","
                    NORMAL("block", "500", "1"),
                QUANTITY("friction", "(there + back) / block * tile / "
                                     "tile / 2") ","
                    QUANTITY("gloss", "there / tile * block") ","
                    QUANTITY("less", "-tile") "," QUANTITY("none", "block"),
                NULL),
      SCW_OK);
  assert_string_equal(r.result.quantities[0].two.moved, "there, back");
  assert_string_equal(r.result.quantities[1].two.moved, "there");
  assert_string_equal(r.result.quantities[2].two.moved, "tile");
  assert_int_equal(r.result.quantities[3].two.state, SCW_NOT_COMPUTED);
  done(&r);
}

/* What is correlated with an input of its own on each side does not cancel. */
static void not_shared_by_company(void **state) {
  run r;
  (void)state;
  assert_int_equal(
      budget_on(&r,
                READINGS("x", "10, 11, 12") ","
                "{\"name\": \"zero\", \"kind\": \"normal\", \"value\": 0, "
                "\"uncertainty\": 0.5, \"shared\": true},"
                "{\"name\": \"other\", \"kind\": \"normal\", \"value\": 0, "
                "\"uncertainty\": 0.5, \"shared\": false}], "
                "\"correlations\": [{\"between\": [\"zero\", \"other\"], "
                "\"coefficient\": 0.5}",
                QUANTITY("y", "x - zero - other"), NULL),
      SCW_OK);
  const scw_two_results *two = &r.result.quantities[0].two;
  assert_string_equal(two->cancel_in_difference, "");
  assert_true(two->difference_one_meter.value ==
              two->difference_two_meters.value);
  assert_null(note(&r, 0, "shared_not_said"));
  done(&r);
}

static void notes_where_they_belong(void **state) {
  static const char gloss[] =
      "{\"name\": \"level\", \"measures\": \"gloss\", \"geometry\": \"60\", "
      "\"unit\": \"GU\", \"model\": \"x\"},"
      "{\"name\": \"rise\", \"measures\": \"gloss\", \"geometry\": \"60\", "
      "\"unit\": \"GU\", \"model\": \"x - 80 + y\"},"
      "{\"name\": \"steep\", \"measures\": \"gloss\", \"geometry\": \"20\", "
      "\"unit\": \"GU\", \"model\": \"x\"}";
  static const char friction[] =
      "{\"name\": \"f\", \"measures\": \"friction\", \"unit\": \"1\", "
      "\"model\": \"y\"}";
  run r;
  (void)state;
  assert_int_equal(
      budget_on(&r,
                READINGS("x", "81, 81.4, 82, 82.5, 83.1, 83.5, 84") "," NORMAL(
                    "y", "0", "1"),
                gloss, NULL),
      SCW_OK);
  assert_non_null(note(&r, 0, "geometry_advice"));
  assert_null(note(&r, 1, "geometry_advice")); /* no level but a difference */
  assert_null(note(&r, 2, "geometry_advice"));
  assert_non_null(note(&r, 0, "creep"));
  assert_null(note(&r, 0, "shared_not_said"));
  assert_non_null(strstr(note(&r, 1, "shared_not_said"), "y does not say"));
  assert_int_equal(r.result.n_notes, 0);
  done(&r);
  assert_int_equal(budget_on(&r, NORMAL("y", "0.3", "0.1"), friction, NULL),
                   SCW_OK);
  assert_non_null(
      note_text(r.result.notes, r.result.n_notes, "friction_caution"));
  done(&r);
}

/* Trials that differ are said where the law's figures are used. */
static void notes_on_the_law(void **state) {
  static const scw_bench_budget_options few = {.trials = {.trials = 100000}};
  run r;
  (void)state;
  assert_int_equal(
      budget_on(&r,
                READINGS("x", "10, 12, 11, 11.5") "," READINGS(
                    "z", "1, 1.1, 1.3, 1.2, 1.4, 1.15") ", {\"name\": \"r\", "
                "\"kind\": \"rectangular\", \"value\": 0, \"half_width\": "
                "5}], \"correlations\": "
                "[{\"between\": [\"x\", \"z\"], \"coefficient\": 0.2}",
                "{\"name\": \"y\", \"unit\": \"g\", \"model\": \"x + z\", "
                "\"limits\": {\"high\": 13, \"probability\": 0.9}},"
                "{\"name\": \"w\", \"unit\": \"g\", \"model\": \"z + r\", "
                "\"limits\": {\"high\": 7, \"probability\": 0.9}}",
                &few),
      SCW_OK);
  assert_non_null(note(&r, 0, "df_cautious"));
  assert_null(note(&r, 1, "df_cautious"));
  assert_int_equal(r.result.quantities[1].trials.agreement, SCW_DIFFERS);
  assert_non_null(note(&r, 1, "limits_by_law"));
  assert_non_null(note(&r, 1, "law_differs"));
  assert_non_null(strstr(r.result.quantities[1].sentence, "by trials of the inputs"));
  done(&r);
}

/* In other units everything follows, and no share moves. */
static void scale(void **state) {
  static const char *const sizes[] = {"e-12", "", "e12"};
  char inputs[256];
  (void)state;
  for (size_t s = 0; s < 3; s++) {
    run r;
    double size = s == 0 ? 1e-12 : s == 1 ? 1 : 1e12;
    snprintf(inputs, sizeof inputs,
             "{\"name\": \"x\", \"kind\": \"readings\", \"readings\": [10%s, "
             "12%s, 11%s]}, {\"name\": \"z\", \"kind\": \"normal\", "
             "\"value\": 1%s, \"uncertainty\": 0.5%s, \"shared\": true}",
             sizes[s], sizes[s], sizes[s], sizes[s], sizes[s]);
    assert_int_equal(budget_on(&r, inputs, QUANTITY("y", "x - z"), NULL),
                     SCW_OK);
    const scw_quantity_budget *of = &r.result.quantities[0];
    check_relative(of->budget.standard_uncertainty.value,
                   size * sqrt(1.0 / 3 + 0.25), 1e-14);
    check_relative(of->budget.lines[1].share.value, 0.25 / (1.0 / 3 + 0.25),
                   1e-14);
    check_relative(of->more_readings.value, size * sqrt(1.0 / 6 + 0.25),
                   1e-14);
    check_relative(of->two.difference_one_meter.value, size * sqrt(2.0 / 3),
                   1e-14);
    done(&r);
  }
}

static void units_and_sets_of_tables(void **state) {
  static const char inputs[] =
      "{\"name\": \"x\", \"unit\": \"N\", \"kind\": \"readings\", \"file\": "
      "\"shed.csv\"}";
  scw_settings settings;
  run r;
  (void)state;
  scw_settings_init(&settings);
  assert_int_equal(budget_on(&r, inputs, QUANTITY("y", "x"), NULL),
                   SCW_BAD_INPUT); /* its table was never read */
  message_names(r.context, "x", "shed.csv", NULL);
  scw_table *grams = table_from(r.context, "pull (g)\n1\n2\n3\n", NULL);
  scw_table *two = table_from(r.context,
                              "product,pull (N)\nK1,1\nK1,2\nK2,3\nK2,5\n",
                              NULL);
  scw_table *good = table_from(r.context,
                               "track,pull (N)\n1,1.0\n1,2.0\n2,4.0\n3,3.5\n",
                               NULL);
  assert_int_equal(
      scw_bench_take_table(r.context, &r.bench, 0, grams, &settings),
      SCW_BAD_INPUT);
  message_names(r.context, "N", "g", NULL);
  assert_int_equal(
      scw_bench_take_table(r.context, &r.bench, 0, two, &settings),
      SCW_BAD_INPUT);
  message_names(r.context, "2 sets", NULL);
  went_well(r.context,
            scw_bench_take_table(r.context, &r.bench, 0, good, &settings));
  assert_int_equal(r.bench.input[0].given.n, 3); /* means of the tracks */
  check_relative(r.bench.input[0].given.value, 3, 1e-15);
  scw_table_free(grams);
  scw_table_free(two);
  scw_table_free(good);
  done(&r);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(one_quantity_or_all),
      cmocka_unit_test(no_value_leaves_the_others),
      cmocka_unit_test(what_moves),
      cmocka_unit_test(not_shared_by_company),
      cmocka_unit_test(notes_where_they_belong),
      cmocka_unit_test(notes_on_the_law),
      cmocka_unit_test(scale),
      cmocka_unit_test(units_and_sets_of_tables)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
