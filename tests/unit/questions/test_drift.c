/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A log as a whole: what is one log, where stretches begin, what fences, what
 * is refused. The figures are judged in the tests of the methods and in
 * tests/cli. */
#include "from_text.h"

#include <math.h>
#include <string.h>

typedef struct run {
  scw_context *context;
  scw_table *table;
  scw_drift_result result;
} run;

static run reading(const char *text) {
  static const scw_table_options options = {.log = true};
  run r = {.context = a_context()};
  r.table = table_from(r.context, text, &options);
  return r;
}

static run drift_of(const char *text, const scw_drift_options *options) {
  run r = reading(text);
  went_well(r.context, scw_drift(r.context, r.table, NULL, options, &r.result));
  return r;
}

static void done(run *r) {
  scw_drift_result_free(&r->result);
  scw_drift_result_free(&r->result); /* twice is allowed */
  scw_table_free(r->table);
  scw_context_free(r->context);
}

static void refused(const char *text, const scw_drift_options *options,
                    scw_status status, const char *word) {
  run r = reading(text);
  assert_int_equal(scw_drift(r.context, r.table, NULL, options, &r.result),
                   status);
  assert_null(r.result.log);
  assert_null(r.result.sentence);
  assert_int_equal(r.result.n_notes, 0);
  message_names(r.context, word, NULL);
  done(&r);
}

static const char stepped[] =
    "date,reading (GU)\n2026-01-01,92.3\n2026-01-08,92.4\n2026-01-15,92.2\n"
    "2026-01-22,92.3\n2026-01-29,92.4\n2026-02-05,91.8\n2026-02-12,91.9\n"
    "2026-02-19,91.7\n2026-02-26,91.8\n2026-03-05,91.9\n";

static const char shuffled[] =
    "reading (GU),date\n91.9,5 March 2026\n92.3,2026/01/01\n91.7,2026-02-19\n"
    "92.2,2026-01-15T10:30\n92.4,2026-01-08\n91.8,2026-02-05\n92.3,2026-01-22\n"
    "91.8,26-Feb-2026\n92.4,2026-01-29\n91.9,2026-02-12\n";

static void a_step_fences(void **state) {
  (void)state;
  run r = drift_of(stepped, NULL);
  const scw_drift_log *log = r.result.log;
  assert_int_equal(log->n_shifts, 1);
  assert_string_equal(log->shift[0].date.text, "2026-02-05");
  assert_string_equal(log->shift[0].before.text, "2026-01-29");
  check_absolute(log->shift[0].size.estimate.value, -0.5, 1e-12);
  /* 5 and 5 wholly apart, in tenths: 2 of C(10,5) groupings. */
  check_relative(log->shift[0].size.p.value, 2 / 252.0, 1e-12);
  assert_string_equal(log->fence.text, "2026-02-05");
  assert_int_equal(log->fence_from, SCW_DRIFT_STEP);
  assert_int_equal(log->bias.estimate.state, SCW_NO_ASSIGNED_VALUE);
  assert_int_equal(log->charts.limits.state, SCW_TOO_FEW);
  done(&r);
}

static void order_and_form_do_not_matter(void **state) {
  const scw_drift_options options = {.assigned = {92.3, SCW_PRESENT},
                                     .assigned_u = 0.2};
  (void)state;
  run a = drift_of(stepped, &options), b = drift_of(shuffled, &options);
  const scw_drift_log *one = a.result.log, *other = b.result.log;
  assert_int_equal(one->n_days, other->n_days);
  for (size_t i = 0; i < one->n_days; i++) {
    assert_string_equal(one->day[i].date.text, other->day[i].date.text);
    assert_true(one->day[i].mean == other->day[i].mean);
  }
  assert_true(one->bias.interval.low == other->bias.interval.low);
  assert_true(one->slope.interval.high == other->slope.interval.high);
  assert_string_equal(one->sentence, other->sentence);
  assert_string_equal(other->notes[0].code, "sorted_by_date");
  done(&a);
  done(&b);
}

static void a_small_step_is_no_fence(void **state) {
  const scw_drift_options options = {.margin = 1};
  (void)state;
  run r = drift_of(stepped, &options);
  assert_true(r.result.log->shift[0].within_margin);
  assert_string_equal(r.result.log->fence.text, "");
  assert_non_null(strstr(r.result.sentence, "less than your margin"));
  done(&r);
}

/* 16 days about 10, 5 about 9.2, 16 about 8.4: each step is smaller than 1.2,
 * both together are not. */
static void small_steps_add_up(void **state) {
  scw_drift_options options = {.margin = 1.2};
  char text[2000];
  size_t at = (size_t)check_snprintf(text, sizeof text, "date,reading\n");
  (void)state;
  for (int i = 0; i < 37; i++)
    at += (size_t)check_snprintf(
        text + at, sizeof text - at, "2026-%02d-%02d,%d.%d\n", 1 + i / 14,
        1 + 2 * (i % 14), i < 16 ? 10 : i < 21 ? 9 : 8,
        (i < 16 ? 0 : i < 21 ? 2 : 4) + i % 3);
  run r = drift_of(text, &options);
  assert_int_equal(r.result.log->n_shifts, 2);
  assert_true(r.result.log->shift[0].within_margin);
  assert_true(r.result.log->shift[1].within_margin);
  assert_string_equal(r.result.log->fence.text,
                      r.result.log->shift[0].date.text);
  assert_non_null(strstr(r.result.sentence, "not comparable with today's"));
  done(&r);
  options.margin = 2;
  r = drift_of(text, &options);
  assert_string_equal(r.result.log->fence.text, "");
  done(&r);
}

/* What is too large is said to be so and is never an infinity. */
static void beyond_a_double(void **state) {
  const scw_drift_options options = {.assigned = {-1.7e308, SCW_PRESENT}};
  (void)state;
  run r = drift_of("date,reading\n2026-01-01,0\n2026-01-02,1e307\n"
                   "2026-01-03,2e307\n2026-01-04,3e307\n2026-01-05,4e307\n",
                   &options);
  const scw_drift_log *log = r.result.log;
  assert_int_equal(log->slope.estimate.state, SCW_OUT_OF_RANGE);
  assert_int_equal(log->bias.estimate.state, SCW_OUT_OF_RANGE);
  assert_non_null(strstr(r.result.sentence, "beyond what a double can hold"));
  done(&r);
}

static void marks(const char *text, const char *const *days, size_t n,
                  const char *fence, size_t stretches) {
  const scw_drift_options options = {.recalibrated = days,
                                     .n_recalibrated = n};
  run r = drift_of(text, &options);
  assert_string_equal(r.result.log->fence.text, fence);
  assert_int_equal(r.result.log->n_stretches, stretches);
  if (*fence)
    assert_int_equal(r.result.log->fence_from, SCW_DRIFT_RECALIBRATED);
  done(&r);
}

static void recalibrations(void **state) {
  static const char *const between[] = {"2026-01-10", "2026-01-12"};
  static const char *const first[] = {"2026-01-01"}, *const last[] = {"2026-06-01"};
  static const char plain[] = "date,reading\n2026-01-01,92.3\n2026-01-08,92.4\n"
                              "2026-01-15,92.2\n2026-01-22,92.3\n";
  (void)state;
  marks(plain, NULL, 0, "", 1);
  marks(plain, between, 2, "2026-01-15", 2);
  marks(plain, first, 1, "", 1); /* nothing lies before it */
  marks(plain, last, 1, "2026-06-01", 1);
  marks("date,reading,note\n2026-01-01,92.3,\n2026-01-08,92.4,was recalibrated\n",
        NULL, 0, "2026-01-08", 2);
  marks("date,reading,note\n2026-01-01,92.3,\n2026-01-05,,RECALIBRATED\n"
        "2026-01-08,92.4,\n", NULL, 0, "2026-01-08", 2);
  marks("date,reading,note\n2026-01-01,92.3,\n2026-01-08,92.4,not adjusted\n",
        NULL, 0, "", 1);
}

/* An event of one meter does not concern the other; one without a meter does. */
static void events_of_one_meter(void **state) {
  (void)state;
  run r = drift_of(
      "date,meter,reading,event\n2026-01-01,M1,92.3,\n2026-01-01,M2,92.5,\n"
      "2026-01-05,M2,,repaired\n2026-01-08,M1,92.4,\n2026-01-08,M2,92.1,\n"
      "2026-01-15,M1,92.4,\n2026-01-15,M2,92.2,\n",
      NULL);
  assert_int_equal(r.result.n_logs, 2);
  assert_string_equal(r.result.log[0].fence.text, "");
  assert_string_equal(r.result.log[1].fence.text, "2026-01-08");
  assert_int_equal(r.result.n_pairs, 1);
  assert_int_equal(r.result.pair[0].days, 2); /* since M2 was repaired */
  check_absolute(r.result.pair[0].difference.estimate.value, 0.25, 1e-12);
  done(&r);
}

static void scaled_readings(void **state) {
  static const char tenfold[] =
      "date,reading (GU)\n2026-01-01,923\n2026-01-08,924\n2026-01-15,922\n"
      "2026-01-22,923\n2026-01-29,924\n2026-02-05,918\n2026-02-12,919\n"
      "2026-02-19,917\n2026-02-26,918\n2026-03-05,919\n";
  (void)state;
  run a = drift_of(stepped, NULL), b = drift_of(tenfold, NULL);
  check_relative(b.result.log->slope.interval.high,
                 10 * a.result.log->slope.interval.high, 1e-11);
  check_relative(b.result.log->drift_half_width.value,
                 10 * a.result.log->drift_half_width.value, 1e-11);
  check_relative(b.result.log->shift[0].size.p.value,
                 a.result.log->shift[0].size.p.value, 1e-14);
  done(&a);
  done(&b);
}

/* The half-width is the wider end of the slope over the longest gap. */
static void inputs_of_a_budget(void **state) {
  const scw_drift_options options = {.assigned = {92.3, SCW_PRESENT}};
  static const char *const bad[] = {"", "2x", "a b", "a-b"};
  scw_drift_inputs inputs;
  (void)state;
  run r = drift_of(stepped, &options);
  const scw_drift_log *log = r.result.log;
  went_well(r.context, scw_drift_inputs_of(r.context, log, "tile", &inputs));
  assert_int_equal(inputs.n, 2);
  assert_string_equal(inputs.given[0].name, "tile_bias");
  assert_int_equal(inputs.given[0].kind, SCW_KIND_T);
  assert_true(inputs.given[0].value == log->bias.estimate.value);
  assert_string_equal(inputs.given[1].name, "tile_drift");
  check_relative(inputs.given[1].half_width,
                 fmax(fabs(log->slope.interval.low), log->slope.interval.high) *
                     7 / 30.4375, 1e-14);
  for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
    assert_int_equal(scw_drift_inputs_of(r.context, log, bad[i], &inputs),
                     SCW_BAD_ARGUMENT);
  done(&r);
}

static void permitted(void **state) {
  const scw_drift_options options = {.assigned = {92.3, SCW_PRESENT},
                                     .limit = 0.5};
  (void)state;
  run r = drift_of(stepped, &options);
  for (size_t i = 0; i < 10; i++) /* 91.8 is 0.5 away and still permitted */
    assert_int_equal(r.result.log->day[i].beyond_permitted, i == 7);
  done(&r);
  const scw_drift_options far = {.assigned = {1e6, SCW_PRESENT}, .limit = 0.3};
  r = drift_of("date,reading\n2026-01-01,1000000.3\n2026-01-02,1000000.301\n"
               "2026-01-03,999999.7\n",
               &far); /* 1000000.3 less 1000000 is 0.30000000005 in doubles */
  for (size_t i = 0; i < 3; i++)
    assert_int_equal(r.result.log->day[i].beyond_permitted, i == 1);
  done(&r);
}

static void refusals(void **state) {
  static const char *const unclear[] = {"03/04/2026"};
  const scw_drift_options alone = {.limit = 1}, minus = {.margin = -1};
  const scw_drift_options day = {.recalibrated = unclear, .n_recalibrated = 1};
  static const char *const no_day[] = {"2026-02-30"};
  const scw_drift_options february = {.recalibrated = no_day,
                                      .n_recalibrated = 1};
  const scw_drift_options factor = {.assigned = {92, SCW_PRESENT},
                                    .assigned_k = 2};
  const scw_drift_options infinite = {.assigned = {INFINITY, SCW_PRESENT}};
  (void)state;
  refused(stepped, &alone, SCW_BAD_ARGUMENT, "value itself");
  refused(stepped, &minus, SCW_BAD_ARGUMENT, "margin");
  refused(stepped, &day, SCW_BAD_ARGUMENT, "03/04/2026");
  refused(stepped, &february, SCW_BAD_ARGUMENT, "no such day");
  refused(stepped, &factor, SCW_BAD_ARGUMENT, "coverage factor");
  refused(stepped, &infinite, SCW_BAD_ARGUMENT, "assigned");
  refused("date,reading\n2026-01-01,1\n,2\n", NULL, SCW_BAD_INPUT, "line 3");
  refused("spot,reading\n1,1\n2,2\n", NULL, SCW_BAD_INPUT, "date");
  refused("date,reading\n01/02/2026,1\n", NULL, SCW_BAD_INPUT, "two dates");
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_step_fences),
      cmocka_unit_test(order_and_form_do_not_matter),
      cmocka_unit_test(a_small_step_is_no_fence),
      cmocka_unit_test(small_steps_add_up),
      cmocka_unit_test(beyond_a_double),
      cmocka_unit_test(recalibrations),
      cmocka_unit_test(events_of_one_meter),
      cmocka_unit_test(scaled_readings),
      cmocka_unit_test(inputs_of_a_budget),
      cmocka_unit_test(permitted),
      cmocka_unit_test(refusals)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
