/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Quantities as models: quantities above spliced in, inputs shared by name,
 * what is known of them in the order of the model. */
#include "bench_case.h"

#include <stdlib.h>
#include <string.h>

#include "model.h"
#include "text.h"

static const char text[] =
    "{\"version\": 1, \"inputs\": ["
    "{\"name\": \"a\", \"kind\": \"normal\", \"value\": 2, \"uncertainty\": "
    "0.1},"
    "{\"name\": \"b\", \"kind\": \"t\", \"value\": 3, \"uncertainty\": 0.2, "
    "\"df\": 5},"
    "{\"name\": \"c\", \"kind\": \"readings\", \"readings\": [160, 150, 170]},"
    "{\"name\": \"d\", \"kind\": \"rectangular\", \"value\": 0, "
    "\"half_width\": 1},"
    "{\"name\": \"e\", \"kind\": \"readings\", \"file\": \"e.csv\"}],"
    "\"correlations\": ["
    "{\"between\": [\"c\", \"a\"], \"coefficient\": 0.5},"
    "{\"between\": [\"b\", \"d\"], \"coefficient\": -0.25},"
    "{\"between\": [\"b\", \"c\"], \"coefficient\": 0}],"
    "\"quantities\": ["
    "{\"name\": \"ratio\", \"unit\": \"1\", \"model\": \"b / a\"},"
    "{\"name\": \"twice\", \"unit\": \"1\", \"model\": \"c - c + ratio * a\"},"
    "{\"name\": \"most\", \"unit\": \"1\", \"model\": \"d + twice ^ ratio\"},"
    "{\"name\": \"lone\", \"unit\": \"1\", \"model\": \"a + b\"},"
    "{\"name\": \"fixed\", \"unit\": \"1\", \"model\": \"3 * 4\"},"
    "{\"name\": \"later\", \"unit\": \"1\", \"model\": \"e\"}]}";

static scwi_bench_compiled model_of(const scw_bench *bench, size_t quantity) {
  scwi_bench_compiled out;
  if (scwi_bench_model(context, bench, quantity, &out))
    fail_msg("%s", scw_context_message(context));
  assert_int_equal(out.n, out.expression.n_inputs);
  for (size_t i = 0; i < out.n; i++) {
    const scw_bench_input *input = &bench->input[out.index[i]];
    assert_string_equal(input->given.name, out.expression.input[i]);
    assert_true(out.given[i].value == input->given.value);
    assert_true(out.known[i].estimate == input->given.value);
    assert_true(out.known[i].u > 0);
  }
  return out;
}

static double value_of(const scwi_bench_compiled *model) {
  double x[8], value;
  for (size_t i = 0; i < model->n; i++) x[i] = model->known[i].estimate;
  assert_int_equal(
      scwi_expression_value(context, &model->expression, x, &value), SCW_OK);
  return value;
}

static double between(const scwi_bench_compiled *model, const char *a,
                      const char *b) {
  size_t i = scwi_expression_find(&model->expression, a);
  size_t j = scwi_expression_find(&model->expression, b);
  assert_true(model->correlation[i * model->n + j] ==
              model->correlation[j * model->n + i]);
  return model->correlation[i * model->n + j];
}

static void spliced(void **state) {
  scw_bench bench = bench_of(text);
  scwi_bench_compiled most = model_of(&bench, 2);
  (void)state;
  assert_int_equal(most.n, 4);                      /* d, c, b, a */
  check_relative(value_of(&most), 5.196152422706632, 1e-15); /* 3^1.5 */
  check_relative(most.known[scwi_expression_find(&most.expression, "c")].u,
                 5.773502691896258, 1e-15);         /* 10/sqrt(3) */
  assert_true(most.known[scwi_expression_find(&most.expression, "b")].df == 5);
  assert_true(between(&most, "a", "c") == 0.5);
  assert_true(between(&most, "d", "b") == -0.25);
  assert_true(between(&most, "a", "b") == 0);
  assert_true(between(&most, "b", "c") == 0);
  for (size_t i = 0; i < most.n; i++)
    assert_true(most.correlation[i * most.n + i] == 1);
  scwi_bench_compiled_free(&most);
  scw_bench_free(&bench);
}

static void only_what_it_uses(void **state) {
  scw_bench bench = bench_of(text);
  scwi_bench_compiled ratio = model_of(&bench, 0), lone = model_of(&bench, 3),
                      fixed = model_of(&bench, 4);
  (void)state;
  assert_int_equal(ratio.n, 2);
  assert_int_equal(ratio.index[0], 1);
  assert_int_equal(ratio.index[1], 0);
  assert_null(ratio.correlation);
  assert_null(lone.correlation);
  assert_int_equal(fixed.n, 0);
  assert_true(value_of(&fixed) == 12);
  scwi_bench_compiled_free(&ratio);
  scwi_bench_compiled_free(&lone);
  scwi_bench_compiled_free(&fixed);
  scw_bench_free(&bench);
}

static void readings_awaited(void **state) {
  static const double values[] = {1, 2, 4};
  scw_bench bench = bench_of(text);
  scwi_bench_compiled later;
  (void)state;
  assert_int_equal(scwi_bench_model(context, &bench, 5, &later),
                   SCW_BAD_INPUT);
  check_message("input `e`: its readings are in e.csv, which has not been "
                "read");
  scwi_bench_compiled_free(&later);
  assert_int_equal(scw_bench_take_readings(context, &bench, 4, values, 3,
                                           (scw_step){0, SCW_STEP_UNSET}),
                   SCW_OK);
  later = model_of(&bench, 5);
  check_relative(value_of(&later), 7.0 / 3, 1e-15);
  scwi_bench_compiled_free(&later);
  scw_bench_free(&bench);
}

/* The whole file: every model can be worked with. */
static void of_the_whole_file(void **state) {
  static const double pulls[] = {160, 150, 170};
  char *whole = text_of_file("whole.json");
  scw_bench bench = bench_of(whole);
  (void)state;
  assert_int_equal(scw_bench_take_readings(context, &bench, 1, pulls, 3,
                                           (scw_step){0, SCW_STEP_UNSET}),
                   SCW_OK);
  for (size_t i = 0; i < bench.n_quantities; i++) {
    scwi_bench_compiled model;
    assert_int_equal(scwi_bench_model(context, &bench, i, &model), SCW_OK);
    if (i == 0) /* (480.5 / 3 - 0) / 500 */
      check_relative(value_of(&model), 480.5 / 1500, 1e-15);
    scwi_bench_compiled_free(&model);
  }
  free(whole);
  scw_bench_free(&bench);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(spliced), cmocka_unit_test(only_what_it_uses),
      cmocka_unit_test(readings_awaited), cmocka_unit_test(of_the_whole_file)};
  return cmocka_run_group_tests(tests, make_context, free_context);
}
