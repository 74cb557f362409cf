/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inputs put into a bench by a program, and readings taken from a table. */
#include "bench_case.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "text.h"

static scw_bench whole(void) {
  char *text = text_of_file("whole.json");
  scw_bench bench = bench_of(text);
  free(text);
  return bench;
}

static void put(scw_bench *bench, scw_bench_input input) {
  if (scw_bench_put_input(context, bench, &input) != SCW_OK)
    fail_msg("%s", scw_context_message(context));
}

/* What it holds now is what a file of it holds. */
static void check_file(const scw_bench *bench) {
  char *text = written(bench);
  scw_bench again = bench_of(text);
  char *twice = written(&again);
  assert_string_equal(twice, text);
  assert_int_equal(again.n_inputs, bench->n_inputs);
  for (size_t i = 0; i < bench->n_inputs; i++) {
    const scw_budget_given *a = &bench->input[i].given,
                           *b = &again.input[i].given;
    assert_true(a->n == b->n && a->value == b->value && a->sd == b->sd &&
                a->step.size == b->step.size);
  }
  free(text);
  free(twice);
  scw_bench_free(&again);
}

static void added_and_replaced(void **state) {
  scw_bench bench = whole();
  size_t n = bench.n_inputs;
  char name[] = "meter_bias", unit[] = "GU";
  scw_bench_input bias = {.given = {.name = name,
                                    .kind = SCW_KIND_T,
                                    .value = 0.31,
                                    .uncertainty = 0.02,
                                    .df = 11},
                          .unit = unit,
                          .shared = SCW_SHARED};
  (void)state;
  put(&bench, bias);
  name[0] = unit[0] = 'x'; /* they were copied */
  assert_int_equal(bench.n_inputs, n + 1);
  assert_string_equal(bench.input[n].given.name, "meter_bias");
  assert_string_equal(bench.input[n].unit, "GU");
  assert_string_equal(bench.input[n].about, "");
  check_file(&bench);
  name[0] = 'm';
  bias.given.value = 0.4;
  bias.about = "from the log";
  put(&bench, bias);
  assert_int_equal(bench.n_inputs, n + 1);
  assert_true(bench.input[n].given.value == 0.4);
  assert_string_equal(bench.input[n].about, "from the log");
  put(&bench, bench.input[3]); /* its own texts */
  put(&bench, bench.input[0]); /* and readings */
  assert_true(bench.input[0].readings[1] == 150.5);
  check_file(&bench);
  char *text = written(&bench);
  assert_non_null(strstr(text, "\"about\": \"from the log\""));
  assert_non_null(strstr(text, "\"friction\""));
  assert_non_null(strstr(text, "\"between\": [\"level\", \"line_angle\"]"));
  free(text);
  scw_bench_free(&bench);
}

/* Figures beside readings are those of the readings, and a step that was
 * inferred elsewhere is kept where nothing else tells it. */
static void readings_put(void **state) {
  static const double pulls[] = {160, 150, 170};
  scw_bench bench = {0};
  (void)state;
  put(&bench, (scw_bench_input){.given = {.name = "a", .n = 9, .value = 7,
                                          .sd = 1,
                                          .step = {0.5, SCW_STEP_INFERRED}},
                                .readings = pulls,
                                .n_readings = 3});
  const scw_budget_given *a = &bench.input[0].given;
  assert_true(a->n == 3 && a->value == 160 && a->sd == 10 &&
              a->step.size == 10);
  put(&bench, (scw_bench_input){.given = {.name = "b", .n = 4, .value = 82,
                                          .step = {0.1, SCW_STEP_INFERRED}}});
  put(&bench, (scw_bench_input){.given = {.name = "c"}, .file = "c.csv"});
  check_file(&bench);
  scw_bench_free(&bench);
}

static void not_put(void **state) {
  static const double one[] = {1}, odd[] = {1, NAN};
#define NORMAL .kind = SCW_KIND_NORMAL, .value = 1, .uncertainty = 1
  static const struct {
    const char *words;
    scw_bench_input input;
  } wrong[] = {
      {"its name must be a letter", {.given = {NORMAL}}},
      {"its name must be a letter", {.given = {NORMAL, .name = "2a"}}},
      {"its name must be a letter", {.given = {NORMAL, .name = "sin"}}},
      {"input `friction`: a quantity of the bench has that name",
       {.given = {NORMAL, .name = "friction"}}},
      {"its kind is none", {.given = {.name = "a", .kind = SCW_KIND_END}}},
      {"must be readable text",
       {.given = {NORMAL, .name = "a"}, .about = "x "}},
      {"must be readable text",
       {.given = {NORMAL, .name = "a"}, .unit = "a\nb"}},
      {"must be readable text",
       {.given = {NORMAL, .name = "a"}, .about = "\xFF"}},
      {"name the file", {.given = {.name = "a", .n = 3, .sd = 1},
                         .column = "pull"}},
      {"for an input of kind readings",
       {.given = {NORMAL, .name = "a"}, .file = "x.csv"}},
      {"for an input of kind readings",
       {.given = {NORMAL, .name = "a"}, .readings = odd, .n_readings = 2}},
      {"2 to 100000 numbers",
       {.given = {.name = "a"}, .readings = one, .n_readings = 1}},
      {"a finite number",
       {.given = {.name = "a"}, .readings = odd, .n_readings = 2}},
      {"leave n, value and sd to them",
       {.given = {.name = "a", .n = 3, .sd = 1}, .file = "x.csv"}},
      {"decimals must be 0 to 17",
       {.given = {.name = "a", .n = 3, .sd = 1}, .decimals = 18}},
      {"n must be at most",
       {.given = {.name = "a", .n = 2000000000, .sd = 1}}},
      {"fewer than two readings", {.given = {.name = "a"}}},
      {"all the same", {.given = {.name = "a", .n = 3}}},
      {"`sd` must be a finite number",
       {.given = {.name = "a", .n = 3, .sd = INFINITY}}},
      {"`sd` is of no use", {.given = {NORMAL, .name = "a", .sd = 1}}},
      {"its value must be a finite number",
       {.given = {.name = "a", .kind = SCW_KIND_EXACT, .value = NAN}}},
      {"what is exact varies with nothing",
       {.given = {.name = "level", .kind = SCW_KIND_EXACT}}}};
  scw_bench bench = whole();
  char *before = written(&bench);
  (void)state;
  for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
    if (scw_bench_put_input(context, &bench, &wrong[i].input) != SCW_BAD_INPUT)
      fail_msg("taken: %s", wrong[i].words);
    check_message(wrong[i].words);
  }
  char *after = written(&bench);
  assert_string_equal(after, before);
  free(before);
  free(after);
  scw_bench_free(&bench);
}

static void as_many_as_a_file(void **state) {
  scw_bench bench = {0};
  char name[16];
  scw_bench_input input = {
      .given = {.name = name, .kind = SCW_KIND_EXACT, .value = 1}};
  (void)state;
  for (int i = 0; i < 1000; i++) {
    check_snprintf(name, sizeof name, "a%d", i);
    put(&bench, input);
  }
  put(&bench, input); /* in place of the last */
  check_snprintf(name, sizeof name, "b");
  assert_int_equal(scw_bench_put_input(context, &bench, &input),
                   SCW_BAD_INPUT);
  check_message("holds 1000 inputs already");
  scw_bench_free(&bench);
}

static const scw_step inferred = {10, SCW_STEP_INFERRED}, unset;

static void taken_from_a_table(void **state) {
  static const double pulls[] = {160, 150, 170, 160};
  scw_bench bench = whole();
  const scw_bench_input *later = &bench.input[1];
  char *before = written(&bench);
  (void)state;
  assert_int_equal(scw_bench_take_readings(context, &bench, 1, pulls, 4,
                                           (scw_step){5, SCW_STEP_INFERRED}),
                   SCW_OK);
  assert_true(later->given.n == 4 && later->given.value == 160);
  check_relative(later->given.sd, sqrt(200.0 / 3), 1e-15);
  assert_true(later->given.step.size == 10 && /* the file's own stands */
              later->given.step.origin == SCW_STEP_GIVEN);
  assert_int_equal(scw_bench_take_readings(context, &bench, 1, pulls, 3,
                                           inferred),
                   SCW_OK); /* once more */
  assert_true(later->given.n == 3 && later->n_readings == 3);
  char *after = written(&bench);
  assert_string_equal(after, before); /* they stay in their file */
  free(before);
  free(after);
  scw_bench_free(&bench);
}

static void steps_taken(void **state) {
  static const double pulls[] = {160, 150, 170};
  scw_bench bench = {0};
  (void)state;
  put(&bench, (scw_bench_input){.given = {.name = "c"}, .file = "c.csv"});
  assert_int_equal(scw_bench_take_readings(context, &bench, 0, pulls, 3,
                                           (scw_step){5, SCW_STEP_INFERRED}),
                   SCW_OK);
  assert_true(bench.input[0].given.step.size == 5);
  scw_bench_free(&bench);
  put(&bench, (scw_bench_input){.given = {.name = "c"}, .file = "c.csv"});
  assert_int_equal(
      scw_bench_take_readings(context, &bench, 0, pulls, 3, unset), SCW_OK);
  assert_true(bench.input[0].given.step.size == 10);
  scw_bench_free(&bench);
}

static void not_taken(void **state) {
  static const double same[] = {160, 160, 160}, odd[] = {1, INFINITY};
  scw_bench bench = whole();
  (void)state;
  assert_int_equal(scw_bench_take_readings(context, &bench, 0, same, 3, unset),
                   SCW_BAD_ARGUMENT); /* it has readings, but no file */
  assert_int_equal(
      scw_bench_take_readings(context, &bench, 99, same, 3, unset),
      SCW_BAD_ARGUMENT);
  assert_int_equal(scw_bench_take_readings(context, &bench, 1, same, 0, unset),
                   SCW_BAD_INPUT);
  check_message("input `pull_later`: its file holds no readings of it");
  assert_int_equal(scw_bench_take_readings(context, &bench, 1, same, 1, unset),
                   SCW_BAD_INPUT);
  assert_int_equal(scw_bench_take_readings(context, &bench, 1, odd, 2, unset),
                   SCW_BAD_INPUT);
  check_message("a finite number");
  assert_true(bench.input[1].given.n == 0 && !bench.input[1].readings);
  scw_bench_free(&bench);
  put(&bench, (scw_bench_input){.given = {.name = "c"}, .file = "c.csv"});
  assert_int_equal(scw_bench_take_readings(context, &bench, 0, same, 3,
                                           (scw_step){0, SCW_STEP_NOT_KNOWN}),
                   SCW_BAD_INPUT);
  check_message("input `c`: its readings are all the same");
  assert_true(bench.input[0].given.n == 0 && !bench.input[0].readings);
  scw_bench_free(&bench);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(added_and_replaced), cmocka_unit_test(readings_put),
      cmocka_unit_test(not_put),            cmocka_unit_test(as_many_as_a_file),
      cmocka_unit_test(taken_from_a_table), cmocka_unit_test(steps_taken),
      cmocka_unit_test(not_taken)};
  return cmocka_run_group_tests(tests, make_context, free_context);
}
