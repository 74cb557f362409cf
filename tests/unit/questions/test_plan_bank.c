/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plans from the scatter of a bench: the same as from a pilot of df + 1
 * readings of that SD; judged by R's power.t.test (10.48 and 11.94 readings
 * at the SD and at its 80 % upper limit). */
#include "from_text.h"

#include <string.h>

static const scw_bench_scatter hull = {.panel_type = "hull white",
                                       .quantity = "gloss",
                                       .unit = "GU",
                                       .geometry = "60",
                                       .sd = 0.62,
                                       .df = 80,
                                       .sets = 20,
                                       .date = "2026-03-14"};

typedef struct run {
  scw_context *context;
  scw_bench bench;
  scw_plan_result result;
} run;

static scw_status plan_on(run *r, scw_bench_scatter entry,
                          scw_plan_request request, const char *unit) {
  r->context = a_context();
  r->bench = (scw_bench){0};
  went_well(r->context, scw_bench_put_scatter(r->context, &r->bench, &hull));
  went_well(r->context, scw_bench_put_scatter(r->context, &r->bench, &entry));
  request.bench = &r->bench;
  return scw_plan(r->context, &request, unit, NULL, &r->result);
}

static void done(run *r) {
  scw_plan_result_free(&r->result);
  scw_bench_free(&r->bench);
  scw_context_free(r->context);
}

static const scw_plan_request detect = {.goal = SCW_PLAN_DETECT,
                                        .target = 0.8};

static void as_from_a_pilot(void **state) {
  run r;
  scw_plan_result pilot;
  scw_plan_request request = detect;
  (void)state;
  assert_int_equal(plan_on(&r, hull, detect, NULL), SCW_OK);
  assert_ptr_equal(r.result.bank, &r.bench.scatter[0]);
  assert_true(r.result.plan.readings_per_side.value == 11);
  assert_true(r.result.assured.value == 12);
  assert_string_equal(r.result.unit, "GU");
  request.sd = 0.62;
  request.pilot_readings = 81;
  went_well(r.context, scw_plan(r.context, &request, "GU", NULL, &pilot));
  assert_true(pilot.assured.value == r.result.assured.value);
  assert_true(pilot.expected.value == r.result.expected.value);
  assert_string_equal(pilot.sentence, r.result.sentence);
  scw_plan_result_free(&pilot);
  done(&r);
}

/* A fraction of a degree of freedom is not counted; no top-up from readings
 * that are no part of the set. */
static void whole_readings_only(void **state) {
  run r;
  scw_bench_scatter entry = hull;
  (void)state;
  entry.df = 12.9;
  assert_int_equal(plan_on(&r, entry,
                           (scw_plan_request){.goal = SCW_PLAN_HALF_WIDTH,
                                              .target = 0.3},
                           "GU"),
                   SCW_OK);
  assert_int_equal(r.result.request.pilot_readings, 13);
  assert_int_equal(r.result.top_up_total.state, SCW_NOT_COMPUTED);
  assert_true(r.result.plan.readings_per_side.value == 19);
  done(&r);
}

static void refused(scw_bench_scatter entry, scw_plan_request request,
                    const char *unit, scw_status wanted, const char *words) {
  run r;
  assert_int_equal(plan_on(&r, entry, request, unit), wanted);
  message_names(r.context, words, NULL);
  assert_null(r.result.sentence);
  done(&r);
}

static void refusals(void **state) {
  scw_plan_request request = detect;
  scw_bench_scatter at_20 = hull;
  (void)state;
  at_20.geometry = "20";
  request.paired = true;
  refused(hull, request, "GU", SCW_BAD_ARGUMENT, "SD of their differences");
  request = detect;
  request.sd = 0.5;
  refused(hull, request, "GU", SCW_BAD_ARGUMENT, "another scatter");
  refused(hull, detect, "g", SCW_BAD_INPUT, "readings in g");
  refused(at_20, detect, "GU", SCW_BAD_INPUT, "--geometry");
  request = detect;
  request.bank.panel_type = "keel";
  refused(hull, request, "GU", SCW_BAD_INPUT, "panel type keel");
}

/* What is not said is what the entries of the panel type agree on. */
static void left_unsaid(void **state) {
  run r;
  scw_plan_request request = detect;
  scw_bench_scatter pulls = {.panel_type = "transom",
                             .quantity = "pull",
                             .unit = "g",
                             .sd = 0.5,
                             .df = 10,
                             .sets = 5,
                             .date = "2026-03-15"};
  (void)state;
  request.bank.panel_type = "Transom";
  assert_int_equal(plan_on(&r, pulls, request, NULL), SCW_OK);
  assert_string_equal(r.result.unit, "g");
  done(&r);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(as_from_a_pilot), cmocka_unit_test(whole_readings_only),
      cmocka_unit_test(refusals), cmocka_unit_test(left_unsaid)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
