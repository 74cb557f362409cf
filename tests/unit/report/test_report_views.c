/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stands beside a change, as text, JSON and CSV: other views, control,
 * tile, bare numbers, readings taken again; and plans of several parts. */
#include <stdlib.h>
#include <string.h>

#include "json_look.h"

static const scw_report_options plain = {0};

static scw_estimate estimate(double value) {
  return (scw_estimate){FIGURE(value), FIGURE(0.14), FIGURE(5),
                        FIGURE(0.0021), INTERVAL(value - 0.3, value + 0.3)};
}

/* A change with everything beside it. */
static scw_change_report change_with_all(void) {
  scw_change_report change = made_up_change();
  change.permutation = (scw_permutation){FIGURE(0.031), FIGURE(0.0079),
                                         FIGURE(0.0022)};
  change.hodges_lehmann = (scw_hodges_lehmann){
      FIGURE(3.75), INTERVAL(3.4, 4.1), FIGURE(0.96875)};
  change.sd_ratio = (scw_sd_ratio){FIGURE(0.783), INTERVAL(0.389, 1.58)};
  change.tost = (scw_tost){FIGURE(0.61), 0.025};
  change.control = "K0";
  change.control_change = estimate(0.35);
  change.treated_change = estimate(4.1333);
  change.control_before = change.before;
  change.control_after = change.after;
  change.tile = (scw_tile){.n = 2,
                           .assigned = 95,
                           .mean = FIGURE(95.25),
                           .difference = FIGURE(0.25),
                           .drift = FIGURE(0.3),
                           .difference_steps = FIGURE(2.5),
                           .drift_steps = FIGURE(3)};
  change.repicked = 2;
  change.has_repicked = true;
  change.with_repicked = estimate(3.6);
  change.verdict_with_repicked = SCW_CANNOT_TELL;
  return change;
}

static void a_row_for_each_view(void **state) {
  (void)state;
  scw_change_report change = change_with_all();
  char *text = text_of_changes(&change, 1, plain);
  assert_true(widest_line(text) <= 80);
  assert_has(text, "  treated before      84.56 GU");
  assert_has(text, "  treated moved       +4.13 GU    3.83 to  4.43   95 %,");
  assert_has(text, "  control moved       +0.35 GU    0.05 to  0.65   95 %,");
  assert_has(text, "  difference          +3.78 GU");
  assert_has(text, "  by ranks            +3.75 GU    3.40 to  4.10   96.9 %, "
                   "Hodges-Lehmann\n");
  assert_has(text, "  with later reads    +3.60 GU    3.30 to  3.90   cannot");
  assert_has(text, "  by shuffling    p 0.031; 0.008 is the least that these "
                   "readings can give\n");
  assert_has(text, "  SD after/before 0.78 (0.39 to 1.6)\n");
  assert_has(text, "  inside margin   p 0.61 (two one-sided tests; inside below "
                   "0.025)\n");
  free(text);
}

static void the_least_p_is_told_once(void **state) {
  (void)state;
  scw_change_report change = made_up_change();
  change.permutation = (scw_permutation){FIGURE(0.002), FIGURE(0.002),
                                         FIGURE(0.002)};
  char *text = text_of_changes(&change, 1, plain);
  assert_has(text, "p 0.002, the least that these readings can give\n");
  free(text);
  change.permutation.p = change.permutation.smallest_p = FIGURE(1);
  text = text_of_changes(&change, 1, plain);
  assert_lacks(text, "by shuffling"); /* one reading a side */
  free(text);
}

/* No row where the figure does not exist. */
static void nothing_is_made_up(void **state) {
  (void)state;
  scw_change_report change = made_up_change();
  change.change.df = NO_FIGURE(SCW_ONE_READING);
  change.settle.more = FIGURE(1);
  char *text = text_of_changes(&change, 1, plain);
  assert_has(text, "1 more reading on each side (29 in all)");
  assert_lacks(text, "Satterthwaite");
  assert_lacks(text, "by ranks");
  assert_lacks(text, "by shuffling");
  assert_lacks(text, "SD after/before");
  assert_lacks(text, "inside margin");
  assert_lacks(text, "stands up to");
  assert_lacks(text, "treated");
  free(text);
}

/* The side that is a number has no strip; the reasons are not repeated. */
static void a_bare_number_has_no_strip(void **state) {
  (void)state;
  scw_change_report change = made_up_change();
  change.design = SCW_AGAINST_BASELINE;
  change.verdict = SCW_CONDITIONAL;
  change.before.values = NULL;
  change.before.spots = 0;
  change.before.summary = (scw_summary){
      .n = 10,
      .mean = FIGURE(84.1),
      .sd = NO_FIGURE(SCW_BARE_NUMBER),
      .interval = NO_INTERVAL(SCW_BARE_NUMBER)};
  change.detectable = NO_FIGURE(SCW_BARE_NUMBER);
  change.settle.more = change.settle.total = NO_FIGURE(SCW_BARE_NUMBER);
  change.break_even_baseline_u = FIGURE(0.5437);
  char *text = text_of_changes(&change, 1, plain);
  assert_has(text, "  before              84.1  GU                    10 "
                   "readings\n");
  assert_has(text, "  stands up to         0.54 GU                    "
                   "uncertainty of the number\n");
  assert_lacks(text, "before          \xE2"); /* a dot */
  assert_has(text, "\n\n  after           ");
  assert_lacks(text, "decides");
  free(text);
}

static cJSON *json_of(scw_change_report *change) {
  scw_context *context = made_up_context();
  scw_change_result result = {
      .settings = made_up_settings(),
      .options = {.control = "K0",
                  .paired_halves = true,
                  .has_tile = true,
                  .tile = 95,
                  .has_baseline = true,
                  .baseline = {.mean = 84.1, .n = 10}},
      .changes = change,
      .n_changes = 1};
  const scwi_inputs none = {0};
  written to = {0};
  cJSON *root =
      parsed(scwi_json_change(context, &result, &none, sink_of(&to)), &to);
  scw_context_free(context);
  return root;
}

static void views_have_their_keys(void **state) {
  (void)state;
  scw_change_report change = change_with_all();
  change.break_even_sd = FIGURE(1.17);
  cJSON *root = json_of(&change);
  const cJSON *of = at(root, "results.changes.0");
  check_is(of, "permutation.p", 0.031);
  check_is(of, "permutation.smallest_p", 0.0079);
  check_is(of, "permutation.smallest_p_design", 0.0022);
  check_is(of, "hodges_lehmann.estimate", 3.75);
  check_is(of, "hodges_lehmann.low", 3.4);
  check_is(of, "hodges_lehmann.high", 4.1);
  check_is(of, "hodges_lehmann.coverage", 0.96875);
  check_is(of, "sd_ratio.ratio", 0.783);
  check_is(of, "sd_ratio.low", 0.389);
  check_is(of, "sd_ratio.high", 1.58);
  check_is(of, "tost.p", 0.61);
  check_is(of, "tost.level", 0.025);
  check_is(of, "break_even_sd", 1.17);
  check_missing(of, "", "break_even_baseline_u", "not_computed");
  check_is(of, "with_read_again.n", 2);
  check_is(of, "with_read_again.estimate", 3.6);
  check_text(of, "with_read_again.verdict", "cannot_tell");
  cJSON_Delete(root);
}

static void control_and_tile_have_their_keys(void **state) {
  (void)state;
  scw_change_report change = change_with_all();
  cJSON *root = json_of(&change);
  const cJSON *of = at(root, "results.changes.0");
  check_text(of, "control.label", "K0");
  check_is(of, "control.change.estimate", 0.35);
  check_is(of, "control.treated_change.estimate", 4.1333);
  check_is(of, "control.before.mean", 84.56);
  check_is(of, "control.after.mean", 88.37);
  check_is(of, "tile.n", 2);
  check_is(of, "tile.assigned", 95);
  check_is(of, "tile.mean", 95.25);
  check_is(of, "tile.difference", 0.25);
  check_is(of, "tile.drift", 0.3);
  check_is(of, "tile.difference_steps", 2.5);
  check_is(of, "tile.drift_steps", 3);
  check_text(root, "settings.control", "K0");
  check_true(root, "settings.paired_halves", true);
  check_is(root, "settings.tile", 95);
  check_is(root, "settings.baseline.mean", 84.1);
  check_is(root, "settings.baseline.n", 10);
  check_null(root, "settings.baseline.sd");
  check_null(root, "settings.baseline.step");
  cJSON_Delete(root);
}

static void a_tile_of_unknown_value_differs_by_nothing(void **state) {
  (void)state;
  scw_change_report change = change_with_all();
  change.tile.difference = NO_FIGURE(SCW_NOT_COMPUTED);
  change.control = NULL;
  change.has_repicked = false;
  cJSON *root = json_of(&change);
  const cJSON *of = at(root, "results.changes.0");
  check_missing(of, "tile", "assigned", "not_computed");
  check_missing(of, "tile", "difference", "not_computed");
  check_null(of, "control");
  check_null(of, "with_read_again");
  cJSON_Delete(root);
}

/* A plan of unequal sides. */
static void unequal_plans_have_their_keys(void **state) {
  (void)state;
  scw_plan_result plan = made_up_plan();
  scw_context *context = made_up_context();
  const scwi_inputs none = {0};
  written to = {0};
  plan.request.paired = false;
  plan.request.unequal = true;
  plan.split = (scw_plan_split){FIGURE(21), FIGURE(62)};
  for (size_t i = 0; i < plan.n_table; i++) {
    plan.table[i].readings_per_side = plan.table[i].spots;
    plan.table[i].spots = NO_FIGURE(SCW_NOT_COMPUTED);
  }
  plan.plan = plan.table[1];
  cJSON *root =
      parsed(scwi_json_plan(context, &plan, &none, sink_of(&to)), &to);
  check_is(root, "results.split.before", 21);
  check_is(root, "results.split.after", 62);
  check_true(root, "settings.unequal", true);
  check_null(root, "settings.ratio");
  cJSON_Delete(root);
  assert_int_equal(scwi_text_plan(context, &plan, &none, plain, sink_of(&to)),
                   SCW_OK);
  assert_has(to.text.data, "0.828  equal sides\n");
  scwi_text_free(&to.text);
  scw_context_free(context);
}

/* A plan of designs: panels told apart, sessions not. */
static scw_plan_result plan_of_designs(void) {
  static const scw_plan_scatter *kept;
  static scw_plan_scatter found;
  scw_plan_result plan = made_up_plan();
  found = (scw_plan_scatter){
      .variance = {FIGURE(0.36), {0}, FIGURE(0.04), FIGURE(0.01)},
      .upper = {FIGURE(1), {0}, FIGURE(0.09), FIGURE(0.0121)},
      .df = {FIGURE(3), {0}, FIGURE(8), FIGURE(12)},
      .groups = {4, 0, 12, 24},
      .assurance = 0.8,
      .balanced = true};
  kept = &found;
  plan.request.paired = false;
  plan.request.scatter = kept;
  plan.request.cost_panel = 40;
  plan.request.cost_spot = 10;
  plan.request.cost_repeat = 2;
  plan.scatter = found;
  plan.cost_unit = "min";
  plan.designs[0] = (scw_plan_design){
      .panels = FIGURE(6),
      .sessions = FIGURE(1),
      .spots = FIGURE(2),
      .repeats = FIGURE(1),
      .readings = FIGURE(12),
      .cost = FIGURE(384),
      .df = FIGURE(10),
      .at_estimate = {FIGURE(0.84), FIGURE(1.17), FIGURE(0.83)},
      .at_upper_limit = {FIGURE(1.4), FIGURE(1.9), FIGURE(0.41)},
      .expected = FIGURE(0.74),
      .uncancelled = {NO_FIGURE(SCW_NOT_COMPUTED), NO_FIGURE(SCW_NOT_COMPUTED),
                      NO_FIGURE(SCW_NOT_COMPUTED)}};
  plan.n_designs = 1;
  plan.design_upper = plan.designs[0];
  plan.design_upper.cost = NO_FIGURE(SCW_TOO_MANY);
  return plan;
}

static void designs_have_their_keys(void **state) {
  (void)state;
  scw_plan_result plan = plan_of_designs();
  scw_context *context = made_up_context();
  const scwi_inputs none = {0};
  written to = {0};
  cJSON *root =
      parsed(scwi_json_plan(context, &plan, &none, sink_of(&to)), &to);
  const cJSON *one = at(root, "results.designs.0");
  check_is(one, "panels", 6);
  check_is(one, "sessions", 1);
  check_is(one, "spots", 2);
  check_is(one, "cost", 384);
  check_is(one, "expected_power", 0.74);
  check_is(one, "at_upper_limit.power", 0.41);
  check_missing(one, "uncancelled", "half_width", "not_computed");
  check_is(root, "results.scatter.components.0.variance_upper", 1);
  check_is(root, "results.scatter.components.2.groups", 12);
  check_is(root, "settings.cost_panel", 40);
  check_null(root, "settings.cost_session");
  check_null(root, "settings.fits");
  cJSON_Delete(root);
  scw_context_free(context);
}

static void designs_as_text_and_rows(void **state) {
  (void)state;
  scw_plan_result plan = plan_of_designs();
  scw_context *context = made_up_context();
  const scwi_inputs none = {0};
  written to = {0};
  assert_int_equal(scwi_text_plan(context, &plan, &none, plain, sink_of(&to)),
                   SCW_OK);
  assert_has(to.text.data, "panels  spots  repeats  cost, min");
  assert_lacks(to.text.data, "sessions");
  assert_has(to.text.data, "SD of panels 0.60 (at most 1.0), spots 0.20 (at");
  assert_has(to.text.data, "from a pilot of 4 panels, 12\n                  spots with 24 readings\n");
  scwi_text_free(&to.text);
  assert_int_equal(scwi_csv_plan(context, &plan, sink_of(&to)), SCW_OK);
  assert_has(to.text.data, "\n6,1,2,1,12,384,10,0.84,1.17,0.83,0.74,1.4,1.9,"
                           "0.41,,,\n");
  scwi_text_free(&to.text);
  scw_context_free(context);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_row_for_each_view),
      cmocka_unit_test(the_least_p_is_told_once),
      cmocka_unit_test(nothing_is_made_up),
      cmocka_unit_test(a_bare_number_has_no_strip),
      cmocka_unit_test(views_have_their_keys),
      cmocka_unit_test(control_and_tile_have_their_keys),
      cmocka_unit_test(a_tile_of_unknown_value_differs_by_nothing),
      cmocka_unit_test(unequal_plans_have_their_keys),
      cmocka_unit_test(designs_have_their_keys),
      cmocka_unit_test(designs_as_text_and_rows)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
