/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The JSON reports, read back by cJSON: keys, values, what is missing. */
#include <stdlib.h>
#include <string.h>

#include "json_look.h"
#include "made_up.h"

static cJSON *json_of_sets(scw_set_report *sets, size_t n) {
  scw_context *context = made_up_context();
  static scw_note note = {"count", "A note of the run."};
  scw_readings_result result = {made_up_settings(), sets, n, &note, 1};
  scwi_inputs inputs = made_up_inputs();
  written to = {0};
  cJSON *root =
      parsed(scwi_json_readings(context, &result, &inputs, sink_of(&to)), &to);
  scw_context_free(context);
  return root;
}

static cJSON *json_of_changes(scw_change_report *changes, size_t n,
                              double margin) {
  scw_context *context = made_up_context();
  scw_change_result result = {.settings = made_up_settings(),
                              .options = {.margin = margin,
                                          .has_block = true,
                                          .block = 1500,
                                          .block_unit = "g"},
                              .changes = changes,
                              .n_changes = n,
                              .friction = true};
  const scwi_inputs none = {0};
  written to = {0};
  cJSON *root =
      parsed(scwi_json_change(context, &result, &none, sink_of(&to)), &to);
  scw_context_free(context);
  return root;
}

static void the_envelope_is_in_order(void **state) {
  (void)state;
  static const char *const keys[] = {"tool",     "version", "command", "inputs",
                                     "settings", "results", "notes"};
  scw_set_report set = made_up_set();
  cJSON *root = json_of_sets(&set, 1);
  const cJSON *member = root->child;
  for (size_t i = 0; i < 7; i++, member = member->next)
    assert_string_equal(member->string, keys[i]);
  assert_null(member);
  check_text(root, "tool", "scatterwise");
  check_text(root, "version", scw_version());
  check_text(root, "command", "readings");
  check_text(root, "notes.0.code", "count");
  check_text(root, "notes.0.text", "A note of the run.");
  cJSON_Delete(root);
}

static void inputs_account_for_every_row(void **state) {
  (void)state;
  scw_set_report set = made_up_set();
  cJSON *root = json_of_sets(&set, 1);
  assert_int_equal(cJSON_GetArraySize(at(root, "inputs")), 2);
  check_keys(root, "inputs.0",
             "name sha256 bytes encoding separator decimal_mark shape unit "
             "quantity geometry roles rows used not_used");
  check_text(root, "inputs.1.name", "shed \"hull\".csv");
  check_text(root, "inputs.1.separator", "\t");
  check_text(root, "inputs.1.decimal_mark", ",");
  check_true(root, "inputs.1.separator_given", false);
  check_true(root, "inputs.1.decimal_mark_given", true);
  check_text(root, "inputs.1.roles.spot", "place");
  assert_int_equal(cJSON_GetArraySize(at(root, "inputs.1.roles")), 2);
  check_is(root, "inputs.1.rows", 13);
  check_is(root, "inputs.1.used", 10);
  check_is(root, "inputs.1.labels_carried", 2);
  assert_int_equal(cJSON_GetArraySize(at(root, "inputs.1.not_used")), 3);
  check_is(root, "inputs.1.not_used.1.line", 9);
  check_is(root, "inputs.1.not_used.1.column", 2);
  check_text(root, "inputs.1.not_used.1.reason", "missing");
  check_text(root, "inputs.1.not_used.1.text", "n/a");
  cJSON_Delete(root);
}

static void settings_are_complete(void **state) {
  (void)state;
  scw_set_report set = made_up_set();
  cJSON *root = json_of_sets(&set, 1);
  check_is(root, "settings.level", 0.95);
  check_is(root, "settings.stand_out", 0.05);
  check_is(root, "settings.content", 0.9);
  check_is(root, "settings.power", 0.8);
  check_is(root, "settings.assurance", 0.8);
  check_is(root, "settings.at_least", 3);
  check_null(root, "settings.candidates");
  check_true(root, "settings.step_given", false);
  check_null(root, "settings.step");
  check_text(root, "settings.seed", "18446744073709551615");
  cJSON_Delete(root);
}

static void a_set_has_every_key(void **state) {
  (void)state;
  scw_set_report set = made_up_set();
  cJSON *root = json_of_sets(&set, 1);
  check_keys(root, "results.sets.0",
             "label n mean sd standard_uncertainty "
             "standard_uncertainty_scatter df interval sd_interval prediction "
             "tolerance median q1 q3 mad mad_sd robust_mean robust_sd step "
             "stand_out flags creep lag1 lag1_p level_shift shape "
             "without_flagged left_out notes sentence unit");
  check_keys(root, "results.sets.0.creep",
             "slope low high p sd_about_line kendall_s kendall_p");
  check_keys(root, "results.sets.0.stand_out",
             "candidates grubbs_statistic grubbs_limit grubbs_p steps");
  check_keys(root, "results.sets.0.flags.0",
             "place reading line test statistic limit p");
  check_keys(root, "results.sets.0.tolerance", "content level k low high");
  cJSON_Delete(root);
}

/* Every number of a set under its key. */
typedef struct number_at {
  const char *path;
  double value;
} number_at;

static const number_at figures[] = {{"readings", 10},
                                    {"n", 10},
                                    {"mean", 84.964},
                                    {"sd", 1.297176420795054},
                                    {"standard_uncertainty", 0.41},
                                    {"standard_uncertainty_scatter", 0.40},
                                    {"df", 9.25},
                                    {"median", 84.6},
                                    {"q1", 84.425},
                                    {"q3", 84.775},
                                    {"mad", 0.2},
                                    {"mad_sd", 0.2965204437011204},
                                    {"robust_mean", 84.60661505314627},
                                    {"robust_sd", 0.30635698554435825},
                                    {"smallest", 84.2},
                                    {"largest", 88.6},
                                    {"lag1", -0.18},
                                    {"lag1_p", 0.073},
                                    {"rank_von_neumann", 3.03},
                                    {"interval.level", 0.95},
                                    {"interval.low", 84.03205588912195},
                                    {"interval.high", 85.88794411087804},
                                    {"sd_interval.low", 0.89},
                                    {"sd_interval.high", 2.37},
                                    {"prediction.low", 81.88},
                                    {"prediction.high", 88.04},
                                    {"tolerance.content", 0.9},
                                    {"tolerance.level", 0.95},
                                    {"tolerance.k", 3.39},
                                    {"tolerance.low", 80.56},
                                    {"tolerance.high", 89.36},
                                    {"step", 0.1}};

static const number_at details[] = {
    {"stand_out.candidates", 1},
    {"stand_out.grubbs_statistic", 2.806},
    {"stand_out.grubbs_limit", 2.29},
    {"stand_out.grubbs_p", 0.00000167},
    {"stand_out.beyond_3_5", 1},
    {"stand_out.steps.0.place", 9},
    {"stand_out.steps.0.statistic", 2.806},
    {"stand_out.steps.0.limit", 2.29},
    {"flags.0.place", 9}, /* one was left out before it */
    {"flags.0.line", 9},
    {"flags.0.reading", 88.6},
    {"flags.0.statistic", 2.806},
    {"flags.0.limit", 2.29},
    {"flags.0.p", 0.00000167},
    {"flags.0.distance_sd", 2.806},
    {"creep.slope", 0.128},
    {"creep.level", 0.95},
    {"creep.low", -0.2047},
    {"creep.high", 0.4617},
    {"creep.p", 0.4},
    {"creep.sd_about_line", 1.3125},
    {"creep.kendall_s", 6},
    {"creep.kendall_p", 0.653},
    {"level_shift.after_place", 8},
    {"level_shift.size", 1.39},
    {"level_shift.p", 0.49},
    {"level_shift.orders", 9999},
    {"shape.shapiro_w", 0.5296},
    {"shape.shapiro_p", 0.0000081},
    {"shape.anderson_darling", 2.297},
    {"without_flagged.n", 9},
    {"without_flagged.mean", 84.5556},
    {"without_flagged.sd", 0.23},
    {"without_flagged.standard_uncertainty", 0.077},
    {"without_flagged.interval.low", 84.379},
    {"without_flagged.interval.high", 84.732},
    {"left_out.0.place", 3}};

static void check_numbers(const cJSON *of, const number_at *numbers, size_t n) {
  for (size_t i = 0; i < n; i++)
    check_is(of, numbers[i].path, numbers[i].value);
}

static void a_set_keeps_every_digit(void **state) {
  (void)state;
  scw_set_report set = made_up_set();
  cJSON *root = json_of_sets(&set, 1);
  const cJSON *of = at(root, "results.sets.0");
  check_numbers(of, figures, sizeof figures / sizeof *figures);
  check_numbers(of, details, sizeof details / sizeof *details);
  check_text(of, "step_origin", "inferred");
  check_true(of, "creep.creeping", false);
  check_true(of, "level_shift.counted", true);
  check_text(of, "flags.0.test", "grubbs");
  check_missing(of, "flags.0", "modified_z", "mad_zero");
  check_text(of, "left_out.0.because", "the meter had slipped");
  check_text(of, "notes.0.code", "assumes_one_reading_per_spot");
  cJSON_Delete(root);
}

static void missing_figures_have_their_reason(void **state) {
  (void)state;
  scw_set_report sets[] = {made_up_set(), made_up_single()};
  cJSON *root = json_of_sets(sets, 2);
  const cJSON *of = at(root, "results.sets.1");
  check_is(of, "mean", 84.6);
  check_missing(of, "", "sd", "one_reading");
  check_missing(of, "", "mad", "not_computed");
  check_missing(of, "", "step", "step_unknown");
  check_missing(of, "interval", "low", "one_reading");
  check_missing(of, "interval", "high", "one_reading");
  check_missing(of, "tolerance", "k", "one_reading");
  check_missing(of, "shape", "shapiro_w", "too_few");
  check_null(of, "without_flagged");
  assert_int_equal(cJSON_GetArraySize(at(of, "flags")), 0);
  check_missing(root, "results.sets.0.shape", "anderson_darling_p", "too_few");
  cJSON_Delete(root);
}

static void each_set_has_its_own_line(void **state) {
  (void)state;
  scw_set_report sets[] = {made_up_set(), made_up_single()};
  scw_context *context = made_up_context();
  scw_readings_result result = {made_up_settings(), sets, 2, NULL, 0};
  const scwi_inputs none = {0};
  written to = {0};
  assert_int_equal(scwi_json_readings(context, &result, &none, sink_of(&to)),
                   SCW_OK);
  size_t starts = 0;
  for (const char *line = to.text.data; (line = strchr(line, '\n')); line++)
    starts += strncmp(line, "\n{\"label\":", 10) == 0;
  assert_int_equal(starts, 2);
  scwi_text_free(&to.text);
  scw_context_free(context);
}

static void an_empty_set_is_all_null(void **state) {
  (void)state;
  scw_set_report set = {0};
  cJSON *root = json_of_sets(&set, 1);
  const cJSON *of = at(root, "results.sets.0");
  check_null(of, "label");
  check_is(of, "n", 0);
  check_missing(of, "", "mean", "not_computed");
  check_missing(of, "prediction", "low", "not_computed");
  check_missing(of, "creep", "slope", "not_computed");
  check_missing(of, "level_shift", "size", "not_computed");
  check_null(of, "level_shift.after_place");
  check_missing(of, "", "step", "not_computed");
  cJSON_Delete(root);
}

static void a_change_has_every_key(void **state) {
  (void)state;
  scw_change_report change = made_up_change();
  cJSON *root = json_of_changes(&change, 1, 0.5);
  const cJSON *of = at(root, "results.changes.0");
  check_text(root, "command", "change");
  check_true(root, "results.friction", true);
  check_text(of, "product", "K1");
  check_text(of, "design", "unpaired");
  check_is(of, "change.estimate", 3.7833);
  check_is(of, "change.standard_uncertainty", 0.14);
  check_is(of, "change.df", 8.253);
  check_is(of, "change.level", 0.95);
  check_is(of, "change.low", 3.7833 - 0.3);
  check_is(of, "change.high", 3.7833 + 0.3);
  check_is(of, "change.p", 0.0021);
  check_is(of, "margin", 0.5);
  check_text(of, "verdict", "changed");
  check_text(of, "sentence", change.sentence);
  check_text(of, "df_origin", change.df_origin);
  check_is(of, "detectable.change", 0.51);
  check_is(of, "detectable.power", 0.8);
  check_is(of, "settle.total", 29);
  check_is(of, "settle.more", 25);
  check_text(of, "settle.per", "reading_per_side");
  check_is(of, "settle.chance", 0.8);
  check_is(of, "before.mean", 84.56);
  check_is(of, "before.spots", 4);
  check_is(of, "after.mean", 88.37);
  check_text(of, "unmatched.0", change.unmatched[0]);
  check_is(of, "without_flagged.estimate", 3.9);
  check_text(of, "without_flagged.verdict", "cannot_tell");
  check_null(of, "without_first");
  check_null(of, "family");
  check_null(of, "pairs");
  check_missing(of, "", "difference_sd", "not_computed");
  check_text(of, "notes.0.code", "not_paired");
  check_is(root, "settings.margin", 0.5);
  check_is(root, "settings.block", 1500);
  check_text(root, "settings.block_unit", "g");
  cJSON_Delete(root);
}

static void a_family_names_its_size(void **state) {
  (void)state;
  scw_change_report changes[] = {made_up_change(), {0}};
  changes[0].family_interval = INTERVAL(3.1, 4.5);
  changes[0].family_p = FIGURE(0.0042);
  changes[0].alone_verdict = SCW_CHANGED_BUT_SMALL;
  changes[0].has_without_first = true;
  changes[0].verdict_without_first = SCW_NO_VERDICT;
  cJSON *root = json_of_changes(changes, 2, 0);
  const cJSON *of = at(root, "results.changes.0");
  check_is(of, "family.size", 2);
  check_is(of, "family.interval.low", 3.1);
  check_is(of, "family.p", 0.0042);
  check_text(of, "family.alone_verdict", "changed_but_small");
  check_missing(of, "without_first", "estimate", "not_computed");
  check_text(of, "without_first.verdict", "no_verdict");
  check_missing(root, "settings", "margin", "no_margin");
  check_missing(root, "results.changes.1.change", "estimate", "not_computed");
  check_missing(root, "results.changes.1.settle", "more", "not_computed");
  cJSON_Delete(root);
}

static cJSON *json_of_plan(const scw_plan_result *plan) {
  scw_context *context = made_up_context();
  const scwi_inputs none = {0};
  written to = {0};
  cJSON *root = parsed(scwi_json_plan(context, plan, &none, sink_of(&to)), &to);
  scw_context_free(context);
  return root;
}

static void a_plan_has_every_key(void **state) {
  (void)state;
  scw_plan_result plan = made_up_plan();
  cJSON *root = json_of_plan(&plan);
  const cJSON *of = at(root, "results.plan");
  assert_int_equal(cJSON_GetArraySize(at(root, "inputs")), 0);
  check_text(root, "settings.goal", "detect");
  check_is(root, "settings.target", 0.5);
  check_is(root, "settings.sd", 0.43);
  check_null(root, "settings.sd_after");
  check_is(root, "settings.pilot_readings", 6);
  check_true(of, "possible", true);
  check_is(of, "spots", 8);
  check_missing(of, "", "readings_per_side", "not_computed");
  check_is(of, "half_width", 0.3977);
  check_is(of, "detectable", 0.4971);
  check_is(of, "assured.spots", 13);
  check_missing(of, "expected", "spots", "too_many");
  check_missing(of, "top_up_total", "spots", "not_computed");
  assert_int_equal(cJSON_GetArraySize(at(root, "results.table")), 3);
  check_is(root, "results.table.2.spots", 9);
  check_is(root, "results.table.2.power", 0.99999);
  cJSON_Delete(root);
}

static void unpaired_counts_are_per_side(void **state) {
  (void)state;
  scw_plan_result plan = made_up_plan();
  plan.request.paired = false;
  plan.top_up_total = FIGURE(31);
  cJSON *root = json_of_plan(&plan);
  const cJSON *of = at(root, "results.plan");
  check_is(of, "assured.readings_per_side", 13);
  check_missing(of, "assured", "spots", "not_computed");
  check_missing(of, "expected", "readings_per_side", "too_many");
  check_is(of, "top_up_total.readings_per_side", 31);
  cJSON_Delete(root);
}

static void brief_sets_are_short(void **state) {
  (void)state;
  scw_brief_set sets[] = {
      {"K1", 10, FIGURE(84.964), FIGURE(1.297), INTERVAL(84.032, 85.888)},
      {"K2", 1, FIGURE(84.6), NO_FIGURE(SCW_ONE_READING),
       NO_INTERVAL(SCW_ONE_READING)}};
  scw_brief_result result = {
      .sets = sets, .n_sets = 2, .step = {0.5, SCW_STEP_GIVEN}};
  scw_context *context = made_up_context();
  scwi_inputs inputs = made_up_inputs();
  written to = {0};
  cJSON *root =
      parsed(scwi_json_brief(context, &result, &inputs, sink_of(&to)), &to);
  check_is(root, "settings.level", 0.95);
  check_is(root, "settings.step", 0.5);
  check_text(root, "results.sets.1.label", "K2");
  check_is(root, "results.sets.0.interval.high", 85.888);
  check_missing(root, "results.sets.1", "sd", "one_reading");
  cJSON_Delete(root);
  scw_context_free(context);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_envelope_is_in_order),
      cmocka_unit_test(inputs_account_for_every_row),
      cmocka_unit_test(settings_are_complete),
      cmocka_unit_test(a_set_has_every_key),
      cmocka_unit_test(a_set_keeps_every_digit),
      cmocka_unit_test(missing_figures_have_their_reason),
      cmocka_unit_test(each_set_has_its_own_line),
      cmocka_unit_test(an_empty_set_is_all_null),
      cmocka_unit_test(a_change_has_every_key),
      cmocka_unit_test(a_family_names_its_size),
      cmocka_unit_test(a_plan_has_every_key),
      cmocka_unit_test(unpaired_counts_are_per_side),
      cmocka_unit_test(brief_sets_are_short)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
